"""The water, who lives in it, and what is assumed."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from triage.book.load import Loaded
from triage.errors import TriageError
from triage.responses.setting import Assumptions, Plan, way_of


def test_the_first_reading_of_a_quantity_is_what_is_known(kit: SimpleNamespace) -> None:
    water = kit.water(readings=(kit.reading("ph", 7), kit.reading("iron", 2, 1, 3), kit.reading("iron", 9)))
    known = water.reading("iron")
    assert known is not None
    assert (known.low, known.high) == (1, 3)
    assert water.reading("nitrate") is None


def test_crustaceans_count_unless_it_was_said_who_lives_there(kit: SimpleNamespace) -> None:
    assert kit.water(animals=()).crustaceans_kept
    assert kit.water(animals=(kit.tilapia, kit.shrimp)).crustaceans_kept
    assert not kit.water(animals=(kit.tilapia, kit.trout)).crustaceans_kept


def test_a_margin_that_the_book_lacks_is_named(assumed: Assumptions) -> None:
    assert assumed.margin("overdose") == 10
    with pytest.raises(TriageError) as caught:
        assumed.margin("luck")
    assert str(caught.value) == "the book has no margin 'luck' (knowledge/margins.yaml)"


def test_of_an_unknown_cover_all_comes_through(assumed: Assumptions) -> None:
    assert assumed.share("umbrella") == assumed.share_at_worst("umbrella") == 1.0
    assert assumed.share("covered") < assumed.share("none") < assumed.share_at_worst("none") == 1.0


def test_the_assumptions_of_a_book_know_its_animals(loaded: Loaded) -> None:
    book = loaded.book()
    found = Assumptions.from_book(book)
    assert found.animals == tuple(book.animals.values())
    assert found.margin("any") == book.margins["any"].value
    assert found.share("none") == book.cover_shares["none"].share


def test_what_is_meant_for_the_water_is_dosed(kit: SimpleNamespace) -> None:
    assert way_of(kit.substance(traits=["metal", "meant-for-water"])) == "dosed"
    assert way_of(kit.substance(traits=["not-for-water"])) == "sprayed"


def test_a_use_that_nobody_described_is_one_open_spray() -> None:
    plan = Plan()
    assert (plan.cover, plan.times, plan.every_days, plan.way, plan.already_g) == ("none", 1, 7.0, "sprayed", 0.0)
