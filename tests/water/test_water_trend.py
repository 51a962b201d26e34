"""Rising, falling, steady, or not to be told yet."""

from __future__ import annotations

import datetime
import math
from collections.abc import Mapping

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.interval import Interval
from triage.model.quantity import Quantity, Reading
from triage.water.readings import make_reading
from triage.water.trend import Trend, change_per_day, days_until, find_trend, find_trends, mann_kendall, theil_sen

Book = Mapping[str, Quantity]


def series(
    quantities: Book, *values: float | str, kit: str = "", quantity: str = "ph", every: int = 3
) -> list[Reading]:
    days = [f"2026-04-{1 + every * place:02}" for place in range(len(values))]
    return [make_reading(quantity, v, quantities, kit=kit, on=on) for v, on in zip(values, days, strict=True)]


def direction(quantities: Book, *values: float | str, kit: str = "") -> str:
    return find_trend(series(quantities, *values, kit=kit), quantities["ph"], "2026-05-01").direction


def test_directions(quantities: Book) -> None:
    assert direction(quantities, 6.6, 6.8, 7.0, 7.1) == "rising"
    assert direction(quantities, 7.1, 7.0, 6.8, 6.6) == "falling"
    assert direction(quantities, 7.0, 7.1, 7.0, 7.1) == "steady"
    assert direction(quantities, 6.2, 7.4, 6.4, 7.2) == "cannot-tell"


def test_few_readings_tell_nothing(quantities: Book) -> None:
    trend = find_trend(series(quantities, 6.6, 7.6), quantities["ph"], "2026-05-01")
    assert (trend.direction, trend.slope) == ("cannot-tell", None)
    assert trend.why == "2 readings in 60 days; 4 are needed"
    assert find_trend([], quantities["ph"], "2026-05-01").direction == "cannot-tell"


def test_one_step_of_the_card_proves_nothing(quantities: Book) -> None:
    assert direction(quantities, 6.6, 6.6, 6.8, 6.8, kit="card") == "steady"
    assert direction(quantities, 6.6, 6.6, 6.6, 6.8, kit="card") == "steady"
    assert direction(quantities, 6.4, 6.6, 6.8, 7.0, kit="card") == "rising"  # four colours in a row
    assert direction(quantities, 6.0, 6.6, 7.0, 7.6, kit="card") == "rising"


def test_bounds_prove_nothing(quantities: Book) -> None:
    assert direction(quantities, ">= 7.6", ">= 7.6", ">= 7.6", ">= 7.6") == "cannot-tell"
    assert direction(quantities, "<= 6", "<= 6", 6.4, 6.6) == "cannot-tell"
    assert direction(quantities, "<= 6", 6.2, 6.4, 6.6) == "rising"


def test_what_is_left_out(quantities: Book) -> None:
    rising = series(quantities, 6.6, 6.8, 7.0, 7.1)
    top_up = [make_reading("ph", 8.4, quantities, on=f"2026-04-0{day}", point="top-up") for day in range(1, 9)]
    assert find_trend([*rising, *top_up], quantities["ph"], "2026-05-01").readings == 4
    assert find_trend(rising, quantities["ph"], "2026-04-05").readings == 2
    assert find_trend(rising, quantities["ph"], "2026-08-01").readings == 0


def test_order_of_giving_does_not_matter(quantities: Book) -> None:
    rising = series(quantities, 6.6, 6.8, 7.0, 7.1)
    assert find_trend(rising[::-1], quantities["ph"], "2026-05-01") == find_trend(
        rising, quantities["ph"], "2026-05-01"
    )


def test_slope_and_its_ends(quantities: Book) -> None:
    trend = find_trend(series(quantities, 6.6, 6.9, 7.2, 7.5, every=2), quantities["ph"], "2026-05-01")
    assert trend.slope == pytest.approx(0.15)
    assert trend.low == pytest.approx(0.15)
    assert trend.high == pytest.approx(0.15)


def test_kit_steps_widen_the_slope(quantities: Book) -> None:
    values = (6.0, 6.4, 6.8, 7.2)
    exact = find_trend(series(quantities, *values), quantities["ph"], "2026-05-01")
    coarse = find_trend(series(quantities, *values, kit="card"), quantities["ph"], "2026-05-01")
    assert coarse.low is not None
    assert exact.low is not None
    assert coarse.high is not None
    assert exact.high is not None
    assert coarse.low < exact.low <= exact.high < coarse.high


