"""A season as it is played, in a few lines an event."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..model.book import Book
from ..report.case_report import SuspectLine
from ..report.drift_report import DriftReport
from ..report.due_report import DueReport
from ..report.recheck_report import RecheckReport
from ..report.spray_report import SprayReport
from . import later_words as words
from . import wording
from .season import Happened
from .style import line

if TYPE_CHECKING:
    from ..journal import Journal
    from .page import Page

#: Suspects from this probability on are named, and so many responses.
_WORTH_NAMING = 0.4
_ADVISED, _INSTEAD = 2, 3


def render_season_intro(console: Page) -> None:
    """What this is."""
    for text in (words.SEASON_INTRO, words.SEASON_MEASURED):
        line(console, text, indent=0)
    console.print()


def render_happened(happened: Happened, console: Page, book: Book) -> None:
    """One event with what came of it; a day on which only the water was tested is passed over."""
    event = happened.event
    said = list(_said(happened, book))
    if not event.says and not said:
        return
    line(console, *([(event.says, "triage.name")] if event.says else [said.pop(0)]), indent=0, bullet=event.day)
    for text in said:
        line(console, text, indent=len(event.day) - 1, bullet="-")


def _said(happened: Happened, book: Book) -> Iterator[str]:
    yield from _look(happened, book)
    event = happened.event
    if event.did:
        yield words.SEASON_DONE.format(number=happened.number, what=event.did)
    if happened.recheck is not None:
        yield from _again(happened.recheck, book)
    if event.proved is not None:
        names = wording.listed([wording.inside(book.causes[cause].name) for cause in event.proved])
        yield words.SEASON_PROVED.format(number=happened.number, causes=names, how=event.how)
    if event.closed:
        yield words.SEASON_CLOSED.format(number=happened.number, outcome=event.closed)
    if happened.drift is not None:
        yield from _drift(happened.drift)
    if happened.spray is not None:
        yield from _spray(happened.spray, book)
    if happened.due is not None:
        yield from _due(happened.due)


def _look(happened: Happened, book: Book) -> Iterator[str]:
    report = happened.report
    if report is None:
        return
    yield from (alarm.say for alarm in report.alarms)
    plant = wording.crop_inside(book.crops, report.crop, wording.A_PLANT)
    yield words.SEASON_LOOK.format(
        number=happened.number, plant=plant, questions=wording.count(happened.asked, "question"),
        suspects=_suspects(report.suspects),
    )  # fmt: skip
    advised = [f"{wording.inside(r.name)} ({wording.GRADE_WORDS[r.grade]})" for r in report.responses[:_ADVISED]]
    if advised:
        yield words.SEASON_ADVISED.format("; ".join(advised))


def _suspects(suspects: tuple[SuspectLine, ...]) -> str:
    named = [s for n, s in enumerate(suspects) if s.probability >= _WORTH_NAMING or n == 0]
    return "; ".join(f"{wording.inside(s.name)} ({wording.sure_words(s.probability)})" for s in named)


def _again(report: RecheckReport, book: Book) -> Iterator[str]:
    verdict = wording.inside(words.VERDICTS[report.verdict])
    yield words.SEASON_AGAIN.format(number=report.case, verdict=verdict, suspects=_capital(_suspects(report.suspects)))
    if report.too_early:
        first = min(report.done, key=lambda done: done.better_by)
        yield words.SEASON_EARLY.format(what=first.name, day=first.better_by)
    if report.second is not None:
        text = words.SECOND_INSTEAD if report.second.instead else words.SECOND_BESIDE
        sure = wording.sure_words(report.second.probability)
        yield text.format(name=wording.inside(report.second.name), sure=sure)
    for item in report.not_again:
        yield f"{words.NOT_AGAIN}: {wording.inside(item.name)}."


def _capital(text: str) -> str:
    return text if text[1:2].isupper() else text[:1].upper() + text[1:]


def _drift(report: DriftReport) -> Iterator[str]:
    yield report.say
    if report.decide is not None and not report.told:
        yield words.SETTLE_IT.format(report.decide.how)


def _spray(report: SprayReport, book: Book) -> Iterator[str]:
    yield words.SEASON_SPRAY.format(name=report.name, grade=wording.GRADE_WORDS[report.grade], why=report.why[0])
    instead = [wording.inside(book.treatments[id_].name) for id_ in report.instead[:_INSTEAD] if id_ in book.treatments]
    if instead:
        yield wording.DEMO_INSTEAD.format("; ".join(instead))


def _due(report: DueReport) -> Iterator[str]:
    """What is due, and what comes beside the usual tests."""
    for item in report.due:
        yield words.SEASON_DUE.format(item.say)
    for item in report.coming:
        if item.kind != "test":
            yield words.SEASON_COMING.format(day=item.due, what=item.say)
    if not report.due and not report.coming:
        yield words.SEASON_NOTHING_DUE


def render_season_end(journal: Journal, console: Page) -> None:
    """How much was kept."""
    cases = journal.list_cases()
    console.print()
    told = words.SEASON_TOLD.format(
        cases=wording.count(len(cases), "case"), readings=wording.count(len(journal.readings()), "reading"),
        answers=wording.count(sum(case.answered for case in cases), "answer"), proven=len(journal.outcomes()),
    )  # fmt: skip
    line(console, told, indent=0)


def render_season_kept(folder: str, console: Page) -> None:
    """Where it is kept, and how to go on."""
    line(console, words.SEASON_KEPT.format(folder=folder), indent=0)
