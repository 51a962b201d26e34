"""What a later look says, as a person reads it."""

from __future__ import annotations

from collections.abc import Iterator

from rich.console import Console

from ..model.book import Book
from ..report.case_report import SuspectLine
from ..report.recheck_report import DoneLine, MovedLine, RecheckReport
from . import later_words as words
from . import wording
from .alarms import render_alarms
from .style import heading, line

MOVED_SHOWN = 4
WEIGHED = 2  # suspects whose reasons are told
RESPONSES_SHOWN = 4


def render_recheck(report: RecheckReport, console: Console, book: Book, *, numbers: bool = False) -> None:
    """The whole answer of a later look."""
    if report.now.alarms:
        render_alarms(report.now.alarms, console)
    heading(console, words.VERDICTS[report.verdict])
    if not report.verdict:
        line(console, words.UNSAID)
    for said in _about_done(report, book):
        line(console, said, bullet="-")
    _moved(report, console, numbers)
    _because(report, console)
    if report.second is not None:
        text = words.SECOND_INSTEAD if report.second.instead else words.SECOND_BESIDE
        sure = wording.sure_words(report.second.probability)
        line(console, text.format(name=wording.inside(report.second.name), sure=sure), bullet="!")
    _not_again(report, console)
    _next(report, console)


def _about_done(report: RecheckReport, book: Book) -> Iterator[str]:
    for done in report.done:
        if done.hindered:
            yield words.HINDERED.format(name=done.name, why=" ".join(done.hindered))
        elif not done.whole:
            text = words.GO_ON_WITH if report.verdict == "better" else words.NOT_WHOLE
            yield text.format(name=done.name, count=len(done.days), times=done.times)
    if report.too_early:
        first = min(report.done, key=lambda done: done.better_by)
        yield _too_early(first, report)
    if report.retest:
        names = [wording.inside(book.quantities[id_].name) for id_ in report.retest]
        yield words.RETEST.format(wording.listed(names, "and"))
    for what in report.not_understood:
        yield words.DONE_UNKNOWN.format(what)


def _too_early(done: DoneLine, report: RecheckReport) -> str:
    cold = words.COLD.format(temperature=report.temperature_c) if report.days_longer else ""
    return words.TOO_EARLY.format(what=done.name, day=done.better_by, cold=cold)


def _moved(report: RecheckReport, console: Console, numbers: bool) -> None:
    shown = report.moved[:MOVED_SHOWN]
    if not shown:
        return
    heading(console, words.WAS_LIKELY if report.verdict == "better" else words.IS_LIKELY)
    for place, moved in enumerate(shown, start=1):
        line(console, _moved_text(moved, numbers), bullet=f"{place}.")


def _moved_text(moved: MovedLine, numbers: bool) -> str:
    before, now = wording.sure_words(moved.before), wording.sure_words(moved.now)
    if numbers:
        return words.MOVED_NUMBERS.format(
            name=moved.name, now=now, before=before, now_number=moved.now, before_number=moved.before
        )
    text = words.UNMOVED if now == before else words.MOVED
    return text.format(name=moved.name, now=now, before=before)


def _because(report: RecheckReport, console: Console) -> None:
    said = list(dict.fromkeys(say for suspect in report.suspects[:WEIGHED] for say in weighed(suspect, report)))
    if said:
        heading(console, words.BECAUSE)
    for say in said:
        line(console, say, bullet="-")


def weighed(suspect: SuspectLine, report: RecheckReport) -> Iterator[str]:
    """What the remedies say for and against a suspect: the reasons that name one of their days."""
    days = {day for done in report.done for day in done.days}
    for support in (*suspect.for_, *suspect.against):
        if support.kind == "rule" and any(day in support.say for day in days):
            yield support.say


def _not_again(report: RecheckReport, console: Console) -> None:
    """What failed before; where it is better now, going on as one does says enough."""
    if report.verdict == "better" or not report.not_again:
        return
    heading(console, words.NOT_AGAIN)
    for item in report.not_again:
        line(console, f"{item.name}: {item.why}", bullet="-")


def _next(report: RecheckReport, console: Console) -> None:
    heading(console, words.NEXT)
    if report.verdict == "better":
        line(console, words.GO_ON_AS_IS.format(day=report.next_look, number=report.case))
        return
    settle = report.second.settle if report.second else report.suspects[0].settle if report.suspects else ()
    if settle and not report.too_early:
        line(console, words.SETTLE_IT.format(settle[0]))
    if not report.too_early and report.now.responses:
        line(console, f"{words.NEW_RESPONSES}:")
        for response in report.now.responses[:RESPONSES_SHOWN]:
            line(console, f"[{wording.GRADE_TAGS[response.grade]}] ", response.name, bullet="-", indent=4)
    line(console, words.LOOK_AGAIN.format(day=report.next_look, number=report.case))
