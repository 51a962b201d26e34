"""What people put in each day, and what the top-up water holds."""

from __future__ import annotations

from typing import Any

import pytest

from triage.model.interval import Interval
from triage.model.quantity import Reading
from triage.water.inflow import find_inflow, mean_over, top_up_readings
from triage.water.terms import NOTHING, Term

FIRST, LAST = "2026-05-01", "2026-05-11"


def _reading(quantity: str, value: float, on: str = "", **told: Any) -> Reading:
    ends = {"low": value, "high": value, **told}
    return Reading(quantity=quantity, value=value, on=on, **ends)


def _mean(*told: tuple[float, str]) -> float | None:
    found = mean_over([_reading("feed", value, on) for value, on in told], FIRST, LAST)
    return None if found is None else found.value


@pytest.mark.parametrize(
    ("told", "mean"),
    [
        ([], None),
        ([(9.0, "2026-05-12")], None),  # told later
        ([(9.0, LAST)], 9.0),
        ([(9.0, "2026-04-01")], 9.0),  # told before, and it still holds
        ([(9.0, "")], 9.0),  # without a date: of the last day
        ([(10.0, FIRST), (20.0, "2026-05-04")], 17.0),  # three days of ten, seven of twenty
        ([(20.0, "2026-05-04"), (10.0, FIRST)], 17.0),  # in whatever order it was told
        ([(20.0, "2026-05-04"), (10.0, "2026-05-09")], 18.0),  # the first holds for the days before it
        ([(50.0, "2026-04-01"), (10.0, "2026-04-20"), (20.0, "2026-05-04")], 17.0),  # the earliest is over by then
        ([(10.0, FIRST), (20.0, LAST)], 10.0),
        ([(10.0, FIRST), (20.0, "")], 10.0),
    ],
)
def test_each_value_holds_until_the_next_is_told(told: list[tuple[float, str]], mean: float | None) -> None:
    assert _mean(*told) == (None if mean is None else pytest.approx(mean))


def test_on_a_single_day_the_last_value_counts() -> None:
    told = [_reading("feed", 10.0, LAST, time="08:00"), _reading("feed", 30.0, LAST, time="17:00")]
    for readings in (told, told[::-1]):
        found = mean_over(readings, LAST, LAST)
        assert found is not None
        assert found.value == 30.0


def test_the_range_is_the_mean_of_the_ends() -> None:
    told = [
        _reading("feed", 10.0, FIRST, low=8.0, high=14.0),
        _reading("feed", 20.0, "2026-05-06", low=20.0, high=30.0),
    ]
    assert mean_over(told, FIRST, LAST) == Term(15.0, Interval(14.0, 22.0))


def test_each_quantity_has_its_own_term_and_the_tap_its_own_water() -> None:
    told = {
        "feed": 30.0, "feed-protein": 32.0, "top-up-per-day": 20.0, "base-per-day": 4.0, "lime-per-day": 3.0,
    }  # fmt: skip
    readings = [_reading(quantity, value, FIRST) for quantity, value in told.items()]
    readings += [_reading("alkalinity", 150.0, FIRST, point="top-up"), _reading("alkalinity", 40.0, FIRST)]
    readings += [_reading("hardness", 200.0, FIRST, point="top-up"), _reading("hardness", 90.0, FIRST, point="sump")]
    found = find_inflow(readings, FIRST, LAST)
    values = {
        "feed_g": 30.0, "protein_percent": 32.0, "top_up_l": 20.0, "top_up_alkalinity": 150.0,
        "top_up_hardness": 200.0, "base_g_caco3": 4.0, "lime_g_caco3": 3.0,
    }  # fmt: skip
    assert {name: getattr(found, name).value for name in values} == values


def test_a_reading_of_the_tap_says_nothing_of_the_feed() -> None:
    found = find_inflow(
        [_reading("feed", 30.0, FIRST, point="top-up"), _reading("alkalinity", 40.0, FIRST)], FIRST, LAST
    )
    assert (found.feed_g, found.top_up_alkalinity, found.base_g_caco3) == (None, None, None)


@pytest.mark.parametrize(("told", "base", "lime"), [("base-per-day", 4.0, 0.0), ("lime-per-day", 0.0, 4.0)])
def test_who_told_of_one_base_adds_none_of_the_other(told: str, base: float, lime: float) -> None:
    found = find_inflow([_reading(told, 4.0, FIRST)], FIRST, LAST)
    assert found.base_g_caco3 is not None
    assert found.lime_g_caco3 is not None
    assert (found.base_g_caco3.value, found.lime_g_caco3.value) == (base, lime)
    assert NOTHING in (found.base_g_caco3, found.lime_g_caco3)


def test_the_latest_of_the_tap_becomes_a_quantity_of_its_own() -> None:
    readings = [
        _reading("chlorine", 1.0, "2026-05-01", point="top-up"),
        _reading("chlorine", 0.5, "2026-05-09", point="top-up"),
        _reading("chlorine", 0.0, "2026-05-10"), _reading("iron", 2.0, "2026-05-09", point="top-up"),
        _reading("hardness", 80.0, "2026-05-12", point="top-up"),
    ]  # fmt: skip
    known = {"top-up-chlorine", "top-up-hardness", "chlorine", "iron"}
    (found,) = top_up_readings(readings, known, LAST)
    assert (found.quantity, found.value, found.on, found.point, found.derived) == (
        "top-up-chlorine", 0.5, "2026-05-09", "", True,
    )  # fmt: skip
    undated = top_up_readings([_reading("hardness", 80.0, point="top-up")], known, "")
    assert [(one.quantity, one.value) for one in undated] == [("top-up-hardness", 80.0)]
