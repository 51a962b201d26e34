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
from ..report.build import names_of
from ..session import Session, told_as_answer
from ..spraying import Asked, answer_spray
from . import wording
from .answer import render_answer
from .grower import WrittenGrower
from .series import Series
from .spray import render_spray
from .style import heading, line

if TYPE_CHECKING:
    from ..journal import Journal

NO_DAY = "2026-05-04"  # the demo's first Monday; its cases bring their own days


def play_demo(folder: Path, book: Book, journal: Journal, console: Console) -> None:
    """Every scene of the folder in order; the journal is written as in earnest."""
    engines = Engines(book)
    for scene in load_scenes(folder / "scenes.yaml"):
        heading(console, f"--- {scene.says} ---")
        if scene.case:
            case = build_case(load_case(folder / scene.case), book, today=NO_DAY)
            _series(case, book, engines, journal, console)
        if scene.spray:
            _spray(scene, book, journal, console)


def _series(case: Case, book: Book, engines: Engines, journal: Journal, console: Console) -> None:
    journal.save_system(case.system)
    journal.add_readings(case.readings)
    session = Session(book, on=case.on, system=case.system, readings=journal.readings(), engines=engines)
    number = journal.begin_case(case.on, case.crop, case.system)
    grower = WrittenGrower(case)

    def ask(prompt: str) -> str:
        typed = grower.ask(prompt)
        line(console, prompt, (typed, "triage.prompt"), indent=0)
        return typed

    grower.series = Series(
        session, console, ask, record=lambda told: journal.record_answer(number, told_as_answer(told)),
        forget=lambda: journal.undo_last_answer(number),
    )  # fmt: skip
    report = grower.series.run()
    render_answer(report, console, names_of(book))
    line(console, wording.SAVED.format(number=number), indent=0)


def _spray(scene: Scene, book: Book, journal: Journal, console: Console) -> None:
    asked = Asked(words=scene.spray, strength=None, amount="1L", cover="covered")
    report = answer_spray(book, asked, journal.load_system(), journal.readings(), on=NO_DAY)
    render_spray(report, console, names_of(book))
