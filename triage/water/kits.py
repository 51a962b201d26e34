"""What a kit can tell: the span of true values behind one printed number."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable

from ..errors import UsageError, nearest
from ..model.interval import Interval
from ..model.quantity import Quantity

#: Kinds of kit: those that read in steps, and those whose number is taken as it stands.
STEPPED = ("card", "drops", "strip")
EXACT = ("meter", "lab")


def check_kit(kit: str, quantities: Iterable[Quantity]) -> str:
    """The kit's name if it is known, else UsageError with the allowed ones."""
    allowed = {*STEPPED, *EXACT, *(name for quantity in quantities for name in quantity.kits)}
    if kit and kit not in allowed:
        raise UsageError(f"no kit '{kit}' (allowed: {', '.join(sorted(allowed))}{nearest(kit, allowed)})")
    return kit


def points_span(points: list[float], printed: float) -> Interval:
    """True values for which somebody would pick this colour: half-way to the neighbours, open at the ends.

    >>> points_span([6.0, 6.4, 6.6, 7.0], 6.4), points_span([6.0, 6.4, 6.6, 7.0], 7.0)
    (Interval(low=6.2, high=6.5), Interval(low=6.8, high=inf))
    >>> points_span([6.0, 6.4, 6.6, 7.0], 6.7)  # read between two colours
    Interval(low=6.6, high=7.0)
    """
    ordered = sorted(points)
    place = bisect_left(ordered, printed)
    on_point = place < len(ordered) and ordered[place] == printed
    below = ordered[place - 1] if place else -math.inf
    above = ordered[place + on_point] if place + on_point < len(ordered) else math.inf
    if not on_point:
        return Interval(below, above)
    return Interval((below + printed) / 2, (above + printed) / 2)


def points_of(quantity: Quantity, kit: str) -> list[float]:
    """Numbers printed on this kit for this quantity (those of the usual card for a kit not listed); empty for none."""
    return quantity.kits.get(kit) or (quantity.kits.get("card", []) if kit and kit not in EXACT else [])


def kit_span(quantity: Quantity, kit: str, printed: float, times: float) -> Interval:
    """Span behind a printed number of a kit.

    Args:
        quantity: what was measured.
        kit: kind of kit, or empty for a plain number.
        printed: the number as read.
        times: factor from the printed unit to the quantity's own (its step is kept in its own unit).

    Returns:
        Interval in the printed unit; a single point where nothing is known of the kit's steps.
    """
    if kit in EXACT or not kit:
        return Interval.exactly(printed)
    if points := points_of(quantity, kit):
        return points_span(points, printed)
    half = quantity.kit_step / 2 / times
    return Interval(printed - half, printed + half)
