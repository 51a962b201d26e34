"""What follows from the readings: derived values with the range that the readings leave open.

Every formula rises or falls steadily with each of its inputs, so its lowest and highest value over a box of intervals
lie at corners of the box: both ends of every input are tried, and nothing between.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

import msgspec

from ..model.interval import Interval
from ..model.quantity import Reading
from .formulas import MADE_FOR, Formula, formulas
from .oxygen import HPA_PER_ATM, pressure_at_altitude_atm


class WorkedOut(msgspec.Struct, frozen=True, kw_only=True):
    """A value that was worked out, with its range, unit and source."""

    value: float
    low: float
    high: float
    unit: str
    source: str
    note: str = ""


class Derived(WorkedOut, frozen=True, kw_only=True):
    """A derived value; ``quantity`` is the id that rules know it by."""

    name: str
    quantity: str


class _Known(msgspec.Struct, frozen=True):
    """Point and range of something known, and what was assumed to know it."""

    value: float
    low: float
    high: float
    assumed: str = ""


def derive_values(
    readings: Sequence[Reading], *, salmonids: bool, altitude_m: float | None = None, volume_l: float | None = None,
    least_oxygen_mg_l: float | None = None,
) -> tuple[Derived, ...]:  # fmt: skip
    """Everything that the readings allow to work out, over the corners of their intervals.

    Args:
        readings: one per quantity (of two, the later counts).
        salmonids: whether trout, char or salmon are kept.
        altitude_m: metres above the sea, where no pressure or altitude was read; sea level is assumed otherwise.
        volume_l: water in the system, L; needed for the days that alkalinity lasts.
        least_oxygen_mg_l: oxygen that the animals kept just bear; needed for the hours that oxygen lasts.

    Returns:
        In the order of the formulas. ``value`` is the formula at the readings' points; ``low`` and ``high`` hold for
        any values within their intervals.
    """
    known = _known(readings, altitude_m, volume_l)
    if least_oxygen_mg_l is not None:
        known["least-oxygen"] = _Known(least_oxygen_mg_l, least_oxygen_mg_l, least_oxygen_mg_l)
    found: list[Derived] = []
    for formula in formulas(salmonids=salmonids):
        named = any(derived.name == formula.name for derived in found)
        if not named and all(need in known for need in formula.needs):
            derived = _derive(formula, known)
            found.append(derived)
            known.setdefault(formula.quantity, _Known(derived.value, derived.low, derived.high))
    return tuple(found)


def derived_readings(measured: Sequence[Reading], derived: Sequence[Derived]) -> tuple[Reading, ...]:
    """Derived values as readings that rules can use; what was measured is not given again."""
    given = {reading.quantity for reading in measured}
    return tuple(as_reading(value) for value in derived if value.quantity not in given)


def as_reading(derived: Derived) -> Reading:
    """A derived value as a reading that rules can use."""
    return Reading(
        quantity=derived.quantity, value=derived.value, unit=derived.unit, low=derived.low, high=derived.high,
        note=derived.note, derived=True,
    )  # fmt: skip


def _known(readings: Sequence[Reading], altitude_m: float | None, volume_l: float | None) -> dict[str, _Known]:
    known = {reading.quantity: _Known(reading.value, reading.low, reading.high) for reading in readings}
    known.setdefault("salinity", _Known(0, 0, 0))
    if "pressure" not in known:
        known["pressure"] = _pressure(known.get("altitude"), altitude_m)
    if volume_l is not None and volume_l > 0:
        known["volume"] = _Known(volume_l, volume_l, volume_l)
    return known


def _pressure(altitude: _Known | None, altitude_m: float | None) -> _Known:
    assumed = ""
    if altitude is None:
        metres = altitude_m if altitude_m is not None else 0.0
        altitude = _Known(metres, metres, metres)
        assumed = "sea level assumed" if altitude_m is None else ""
    at = [pressure_at_altitude_atm(metres) * HPA_PER_ATM for metres in (altitude.value, altitude.high, altitude.low)]
    return _Known(at[0], at[1], at[2], assumed)


def _derive(formula: Formula, known: dict[str, _Known]) -> Derived:
    inputs = [known[need] for need in formula.needs]
    spans = [_interval(formula.of(*corner)) for corner in product(*((given.low, given.high) for given in inputs))]
    point = _interval(formula.of(*(given.value for given in inputs)))
    return Derived(
        name=formula.name, quantity=formula.quantity, value=point.middle, unit=formula.unit, source=formula.source,
        low=min(point.low, *(span.low for span in spans)), high=max(point.high, *(span.high for span in spans)),
        note="; ".join(_notes(formula, known)),
    )  # fmt: skip


def _interval(result: float | Interval) -> Interval:
    return result if isinstance(result, Interval) else Interval.exactly(result)


def _notes(formula: Formula, known: dict[str, _Known]) -> list[str]:
    found = [known[need].assumed for need in formula.needs if known[need].assumed]
    for need, low, high in MADE_FOR.get(formula.source, ()):
        if need in formula.needs and (known[need].low < low or known[need].high > high):
            found.append(f"the formula was made for {need} {low:g} to {high:g}")
    return found
