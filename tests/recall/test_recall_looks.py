"""Looks at a plant of a journal: in the water of their day, and kept when they are over."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from triage.journal import Journal, open_journal
from triage.model.book import Book
from triage.model.case import System
from triage.recall.looks import keep_look, keep_recheck, open_look, open_recheck
from triage.session import Session, Told, told_as_answer
from triage.water.readings import parse_assignment

POND = System(volume_l=1000.0, animals=("tilapia",))


@pytest.fixture
def journal(book: Book, tmp_path: Path) -> Iterator[Journal]:
    """Iron measured in winter, at the look, and after it."""
    with open_journal(tmp_path, now=lambda: "2026-05-04T10:00:00") as journal:
        journal.save_system(POND)
        days = {"2026-01-01": 3, "2026-05-03": 0.1, "2026-05-12": 1.9}
        journal.add_readings([parse_assignment(f"iron={n}", book.quantities, on=day) for day, n in days.items()])
        yield journal


def told(session: Session, journal: Journal, number: int, *things: Told) -> None:
    for thing in things:
        session.tell(thing)
        journal.record_answer(number, told_as_answer(thing))


def looked(book: Book, journal: Journal) -> int:
    """A first look of 4 May, kept."""
    session = open_look(book, journal, "2026-05-04")
    number = journal.begin_case("2026-05-04", "basil", session.system)
    yellow = Told(kind="finding", seen=("yellow-between-veins", "newest-leaves-first", "fine-veins-stay-green"))
    told(session, journal, number, yellow, Told(kind="words", text="pH 6.6 today"))
    keep_look(journal, session, number, session.look())
    return number


def test_a_look_knows_the_water_of_its_day_and_not_of_later(book: Book, journal: Journal) -> None:
    session = open_look(book, journal, "2026-05-04")
    assert session.system == POND
    assert [reading.on for reading in session.readings] == ["2026-05-03"]


def test_a_look_is_kept_with_what_was_measured_in_words(book: Book, journal: Journal) -> None:
    number = looked(book, journal)
    report = journal.case_report(number)
    assert report is not None
    assert report.summary == book.causes["iron-deficiency"].name
    assert report.book_hash == book.hash
    assert json.loads(report.report)["suspects"][0]["cause"] == "iron-deficiency"
    assert [(r.value, r.on) for r in journal.readings(quantity="ph")] == [(6.6, "2026-05-04")]


def test_a_later_look_still_knows_the_water_of_the_first(book: Book, journal: Journal) -> None:
    number = looked(book, journal)
    journal.record_action(number, "iron", "2026-05-05", treatment="iron-chelate-dtpa")
    recheck_id = journal.begin_recheck(number, "2026-09-18")
    look = open_recheck(book, journal, number, "2026-09-18")
    assert [r.on for r in look.look.all_readings if r.quantity == "iron"] == ["2026-05-03", "2026-05-12"]
    told(look.session, journal, number, Told(kind="finding", seen=(book.roles["better"].finding,)))
    report = keep_recheck(journal, recheck_id, look)
    (kept,) = journal.case_rechecks(number)
    assert (kept.verdict, report.verdict) == ("better", "better")
    assert kept.report is not None
    assert kept.report.summary == report.suspects[0].name
