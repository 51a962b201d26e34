"""Is a reading rising, falling or steady? Theil-Sen slope and Mann-Kendall test over irregular, bounded readings.

A pair of readings counts as risen only where the whole interval of the later lies above that of the earlier: a step of
the kit, or a bound, proves nothing.
"""

from __future__ import annotations

import datetime
import math
from collections import Counter
from collections.abc import Sequence
from itertools import combinations, groupby
from typing import Literal

import msgspec

from ..model.interval import Interval
from ..model.quantity import Quantity, Reading

Direction = Literal["rising", "falling", "steady", "cannot-tell"]

CHANCE = 0.10  # a drift that chance gives more often than this is not called one (our-judgement)
_DEVIATE = 1.6448536269514722  # normal deviate that chance passes so often, both sides together
FEWEST = 4  # with fewer readings no drift can be told from chance at that level
WINDOW_DAYS = 60
MOST = 60  # with more readings than this in the window, one of each day counts
_Point = tuple[float, Interval, float]  # day, interval, value


class Trend(msgspec.Struct, frozen=True, kw_only=True):
    """How a quantity moved. Slopes in its own unit per day; low and high hold with 90 % confidence and the kit's
    steps; ``chance`` is the two-sided probability of so even a drift where there is none."""

    quantity: str
    direction: Direction
    readings: int
    days: float
    slope: float | None = None
    low: float | None = None
    high: float | None = None
    chance: float | None = None
    why: str = ""


class MannKendall(msgspec.Struct, frozen=True):
    """Score, its variance, normal deviate and two-sided probability."""

    score: int
    variance: float
    deviate: float
    chance: float


def mann_kendall(values: Sequence[Interval]) -> MannKendall:
    """Mann-Kendall test of readings in the order of time.

    Args:
        values: intervals; overlapping ones count as neither risen nor fallen.

    Returns:
        The test with the correction for equal values and for continuity.

    Source: the usual test (compared with pymannkendall). Four readings that only rise may be chance at 9 %:

    >>> mann_kendall([Interval(x, x) for x in (6.8, 6.9, 7.0, 7.2)]).score
    6
    """
    n = len(values)
    score = sum(_moved(early, late) for early, late in combinations(values, 2))
    ties = [count for count in Counter(values).values() if count > 1]
    variance = (n * (n - 1) * (2 * n + 5) - sum(t * (t - 1) * (2 * t + 5) for t in ties)) / 18
    deviate = (score - math.copysign(1, score)) / math.sqrt(variance) if score and variance > 0 else 0.0
    return MannKendall(score, variance, deviate, math.erfc(abs(deviate) / math.sqrt(2)))


def _moved(early: Interval, late: Interval) -> int:
    """1 risen, -1 fallen, 0 where both may be one value; spans that only touch, as those of neighbouring colours, have
    moved."""
    if early == late:
        return 0
    return (late.low >= early.high) - (late.high <= early.low)


def theil_sen(days: Sequence[float], values: Sequence[float]) -> float | None:
    """Median of the slopes between all pairs of readings of different days.

    Args:
        days: time, days.
        values: readings.

    Returns:
        Slope per day; None when all readings are of one day.

    Source: the usual estimator (compared with pymannkendall).

    >>> theil_sen([0, 2, 7], [7.0, 7.2, 7.7])
    0.1
    """
    points = list(zip(days, values, strict=True))
    slopes = sorted((late - early) / (b - a) for (a, early), (b, late) in combinations(points, 2) if b != a)
    middle = len(slopes) // 2
    return round((slopes[middle] + slopes[~middle]) / 2, 12) if slopes else None


def slope_band(points: Sequence[_Point], variance: float) -> tuple[float, float] | None:
    """Lower and upper end of the slope: Sen's ranks over slopes stretched by the readings' intervals.

    Args:
        points: day, interval and value of each reading, in the order of time.
        variance: of the Mann-Kendall score.

    Returns:
        Ends at 90 %, or None when all readings are of one day.
    """
    pairs = [(b - a, early, late) for (a, early, _), (b, late, _) in combinations(points, 2) if b != a]
    if not pairs:
        return None
    lows = sorted((late.low - early.high) / days for days, early, late in pairs)
    highs = sorted((late.high - early.low) / days for days, early, late in pairs)
    reach = _DEVIATE * math.sqrt(max(variance, 0.0))
    first = max(0, math.floor((len(pairs) - reach) / 2) - 1)  # as far from the lower end as last from the upper
    last = min(len(pairs) - 1, math.ceil((len(pairs) + reach) / 2))
    return lows[first], highs[last]


