"""An unfinished series is offered again, with what was told in it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from rich.console import Console

from ..model.book import Book
from ..report.names import Names
from ..session import Session, Told, answer_as_told, still_known
from . import wording
from .series import said_again
from .style import line

if TYPE_CHECKING:
    from ..journal import CaseLine, Journal


def offer_to_resume(journal: Journal, session: Session, console: Console, ask: Callable[[str], str]) -> int | None:
    """The number of the series begun last, if it is taken up: then its answers are told to the session.

    A series declined is given up; one in which nothing was told is given up without asking. When nobody answers, it
    stays as it is.
    """
    for last in journal.unfinished_cases():
        if not last.answered:
            journal.abandon_case(last.id)
            continue
        try:
            agreed = _agrees(last, session, console, ask)
        except EOFError:
            return None
        if agreed:
            _tell_again(journal, last, session, console)
            return last.id
        journal.abandon_case(last.id)
        return None
    return None


def _agrees(last: CaseLine, session: Session, console: Console, ask: Callable[[str], str]) -> bool:
    plant = wording.crop_inside(session.book.crops, last.crop, wording.A_PLANT)
    day = wording.inside(wording.day_words(last.on, session.on))
    question = wording.RESUME.format(plant=plant, day=day, answers=wording.count(last.answered, "answer"))
    line(console, question, indent=0)
    while True:
        typed = ask(wording.RESUME_PROMPT).strip().lower()
        if typed in ("", *wording.KEYS["yes"], *wording.KEYS["no"]):
            return typed not in wording.KEYS["no"]
        line(console, wording.RESUME_HELP, indent=0)


def _tell_again(journal: Journal, last: CaseLine, session: Session, console: Console) -> None:
    """Told as of the day it was begun; what the book does not know any more is left out."""
    session.on = last.on
    line(console, wording.RESUMED, indent=0)
    for answer in journal.load_case(last.id).answers:
        told = still_known(answer_as_told(answer), session.book)
        session.tell(told)
        if told.kind != "cant-tell":
            line(console, answered_again(told, session.book), bullet="-")


def answered_again(told: Told, book: Book) -> str:
    """One thing told, so that it can be understood later: "none of these" and "can't tell" with their question, and
    with what was told without a question also what is not there."""
    names = Names(book)
    said = said_again(told, names)
    if told.absent and not told.question:
        absent = [wording.STATES["absent"].format(wording.inside(names[finding])) for finding in told.absent]
        return "; ".join([said, *absent] if told.seen or told.unsure else absent)
    silent = told.kind in ("finding", "cant-tell") and not (told.seen or told.unsure)
    question = book.questions.get(told.question) if silent else None
    return f"{question.ask} {said[:1].upper()}{said[1:]}" if question is not None else said
