"""What is known of the bacteria in the filter, and at which level they are harmed."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from triage.model.record import Sourced
from triage.model.substance import FilterEffect
from triage.responses.filtering import filter_data, filter_level_mg_l


def _effect(effect: str, at: float | None = None, **told: Any) -> FilterEffect:
    return FilterEffect(effect=effect, at=at, source="our-judgement", **told)  # type: ignore[arg-type]


def _share(value: float) -> Sourced:
    return Sourced(value=value, unit="g per g", source="molar-mass")


def test_only_harm_at_a_level_gives_a_level(kit: SimpleNamespace) -> None:
    rows = [_effect("none-seen", 1), _effect("unknown", 2), _effect("slowed"), _effect("slowed", 40)]
    assert filter_level_mg_l(kit.substance(filter=rows)) == 40
    assert filter_level_mg_l(kit.substance(filter=[*rows, _effect("stopped", 30)])) == 30
    assert filter_level_mg_l(kit.substance(filter=rows[:3])) is None
    assert filter_level_mg_l(kit.substance()) is None


def test_a_level_in_other_units_and_one_that_is_none(kit: SimpleNamespace) -> None:
    assert filter_level_mg_l(kit.substance(filter=[_effect("slowed", 2, unit="g/L")])) == 2000
    assert filter_level_mg_l(kit.substance(filter=[_effect("slowed", 2, unit="%")])) is None
    oil = Sourced(value=0.9, unit="g/mL", source="our-judgement")
    assert filter_level_mg_l(kit.substance(filter=[_effect("slowed", 2, unit="mL/L")], density=oil)) == 1800
    mixed = [_effect("slowed", 2, unit="%"), _effect("slowed", 7)]
    assert filter_level_mg_l(kit.substance(filter=mixed)) == 7


@pytest.mark.parametrize("basis", ["metal", "element"])
def test_a_level_of_the_metal_becomes_one_of_the_compound(kit: SimpleNamespace, basis: str) -> None:
    rows = [_effect("slowed", 0.5, basis=basis)]
    assert filter_level_mg_l(kit.substance(filter=rows, element_share=_share(0.25))) == pytest.approx(2.0)
    assert filter_level_mg_l(kit.substance(filter=rows)) == 0.5  # the share is not known: stricter as it is


def test_a_level_of_the_active_stays_what_it_is(kit: SimpleNamespace) -> None:
    for basis in ("active", "product"):
        rows = [_effect("slowed", 0.5, basis=basis)]
        assert filter_level_mg_l(kit.substance(filter=rows, element_share=_share(0.25))) == 0.5


def test_computed_is_as_weak_as_recalled(kit: SimpleNamespace) -> None:
    for read, known in (("memory", "none"), ("computed", "none"), ("practice", "harmed"), ("seen", "harmed")):
        assert filter_data(kit.substance(filter=[_effect("stopped", 1, read=read)])) == known
        tested = "none" if known == "none" else "none-seen"
        assert filter_data(kit.substance(filter=[_effect("none-seen", read=read)])) == tested


def test_a_harmful_level_says_more_than_a_harm_without_one(kit: SimpleNamespace) -> None:
    rows = [_effect("none-seen"), _effect("slowed"), _effect("stopped", 3)]
    assert filter_data(kit.substance(filter=rows)) == "harmed"
    assert filter_data(kit.substance(filter=rows[:2])) == "level-unknown"
    assert filter_data(kit.substance(filter=[_effect("unknown"), rows[0]])) == "none-seen"
    assert filter_data(kit.substance(filter=[_effect("stopped", 3, unit="%")])) == "none"
