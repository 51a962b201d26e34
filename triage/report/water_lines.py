"""What the water means for each nutrient and each crop, in lines of a report."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from ..model.crop import Crop
from ..model.facts import RulesOutcome
from ..model.quantity import Quantity, Reading
from ..water.salts import yield_percent

#: Of several states the first counts as the headline; the others are told beside it.
STATES = ("locked", "scarce", "antagonised", "too-much", "enough")
UNKNOWN, BETWEEN = "unknown", "between"


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


class CropLine(msgspec.Struct, frozen=True, kw_only=True):
    """One crop and the salt in the water; yields by the published straight line of soil, a rough guide for water."""

    crop: str
    name: str
    threshold_ds_m: float
    ec_ms_cm: float
    yield_low: float | None
    yield_high: float | None
    above: bool
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


def crop_lines(crops: Sequence[Crop], readings: Sequence[Reading]) -> tuple[CropLine, ...]:
    """The crops grown for which a threshold of salt is published; nothing where nobody measured conductivity."""
    ec = next((reading for reading in readings if reading.quantity == "ec"), None)
    if ec is None:
        return ()
    return tuple(
        CropLine(
            crop=crop.crop, name=crop.name, threshold_ds_m=crop.salt_threshold_ds_m, ec_ms_cm=ec.value,
            yield_low=_yield(crop, ec.high), yield_high=_yield(crop, ec.low), above=ec.high > crop.salt_threshold_ds_m,
            sources=tuple(crop.sources),
        )
        for crop in crops
        if crop.salt_threshold_ds_m is not None
    )  # fmt: skip


def _yield(crop: Crop, ec_ms_cm: float) -> float | None:
    if crop.salt_slope_percent is None or crop.salt_threshold_ds_m is None:
        return None
    return yield_percent(ec_ms_cm, crop.salt_threshold_ds_m, crop.salt_slope_percent)
