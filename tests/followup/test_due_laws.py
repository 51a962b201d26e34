"""Laws of what is due, over many made-up gardens."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar

from triage.followup.done import Done
from triage.followup.due import list_due
from triage.followup.standing import Standing
from triage.model.book import Book
from triage.model.quantity import Reading
from triage.report.calendar import render_calendar
from triage.report.due_report import DueLine
from triage.water.readings import parse_assignment

FIRST = date(2026, 5, 1)
DAYS = st.integers(0, 60).map(lambda n: (FIRST + timedelta(days=n)).isoformat())
CAUSES = ["iron-deficiency", "two-spotted-spider-mite", "clubroot", "natural-leaf-ageing", "gone-from-the-book"]
TREATMENTS = ["rinse-leaves", "spinosad-spray", "bifenazate-spray", "iron-chelate-dtpa", "remove-plant", "neem-spray"]
ON = st.integers(0, 90).map(lambda n: (FIRST + timedelta(days=n)).isoformat())

DONE = st.builds(
    lambda treatment, days, times, every: Done(
        treatment=treatment, days=tuple(sorted(days)), times=times, every_days=every
    ),
    st.sampled_from(TREATMENTS), st.lists(DAYS, min_size=1, max_size=4), st.sampled_from([None, 1, 2, 5]),
    st.sampled_from([None, 1.0, 3.5, 21.0]),
)  # fmt: skip
CASE = st.fixed_dictionaries(
    {
        "state": st.sampled_from(["unfinished", "finished", "closed"]),
        "crop": st.sampled_from(["", "basil", "cucumber"]), "plant": st.sampled_from(["", "by the door"]),
        "bed": st.sampled_from(["", "2"]), "on": DAYS, "verdict": st.sampled_from(["", "better", "same", "worse"]),
        "suspects": st.dictionaries(st.sampled_from(CAUSES), st.floats(0, 1), max_size=3),
        "alarms": st.lists(st.sampled_from(["Gasping.", "Chlorine."]), max_size=2, unique=True).map(tuple),
        "done": st.lists(DONE, max_size=2, unique_by=lambda done: done.treatment).map(tuple),
        "next_look": st.one_of(st.just(""), DAYS), "proven": st.sampled_from([None, (), ("clubroot",)]),
    }
)  # fmt: skip
GARDEN = st.lists(CASE, max_size=4).map(
    lambda cases: [Standing(number=n, last_look=case["on"], **case) for n, case in enumerate(cases, start=1)]
)
READ = st.lists(st.tuples(st.sampled_from(["ph=7", "iron=1", "nitrate=20", "kh=4dKH"]), DAYS), max_size=6)


class Near:
    """The book, which is too long to be shown when a law fails."""

    def __init__(self, book: Book) -> None:
        self.book = book

    def __repr__(self) -> str:
        return "book"

    def lines(self, garden: list[Standing], read: list[tuple[str, str]], on: str, ahead: int = 400) -> list[DueLine]:
        report = list_due(self.book, garden, self.readings(read), on=on, ahead_days=ahead)
        return [*report.due, *report.coming]

    def readings(self, read: list[tuple[str, str]]) -> list[Reading]:
        return [parse_assignment(text, self.book.quantities, on=day) for text, day in read]


@pytest.fixture(scope="session")
def near(book: Book) -> Near:
    return Near(book)


@given(garden=GARDEN, read=READ, on=ON, data=st.data())
def test_order_of_cases_and_readings_does_not_matter(
    near: Near, garden: list[Standing], read: list[tuple[str, str]], on: str, data: Any
) -> None:
    other = data.draw(st.permutations(garden)), data.draw(st.permutations(read))
    assert near.lines(*other, on) == near.lines(garden, read, on)


@given(garden=GARDEN, read=READ, on=ON)
def test_each_open_case_is_looked_at_again_once(
    near: Near, garden: list[Standing], read: list[tuple[str, str]], on: str
) -> None:
    looks = Counter(line.case for line in near.lines(garden, read, on) if line.kind == "look")
    assert looks == Counter(case.number for case in garden if case.state == "finished")


@given(garden=GARDEN, read=READ, on=ON)
def test_what_is_over_asks_for_nothing_but_a_harvest_wait(
    near: Near, garden: list[Standing], read: list[tuple[str, str]], on: str
) -> None:
    over = {case.number for case in garden if case.state == "closed"}
    assert {line.kind for line in near.lines(garden, read, on) if line.case in over} <= {"wait"}


@given(garden=GARDEN, read=READ, on=ON, ahead=st.integers(0, 40))
def test_what_is_due_is_not_late_before_its_day(
    near: Near, garden: list[Standing], read: list[tuple[str, str]], on: str, ahead: int
) -> None:
    report = list_due(near.book, garden, near.readings(read), on=on, ahead_days=ahead)
    last = (date.fromisoformat(on) + timedelta(days=ahead)).isoformat()
    for line in (*report.due, *report.coming):
        assert line.late == (date.fromisoformat(on) - date.fromisoformat(line.due)).days
    assert all(line.due <= on or line.kind == "wait" for line in report.due)
    assert all(on < line.due <= last for line in report.coming)


@given(garden=GARDEN, read=READ, on=ON, ahead=st.integers(0, 40))
def test_looking_further_ahead_takes_nothing_away(
    near: Near, garden: list[Standing], read: list[tuple[str, str]], on: str, ahead: int
) -> None:
    short, long = near.lines(garden, read, on, ahead), near.lines(garden, read, on, ahead + 7)
    assert [line for line in long if line in short] == short


@given(garden=GARDEN, read=READ, on=ON)
def test_every_event_of_a_calendar_is_one_thing(
    near: Near, garden: list[Standing], read: list[tuple[str, str]], on: str
) -> None:
    report = list_due(near.book, garden, near.readings(read), on=on, ahead_days=60)
    events = Calendar.from_ical(render_calendar(report)).walk("VEVENT")
    assert [str(event["summary"]) for event in events] == [line.say for line in (*report.due, *report.coming)]
    assert len({str(event["uid"]) for event in events}) == len(events)
