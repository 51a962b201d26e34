"""A small chart of one quantity in characters: points, spans of kits, bounds, gaps, and shade beyond the limits.

The one door to plotext, which is imported only when a chart is drawn.
"""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from typing import Any

import msgspec

from ..model.quantity import Reading
from . import water_words

HEIGHT = 10
SHADE, SPAN, POINT, AT_MOST, AT_LEAST = "░", "│", "●", "▼", "▲"
MARKS = {"=": POINT, "<=": AT_MOST, "<": AT_MOST, ">=": AT_LEAST, ">": AT_LEAST}
#: A limit further from the readings than this share of their spread is not drawn: it would squeeze them to a line.
NEAR = 1.5


class Axis(msgspec.Struct, frozen=True):
    """Lowest and highest value shown."""

    low: float
    high: float

    @property
    def span(self) -> float:
        return self.high - self.low


def key_of() -> str:
    """What the signs of a chart mean."""
    return water_words.CHART_KEY.format(point=POINT, span=SPAN, at_most=AT_MOST, at_least=AT_LEAST, shade=SHADE)


def draw_chart(
    readings: Sequence[Reading], *, width: int, low: float | None = None, high: float | None = None, least: float = 0.0
) -> list[str]:
    """The lines of a chart.

    Args:
        readings: of one quantity, dated.
        width: columns, 40 at the least.
        low, high: limits; what lies beyond them is shaded where it is near enough to be seen.
        least: nothing below this is possible.

    Returns:
        Plain lines without escapes, none wider than ``width``. A day without a reading stays empty: nothing is joined.
    """
    import plotext as plt

    dated = [(_day(reading), reading) for reading in readings if reading.on]
    first, last = min(day for day, _ in dated), max(day for day, _ in dated)
    axis = _axis([reading for _, reading in dated], low, high, least)
    days = max(last - first, 1)
    plt.clear_figure()
    plt.theme("clear")
    plt.plotsize(max(40, width), HEIGHT)
    plt.xlim(first - 0.02 * days, last + 0.02 * days)
    plt.ylim(axis.low, axis.high)
    _shade(plt, axis, first, days, width, low, high)
    for day, reading in dated:
        ends = max(reading.low, axis.low), min(reading.high, axis.high)
        if ends[1] > ends[0]:
            plt.scatter([day] * (4 * HEIGHT), _steps(*ends, 4 * HEIGHT), marker=SPAN)
    for mark in dict.fromkeys(MARKS.values()):
        shown = [(day, reading.value) for day, reading in dated if MARKS[reading.bound] == mark]
        if shown:
            plt.scatter([day for day, _ in shown], [min(max(v, axis.low), axis.high) for _, v in shown], marker=mark)
    _ticks(plt, axis, first, last, [limit for limit in (low, high) if limit is not None])
    return [line.rstrip() for line in plt.uncolorize(plt.build()).splitlines()]


def _shade(plt: Any, axis: Axis, first: float, days: float, width: int, low: float | None, high: float | None) -> None:
    xs = _steps(first - 0.02 * days, first + 1.02 * days, 2 * width)
    for begin, end in ((axis.low, low), (high, axis.high)):
        if begin is not None and end is not None and axis.low <= begin < end <= axis.high:
            for y in _steps(begin, end, 4 * HEIGHT):
                plt.scatter(xs, [y] * len(xs), marker=SHADE)


def _ticks(plt: Any, axis: Axis, first: float, last: float, limits: Sequence[float]) -> None:
    """Days below; at the side the ends and the limits, where they do not lie on each other."""
    places = [first] if first == last else [first, (first + last) / 2, last]
    plt.xticks(places, [_date(place) for place in places])
    values = [axis.low, axis.high]
    for limit in limits:
        if all(abs(limit - value) > axis.span / HEIGHT for value in values):
            values.append(limit)
    values = sorted(values if len(values) > 2 else [*values, axis.low + axis.span / 2])
    plt.yticks(values, [f"{value:.3g}" for value in values])


def _axis(readings: Sequence[Reading], low: float | None, high: float | None, least: float) -> Axis:
    """Room for every reading and for the limits that lie near; the span of a card's last colour is cut off."""
    values = [reading.value for reading in readings]
    bottom, top = min(values), max(values)
    room = max(top - bottom, 0.1 * abs(top), 2 * max(reading.step for reading in readings), 0.1)
    ends = [end for reading in readings if reading.bound == "=" for end in (reading.low, reading.high)]
    near = [end for end in ends if bottom - room / 2 <= end <= top + room / 2]
    bottom, top = min([bottom, *near]), max([top, *near])
    if low is not None and bottom - NEAR * room <= low:
        bottom = min(bottom, low - 0.2 * room)
    if high is not None and high <= top + NEAR * room:
        top = max(top, high + 0.2 * room)
    return Axis(max(bottom - 0.1 * room, least), top + 0.1 * room)


def _steps(begin: float, end: float, count: int) -> list[float]:
    return [begin + (end - begin) * step / (count - 1) for step in range(count)]


def _day(reading: Reading) -> float:
    hours, minutes = (reading.time or "12:00").split(":")
    return datetime.date.fromisoformat(reading.on).toordinal() + (int(hours) + int(minutes) / 60) / 24


def _date(day: float) -> str:
    return datetime.date.fromordinal(int(day)).isoformat()[5:]
