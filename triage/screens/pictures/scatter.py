"""Even, natural-looking scatter without chance: the same numbers give the same picture everywhere."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

#: Steps of the two-dimensional golden-ratio sequence: 1/g and 1/g², g the root of g³ = g + 1.
_G = 1.32471795724474602596
_STEP_X, _STEP_Y = 1 / _G, 1 / _G**2


def shuffled(number: int, salt: int = 0) -> float:
    """A number in [0, 1) that looks like chance and is not (integer mixing, 32 bits).

    >>> shuffled(1) == shuffled(1), 0 <= shuffled(7, 3) < 1, shuffled(1) != shuffled(2)
    (True, True, True)
    """
    mixed = (number * 0x9E3779B1 + salt * 0x85EBCA6B + 0x27D4EB2F) & 0xFFFFFFFF
    for _ in range(2):
        mixed = ((mixed ^ (mixed >> 15)) * 0x2C1B3C6D) & 0xFFFFFFFF
        mixed = ((mixed ^ (mixed >> 12)) * 0x297A2D39) & 0xFFFFFFFF
    return ((mixed ^ (mixed >> 15)) & 0xFFFFFFFF) / 2**32


def spread(salt: int = 0) -> Iterator[tuple[float, float]]:
    """Places in the unit square that fill it evenly, however many are taken."""
    start_x, start_y = shuffled(1, salt), shuffled(2, salt)
    number = 0
    while True:
        number += 1
        yield (start_x + number * _STEP_X) % 1.0, (start_y + number * _STEP_Y) % 1.0


def clouds(x: float, y: float, salt: int = 0) -> float:
    """Smooth hills and valleys between 0 and 1, about one hill a unit.

    >>> 0 <= clouds(0.3, 2.7) <= 1, abs(clouds(0.5, 0.5) - clouds(0.501, 0.5)) < 0.01
    (True, True)
    """
    left, top = math.floor(x), math.floor(y)
    fx, fy = _ease(x - left), _ease(y - top)
    upper = _mix(_knot(left, top, salt), _knot(left + 1, top, salt), fx)
    lower = _mix(_knot(left, top + 1, salt), _knot(left + 1, top + 1, salt), fx)
    return _mix(upper, lower, fy)


@lru_cache(maxsize=4096)
def _knot(x: int, y: int, salt: int) -> float:
    return shuffled((x & 0xFFFF) * 65537 + (y & 0xFFFF), salt)


def _mix(first: float, second: float, share: float) -> float:
    return first + (second - first) * share


def _ease(part: float) -> float:
    return part * part * (3 - 2 * part)


def ramp(value: float, low: float, high: float) -> float:
    """0 at ``low``, 1 at ``high``, smooth between; falling when high is below low.

    >>> ramp(0, 0, 1), ramp(0.5, 0, 1), ramp(2, 0, 1), ramp(0, 1, 0)
    (0.0, 0.5, 1.0, 1.0)
    """
    return _ease(min(1.0, max(0.0, (value - low) / (high - low))))
