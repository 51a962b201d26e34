"""What is due as a calendar file, read back (RFC 5545)."""

from __future__ import annotations

from datetime import date, timedelta

from icalendar import Calendar, Event

from triage.report.calendar import render_calendar
from triage.report.due_report import DueLine, DueReport

LOOK = DueLine(
    kind="look", due="2026-05-14", late=-1, say="Look again at pak choi; leaves, roots, and \\ stems.", case=2,
    command="triage case recheck 2",
)  # fmt: skip
LATE = DueLine(
    kind="step", due="2026-05-10", late=3, say="Basil: " + "rinse, " * 20 + "done.", case=1, treatment="rinse-leaves"
)
NEVER = DueLine(kind="test", due="2026-05-13", late=0, say="Test pH (never tested).", quantity="ph", name="pH")
REPORT = DueReport(on="2026-05-13", due=(LATE, NEVER), coming=(LOOK,))


def events(file: bytes) -> list[Event]:
    return [part for part in Calendar.from_ical(file).walk("VEVENT") if isinstance(part, Event)]


def test_it_reads_back_as_all_day_events() -> None:
    step, never, look = events(render_calendar(REPORT))
    for event, line in ((step, LATE), (never, NEVER), (look, LOOK)):
        assert str(event["summary"]) == line.say
        first, last = event.decoded("dtstart"), event.decoded("dtend")
        assert type(first) is date
        assert last - first == timedelta(days=1)
        assert event.decoded("dtstamp").utcoffset() == timedelta(0)
    assert look.decoded("dtstart") == date(2026, 5, 14)
    assert str(look["description"]).splitlines() == [LOOK.say, LOOK.command]


def test_what_is_late_stands_on_today() -> None:
    assert events(render_calendar(REPORT))[0].decoded("dtstart") == date(2026, 5, 13)


def test_it_is_a_calendar_by_the_letter() -> None:
    """RFC 5545: CRLF at the end of each line (3.1), at most 75 octets a line (3.1), version and prodid once (3.6)."""
    file = render_calendar(REPORT)
    lines = file.split(b"\r\n")
    assert lines.pop() == b""
    assert not any(b"\n" in line or b"\r" in line for line in lines)
    assert max(map(len, lines)) <= 75
    assert [line for line in lines if line.startswith(b"VERSION")] == [b"VERSION:2.0"]
    assert sum(line.startswith(b"PRODID:") for line in lines) == 1
    for need in (b"UID", b"DTSTAMP", b"DTSTART"):
        assert sum(line.startswith(need) for line in lines) == 3


def test_the_same_report_gives_the_same_file() -> None:
    assert render_calendar(REPORT) == render_calendar(REPORT)


def uids(report: DueReport) -> list[str]:
    return [str(event["uid"]) for event in events(render_calendar(report))]


def test_the_same_thing_has_the_same_uid_on_another_day() -> None:
    later = DueLine(kind="look", due="2026-05-14", late=1, say=LOOK.say, case=2, command=LOOK.command)
    still = DueLine(kind="test", due="2026-05-15", late=0, say=NEVER.say, quantity="ph", name="pH")
    again = uids(DueReport(on="2026-05-15", due=(later, still), coming=()))
    assert again == [uids(REPORT)[2], uids(REPORT)[1]]


def test_different_things_have_different_uids() -> None:
    alarms = tuple(
        DueLine(kind="alarm", due="2026-05-13", late=0, say=say, case=2) for say in ("Gasping.", "Chlorine.")
    )
    other = DueLine(kind="look", due="2026-05-24", late=-11, say=LOOK.say, case=2, command=LOOK.command)
    beds = tuple(DueLine(kind="watch", due="2026-05-13", late=0, say="Look.", case=2, bed=bed) for bed in ("1", "2"))
    every = uids(DueReport(on="2026-05-13", due=(*alarms, *beds, LATE, NEVER), coming=(LOOK, other)))
    assert len(set(every)) == len(every) == 8
