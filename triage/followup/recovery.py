"""When a plant should be better: the days its cause says, longer where it is cold."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date, timedelta

from ..model.book import Book
from ..model.cause import Cause
from ..model.quantity import Reading
from ..water.latest import current_readings

#: The warmth a plant grows in: the air around it, or else the water at its roots.
_WARMTH = ("air-temperature", "temperature")


def warmth_factor(temperature_c: float | None, *, at_c: float, stops_c: float, longest: float) -> float:
    """How many times the usual days it takes at a temperature (None: the usual).

    Leaves come at a rate proportional to the warmth above the temperature at which growth stops (thermal time;
    escarole: 4.7 °C, Horticultura Brasileira). Warmer than usual is not counted as faster.

    >>> warmth_factor(12.85, at_c=21, stops_c=4.7, longest=3)
    2.0
    >>> warmth_factor(2, at_c=21, stops_c=4.7, longest=3), warmth_factor(None, at_c=21, stops_c=4.7, longest=3)
    (3, 1.0)
    """
    if temperature_c is None or temperature_c >= at_c:
        return 1.0
    if temperature_c <= stops_c:
        return longest
    return min(longest, round((at_c - stops_c) / (temperature_c - stops_c), 9))


def recovery_days(book: Book, cause: Cause, temperature_c: float | None) -> int:
    """Days until a plant with this cause is better once it is treated, at this temperature (°C)."""
    usual = cause.expect.better_within_days or book.margins["recovery-days-unsaid"].value
    return math.ceil(usual * slowness(book, temperature_c))


def look_again_days(book: Book, cause: Cause | None) -> int:
    """Days until the next look at a plant with this cause."""
    said = cause.expect.look_again_days if cause else None
    return said or int(book.margins["look-again-unsaid"].value)


def slowness(book: Book, temperature_c: float | None) -> float:
    """How many times the usual days growth takes at a temperature (°C)."""
    at, stops, longest = (
        book.margins[name].value for name in ("recovery-days-at", "growth-stops-below", "longest-recovery")
    )
    return warmth_factor(temperature_c, at_c=at, stops_c=stops, longest=longest)


def warmth(readings: Sequence[Reading], on: str) -> float | None:
    """The temperature (°C) the plants grow in, as last measured by a day; None if nobody measured."""
    known = {item.reading.quantity: item.reading.value for item in current_readings(readings, on)}
    return next((known[quantity] for quantity in _WARMTH if quantity in known), None)


def days_between(earlier: str, later: str) -> int:
    """Days from one ISO date to another.

    >>> days_between("2026-05-04", "2026-05-18")
    14
    """
    return (date.fromisoformat(later) - date.fromisoformat(earlier)).days


def day_after(day: str, days: float) -> str:
    """The ISO date so many days later, fractions rounded up.

    >>> day_after("2026-05-04", 3.5)
    '2026-05-08'
    """
    try:
        return (date.fromisoformat(day) + timedelta(days=math.ceil(days))).isoformat()
    except OverflowError:
        return date.max.isoformat()
