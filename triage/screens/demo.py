"""Plays written scenes through the real session, series and screens."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from rich.console import Console

from ..book.casefile import load_case
from ..book.scenes import Scene, load_scenes
from ..intake import build_case
from ..model.book import Book
from ..model.case import Case
from ..reasoning import Engines
from ..report.case_report import QuestionLine
from ..report.names import Names
from ..session import Session, Told, told_as_answer
from ..spraying import Asked, answer_spray
from . import wording
from .answer import render_answer
from .grower import WrittenGrower
from .question import show_question
from .series import Series, said_again
from .style import heading, line
from .suspects import form_of, render_suspects
from .todo import render_avoid, render_todo

if TYPE_CHECKING:
    from ..journal import Journal

NO_DAY = "2026-05-04"  # the demo's first Monday; its cases bring their own days
REASONS = 2  # reasons against a spray that are given
WHOLE = 1  # questions of the first scene that are shown with everything that could be answered


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
    for number, scene in enumerate(load_scenes(folder / "scenes.yaml")):
        heading(console, f"--- {scene.says} ---")
        if scene.case:
            case = build_case(load_case(folder / scene.case), book, today=NO_DAY)
            _series(case, book, engines, journal, console, first=number == 0)
        if scene.spray:
            _spray(scene, book, journal, console)
    console.print()
    line(console, wording.DEMO_OUTRO, indent=0)


def _series(case: Case, book: Book, engines: Engines, journal: Journal, console: Console, *, first: bool) -> None:
    journal.save_system(case.system)
    journal.add_readings(case.readings)
    session = Session(book, on=case.on, system=case.system, readings=journal.readings(), engines=engines)
    number = journal.begin_case(case.on, case.crop, case.system)
    grower = WrittenGrower(case)
    stage = Stage(
        session, console, grower.ask, record=lambda told: journal.record_answer(number, told_as_answer(told)),
        forget=lambda: journal.undo_last_answer(number),
    )  # fmt: skip
    stage.whole = WHOLE if first else 0
    stage.intro = first
    grower.series = stage
    report = stage.run()
    if first:
        render_answer(report, console, Names(book), heard=False)
    else:  # what the first scene has shown of an answer is not shown again
        render_suspects(report, console, Names(book), numbers=False, full=False)
        render_todo(report, console, Names(book), full=False, form=form_of(report))
        if not report.alarms:
            render_avoid(report.avoid, console, full=False)


def _spray(scene: Scene, book: Book, journal: Journal, console: Console) -> None:
    """The verdict, why, and what to use instead; the command itself says more."""
    asked = Asked(words=scene.spray, strength=None, amount="1L", cover="covered")
    report = answer_spray(book, asked, journal.load_system(), journal.readings(), on=NO_DAY)
    names = Names(book)
    heading(console, f"{report.name}: {wording.GRADE_WORDS[report.grade]}", f"triage.grade.{report.grade}")
    for why in report.why[:REASONS]:
        line(console, why, bullet="-")
    instead = "; ".join(wording.inside(names.get(one, one)) for one in report.instead)
    line(console, wording.DEMO_INSTEAD.format(instead))
    line(console, wording.DEMO_MORE.format(scene.spray))
