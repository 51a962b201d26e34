"""Samples diluted before the test, because the kit's card ends too soon."""

from __future__ import annotations

import re

import msgspec

from ..errors import UsageError
from ..model.quantity import Reading
from .values import parse_number

#: What dilution does not scale: pH and warmth are no amounts in the water.
NO_AMOUNT = frozenset({"pH", "°C"})


def dilution_factor(text: str) -> float:
    """By how much the kit's number is multiplied.

    Args:
        text: sample and tube in the same unit, ``0.5/6`` (0.5 mL filled up to 6 mL), or the factor itself, ``12``.

    Returns:
        Factor, 1 or more.

    Raises:
        UsageError: the text is neither, or the tube holds less than the sample.

    Source: farm-notes-nitrite.

    >>> dilution_factor("0.5/6"), dilution_factor("12"), dilution_factor("0.5 mL to 6 mL")
    (12.0, 12.0, 12.0)
    """
    parts = [part for part in re.split(r"/|\bto\b|\bin\b", re.sub(r"\s*m[lL]\b", "", text)) if part.strip()]
    try:
        numbers = [parse_number(part.strip()) for part in parts]
    except UsageError:
        numbers = []
    if len(numbers) == 2 and numbers[0] > 0:
        numbers = [numbers[1] / numbers[0]]
    if len(numbers) != 1 or not 1 <= numbers[0] < 10000:
        raise UsageError(f"--diluted {text}: write sample and tube in mL, for example 0.5/6 (0.5 mL filled up to 6 mL)")
    return numbers[0]


def undiluted(reading: Reading, factor: float) -> Reading:
    """The water itself, where the kit was shown a diluted sample.

    Args:
        reading: as the kit gave it.
        factor: see :func:`dilution_factor`.

    Returns:
        The reading times the factor, with its spread and a note.

    Raises:
        UsageError: the quantity is no amount in the water.
    """
    if factor == 1:
        return reading
    if reading.unit in NO_AMOUNT:
        raise UsageError(f"{reading.quantity}: a diluted sample does not tell it")
    note = "; ".join(part for part in (reading.note, f"diluted sample: times {factor:g}") if part)
    value, low, high, step = (number * factor for number in (reading.value, reading.low, reading.high, reading.step))
    return msgspec.structs.replace(reading, value=value, low=low, high=high, step=step, note=note)
