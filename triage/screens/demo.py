"""Plays written scenes through the real session, series and screens."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from rich.console import Console

from ..book.casefile import load_case
from ..book.scenes import Scene, load_scenes
from ..intake import build_case
from ..model.book import Book
from ..model.case import Case
from ..reasoning import Engines
from ..report.build import names_of
from ..report.case_report import QuestionLine
from ..session import Session, Told, told_as_answer
from ..spraying import Asked, answer_spray
from . import wording
from .answer import render_answer
from .grower import WrittenGrower
from .question import show_question
from .series import Series, said_again
from .spray import render_spray
from .style import heading, line

if TYPE_CHECKING:
    from ..journal import Journal

NO_DAY = "2026-05-04"  # the demo's first Monday; its cases bring their own days
WHOLE = 1  # questions of the first scene that are shown with all their answers


class Stage(Series):
    """A series that shows a question and the answer given, not everything that could be answered."""

    whole = 0

    def show(self, shown: QuestionLine) -> None:
        if self.whole:
            self.whole -= 1
            show_question(shown, self.console, self.number)
        else:
            line(self.console, shown.ask, indent=0, bullet=f"{self.number}.")

    def title(self, ask: str, look: str = "") -> None:
        line(self.console, ask, indent=0, bullet=f"{self.number}.")

    def tell(self, told: Told) -> None:
        super().tell(told)
        line(self.console, (said_again(told, self.names), "triage.prompt"), indent=3, bullet=">")


def play_demo(folder: Path, book: Book, journal: Journal, console: Console) -> None:
    """Every scene of the folder in order; the journal is written as in earnest."""
    engines = Engines(book)
    for words in wording.DEMO_INTRO:
        line(console, words, indent=0)
    whole = WHOLE
    for scene in load_scenes(folder / "scenes.yaml"):
        heading(console, f"--- {scene.says} ---")
        if scene.case:
            case = build_case(load_case(folder / scene.case), book, today=NO_DAY)
            _series(case, book, engines, journal, console, whole)
            whole = 0
        if scene.spray:
            _spray(scene, book, journal, console, names_of(book))
    console.print()
    line(console, wording.DEMO_OUTRO, indent=0)


def _series(case: Case, book: Book, engines: Engines, journal: Journal, console: Console, whole: int) -> None:
    journal.save_system(case.system)
    journal.add_readings(case.readings)
    session = Session(book, on=case.on, system=case.system, readings=journal.readings(), engines=engines)
    number = journal.begin_case(case.on, case.crop, case.system)
    grower = WrittenGrower(case)
    stage = Stage(
        session, console, grower.ask, record=lambda told: journal.record_answer(number, told_as_answer(told)),
        forget=lambda: journal.undo_last_answer(number),
    )  # fmt: skip
    stage.whole = whole
    grower.series = stage
    stage.run()
    render_answer(session.look(), console, names_of(book), heard=False)


def _spray(scene: Scene, book: Book, journal: Journal, console: Console, names: Mapping[str, str]) -> None:
    asked = Asked(words=scene.spray, strength=None, amount="1L", cover="covered")
    report = answer_spray(book, asked, journal.load_system(), journal.readings(), on=NO_DAY)
    render_spray(report, console, names)
