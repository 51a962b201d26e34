"""What the journal of a garden adds to the book, and that it can be taken back."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from pathlib import Path

import pytest

from triage.journal import CasePlace, Journal, open_journal
from triage.model.book import Book
from triage.model.case import System
from triage.model.garden import Bed
from triage.recall.garden import OWN_CASES, book_here, garden_on
from triage.report.case_report import encode_json, report_as_data
from triage.session import Session, Told, told_as_answer

IRON = ("newest-leaves-first", "yellow-between-veins")


@pytest.fixture
def journal(tmp_path: Path) -> Iterator[Journal]:
    ticks = itertools.count()
    with open_journal(tmp_path, now=lambda: f"2026-05-04T10:00:{next(ticks) % 60:02d}") as journal:
        yield journal


def keep_case(journal: Journal, book: Book, on: str, crop: str, *seen: str) -> int:
    """A finished case, as the series keeps it."""
    session = Session(book, on=on)
    number = journal.begin_case(on, crop, System())
    for told in (Told(kind="crop", crop=crop), Told(kind="finding", seen=seen)):
        session.tell(told)
        journal.record_answer(number, told_as_answer(told))
    report = session.look(with_question=False)
    journal.finish_case(number, encode_json(report_as_data(report)), book.version, book.hash)
    return number


def chance(book: Book, cause: str, *seen: str) -> float:
    session = Session(book, on="2026-05-10")
    session.tell(Told(kind="crop", crop="basil"))
    session.tell(Told(kind="finding", seen=seen))
    return next(s.probability for s in session.look(with_responses=False).suspects if s.cause == cause)


def test_an_empty_journal_changes_nothing(book: Book, journal: Journal) -> None:
    assert book_here(book, journal, "2026-05-10") == book


def test_proven_cases_move_the_answer_and_are_named(book: Book, journal: Journal) -> None:
    for _ in range(3):
        number = keep_case(journal, book, "2026-01-04", "basil", *IRON)
        journal.record_outcome(number, ["iron-deficiency"], "", "2026-02-01")
    here = book_here(book, journal, "2026-05-10")
    assert chance(here, "iron-deficiency", *IRON) > chance(book, "iron-deficiency", *IRON)
    session = Session(here, on="2026-05-10")
    session.tell(Told(kind="finding", seen=IRON))
    report = session.look()
    assert report.from_journal[0].startswith("3 of 3 proven cases in this garden")
    support = {line.what: line for line in report.suspects[0].for_}["proven-cases-here"]
    assert support.say == report.from_journal[0]
    assert support.support == pytest.approx(2.0)  # four times, the most it may be


def test_turned_off_it_is_the_book_and_on_again_as_before(book: Book, journal: Journal) -> None:
    number = keep_case(journal, book, "2026-01-04", "basil", *IRON)
    journal.record_outcome(number, ["iron-deficiency"], "", "2026-02-01")
    before = book_here(book, journal, "2026-05-10")
    journal.set_setting(OWN_CASES, "off")
    assert book_here(book, journal, "2026-05-10") == book
    assert not garden_on(book, journal, "2026-05-10").own_cases.on
    journal.set_setting(OWN_CASES, "on")
    assert book_here(book, journal, "2026-05-10") == before


def test_correcting_an_outcome_undoes_what_it_moved(book: Book, journal: Journal) -> None:
    number = keep_case(journal, book, "2026-01-04", "basil", *IRON)
    journal.record_outcome(number, ["aphids"], "", "2026-02-01")
    journal.record_outcome(number, ["iron-deficiency"], "the lens", "2026-02-03")
    (rate,) = garden_on(book, journal, "2026-05-10").own_cases.rates
    assert (rate.cause, rate.proven) == ("iron-deficiency", 1)
    journal.record_outcome(number, None, "", "2026-02-04")
    assert book_here(book, journal, "2026-05-10") == book


def test_a_day_knows_only_what_was_proven_by_then(book: Book, journal: Journal) -> None:
    number = keep_case(journal, book, "2026-01-04", "basil", *IRON)
    journal.record_outcome(number, ["iron-deficiency"], "", "2026-02-01")
    assert book_here(book, journal, "2026-01-31") == book
    assert book_here(book, journal, "2026-02-01").here.favoured


def test_a_case_says_nothing_about_itself(book: Book, journal: Journal) -> None:
    number = keep_case(journal, book, "2026-05-04", "chard", *IRON)
    journal.record_outcome(number, ["iron-deficiency"], "", "2026-05-05")
    assert book_here(book, journal, "2026-05-10", without=number) == book
    assert [look.number for look in book_here(book, journal, "2026-05-10").here.looks] == [number]


def test_looks_of_other_days_do_not_count(book: Book, journal: Journal) -> None:
    keep_case(journal, book, "2026-04-20", "chard", *IRON)
    within = int(book.margins["alike-within-days"].value)
    assert book_here(book, journal, f"2026-05-{20 + within - 30:02d}").here.looks
    assert not book_here(book, journal, f"2026-05-{21 + within - 30:02d}").here.looks
    assert not book_here(book, journal, "2026-04-19").here.looks


def test_the_garden_as_one(book: Book, journal: Journal) -> None:
    journal.save_bed(Bed(name="window", crops=("cucumber",), beside=("wall",)))
    journal.save_bed(Bed(name="wall", crops=("chard",)))
    mites = ("webbing", "moving-dots-underneath", "pale-stippling")
    for on in ("2025-05-04", "2026-05-06"):
        number = keep_case(journal, book, on, "cucumber", *mites)
        journal.place_case(number, CasePlace(bed="window"))
    report = garden_on(book, journal, "2026-05-10")
    assert {(line.bed, line.near, line.case) for line in report.watch} == {("window", "same", 2), ("wall", "beside", 2)}
    (back,) = report.returning
    assert (back.cause, back.same_season, back.same_bed) == ("two-spotted-spider-mite", True, "window")
    assert garden_on(book, journal, "2025-05-03").watch == ()