def find_trend(readings: Sequence[Reading], quantity: Quantity, on: str, *, window_days: int = WINDOW_DAYS) -> Trend:
    """The trend of one quantity up to a day.

    Args:
        readings: any; those of the quantity, with a date, not of top-up water, within the window are used.
        quantity: what is asked about; its ``kit-step`` is the change that matters (else a twentieth of
            the likely span).
        on: ISO date up to which to look.
        window_days: how far back.

    Returns:
        ``cannot-tell`` with a reason where readings are too few or disagree; ``steady`` where no drift shows and the
        readings, kit steps and all, lie within twice the change that matters.
    """
    points = _points(readings, quantity.quantity, on, window_days)
    days = points[-1][0] - points[0][0] if points else 0.0
    if len(points) < FEWEST:
        have = f"{len(points)} reading{'' if len(points) == 1 else 's'}"
        return _cannot(quantity, points, days, f"{have} in {window_days} days; {FEWEST} are needed")
    test = mann_kendall([interval for _, interval, _ in points])
    slope, band = theil_sen([p[0] for p in points], [p[2] for p in points]), slope_band(points, test.variance)
    if slope is None or band is None:
        return _cannot(quantity, points, days, "all readings are of one day")
    direction = _direction(test, points, _matters(quantity))
    why = "the readings do not agree on a direction" if direction == "cannot-tell" else ""
    return Trend(
        quantity=quantity.quantity, direction=direction, readings=len(points), days=days, slope=slope, low=band[0],
        high=band[1], chance=test.chance, why=why,
    )  # fmt: skip


def days_until(trend: Trend, value: float, limit: float) -> Interval | None:
    """Days until a limit is crossed, if the drift goes on.

    Args:
        trend: a rising or falling trend.
        value: where the quantity stands now.
        limit: the limit, in the same unit.

    Returns:
        Earliest and latest (may be infinite); None when it drifts away from the limit, or does not drift.
    """
    if trend.direction not in ("rising", "falling") or trend.low is None or trend.high is None:
        return None
    way = limit - value
    if (way > 0) != (trend.direction == "rising"):
        return None
    fastest, slowest = (trend.high, trend.low) if way > 0 else (trend.low, trend.high)
    if fastest * way <= 0:
        return None
    return Interval(way / fastest, way / slowest if slowest * way > 0 else math.inf)


def change_per_day(
    readings: Sequence[Reading], quantity: Quantity, on: str, *, window_days: int = WINDOW_DAYS
) -> tuple[float, Interval] | None:
    """How fast a quantity changed, whether or not that is a trend.

    Args:
        readings, quantity, on, window_days: see :func:`find_trend`.

    Returns:
        Slope per day and its ends: of the trend with enough readings, else between the first and the last reading as
        far as their intervals allow. None with fewer than two days.
    """
    trend = find_trend(readings, quantity, on, window_days=window_days)
    if trend.slope is not None and trend.low is not None and trend.high is not None:
        return trend.slope, Interval(min(trend.low, trend.slope), max(trend.high, trend.slope))
    points = _points(readings, quantity.quantity, on, window_days)
    if not points or points[0][0] == points[-1][0]:
        return None
    (first, early, before), (last, late, after) = points[0], points[-1]
    days = last - first
    return (after - before) / days, Interval((late.low - early.high) / days, (late.high - early.low) / days)


def find_trends(readings: Sequence[Reading], quantities: Sequence[Quantity], on: str) -> dict[str, str]:
    """Quantity id → rising, falling or steady, for those of which it can be told; in the order of ids.

    Without a day (``on`` empty) nothing can be told.
    """
    if not on:
        return {}
    found = {quantity.quantity: find_trend(readings, quantity, on).direction for quantity in quantities}
    return {id_: direction for id_, direction in sorted(found.items()) if direction != "cannot-tell"}


def days_before(day: str, on: str) -> int:
    """Days from one ISO date to another.

    >>> days_before("2026-05-01", "2026-05-04")
    3
    """
    return (datetime.date.fromisoformat(on) - datetime.date.fromisoformat(day)).days


def _points(readings: Sequence[Reading], quantity: str, on: str, window_days: int) -> list[_Point]:
    found = []
    for reading in readings:
        if reading.quantity != quantity or not reading.on or reading.point == "top-up":
            continue
        age = days_before(reading.on, on)
        if 0 <= age <= window_days:
            hours, minutes = (reading.time or "12:00").split(":")
            day = -age + (int(hours) + int(minutes) / 60) / 24
            found.append((day, reading.interval, reading.value))
    found.sort(key=lambda point: point[0])
    return found if len(found) <= MOST else _one_a_day(found)


def _one_a_day(points: Sequence[_Point]) -> list[_Point]:
    """Of each day the reading in the middle: readings of one day tell little more than one (and pairs take long)."""
    days = [list(own) for _, own in groupby(points, key=lambda point: math.floor(point[0]))]
    return [sorted(own, key=lambda point: point[2])[(len(own) - 1) // 2] for own in days]


def _matters(quantity: Quantity) -> float:
    span = quantity.likely or quantity.possible
    return quantity.kit_step or (span[1] - span[0]) / 20


def _direction(test: MannKendall, points: Sequence[_Point], matters: float) -> Direction:
    if test.chance <= CHANCE and test.score:
        return "rising" if test.score > 0 else "falling"
    spread = max(interval.high for _, interval, _ in points) - min(interval.low for _, interval, _ in points)
    return "steady" if spread <= 2 * matters + 1e-9 else "cannot-tell"


def _cannot(quantity: Quantity, points: Sequence[_Point], days: float, why: str) -> Trend:
    return Trend(quantity=quantity.quantity, direction="cannot-tell", readings=len(points), days=days, why=why)
