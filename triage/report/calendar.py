"""What is due as a calendar file (RFC 5545), one all-day event for each thing."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING

from .due_report import DueLine, DueReport

if TYPE_CHECKING:
    from icalendar import Event


def render_calendar(report: DueReport) -> bytes:
    """The file. What is late stands on the day of the report. The same report gives the same bytes.

    There must be something in the report: a calendar without an event is none (RFC 5545, 3.6).
    """
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("prodid", "-//triage//what is due//EN")
    calendar.add("version", "2.0")
    for component in _events((*report.due, *report.coming), report.on):
        calendar.add_component(component)
    return bytes(calendar.to_ical())


def _events(lines: Iterable[DueLine], on: str) -> Iterator[Event]:
    from icalendar import Event

    for line in lines:
        day = date.fromisoformat(max(line.due, on))
        event = Event()
        event.add("uid", f"{_key(line)}@triage.invalid")
        event.add("dtstamp", datetime.fromisoformat(on).replace(tzinfo=UTC))
        event.add("dtstart", day)
        event.add("dtend", day + timedelta(days=1))
        event.add("summary", line.say)
        event.add("description", f"{line.say}\n{line.command}".strip())
        event.add("categories", [line.kind])
        event.add("transp", "TRANSPARENT")
        yield event


def _key(line: DueLine) -> str:
    """One for each thing, the same at every export, so that a calendar updates and does not double it.

    What was never tested is due every day anew, and is one thing all the same.
    """
    due = line.due if line.last or line.kind != "test" else ""
    alarm = line.say if line.kind == "alarm" else ""
    text = "|".join((line.kind, str(line.case), line.treatment, line.quantity, line.bed, line.cause, due, alarm))
    return hashlib.sha256(text.encode()).hexdigest()[:24]
