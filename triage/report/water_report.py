"""One report of numbers given for the water: what follows from them, and what to beware of."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from ..model.crop import Crop
from ..model.facts import RulesOutcome
from ..model.quantity import Quantity, Reading
from ..water.derive import Derived
from ..water.limits import Band
from ..water.units import in_other_units
from .water_lines import CropLine, Figure, NutrientLine, crop_lines, nutrient_lines

FORMAT = "triage-water/1"


class DerivedLine(Figure, frozen=True, kw_only=True):
    """What follows from the readings, for one quantity."""

    quantity: str


class Warning_(msgspec.Struct, frozen=True, kw_only=True):
    """Something the water says: ``urgent`` ones are alarms."""

    id: str
    say: str
    because: tuple[str, ...]
    source: tuple[str, ...]
    do: tuple[str, ...] = ()
    urgent: bool = False


class GivenLine(msgspec.Struct, frozen=True, kw_only=True):
    """A reading; ``also``: its value in the other units that people use for it."""

    quantity: str
    name: str
    value: float
    unit: str
    bound: str
    low: float
    high: float
    on: str
    step: float = 0.0
    note: str
    also: dict[str, float] = {}


class WaterReport(msgspec.Struct, frozen=True, kw_only=True):
    """What `water check` gives. ``limits``: what the animals kept bear, for each quantity measured or worked out."""

    format: str = FORMAT
    readings: tuple[GivenLine, ...]
    derived: dict[str, DerivedLine]
    warnings: tuple[Warning_, ...]
    limits: dict[str, Band] = {}
    nutrients: tuple[NutrientLine, ...] = ()
    crops: tuple[CropLine, ...] = ()
    cautions: tuple[str, ...] = ("Ranges hold for the worst ends of what the kits can say.",)


def build_water_report(
    readings: Sequence[Reading], derived: Sequence[Derived], outcome: RulesOutcome, quantities: Mapping[str, Quantity],
    *, bands: Mapping[str, Band] | None = None, crops: Sequence[Crop] = (),
) -> WaterReport:  # fmt: skip
    """Readings, what follows from them, alarms before conclusions, and what that means for animals and crops.

    ``bands`` are what the animals kept bear; ``crops`` those grown.
    """
    known = {reading.quantity for reading in readings} | {value.quantity for value in derived}
    sources = {firing.rule: firing.sources for firing in outcome.firings}
    alarms = [
        Warning_(id=a.id, say=a.say, because=a.because, source=sources.get(a.id, ()), do=a.do, urgent=True)
        for a in outcome.alarms
    ]
    conclusions = [
        Warning_(id=c.id, say=c.because, because=c.facts, source=sources.get(c.rule, ())) for c in outcome.conclusions
    ]
    return WaterReport(
        readings=tuple(_given(reading, quantities) for reading in readings),
        derived={
            d.name: DerivedLine(
                quantity=d.quantity,
                say=quantities[d.quantity].name,
                value=d.value,
                low=d.low,
                high=d.high,
                unit=d.unit,
                source=d.source,
                note=d.note,
            )
            for d in derived
        },
        warnings=(*alarms, *conclusions),
        limits={id_: band for id_, band in (bands or {}).items() if id_ in known},
        nutrients=nutrient_lines(outcome, readings, quantities),
        crops=crop_lines(crops, readings, quantities),
    )


def _given(reading: Reading, quantities: Mapping[str, Quantity]) -> GivenLine:
    return GivenLine(
        quantity=reading.quantity, name=quantities[reading.quantity].name, value=reading.value, unit=reading.unit,
        bound=reading.bound, low=reading.low, high=reading.high, step=reading.step, on=reading.on, note=reading.note,
        also=in_other_units(quantities[reading.quantity], reading.value),
    )  # fmt: skip
