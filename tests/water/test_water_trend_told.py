"""What is told with a trend: of what, over how many days, and why nothing can be told."""

from __future__ import annotations

import pytest

from triage.model.interval import Interval
from triage.model.quantity import Quantity, Reading
from triage.water.trend import MOST, find_trend, mann_kendall

WATT = Quantity(quantity="glow", name="Glow", unit="W", possible=[-100, 100], likely=[10, 30], sources=[])


def glow(value: float, on: str, time: str = "", half: float = 0.0) -> Reading:
    return Reading(quantity="glow", value=value, low=value - half, high=value + half, on=on, time=time)


def test_a_trend_says_of_what_and_over_how_long() -> None:
    days = ("2026-04-01", "2026-04-05", "2026-04-09", "2026-04-11")
    trend = find_trend([glow(12.0 + place, on) for place, on in enumerate(days)], WATT, "2026-04-20")
    assert (trend.quantity, trend.direction, trend.readings, trend.days) == ("glow", "rising", 4, 10.0)
    assert trend.why == ""


def test_without_readings_there_are_no_days() -> None:
    trend = find_trend([], WATT, "2026-04-20")
    assert (trend.quantity, trend.readings, trend.days) == ("glow", 0, 0.0)
    assert trend.why == "0 readings in 60 days; 4 are needed"
    two = find_trend([glow(12, "2026-04-01"), glow(13, "2026-04-04")], WATT, "2026-04-20", window_days=30)
    assert (two.days, two.why) == (3.0, "2 readings in 30 days; 4 are needed")


def test_hours_and_minutes_count() -> None:
    two = [glow(12, "2026-04-01", "06:30"), glow(13, "2026-04-02", "18:45")]
    assert find_trend(two, WATT, "2026-04-20").days == pytest.approx(1 + 12.25 / 24)
    noon = [glow(12, "2026-04-01"), glow(13, "2026-04-01", "18:00")]  # without a time it is noon
    assert find_trend(noon, WATT, "2026-04-20").days == pytest.approx(0.25)


@pytest.mark.parametrize(
    ("on", "readings"), [("2026-03-11", 1), ("2026-03-12", 2), ("2026-03-13", 1), ("2026-01-10", 0)]
)
def test_the_window_counts_its_first_day_and_today(on: str, readings: int) -> None:
    """The 12th of March is the sixtieth day after the 11th of January."""
    assert find_trend([glow(12, "2026-01-11"), glow(12, "2026-03-12")], WATT, on).readings == readings


@pytest.mark.parametrize(("top", "direction"), [(22.0, "steady"), (22.1, "cannot-tell")])
def test_without_a_kits_step_a_twentieth_of_the_likely_span_matters(top: float, direction: str) -> None:
    """The likely span is 20, so 1 matters, and readings within twice that are steady."""
    days = ("2026-04-01", "2026-04-05", "2026-04-09", "2026-04-11")
    readings = [glow(value, on) for value, on in zip((20.0, top, 20.5, 21.0), days, strict=True)]
    trend = find_trend(readings, WATT, "2026-04-20")
    assert trend.direction == direction
    assert trend.why == ("" if direction == "steady" else "the readings do not agree on a direction")


def test_readings_of_the_same_moment_are_no_fault() -> None:
    readings = [glow(value, "2026-04-01") for value in (13.0, 12.0, 14.0, 12.5)]
    trend = find_trend(readings, WATT, "2026-04-20")
    assert (trend.direction, trend.why) == ("cannot-tell", "all readings are of one day")


def test_as_many_readings_as_may_be_all_count() -> None:
    readings = [glow(12.0 + place / 10, "2026-04-01", f"{place // 60:02}:{place % 60:02}") for place in range(MOST)]
    assert find_trend(readings, WATT, "2026-04-20").readings == MOST
    assert find_trend([*readings, glow(20, "2026-04-01", "23:00")], WATT, "2026-04-20").readings == 1


def test_spans_that_touch_have_moved() -> None:
    assert mann_kendall([Interval(6.0, 6.5), Interval(6.5, 7.0)]).score == 1
    assert mann_kendall([Interval(6.5, 7.0), Interval(6.0, 6.5)]).score == -1
    assert mann_kendall([Interval(6.0, 6.6), Interval(6.5, 7.0)]).score == 0


def test_the_variance_of_the_usual_test() -> None:
    """n (n - 1)(2n + 5) / 18, less the same for each group of equal values."""
    ten = [Interval.exactly(float(value)) for value in range(10)]
    assert mann_kendall(ten).variance == pytest.approx(125.0)
    assert mann_kendall([*ten[:8], *ten[:1], *ten[:1]]).variance == pytest.approx(125.0 - 3 * 2 * 11 / 18)
    equal = mann_kendall(ten[:1] * 5)
    assert (equal.score, equal.variance, equal.deviate, equal.chance) == (0, 0.0, 0.0, 1.0)


def test_as_much_up_as_down_is_chance() -> None:
    test = mann_kendall([Interval.exactly(value) for value in (1.0, 2.0, 2.0, 1.0)])
    assert (test.score, test.deviate, test.chance) == (0, 0.0, 1.0)
    assert test.variance > 0
