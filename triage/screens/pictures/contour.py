"""Contours of a field by marching squares: smooth closed lines for SVG, where the terminal has pixels."""

from __future__ import annotations

import math
from collections.abc import Iterator

from .scene import Field, Point, Points

Edge = tuple[int, int, int]  # column, row, 0 for the lower side of a cell and 1 for its left side

#: For each case of corners above the level (1 lower left, 2 lower right, 4 upper right, 8 upper left): directed pieces
#: from side to side (0 lower, 1 right, 2 upper, 3 left), the high ground on their left.
_PIECES: dict[int, tuple[tuple[int, int], ...]] = {
    1: ((0, 3),), 2: ((1, 0),), 3: ((1, 3),), 4: ((2, 1),), 6: ((2, 0),), 7: ((2, 3),), 8: ((3, 2),), 9: ((0, 2),),
    11: ((1, 2),), 12: ((3, 1),), 13: ((0, 1),), 14: ((3, 0),), 5: ((0, 3), (2, 1)), 10: ((1, 0), (3, 2)),
}  # fmt: skip


class Grid:
    """A field sampled over a box, with a rim of zeros so that every contour closes."""

    def __init__(self, field: Field, box: tuple[float, float, float, float], cells: int) -> None:
        left, top, right, bottom = box
        self.step = max(right - left, bottom - top) / cells
        self.left, self.top = left - self.step, top - self.step
        self.columns, self.rows = (math.ceil(length / self.step) + 3 for length in (right - left, bottom - top))
        self.values = [
            [0.0 if self._rim(i, j) else min(1.0, max(0.0, field(*self.at(i, j)))) for i in range(self.columns)]
            for j in range(self.rows)
        ]

    def _rim(self, i: int, j: int) -> bool:
        return i in (0, self.columns - 1) or j in (0, self.rows - 1)

    def at(self, i: float, j: float) -> Point:
        """The place of a grid point."""
        return self.left + i * self.step, self.top + j * self.step

    def loops(self, level: float) -> Iterator[Points]:
        """The closed lines at a level between 0 and 1, in a fixed order."""
        follows: dict[Edge, Edge] = {}
        for j in range(self.rows - 1):
            for i in range(self.columns - 1):
                for start, end in _PIECES.get(self._case(i, j, level), ()):
                    follows[_edge(i, j, start)] = _edge(i, j, end)
        while follows:
            first = next(iter(follows))
            line, edge = [], first
            while edge in follows:
                line.append(self._crossing(edge, level))
                edge = follows.pop(edge)
            yield thinned(tuple(line), self.step * 0.08)

    def _case(self, i: int, j: int, level: float) -> int:
        corners = ((i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1))
        return sum(1 << k for k, (x, y) in enumerate(corners) if self.values[y][x] > level)

    def _crossing(self, edge: Edge, level: float) -> Point:
        i, j, upright = edge
        first, second = self.values[j][i], self.values[j + upright][i + (1 - upright)]
        share = (level - first) / (second - first)
        return self.at(i, j + share) if upright else self.at(i + share, j)


def _edge(i: int, j: int, side: int) -> Edge:
    return ((i, j, 0), (i + 1, j, 1), (i, j + 1, 0), (i, j, 1))[side]


def thinned(points: Points, slack: float) -> Points:
    """A line without the corners that lie within ``slack`` of the straight way (Douglas and Peucker's rule).

    >>> thinned(((0.0, 0.0), (1.0, 0.001), (2.0, 0.0), (2.0, 2.0)), 0.01)
    ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0))
    """
    if len(points) < 3:
        return points
    offs = [_off(points[0], points[-1], point) for point in points]
    far = max(range(len(points)), key=lambda k: (offs[k], -k))
    if offs[far] <= slack:
        return points[0], points[-1]
    return (*thinned(points[: far + 1], slack)[:-1], *thinned(points[far:], slack))


def _off(start: Point, end: Point, point: Point) -> float:
    """Distance of a point from a straight piece."""
    (ax, ay), (bx, by), (x, y) = start, end, point
    dx, dy = bx - ax, by - ay
    length = dx * dx + dy * dy
    share = 0.0 if length == 0 else min(1.0, max(0.0, ((x - ax) * dx + (y - ay) * dy) / length))
    return math.hypot(x - ax - share * dx, y - ay - share * dy)
