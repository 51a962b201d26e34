"""What is due in a garden: its journal and the rules on one side, the list on the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..followup.due import ALARM_DAYS, OVER_DAYS, UNSAID_WAIT_DAYS, list_due
from ..followup.recovery import day_after, days_between
from ..followup.watching import list_plots, list_watch
from ..model.book import Book
from ..model.case import Case, System
from ..model.outcome import AlarmRaised
from ..model.quantity import Reading
from ..reasoning import Engines
from ..report.due_report import DueReport
from ..responses.wording import harvest_wait
from .cases import list_open
from .readings import readings_until

if TYPE_CHECKING:
    from ..journal import Journal


def due_on(book: Book, journal: Journal, on: str, *, ahead_days: int = 3) -> DueReport:
    """What is due on a day, and in the days after it, as far as the journal knew on that day."""
    readings = _readings_until(journal, on)
    known = (harvest_wait(each, book.substances) or 0 for each in book.treatments.values())
    waits = max(UNSAID_WAIT_DAYS, *known)
    cases = list_open(book, journal, on, acted_after=day_after(on, -waits - OVER_DAYS - 1))
    system = journal.load_system() or System()
    plots = list_plots(journal.beds(), journal.plants(), system.crops, cases, on)
    return list_due(
        book, cases, readings, on=on, ahead_days=ahead_days, alarms=water_alarms(book, system, readings, on),
        watch=[line for line in list_watch(book, cases, plots, on) if not line.over],
    )  # fmt: skip


def _readings_until(journal: Journal, on: str) -> tuple[Reading, ...]:
    """Those of the last months, and the latest of each quantity however old."""
    latest = (reading for reading in journal.latest_readings() if reading.on <= on)
    return (*latest, *readings_until(journal, on))


def water_alarms(book: Book, system: System, readings: tuple[Reading, ...], on: str) -> tuple[AlarmRaised, ...]:
    """What the water of these days says that cannot wait."""
    fresh = tuple(r for r in readings if r.on and days_between(r.on, on) <= ALARM_DAYS)
    return Engines(book).alarms(Case(on=on, system=system, readings=fresh)) if fresh else ()
