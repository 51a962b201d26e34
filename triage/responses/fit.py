"""Whether a treatment fits the crop and the climate here."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from ..model.crop import Crop
from ..model.quantity import Reading
from ..model.substance import Substance
from ..model.treatment import Treatment
from . import words

#: What a treatment's climate speaks of is the air around the plant.
_MEASURED_AS = {"temperature": "air-temperature"}


class Circumstances(msgspec.Struct, frozen=True, kw_only=True):
    """The crop, what was measured, the substances of the book by id, and those that are at hand (none: not told)."""

    substances: Mapping[str, Substance] = {}
    crop: Crop | None = None
    readings: tuple[Reading, ...] = ()
    shelf: frozenset[str] = frozenset()

    def at_hand(self, treatment: Treatment) -> bool:
        """Whether everything it takes is at hand; true where nobody told what is."""
        return not self.shelf or self.shelf.issuperset(treatment.substances)


def misfit(treatment: Treatment, here: Circumstances) -> list[str]:
    """Why a treatment does not suit this crop or this climate; nothing if it does, or if it is not known."""
    return [*_burns(treatment, here), *_climate(treatment, here)]


def _burns(treatment: Treatment, here: Circumstances) -> list[str]:
    if here.crop is None:
        return []
    sensitive = [name for name in treatment.substances if name in here.crop.sensitive]
    return [words.BURNS.format(substance=_name(here, name), crop=words.inside(here.crop.name)) for name in sensitive]


def _name(here: Circumstances, substance: str) -> str:
    return here.substances[substance].name if substance in here.substances else substance


def _climate(treatment: Treatment, here: Circumstances) -> list[str]:
    """Only what is certainly outside the range; a reading that straddles an end decides nothing."""
    reasons = []
    for quantity, ends in treatment.climate.items():
        wanted = _MEASURED_AS.get(quantity, quantity)
        reading = next((r for r in here.readings if r.quantity == wanted), None)
        if reading is None or len(ends) != 2:
            continue
        low, high = ends
        if reading.interval.certainly_below(low) or reading.interval.certainly_above(high):
            unit, what = f" {reading.unit}" if reading.unit else "", words.MEASURES.get(wanted, wanted)
            ends_said = {"low": f"{low:g}", "high": f"{high:g}", "here": f"{reading.value:g}"}
            reasons.append(words.CLIMATE.format(unit=unit, what=what, **ends_said))
    return reasons
