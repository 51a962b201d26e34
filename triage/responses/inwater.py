"""A toxicity value in this water: where a source tested in several waters, the one between which this water lies."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

import msgspec

from ..model.interval import Interval
from ..model.substance import Chemistry, Substance, Toxicity
from .setting import Water

#: Soft and poorly buffered water is the dangerous side of these; of the others either side may be.
_HARDER_IS_MILDER: frozenset[str] = frozenset({"hardness", "alkalinity"})
Point = tuple[float, float]  # condition, value


class Placed(msgspec.Struct, frozen=True, kw_only=True):
    """A row with its value in mg/L, in this water where ``by`` names what it was placed by."""

    row: Toxicity
    mg_l: float
    by: str = ""


def place_in_water(rows: Sequence[tuple[Toxicity, float]], substance: Substance, water: Water) -> list[Placed]:
    """The rows (each with its mg/L) that hold in this water.

    Where this water was measured and some animal was tested in several waters, those tests count, read between along
    a straight line, and the tests that do not tell their water are left out. Otherwise all rows count as they are.
    """
    placed = [found for series in _series(rows) if (found := _place(series, substance, water)) is not None]
    return placed or [Placed(row=row, mg_l=value) for row, value in rows]


def _series(rows: Iterable[tuple[Toxicity, float]]) -> list[list[tuple[Toxicity, float]]]:
    """Rows that differ in nothing but the water they were tested in."""
    groups: dict[tuple[object, ...], list[tuple[Toxicity, float]]] = {}
    for row, value in rows:
        key = (row.organism, row.test, row.hours, row.basis, row.bound, row.source)
        groups.setdefault(key, []).append((row, value))
    return list(groups.values())


def _place(series: list[tuple[Toxicity, float]], substance: Substance, water: Water) -> Placed | None:
    for chemistry in substance.depends_on:
        told = [(row.conditions[chemistry], value, row) for row, value in series if chemistry in row.conditions]
        reading = water.reading(chemistry)
        if reading is None or len({condition for condition, _, _ in told}) < 2:
            continue
        value = value_between([(condition, value) for condition, value, _ in told], reading, chemistry)
        nearest = min(told, key=lambda point: (abs(point[0] - reading.low), point[1]))
        return Placed(row=nearest[2], mg_l=value, by=chemistry)
    return None


def value_between(points: Sequence[Point], reading: Interval, chemistry: Chemistry) -> float:
    """The value at a reading, on straight lines between the tested waters; never milder than a softer water's.

    Args:
        points: (condition, mg/L), at least two conditions.
        reading: of that condition, in its unit. The end that is worse for the animals counts.
        chemistry: which condition. Beyond the tested waters the nearest holds for hardness and alkalinity, the
            strictest for the others.

    Returns:
        mg/L.

    Source: our-judgement for the straight line. Copper and catfish at alkalinities 16 and 240 (straus-catfish-cu):

    >>> round(value_between([(16, 0.05), (240, 0.98)], Interval(200, 200), "alkalinity"), 3)
    0.814
    """
    line = sorted((condition, min(v for c, v in points if c == condition)) for condition, _ in points)
    if chemistry in _HARDER_IS_MILDER:
        at = _on_line(line, min(max(reading.low, line[0][0]), line[-1][0]))
        return min([at, *(value for condition, value in line if condition >= reading.low)])
    if reading.low < line[0][0] or reading.high > line[-1][0]:
        return min(value for _, value in line)
    inside = [value for condition, value in line if reading.low <= condition <= reading.high]
    return min([_on_line(line, reading.low), _on_line(line, reading.high), *inside])


def _on_line(line: Sequence[Point], at: float) -> float:
    for (left, low), (right, high) in pairwise(line):
        if left <= at <= right and left < right:
            return low + (high - low) * (at - left) / (right - left)
    return line[0][1]