def test_trends_of_all_quantities(quantities: Book) -> None:
    readings = [
        *series(quantities, 6.6, 6.8, 7.0, 7.2),
        *series(quantities, 40, 30, 20, 10, quantity="calcium"),
        *series(quantities, 1, 2, quantity="iron"),
    ]
    assert find_trends(readings, list(quantities.values()), "2026-05-01") == {"calcium": "falling", "ph": "rising"}


def made(direction: str, low: float, high: float) -> Trend:
    return Trend(quantity="ph", direction=direction, readings=5, days=10, slope=(low + high) / 2, low=low, high=high)  # type: ignore[arg-type]


def test_days_until_a_limit() -> None:
    assert days_until(made("falling", -0.1, -0.05), 7.0, 6.0) == Interval(10, 20)
    assert days_until(made("rising", -0.01, 0.1), 7.0, 8.0) == Interval(10, math.inf)
    assert days_until(made("rising", 0.05, 0.1), 7.0, 6.0) is None
    assert days_until(made("steady", -0.1, 0.1), 7.0, 8.0) is None


VALUES = st.lists(st.floats(0, 14), min_size=2, max_size=12)


@given(VALUES)
def test_reversed_time_reverses_the_score(values: list[float]) -> None:
    points = [Interval(value, value) for value in values]
    forward, back = mann_kendall(points), mann_kendall(points[::-1])
    assert (forward.score, forward.chance) == (-back.score, back.chance)


@given(VALUES, st.floats(0, 2))
def test_wider_readings_never_prove_more(values: list[float], half: float) -> None:
    exact = mann_kendall([Interval(value, value) for value in values])
    coarse = mann_kendall([Interval(value - half, value + half) for value in values])
    assert abs(coarse.score) <= len(values) * (len(values) - 1) / 2
    pairs = [(a, b) for place, a in enumerate(values) for b in values[place + 1 :]]
    apart = sum((b - half > a + half) - (b + half < a - half) for a, b in pairs)
    assert coarse.score == apart
    assert half or coarse.score == exact.score


@given(st.floats(-1, 1), st.lists(st.integers(0, 60), min_size=2, max_size=10, unique=True))
def test_a_straight_line_gives_its_slope(slope: float, days: list[int]) -> None:
    ordered = [float(day) for day in sorted(days)]
    assert theil_sen(ordered, [slope * day for day in ordered]) == pytest.approx(slope, abs=1e-9)


def test_readings_of_one_moment_have_no_slope() -> None:
    assert theil_sen([1, 1], [2, 3]) is None


def test_a_meter_that_reads_all_day_says_as_much_as_one_reading_a_day() -> None:
    """Twenty-four readings a day for two months: the trend of the readings in the middle of each day."""
    quantity = Quantity(quantity="ph", name="pH", unit="", possible=(0.0, 14.0), sources=["our-judgement"])
    often, seldom = [], []
    for day in range(60):
        on = (datetime.date(2026, 3, 6) + datetime.timedelta(days=day)).isoformat()
        for hour in range(24):
            value = 6.8 + 0.01 * day + (hour - 12) / 100
            often.append(Reading(quantity="ph", value=value, low=value, high=value, on=on, time=f"{hour:02d}:00"))
        seldom.append(next(r for r in often if r.on == on and r.time == "11:00"))
    dense, plain = (find_trend(each, quantity, "2026-05-04") for each in (often, seldom))
    assert dense == plain
    assert (dense.direction, dense.readings, dense.slope) == ("rising", 60, 0.01)


def test_days_until_needs_both_ends_a_way_and_a_drift_towards_it() -> None:
    rising = made("rising", 0.05, 0.1)
    assert days_until(rising, 7.0, 8.0) == Interval(10, 20)
    assert days_until(rising, 8.0, 8.0) is None  # it is there
    assert days_until(made("falling", -0.1, -0.05), 6.0, 6.0) is None
    assert days_until(made("falling", -0.1, 0.0), 7.0, 6.0) == Interval(10, math.inf)
    assert days_until(made("rising", 0.0, 0.1), 7.0, 8.0) == Interval(10, math.inf)
    assert days_until(made("rising", -0.1, 0.0), 7.0, 8.0) is None
    assert days_until(made("falling", 0.0, 0.1), 7.0, 6.0) is None
    for end in ("low", "high"):
        assert days_until(msgspec.structs.replace(rising, **{end: None}), 7.0, 8.0) is None


