"""Looks at a plant of a journal: taken up in the water of their day, and kept when they are over."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..model.book import Book
from ..model.case import System
from ..report.case_report import Report
from ..report.keeping import encode_kept
from ..report.recheck_report import RecheckReport
from ..session import Session
from .again import Recheck
from .garden import book_here
from .readings import readings_until

if TYPE_CHECKING:
    from ..journal import Journal


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
