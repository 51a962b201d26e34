"""Units as growers write them: which unit a text names, and values in and out of a quantity's own unit."""

from __future__ import annotations

import re
import unicodedata

from ..errors import UsageError, nearest
from ..model.quantity import Quantity, Unit

_NOISE = r"\bas\b|[\s°_\-()]"


def plain_unit(text: str) -> str:
    """A unit's spelling without case, blanks, hyphens and degree signs.

    >>> plain_unit("mg/L as NO3"), plain_unit("µS/cm") == plain_unit("us/cm"), plain_unit("°F")
    ('mg/lno3', True, 'f')
    """
    folded = unicodedata.normalize("NFKC", text).casefold().replace("μ", "u")
    return re.sub(_NOISE, "", folded)


def _spellings(quantity: Quantity) -> dict[str, list[str]]:
    """Unit name → its plain spellings, the quantity's own unit first."""
    found = {quantity.unit: [plain_unit(quantity.unit)]}
    for name, unit in quantity.units.items():
        found[name] = [plain_unit(word) for word in (name, *unit.also)]
    return found


def units_meant(quantity: Quantity, text: str) -> tuple[str, ...]:
    """The units of a quantity that a text may mean: one, or several where the form is not said.

    Args:
        quantity: the quantity measured.
        text: the unit as typed; empty when none was.

    Returns:
        Unit names of the quantity. More than one only where ``unit-needed`` lists them and the text is empty or the
        common beginning of several ('mg/L' for nitrate, 'ppm' for EC).

    Raises:
        UsageError: the text names no unit of this quantity.
    """
    plain, spellings = plain_unit(text), _spellings(quantity)
    if not plain:
        return tuple(quantity.unit_needed) or (quantity.unit,)
    for name, words in spellings.items():
        if plain in words:
            return (name,)
    begun = [name for name in quantity.unit_needed if any(word.startswith(plain) for word in spellings[name])]
    if len(begun) > 1:
        return tuple(begun)
    raise UsageError(
        f"{quantity.quantity}: no unit '{text}' (allowed: {', '.join(spellings)}{nearest(text, spellings)})"
    )


def _factor(quantity: Quantity, unit: str) -> Unit:
    return quantity.units.get(unit) or Unit(times=1.0)


def to_own_unit(quantity: Quantity, value: float, unit: str) -> float:
    """A value of a named unit in the quantity's own unit.

    Args:
        quantity: the quantity measured.
        value: in ``unit``.
        unit: a unit name of the quantity.

    Returns:
        Value in ``quantity.unit``.

    >>> celsius = Quantity(quantity="temperature", name="", unit="°C", possible=[-2, 50], sources=[],
    ...     units={"°F": Unit(times=5 / 9, plus=-160 / 9)})
    >>> round(to_own_unit(celsius, 77, "°F"), 9)
    25.0
    """
    factor = _factor(quantity, unit)
    return value * factor.times + factor.plus


def from_own_unit(quantity: Quantity, value: float, unit: str) -> float:
    """A value of the quantity's own unit in a named unit; the inverse of :func:`to_own_unit`.

    Args:
        quantity: the quantity measured.
        value: in ``quantity.unit``.
        unit: a unit name of the quantity.

    Returns:
        Value in ``unit``.

    >>> dkh = Quantity(quantity="alkalinity", name="", unit="mg/L CaCO3", possible=[0, 3000], sources=[],
    ...     units={"dKH": Unit(times=17.848)})
    >>> round(from_own_unit(dkh, 71.4, "dKH"), 1)
    4.0
    """
    factor = _factor(quantity, unit)
    return (value - factor.plus) / factor.times


def in_other_units(quantity: Quantity, value: float) -> dict[str, float]:
    """A value of the quantity's own unit in every other unit of it, to four digits.

    Args:
        quantity: the quantity measured.
        value: in ``quantity.unit``.

    Source: fao589 prints 50 mg/L of calcium carbonate as 2.8 degrees.

    >>> dkh = Quantity(quantity="alkalinity", name="", unit="mg/L CaCO3", possible=[0, 3000], sources=[],
    ...     units={"mg/L CaCO3": Unit(times=1), "dKH": Unit(times=17.848)})
    >>> in_other_units(dkh, 50)
    {'dKH': 2.801}
    """
    others = [name for name in quantity.units if name != quantity.unit]
    return {name: float(f"{from_own_unit(quantity, value, name):.4g}") for name in others}
