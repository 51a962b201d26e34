"""A session, a console that writes into text, and a grower who types what a test says."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable

import pytest
from rich.console import Console

from triage.model.book import Book
from triage.reasoning import Engines
from triage.screens.series import Series
from triage.screens.style import build_console
from triage.session import Session, Told

DAY = "2026-05-04"


class Talk:
    """One series and everything about it that a test may look at."""

    def __init__(self, session: Session, typed: Iterable[str], width: int = 80) -> None:
        self.out = io.StringIO()
        self.console: Console = build_console(width=width, file=self.out, colour=False)
        self.typed = list(typed)
        self.kept: list[Told] = []  # what the journal would hold
        self.session = session
        self.series = Series(
            session, self.console, self.ask, record=self.kept.append, forget=lambda: self.kept.pop()
        )  # fmt: skip

    def ask(self, prompt: str) -> str:
        self.out.write(prompt)
        if not self.typed:
            self.out.write("\n")
            raise EOFError
        self.out.write(f"{self.typed[0]}\n")
        return self.typed.pop(0)

    def run(self) -> Talk:
        self.series.run()
        return self

    @property
    def text(self) -> str:
        return self.out.getvalue()

    @property
    def words(self) -> str:
        """The text without line breaks."""
        return " ".join(self.text.split())


@pytest.fixture(scope="session")
def engines(book: Book) -> Engines:
    """One set of engines for the built-in book."""
    return Engines(book)


@pytest.fixture
def talk(book: Book, engines: Engines) -> Callable[..., Talk]:
    """Run a series in which these lines are typed; afterwards nobody answers any more."""

    def run(*typed: str, told: Iterable[Told] = (), **more: object) -> Talk:
        session = Session(book, on=DAY, engines=engines, **more)  # type: ignore[arg-type]
        for one in told:  # an earlier part of the series
            session.tell(one)
        return Talk(session, typed).run()

    return run
