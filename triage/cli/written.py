"""Written cases: one look at one file, with one book and one set of engines however many files there are."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from . import common

if TYPE_CHECKING:
    from ..model.book import Book
    from ..reasoning import Engines
    from ..report.case_report import Report


class Desk:
    """Where written cases are looked at; a case that describes no system is taken to be of the one in the home."""

    def __init__(self, home: Path, on: str | None) -> None:
        """``on`` is the day of a look whose file says none. Errors: UsageError, KnowledgeError."""
        self.home = home
        self.today = common.day(on)
        self.book = common.open_own_book(home)
        self._open = lru_cache(maxsize=8)(self._engines)

    def look(self, path: Path) -> Report:
        """The report on one CASE.yaml. Errors: KnowledgeError with every fault of the file."""
        from ..book.casefile import load_case
        from ..intake import build_case
        from ..session import session_from_case

        file = load_case(path)
        of_home = file.case.system is None
        saved, readings = common.load_saved(self.home) if of_home else (None, ())
        case = build_case(file, self.book, today=self.today, saved=saved)
        book, engines = self._open(case.on if of_home and common.has_journal(self.home) else "")
        session = session_from_case(book, case, engines)
        session.readings = (*readings, *session.readings)
        return session.look()

    def _engines(self, of_home_on: str) -> tuple[Book, Engines]:
        from ..reasoning import Engines

        book = common.own_book_here(self.home, of_home_on) if of_home_on else self.book
        return book, Engines(book)
