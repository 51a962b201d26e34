"""Looks at a plant of a journal: taken up in the water of their day, and kept when they are over."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from ..errors import UsageError
from ..model.book import Book
from ..model.case import System
from ..report.case_report import Report
from ..report.keeping import encode_kept
from ..report.recheck_report import RecheckReport
from ..session import Session, told_as_answer
from .again import Recheck
from .garden import book_here
from .readings import readings_until

if TYPE_CHECKING:
    from ..journal import CasePlace, Journal


def open_look(book: Book, journal: Journal, day: str) -> Session:
    """A first look at a plant on a day, with all this garden knew then."""
    system = journal.load_system() or System()
    return Session(book_here(book, journal, day), on=day, system=system, readings=readings_until(journal, day))


def keep_look(journal: Journal, session: Session, number: int, report: Report) -> None:
    """Finish a first look: keep what was advised, and the readings that were told with the answers."""
    with journal.all_or_nothing():
        _keep_spoken(journal, session)
        summary = report.suspects[0].name if report.suspects else ""
        text = encode_kept(report)
        journal.finish_case(number, text, session.book.version, session.book.hash, summary=summary)


def keep_written(journal: Journal, session: Session, place: CasePlace, answer: Callable[[], Report]) -> int:
    """Keep a case that was told in a file: its readings, its answers and what ``answer`` advises then; its number.

    A journal is of one water. A system that the file describes is kept where none is saved yet. Errors: UsageError
    where another one is.
    """
    saved = journal.load_system()
    if saved is None:
        journal.save_system(session.system)
    elif _water_of(session.system) != _water_of(saved):
        raise UsageError("the case is of other water or other animals than those kept here (a new folder: --home DIR)")
    journal.add_readings(session.readings)
    number = journal.begin_case(session.on, "", session.system)
    if place.bed or place.plant:
        journal.place_case(number, place)
    for told in session.told:
        journal.record_answer(number, told_as_answer(told))
    keep_look(journal, session, number, answer())
    return number


def _water_of(system: System) -> tuple[float | None, frozenset[str]]:
    return system.volume_l, frozenset(system.animals)


def open_recheck(book: Book, journal: Journal, number: int, day: str) -> Recheck:
    """A later look at a case on a day, with all this garden knew then."""
    readings = readings_until(journal, day, since=journal.load_case(number).on)
    here = book_here(book, journal, day, without=number)
    return Recheck(here, journal, number, readings, journal.load_system(), on=day)


def keep_recheck(journal: Journal, recheck_id: int, recheck: Recheck) -> RecheckReport:
    """Finish a later look: keep what it gave, and the readings that were told with the answers."""
    report = recheck.report()
    book = recheck.session.book
    with journal.all_or_nothing():
        _keep_spoken(journal, recheck.session)
        summary = report.suspects[0].name if report.suspects else ""
        text = encode_kept(report)
        journal.finish_recheck(recheck_id, report.verdict, text, book.version, book.hash, summary=summary)
    return report


def _keep_spoken(journal: Journal, session: Session) -> None:
    told = session.case.readings[len(session.readings) :]
    if told:
        journal.add_readings(told)
