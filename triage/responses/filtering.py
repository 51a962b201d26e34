"""What is known of the bacteria in the filter."""

from __future__ import annotations

from typing import Literal

from ..model.substance import FilterEffect, Substance
from .endpoint import to_mg_l

FilterData = Literal["harmed", "level-unknown", "none-seen", "none"]
_HARMS = frozenset({"slowed", "stopped"})
#: As for toxicity: what nobody read in a source makes nothing milder.
_WEAK_READS = frozenset({"memory", "computed"})


def filter_level_mg_l(substance: Substance) -> float | None:
    """The lowest level known to slow or stop the filter, mg/L; None where no level is known."""
    levels = [level for row in substance.filter if (level := _level(row, substance)) is not None]
    return min(levels, default=None)


def filter_data(substance: Substance) -> FilterData:
    """How much was read in a source: a harmful level, a harm without a level, a test without harm, or nothing.

    A harm that was only recalled is still told; a test without harm that was only recalled is not.
    """
    read = [row for row in substance.filter if row.read not in _WEAK_READS]
    if any(_level(row, substance) is not None for row in read):
        return "harmed"
    if any(row.effect in _HARMS and row.at is None for row in substance.filter):
        return "level-unknown"
    return "none-seen" if any(row.effect == "none-seen" for row in read) else "none"


def _level(row: FilterEffect, substance: Substance) -> float | None:
    """The level in mg/L of what the substance is counted as; one of a metal as it is where its share is not known."""
    if row.effect not in _HARMS or row.at is None:
        return None
    level = to_mg_l(row.at, row.unit, substance)
    if level is None or row.basis not in ("metal", "element") or substance.element_share is None:
        return level
    return level / substance.element_share.value
