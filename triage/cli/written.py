"""Written cases: one look at one file, with one book and one set of engines however many files there are."""

from __future__ import annotations

from functools import cached_property, lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from . import common

if TYPE_CHECKING:
    from ..model.book import Book
    from ..model.case import System
    from ..model.quantity import Reading
    from ..report.case_report import Report
    from ..session import Session


class Desk:
    """Where written cases are looked at; a case that describes no system is taken to be of the one in the home."""

    def __init__(self, home: Path, on: str | None) -> None:
        """``on`` is the day of a look whose file says none. Errors: UsageError, KnowledgeError."""
        self.home = home
        self.today = common.day(on)
        self.book = common.open_own_book(home)
        self._of_home_on = lru_cache(maxsize=8)(self._load_home)

    def look(self, path: Path) -> Report:
        """The report on one CASE.yaml. Errors: KnowledgeError with every fault of the file."""
        return self.open(path).look()

    def open(self, path: Path) -> Session:
        """Everything of one CASE.yaml told, in the water of its day. Errors: KnowledgeError."""
        from ..book.casefile import load_case
        from ..intake import build_case
        from ..session import session_from_case

        file = load_case(path)
        of_home = file.case.system is None and common.has_journal(self.home)
        case = build_case(file, self.book, today=self.today, saved=self.system if of_home else None)
        water = self._of_home_on(case.on) if of_home else self._elsewhere
        session = session_from_case(water.book, case, water.engines)
        session.readings = (*water.readings, *session.readings)
        return session

    @cached_property
    def system(self) -> System | None:
        """The system saved in the home."""
        return common.load_saved(self.home)[0]

    @cached_property
    def _elsewhere(self) -> _Water:
        """Water of which nothing is known beside the case."""
        return _Water(self.book)

    def _load_home(self, on: str) -> _Water:
        """The home as it was known on a day."""
        return _Water(common.own_book_here(self.home, on), common.load_saved(self.home, on)[1])


class _Water:
    """What a look needs beside the case: the book, its engines, and the readings recorded before."""

    def __init__(self, book: Book, readings: tuple[Reading, ...] = ()) -> None:
        from ..reasoning import Engines

        self.book, self.engines, self.readings = book, Engines(book), readings
