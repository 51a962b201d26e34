"""The readings of a journal that say something about the water of a day and its drift."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..followup.recovery import day_after
from ..model.quantity import Reading

if TYPE_CHECKING:
    from ..journal import Journal

#: Readings older than this say nothing about the water of a day or its drift.
READINGS_DAYS = 120


def readings_until(journal: Journal, on: str, *, since: str = "") -> tuple[Reading, ...]:
    """Those of the months before a day (or before the earlier day ``since``), later ones left out."""
    first = day_after(min(on, since or on), -READINGS_DAYS)
    return tuple(reading for reading in journal.readings_by_day(first) if reading.on <= on)
