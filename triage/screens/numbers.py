"""Numbers and units as people read them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..model.quantity import is_open
from ..rules.texts import number_text
from ..water.spoken import spoken_unit
from . import water_words, wording

if TYPE_CHECKING:
    from typing import Protocol

    class Measured(Protocol):
        """What a reading and a line of a report have in common."""

        @property
        def value(self) -> float: ...
        @property
        def unit(self) -> str: ...
        @property
        def bound(self) -> str: ...
        @property
        def low(self) -> float: ...
        @property
        def high(self) -> float: ...
        @property
        def step(self) -> float: ...


def say_number(value: float) -> str:
    """Three digits that count, and no exponent.

    >>> say_number(7.4), say_number(0.000123), say_number(1234.5)
    ('7.4', '0.000123', '1234')
    """
    return number_text(value, 3) if abs(value) < 1000 else f"{value:.0f}"


def say_unit(unit: str) -> str:
    """The unit with a blank before it; nothing where there is none to say.

    >>> say_unit("mg/L"), say_unit("pH")
    (' mg/L', '')
    """
    said = spoken_unit(unit, 0.0)[1]
    return f" {said}" if said else ""


def say_measured(reading: Measured) -> str:
    """A measured value with its bound and unit; as a range where it left open which form was meant."""
    if is_open(reading.bound, reading.step, reading.low, reading.high):
        return f"{wording.RANGE.format(say_number(reading.low), say_number(reading.high))}{say_unit(reading.unit)}"
    return f"{wording.BOUND_WORDS[reading.bound]}{say_number(reading.value)}{say_unit(reading.unit)}"


def say_amount(value: float, unit: str) -> str:
    """A value with its unit as it is said.

    >>> say_amount(0.0502, "fraction"), say_amount(0.36, "of the limit"), say_amount(7.2, "pH")
    ('5.02 %', '0.36 of the limit', '7.2')
    """
    factor, said = spoken_unit(unit, value)
    return f"{say_number(value * factor)} {said}".rstrip()


def say_span(low: float, high: float, unit: str) -> str:
    """A range as it is said, without its unit; nothing where both ends are one.

    >>> say_span(0.05, 0.1, "fraction"), say_span(7, 7, "pH"), say_span(2, float("inf"), "h")
    ('5 to 10', '', 'from 2 on')
    """
    if high <= low:
        return ""
    factor, _ = spoken_unit(unit, low, high)
    if high == float("inf"):
        return water_words.FROM_ON.format(say_number(low * factor))
    return wording.RANGE.format(say_number(low * factor), say_number(high * factor))
