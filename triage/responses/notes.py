"""What was taken for granted about this water because nobody measured it, in words."""

from __future__ import annotations

from collections.abc import Iterator

from ..model.substance import Chemistry, Substance
from . import words
from .toxicity import Lookup, becomes_ammonia

#: Whether a measure is wanted, told by what a substance is.
_MOVES_PH = frozenset({"raises-ph", "lowers-ph"})


def water_notes(lookup: Lookup) -> tuple[str, ...]:
    """One line for each figure that was assumed on the careful side."""
    return tuple(dict.fromkeys([*_assumed(lookup), *_unplaced(lookup)]))


def moves_ph(substance: Substance) -> bool:
    """Whether the substance moves pH."""
    return substance.alkalinity_per_g is not None or not _MOVES_PH.isdisjoint(substance.traits)


def draws_oxygen(substance: Substance) -> bool:
    """Whether bacteria eat it and draw oxygen."""
    return substance.oxygen_demand is not None or "oxygen-eater" in substance.traits


def _assumed(lookup: Lookup) -> Iterator[str]:
    water, margin = lookup.water, lookup.assumed.margin
    if moves_ph(lookup.substance) and water.reading("alkalinity") is None:
        yield words.ALKALINITY_UNMEASURED.format(f"{margin('alkalinity-unmeasured'):g}")
    if draws_oxygen(lookup.substance) and water.reading("oxygen") is None and water.oxygen_mg_l is None:
        yield words.OXYGEN_UNMEASURED.format(f"{margin('oxygen-unmeasured'):g}")
    if becomes_ammonia(lookup.substance) and water.reading("ammonia-acute-limit") is None:
        yield words.AMMONIA_LIMIT_UNMEASURED.format(f"{margin('ammonia-limit-unmeasured'):g}")


def _unplaced(lookup: Lookup) -> Iterator[str]:
    """The chemistry that values hang on and nobody measured; one measured is enough to place them."""
    hang = [name for name in lookup.substance.depends_on if _several_waters(lookup.substance, name)]
    if hang and not any(lookup.water.reading(name) is not None for name in hang):
        names = words.OR.join(words.CHEMISTRY[name] for name in hang)
        yield words.WATER_UNMEASURED.format(names)


def _several_waters(substance: Substance, chemistry: Chemistry) -> bool:
    return len({row.conditions[chemistry] for row in substance.toxicity if chemistry in row.conditions}) > 1