def test_the_change_of_a_trend_is_its_slope_with_its_ends(quantities: Book) -> None:
    readings = series(quantities, 6.6, 6.8, 7.0, 7.1)
    trend = find_trend(readings, quantities["ph"], "2026-05-01")
    assert trend.slope is not None
    assert change_per_day(readings, quantities["ph"], "2026-05-01") == (
        trend.slope, Interval(min(trend.low or 0, trend.slope), max(trend.high or 0, trend.slope)),
    )  # fmt: skip


def test_with_few_readings_the_change_lies_between_the_first_and_the_last(quantities: Book) -> None:
    def change(*readings: Reading, **told: int) -> tuple[float, Interval] | None:
        return change_per_day(readings, quantities["ph"], "2026-05-01", **told)

    def ph(value: float, on: str, half: float = 0.0) -> Reading:
        return Reading(quantity="ph", value=value, low=value - half, high=value + half, on=on)

    early, middle, late = ph(6.5, "2026-04-01", 0.5), ph(9.0, "2026-04-03"), ph(7.5, "2026-04-11", 0.25)
    found = change(late, early, middle)
    assert found is not None
    assert found[0] == pytest.approx(0.1)
    assert (found[1].low, found[1].high) == (pytest.approx(0.025), pytest.approx(0.175))
    assert change() is None
    assert change(early) is None
    assert change(early, ph(7.0, "2026-04-01")) is None  # of one moment
    assert change(early, late, window_days=25) is None  # only the later one is recent enough


def test_four_readings_of_one_moment_tell_no_change(quantities: Book) -> None:
    same = [make_reading("ph", value, quantities, on="2026-04-01", time="08:00") for value in (6.5, 6.6, 6.7, 6.8)]
    trend = find_trend(same, quantities["ph"], "2026-05-01")
    assert (trend.direction, trend.why, trend.days) == ("cannot-tell", "all readings are of one day", 0.0)
    assert change_per_day(same, quantities["ph"], "2026-05-01") is None


def test_one_reading_is_said_as_one(quantities: Book) -> None:
    why = find_trend(series(quantities, 6.6), quantities["ph"], "2026-05-01", window_days=40).why
    assert why == "1 reading in 40 days; 4 are needed"
    unsure = find_trend(series(quantities, 6.2, 7.4, 6.4, 7.2), quantities["ph"], "2026-05-01")
    assert unsure.why == "the readings do not agree on a direction"


@pytest.mark.parametrize(("hours", "kept"), [(("06", "07", "08"), 2), (("06", "07", "08", "09"), 3), (("06",), 1)])
def test_of_a_day_the_reading_in_the_middle_by_its_value_counts(hours: tuple[str, ...], kept: int) -> None:
    """Falling through the day, so that the middle by value is not the one by hour; of an even number the lower."""
    quantity = Quantity(quantity="ph", name="pH", unit="", possible=[0.0, 14.0], sources=["our-judgement"])
    days = [(datetime.date(2026, 3, 6) + datetime.timedelta(days=day)).isoformat() for day in range(60)]
    readings = [
        Reading(quantity="ph", value=v, low=v, high=v, on=on, time=f"{hour}:00")
        for day, on in enumerate(days)
        for place, hour in enumerate(hours)
        for v in [6.0 + 0.01 * day + (1.0, 0.1, 0.5, 0.2)[place] * (day % 2)]
    ]
    found = find_trend([*readings, readings[-1]], quantity, "2026-05-04")
    assert found.readings == 60
    middle = {1: 1.0, 2: 0.5, 3: 0.2}[kept]
    own = [Interval(v, v) for v in (6.0 + 0.01 * day + middle * (day % 2) for day in range(60))]
    assert found.chance == pytest.approx(mann_kendall(own).chance)
