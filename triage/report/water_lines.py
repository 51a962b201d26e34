"""What the water means for each nutrient and each crop, in lines of a report."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from ..model.crop import Crop, CropLimit
from ..model.facts import RulesOutcome
from ..model.quantity import Quantity, Reading
from ..model.record import Read
from ..water.derive import WorkedOut
from ..water.salts import yield_percent

#: Of several states the first counts as the headline; the others are told beside it.
STATES = ("locked", "scarce", "antagonised", "too-much", "enough")
UNKNOWN, BETWEEN = "unknown", "between"


class Figure(WorkedOut, frozen=True, kw_only=True):
    """A value that was worked out, and what it is in words."""

    say: str


class NutrientLine(msgspec.Struct, frozen=True, kw_only=True):
    """One plant nutrient: scarce, locked, antagonised, too-much, enough, between (measured, and no rule speaks), or
    unknown (nobody measured it, and nothing else tells)."""

    quantity: str
    name: str
    state: str
    also: tuple[str, ...]
    measured: bool
    because: tuple[str, ...]
    sources: tuple[str, ...]


class IonLine(msgspec.Struct, frozen=True, kw_only=True):
    """One salt in the water against what one crop bears of it."""

    quantity: str
    name: str
    value: float
    unit: str
    limit: float
    above: bool
    source: str
    read: Read
    note: str


class CropLine(msgspec.Struct, frozen=True, kw_only=True):
    """One crop and the salt in the water: conductivity, and single salts (``ions``) where their limit is published.

    Yields by the published straight line of soil, a rough guide for water; None where nobody measured conductivity.
    """

    crop: str
    name: str
    threshold_ds_m: float | None = None
    ec_ms_cm: float | None = None
    yield_low: float | None = None
    yield_high: float | None = None
    above: bool = False
    ions: tuple[IonLine, ...] = ()
    sources: tuple[str, ...]


def nutrient_lines(
    outcome: RulesOutcome, readings: Sequence[Reading], quantities: Mapping[str, Quantity]
) -> tuple[NutrientLine, ...]:
    """Every nutrient of the book by what the rules concluded, in the book's order."""
    told = {conclusion.id: conclusion for conclusion in outcome.conclusions}
    sources = {firing.rule: firing.sources for firing in outcome.firings}
    measured = {reading.quantity for reading in readings}
    found = []
    for id_, quantity in quantities.items():
        if not quantity.states:
            continue
        drawn = [(state, told[conclusion]) for conclusion, state in quantity.states.items() if conclusion in told]
        states = sorted({state for state, _ in drawn}, key=STATES.index)
        fallback = BETWEEN if id_ in measured else UNKNOWN
        found.append(
            NutrientLine(
                quantity=id_, name=quantity.name, state=states[0] if states else fallback, also=tuple(states[1:]),
                measured=id_ in measured, because=tuple(conclusion.because for _, conclusion in drawn),
                sources=tuple(dict.fromkeys(s for _, c in drawn for s in sources.get(c.rule, ()))),
            )
        )  # fmt: skip
    return tuple(found)


def crop_lines(
    crops: Sequence[Crop], readings: Sequence[Reading], quantities: Mapping[str, Quantity]
) -> tuple[CropLine, ...]:
    """The crops grown for which a limit of salt is published that was measured."""
    known = {reading.quantity: reading for reading in readings}
    lines = [_crop_line(crop, known, quantities) for crop in crops]
    return tuple(line for line in lines if line.ec_ms_cm is not None or line.ions)


def _crop_line(crop: Crop, known: Mapping[str, Reading], quantities: Mapping[str, Quantity]) -> CropLine:
    ions = tuple(_ion(limit, known[limit.quantity], quantities) for limit in crop.limits if limit.quantity in known)
    ec, threshold, sources = known.get("ec"), crop.salt_threshold_ds_m, tuple(crop.sources)
    if ec is None or threshold is None:
        return CropLine(crop=crop.crop, name=crop.name, ions=ions, sources=sources)
    return CropLine(
        crop=crop.crop, name=crop.name, threshold_ds_m=threshold, ec_ms_cm=ec.value, yield_low=_yield(crop, ec.high),
        yield_high=_yield(crop, ec.low), above=ec.high > threshold, ions=ions, sources=sources,
    )  # fmt: skip


def _ion(limit: CropLimit, reading: Reading, quantities: Mapping[str, Quantity]) -> IonLine:
    return IonLine(
        quantity=limit.quantity, name=quantities[limit.quantity].name, value=reading.value, unit=reading.unit,
        limit=limit.high, above=reading.high > limit.high, source=limit.source, read=limit.read, note=limit.note,
    )  # fmt: skip


def _yield(crop: Crop, ec_ms_cm: float) -> float | None:
    if crop.salt_slope_percent is None or crop.salt_threshold_ds_m is None:
        return None
    return yield_percent(ec_ms_cm, crop.salt_threshold_ds_m, crop.salt_slope_percent)
