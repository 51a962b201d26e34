"""The terms of the balance by themselves: which inputs each needs, its source, and what is left open."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from triage.model.interval import Interval
from triage.model.quantity import Quantity, Reading
from triage.water.balance import (
    NITRATE_PER_N,
    ORDER,
    RETURNED_PER_G_N,
    SOURCES,
    USED_PER_G_N,
    from_feed,
    work_out_balance,
)
from triage.water.derive import Derived
from triage.water.inflow import Inflow
from triage.water.terms import NOTHING, Term

Book = Mapping[str, Quantity]
DAYS = {"2026-04-01": 0.0, "2026-04-11": 10.0}
ON = "2026-04-11"


def _exact(value: float) -> Term:
    return Term(value, Interval(value, value))


def _followed(quantity: str, start: float, per_day: float) -> list[Reading]:
    values = [(on, start + per_day * days) for on, days in DAYS.items()]
    return [Reading(quantity=quantity, value=value, low=value, high=value, on=on) for on, value in values]


def _terms(quantities: Book, *readings: Reading, **put_in: Term) -> dict[str, Derived]:
    found = work_out_balance(readings, quantities, on=ON, volume_l=1000.0, inflow=Inflow(**put_in))
    return {term.name: term for term in found}


FEED: dict[str, Any] = {"feed_g": _exact(100.0), "protein_percent": _exact(32.0)}
MADE = 2.944  # mg/L N a day of 100 g of 32 % feed in 1,000 L (ksu2021)


def test_ammonia_that_stays_was_not_turned_into_acid(quantities: Book) -> None:
    all_of_it = _terms(quantities, **FEED)["acid_made"]
    assert all_of_it.value == pytest.approx(MADE * USED_PER_G_N.middle, rel=0.001)
    some = _terms(quantities, *_followed("tan", 1.0, 0.5), **FEED)
    assert some["tan_change"].value == pytest.approx(0.5)
    assert some["acid_made"].value == pytest.approx((MADE - 0.5) * USED_PER_G_N.middle, rel=0.001)


def test_nitrogen_that_did_not_turn_up_gave_alkalinity_back(quantities: Book) -> None:
    found = _terms(quantities, *_followed("nitrate", 40.0, 1.0 * NITRATE_PER_N), **FEED)
    assert found["nitrate_change"].value == pytest.approx(1.0)
    assert found["nitrogen_missing"].value == pytest.approx(MADE - 1.0, rel=0.001)
    assert found["alkalinity_given_back"].value == pytest.approx((MADE - 1.0) * RETURNED_PER_G_N.middle, rel=0.001)
    assert found["alkalinity_given_back"].note == ""
    assert found["given_back_share"].value == pytest.approx(
        found["alkalinity_given_back"].value / found["acid_made"].value
    )


def test_where_nobody_followed_nitrate_anything_may_have_gone(quantities: Book) -> None:
    found = _terms(quantities, **FEED)
    back = found["alkalinity_given_back"]
    assert "nitrogen_missing" not in found
    assert (back.value, back.low) == (0.0, 0.0)
    most = from_feed(FEED["feed_g"], FEED["protein_percent"], 1000.0).span.high
    assert back.high == pytest.approx(most * RETURNED_PER_G_N.high)
    assert back.note == "nitrate was not followed: anything between none and all of it"
    assert {term.note for name, term in found.items() if name != "alkalinity_given_back"} == {""}


def test_more_ammonia_than_the_feed_brought_gives_nothing_back(quantities: Book) -> None:
    found = _terms(quantities, *_followed("tan", 1.0, 9.0), **FEED)
    assert (found["alkalinity_given_back"].low, found["alkalinity_given_back"].high) == (0.0, 0.0)


def test_no_kit_makes_more_nitrate_than_there_was_nitrogen(quantities: Book) -> None:
    coarse = [
        Reading(quantity="nitrate", value=value, low=value - 90, high=value + 90, on=on)
        for on, value in (("2026-04-01", 40.0), ("2026-04-11", 40.0 + 10 * NITRATE_PER_N))
    ]
    missing = _terms(quantities, *coarse, **FEED)["nitrogen_missing"]
    assert missing.value == pytest.approx(MADE - 1.0, rel=0.001)
    assert missing.low == 0.0
    assert missing.high > missing.value
    plenty = _terms(quantities, *_followed("nitrate", 40.0, 9.0 * NITRATE_PER_N), **FEED)["nitrogen_missing"]
    assert plenty.low == pytest.approx(plenty.value)  # more than was fed: as measured, below nothing
    assert plenty.value == pytest.approx(MADE - 9.0, rel=0.001)


@pytest.mark.parametrize(
    "told",
    [{"feed_g": _exact(100.0)}, {"protein_percent": _exact(32.0)}, {}],
)
def test_without_both_feed_and_protein_no_nitrogen_is_known(quantities: Book, told: dict[str, Term]) -> None:
    assert not {"nitrogen_from_feed", "acid_made", "alkalinity_given_back"} & _terms(quantities, **told).keys()


def test_what_bases_and_lime_bring(quantities: Book) -> None:
    both = _terms(quantities, base_g_caco3=_exact(4.0), lime_g_caco3=_exact(3.0))
    assert both["alkalinity_from_bases"].value == pytest.approx(7.0)
    assert both["hardness_from_lime"].value == pytest.approx(3.0)
    one = _terms(quantities, base_g_caco3=_exact(4.0))
    assert not {"alkalinity_from_bases", "hardness_from_lime"} & one.keys()
    lime = _terms(quantities, lime_g_caco3=_exact(3.0))
    assert set(lime) == {"hardness_from_lime"}


def test_what_top_up_brings(quantities: Book) -> None:
    found = _terms(quantities, top_up_l=_exact(20.0), top_up_alkalinity=_exact(150.0), top_up_hardness=_exact(200.0))
    assert found["alkalinity_from_top_up"].value == pytest.approx(3.0)
    assert found["hardness_from_top_up"].value == pytest.approx(4.0)
    unsure = Term(20.0, Interval(10.0, 30.0))
    ranged = _terms(quantities, top_up_l=unsure, top_up_alkalinity=Term(150.0, Interval(100.0, 160.0)))
    assert ranged["alkalinity_from_top_up"].value == pytest.approx(3.0)
    assert (ranged["alkalinity_from_top_up"].low, ranged["alkalinity_from_top_up"].high) == pytest.approx((1.0, 4.8))
    assert "hardness_from_top_up" not in ranged
    dry = _terms(quantities, top_up_l=NOTHING)
    assert dry["alkalinity_from_top_up"].value == dry["hardness_from_top_up"].high == 0.0
    assert _terms(quantities, top_up_alkalinity=_exact(150.0)) == {}


def test_what_nothing_explains_is_the_change_less_all_that_was_expected(quantities: Book) -> None:
    told = {
        **FEED, "top_up_l": _exact(20.0), "top_up_alkalinity": _exact(150.0), "top_up_hardness": _exact(200.0),
        "base_g_caco3": _exact(4.0), "lime_g_caco3": _exact(3.0),
    }  # fmt: skip
    followed = [*_followed("alkalinity", 100.0, 2.0), *_followed("hardness", 150.0, 9.5)]
    followed += _followed("nitrate", 40.0, 1.0 * NITRATE_PER_N)
    found = _terms(quantities, *followed, **told)
    value = {name: term.value for name, term in found.items()}
    expected = 3.0 + 7.0 + value["alkalinity_given_back"] - value["acid_made"]
    assert value["alkalinity_expected"] == pytest.approx(expected)
    assert value["alkalinity_unexplained"] == pytest.approx(2.0 - expected)
    assert value["hardness_unexplained"] == pytest.approx(9.5 - 4.0 - 3.0)
    assert value["top_up_share"] == pytest.approx(3.0 / value["acid_made"])
    assert value["bases_share"] == pytest.approx(7.0 / value["acid_made"])
    assert list(found) == [name for name in ORDER if name in found]
    for name, term in found.items():
        assert term.source == SOURCES.get(name, "our-judgement")
        assert term.quantity == name.replace("_", "-")
        assert term.low <= term.value <= term.high


def test_a_term_of_the_water_alone_needs_no_feed(quantities: Book) -> None:
    found = _terms(quantities, *_followed("alkalinity", 100.0, -1.5))
    assert {name: term.value for name, term in found.items()} == {"alkalinity_change": pytest.approx(-1.5)}
    few = {id_: one for id_, one in quantities.items() if id_ != "hardness"}
    readings = [*_followed("hardness", 9.0, 1.0), *_followed("alkalinity", 100.0, -1.5)]
    assert [term.name for term in work_out_balance(readings, few, on=ON, volume_l=1000.0)] == ["alkalinity_change"]


@pytest.mark.parametrize(
    ("first", "point", "mean"),
    [
        ("2026-04-01", "", 40.0),  # ten days of thirty and of fifty, half of each
        ("2026-04-06", "", 50.0),  # followed from the sixth on: only the fifty
        ("2026-02-10", "", None),  # the sixtieth day before counts
        ("2026-02-09", "", 50.0),  # older does not: the followed days begin with the second reading
        ("2026-04-01", "top-up", 50.0),  # the tap is not followed
    ],
)
def test_what_is_put_in_is_averaged_over_the_days_that_were_followed(
    quantities: Book, first: str, point: str, mean: float | None
) -> None:
    feed = [("2026-01-01", 30.0), ("2026-04-06", 50.0)]
    readings = [Reading(quantity="feed", value=grams, low=grams, high=grams, on=on) for on, grams in feed]
    readings.append(Reading(quantity="feed-protein", value=32.0, low=32.0, high=32.0))
    readings.append(Reading(quantity="alkalinity", value=90.0, low=90.0, high=90.0, on=first, point=point))
    readings.append(Reading(quantity="alkalinity", value=90.0, low=90.0, high=90.0, on="2026-04-06"))
    found = {term.name: term for term in work_out_balance(readings, quantities, on=ON, volume_l=1000.0)}
    grams = found["nitrogen_from_feed"].value / MADE * 100
    expected = (55 * 30.0 + 5 * 50.0) / 60 if mean is None else mean
    assert grams == pytest.approx(expected, rel=0.001)
