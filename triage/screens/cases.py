"""How saved cases look."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

import msgspec
from rich.console import Console

from ..model.book import Book
from ..report.build import names_of
from ..report.case_report import Report
from ..session import answer_as_told
from . import wording
from .answer import render_answer
from .resume import still_known
from .series import said_again
from .style import heading, line
from .why import render_why

if TYPE_CHECKING:
    from ..journal import CaseLine, Closing, StoredAction, StoredCase, StoredReport
    from ..recall.listing import ListedCase


def render_cases(cases: Sequence[ListedCase], console: Console, book: Book, *, of: int) -> None:
    """One line a case; ``of`` is how many there are in all."""
    if not cases:
        line(console, wording.NO_SUCH_CASE.format(wording.count(of, "case")) if of else wording.NO_CASES, indent=0)
    for case in cases:
        parts = [case.on, _where(case, book), _taken_for(case, book), _ended(case)]
        line(console, "; ".join(part for part in parts if part), indent=0, bullet=f"{case.id:>3} ")


def _where(case: ListedCase, book: Book) -> str:
    crop = wording.inside(book.crops[case.crop].name) if case.crop in book.crops else wording.A_PLANT
    where = [part for part in (case.plant, wording.IN_BED.format(case.bed) if case.bed else "") if part]
    return f"{crop} ({', '.join(where)})" if where else crop


def _taken_for(case: ListedCase, book: Book) -> str:
    known = [wording.inside(book.causes[cause].name) for cause in case.causes if cause in book.causes]
    names = " + ".join(known) or ("" if case.proven else wording.inside(case.summary))
    return wording.PROVEN.format(names or wording.NOTHING_OF_THE_BOOK) if case.proven else names


def _ended(case: ListedCase) -> str:
    looked = wording.LOOKED_AGAIN.format(verdict=case.verdict, day=case.last_look) if case.verdict else ""
    return case.outcome or looked or wording.STATE_WORDS[case.state]


def _plant_of(case: CaseLine, book: Book) -> str:
    return wording.inside(book.crops[case.crop].name) if case.crop in book.crops else case.plant or wording.A_PLANT


def render_case(
    case: StoredCase, report: StoredReport | None, actions: Sequence[StoredAction], closings: Sequence[Closing],
    console: Console, book: Book, *, numbers: bool, full: bool, why: bool,
) -> None:  # fmt: skip
    """What was told, advised, done, and how it ended."""
    state = wording.STATE_WORDS[case.state]
    title = wording.CASE_TITLE.format(number=case.id, day=case.on, plant=_plant_of(case, book), state=state)
    heading(console, title)
    for told in _told(case, book):
        line(console, told, bullet="-")
    if report is None:
        line(console, wording.NO_ADVICE.format(wording.count(case.answered, "answer")))
    else:
        _advice(report, console, book, numbers=numbers, full=full, why=why)
    if actions:
        heading(console, wording.DONE)
    for action in actions:
        line(console, f"{action.on}  {action.what}", bullet="-")
    if closings:
        heading(console, wording.ENDED_HOW)
        line(console, f"{closings[-1].outcome}. {closings[-1].note}".rstrip(". ") + ".")


def _told(case: StoredCase, book: Book) -> Iterator[str]:
    """What the grower told, can't tell left out."""
    names = names_of(book)
    for answer in case.answers:
        told = still_known(answer_as_told(answer), book)
        if told.kind != "cant-tell":
            yield said_again(told, names)


def _advice(report: StoredReport, console: Console, book: Book, *, numbers: bool, full: bool, why: bool) -> None:
    try:
        advised = msgspec.json.decode(report.report, type=Report)
    except msgspec.ValidationError:  # kept in the shape of an earlier version
        _short_advice(json.loads(report.report), console)
        return
    render_answer(advised, console, names_of(book), numbers=numbers, full=full, heard=False)
    if why and advised.suspects and advised.suspects[0].cause in book.causes:
        render_why(advised, console, book)


def _short_advice(report: dict[str, Any], console: Console) -> None:
    """What every shape of a report has: alarms, suspects, responses."""
    line(console, wording.OLDER_ADVICE)
    for alarm in report.get("alarms", []):
        line(console, (alarm["say"], "triage.alarm"), bullet="!")
    heading(console, wording.TITLES["one"])
    for place, suspect in enumerate(report.get("suspects", [])[:4], start=1):
        sure = wording.sure_words(suspect["probability"])
        line(console, (suspect["name"], "triage.name"), ": ", (sure, "triage.sure"), bullet=f"{place}")
    heading(console, wording.DO)
    for response in report.get("responses", [])[:6]:
        line(console, f"[{wording.GRADE_TAGS[response['grade']]}] ", response["name"], bullet="-")
