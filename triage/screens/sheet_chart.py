"""A small chart of one quantity as SVG, to stand in a page: dots, what the kits leave open, limits, looks, deeds."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import date
from html import escape

from ..report.case_sheet import LimitLine, MeasuredLine
from . import sheet_words as words
from .numbers import say_number, say_unit

WIDTH, HEIGHT = 340, 168
LEFT, RIGHT, TOP, BOTTOM = 46, 10, 24, 26  # room for scale, title and days
_SIZE = 3.2  # of a dot
_LEAST = 1e-6  # a span too small to be drawn
_STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)


class Scale:
    """Days and values to places of the chart."""

    def __init__(self, first: str, last: str, low: float, high: float) -> None:
        self.first = date.fromisoformat(first)
        self.days = max(1, (date.fromisoformat(last) - self.first).days)
        self.low, self.high = low, high

    def x(self, day: str, time: str = "") -> float:
        hours = int(time[:2]) if time else 12
        past = (date.fromisoformat(day) - self.first).days + hours / 24
        return LEFT + (WIDTH - LEFT - RIGHT) * past / (self.days + 1)

    def y(self, value: float) -> float:
        share = (min(max(value, self.low), self.high) - self.low) / (self.high - self.low)
        return HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * share


def draw_chart(
    readings: Sequence[MeasuredLine], limit: LimitLine | None, *, first: str, last: str, looks: Sequence[str],
    deeds: Sequence[str],
) -> str:  # fmt: skip
    """One ``svg`` element for dated readings of one quantity.

    Args:
        readings: at least one; those of one quantity.
        limit: what the animals kept bear of it.
        first, last: ISO dates between which it is drawn.
        looks, deeds: ISO dates to be marked; those outside are left out.
    """
    ticks = nice_ticks(*_room(readings, limit))
    scale = Scale(first, last, ticks[0], ticks[-1])
    said = _said(readings)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" '
        f'aria-label="{escape(said)}" class="chart">'
        + "".join(
            [*_beyond(scale, limit), *_grid(scale, ticks, first, last), *_marks(scale, looks, deeds, first, last),
             *(_dot(scale, reading) for reading in readings), _title(readings[0])]
        )
        + "</svg>"
    )  # fmt: skip


def _room(readings: Sequence[MeasuredLine], limit: LimitLine | None) -> tuple[float, float]:
    """From the lowest to the highest value to be shown; a limit near by is shown, too."""
    values = [r.value for r in readings]
    values += [end for r in readings if r.bound == "=" for end in (r.low, r.high) if end is not None]
    low, high = min(values), max(values)
    reach = max(high - low, 0.1 * abs(high), _LEAST)
    for end in (limit.low, limit.high) if limit else ():
        if end is not None and low - reach <= end <= high + reach:
            low, high = min(low, end), max(high, end)
    return low, high


def nice_ticks(low: float, high: float, most: int = 4) -> list[float]:
    """Round values from one at or below ``low`` to one at or above ``high``, ``most`` steps or fewer between.

    >>> nice_ticks(6.4, 7.3), nice_ticks(0.0, 0.0)
    ([6.25, 6.5, 6.75, 7.0, 7.25, 7.5], [0.0, 0.25, 0.5, 0.75, 1.0])
    """
    span = max(high - low, 0.05 * abs(high))
    span = span if span > _LEAST else 1.0
    rough = span / most
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * s for s in _STEPS if power * s >= rough * (1 - 1e-9))
    start = math.floor(low / step + 1e-9)
    end = max(math.ceil(max(high, low + span) / step - 1e-9), start + 1)
    return [round(n * step, 10) for n in range(start, end + 1)]


def _grid(scale: Scale, ticks: Sequence[float], first: str, last: str) -> Iterator[str]:
    for tick in ticks:
        y = scale.y(tick)
        yield f'<path d="M{LEFT} {y:.1f}H{WIDTH - RIGHT}" stroke="#ccc" stroke-width=".6"/>'
        yield _text(LEFT - 5, y + 3.5, say_number(tick), "end")
    base = HEIGHT - BOTTOM
    yield f'<path d="M{LEFT} {base}H{WIDTH - RIGHT}" stroke="#444"/>'
    yield _text(LEFT, HEIGHT - 8, first, "start")
    yield _text(WIDTH - RIGHT, HEIGHT - 8, last, "end")


def _beyond(scale: Scale, limit: LimitLine | None) -> Iterator[str]:
    """What lies beyond the limits, grey, with a line and whose limit it is."""
    ends = [] if limit is None else [(limit.low, limit.low_for, False), (limit.high, limit.high_for, True)]
    for end, name, upper in ends:
        if end is None or not scale.low < end < scale.high:
            continue
        y = scale.y(end)
        top, tall = (TOP, y - TOP) if upper else (y, HEIGHT - BOTTOM - y)
        yield f'<rect x="{LEFT}" y="{top:.1f}" width="{WIDTH - LEFT - RIGHT}" height="{tall:.1f}" fill="#e4e4e0"/>'
        yield f'<path d="M{LEFT} {y:.1f}H{WIDTH - RIGHT}" stroke="#888" stroke-dasharray="5 2"/>'
        said = words.CHART_LIMIT.format(limit=say_number(end), name=name)
        yield _text(WIDTH - RIGHT - 3, y - 3 if upper else y + 10, said, "end", 9)


def _marks(scale: Scale, looks: Sequence[str], deeds: Sequence[str], first: str, last: str) -> Iterator[str]:
    base = HEIGHT - BOTTOM
    for day in dict.fromkeys(looks):
        if first <= day <= last:
            yield f'<path d="M{scale.x(day):.1f} {TOP}V{base}" stroke="#356" stroke-dasharray="2 3"/>'
    for day in dict.fromkeys(deeds):
        if first <= day <= last:
            yield f'<path d="M{scale.x(day):.1f} {base - 9}l4.5 9h-9z" fill="#356"/>'


def _dot(scale: Scale, reading: MeasuredLine) -> str:
    x, y, size = scale.x(reading.on, reading.time), scale.y(reading.value), _SIZE
    if reading.bound in ("<", "<="):
        return f'<path d="M{x - size:.1f} {y - size:.1f}h{2 * size:.1f}l-{size} {2 * size:.1f}z" fill="#111"/>'
    if reading.bound in (">", ">="):
        return f'<path d="M{x - size:.1f} {y + size:.1f}h{2 * size:.1f}l-{size} -{2 * size:.1f}z" fill="#111"/>'
    span = ""
    if reading.low is not None and reading.high is not None and reading.high > reading.low:
        span = f'<path d="M{x:.1f} {scale.y(reading.low):.1f}V{scale.y(reading.high):.1f}" stroke="#111"/>'
    return f'{span}<circle cx="{x:.1f}" cy="{y:.1f}" r="{size}" fill="#111"/>'


def _title(reading: MeasuredLine) -> str:
    unit = say_unit(reading.unit)
    return _text(0, 13, f"{reading.name},{unit}" if unit else reading.name, "start", 12, bold=True)


def _said(readings: Sequence[MeasuredLine]) -> str:
    values = [reading.value for reading in readings]
    return words.CHART.format(
        name=readings[0].name, count=len(readings), first=readings[0].on, last=readings[-1].on,
        low=say_number(min(values)), high=say_number(max(values)),
    )  # fmt: skip


def _text(x: float, y: float, said: str, anchor: str, size: float = 10, *, bold: bool = False) -> str:
    weight = ' font-weight="bold"' if bold else ""
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:g}" text-anchor="{anchor}"{weight}>{escape(said)}</text>'
