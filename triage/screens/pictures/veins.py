"""Veins as lines: a midrib, side veins, and the fine net between neighbours."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass

from .scene import Point, Points

HalfWidth = Callable[[float, int], float]  # (along, side) → half width


@dataclass(frozen=True)
class Vein:
    """A vein from its root outwards; order 0 is the midrib or a main ray, 1 a side vein, 2 the fine net."""

    points: Points
    order: int
    rank: int = -1  # side veins of one rank are neighbours in their order


def pinnate_veins(half: HalfWidth, pairs: int = 6) -> tuple[Vein, ...]:
    """A midrib with pairs of side veins that bend towards the tip, and a net between them."""
    veins = [Vein(((0.0, 0.0), (0.0, 0.97)), 0)]
    for side in (-1, 1):
        rank = [_side_vein(half, side, 0.02 + 0.80 * k / pairs) for k in range(pairs + 1)]
        veins += [Vein(points, 1, side) for points in rank]
        veins += _net(rank)
    return tuple(veins)


def _side_vein(half: HalfWidth, side: int, root: float, steps: int = 8) -> Points:
    """From the midrib at ``root`` outwards, rising and bending up, until the edge is near."""
    reach = max(half(root + 0.1, side), half(root, side)) * 1.15
    points: list[Point] = []
    for step in range(steps + 1):
        x = reach * step / steps
        y = root + 0.55 * x + 0.5 * x * x
        if x > half(y, side) * 0.94 and points:
            break
        points.append((side * x, y))
    return tuple(points)


def parallel_veins(half: HalfWidth, lines: int = 3) -> tuple[Vein, ...]:
    """Veins that run side by side from base to tip."""
    veins = [Vein(((0.0, 0.0), (0.0, 0.98)), 0)]
    for side in (-1, 1):
        for line in range(1, lines):
            share = line / lines
            rail = tuple((side * share * half(k / 24, side), k / 24) for k in range(1, 24))
            veins.append(Vein(rail, 1, side))
    return tuple(veins)


def palmate_veins(outline: Points, rays: tuple[float, ...]) -> tuple[Vein, ...]:
    """Main rays from the base (0, 0), side veins off each, and a net between them."""
    angles = sorted({turn for angle in rays for turn in (angle, -angle)})
    veins: list[Vein] = []
    for number, angle in enumerate(angles):
        length = _reach(outline, angle) * 0.94
        ray = tuple(_polar(angle, length * k / 10) for k in range(11))
        veins.append(Vein(ray, 0))
        for side in (-1, 1):
            rank = [_branch(ray[k], angle + side * 46, length * (0.62 - 0.052 * k)) for k in range(1, 11, 2)]
            veins += [Vein(points, 1, 2 * number + (side > 0)) for points in rank]
            veins += _net(rank)
    return tuple(veins)


def _polar(degrees: float, length: float) -> Point:
    return length * math.sin(math.radians(degrees)), length * math.cos(math.radians(degrees))


def _branch(root: Point, degrees: float, length: float) -> Points:
    """A side vein from a root, bending a little back towards its ray."""
    return tuple(
        (root[0] + dx, root[1] + dy) for dx, dy in (_polar(degrees * (1 - 0.05 * k), length * k / 5) for k in range(6))
    )


def _reach(outline: Points, degrees: float) -> float:
    """How far the outline is from the base along a direction."""
    ahead = [point for point in outline if math.hypot(*point) > 0.2]
    best = min(ahead, key=lambda p: (abs((math.degrees(math.atan2(*p)) - degrees + 180) % 360 - 180), p))
    return math.hypot(*best)


def panels(veins: tuple[Vein, ...]) -> list[tuple[Points, Points]]:
    """Neighbouring side veins in pairs: the leaf skin between them is one panel."""
    sides = [vein for vein in veins if vein.order == 1]
    pairs = itertools.pairwise(sides)
    return [(lower.points, upper.points) for lower, upper in pairs if lower.rank == upper.rank]


def panel_area(lower: Points, upper: Points, inner: float, outer: float) -> Points:
    """The four-sided piece of a panel between two shares of its veins, root 0 to edge 1."""
    shares = [inner + (outer - inner) * k / 4 for k in range(5)]
    return tuple([_on(lower, share) for share in shares] + [_on(upper, share) for share in reversed(shares)])


def _net(rank: list[Points]) -> list[Vein]:
    """Rungs and one thin vein between each vein and its neighbour."""
    veins = []
    for lower, upper in itertools.pairwise(rank):
        between = tuple(_middle(_on(lower, k / 6), _on(upper, k / 6)) for k in range(1, 7))
        veins.append(Vein(between, 2))
        for rung in range(1, 6):
            share = rung / 6
            veins.append(Vein((_on(lower, share), _on(between, share * 0.96), _on(upper, share * 0.9)), 2))
    return veins


def _on(points: Points, share: float) -> Point:
    """The place at a share of a line, by its corners."""
    place = share * (len(points) - 1)
    step = min(int(place), len(points) - 2) if len(points) > 1 else 0
    if len(points) < 2:
        return points[0]
    return _between(points[step], points[step + 1], place - step)


def _between(first: Point, second: Point, share: float) -> Point:
    return first[0] + (second[0] - first[0]) * share, first[1] + (second[1] - first[1]) * share


def _middle(first: Point, second: Point) -> Point:
    return _between(first, second, 0.5)
