"""The answer to one look at one plant, on about one screen, in everyday words; everything with ``full``."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ..report.case_report import Report, SuspectLine
from . import wording
from .alarms import render_alarms
from .measured import render_measured
from .style import heading, line, run_in
from .suspects import Form, form_of, render_suspects
from .todo import render_avoid, render_recovery, render_todo

if TYPE_CHECKING:
    from .page import Page

Names = Mapping[str, str]


def render_answer(
    report: Report, console: Page, names: Names, *, numbers: bool = False, full: bool = False, heard: bool = True
) -> None:
    """Print the answer, what cannot wait first.

    ``names`` maps finding, cause and crop ids to what people call them; ``heard`` says what was made of their words.
    """
    form = form_of(report)
    render_alarms(report.alarms, console)
    if heard:
        _heard(report, console, names, full)
    _from_journal(report, console)
    render_suspects(report, console, names, numbers=numbers, full=full)
    if form not in ("unfit", "untold"):
        _settle(report, console, form, full)
    render_measured(report, console, full=full)
    if form not in ("unfit", "untold") or report.alarms:
        render_todo(report, console, names, full=full, form=form)
        render_avoid(report.avoid, console, full=full)
        render_recovery(report, console)
    _next(report, console)
    _cautions(report, console)


def _heard(report: Report, console: Page, names: Names, full: bool) -> None:
    """What was made of the words: in one line, or with ``full`` each finding with the words it was read from."""
    said = [wording.say_heard(item, names.get(item.finding, item.finding)) for item in report.read_words]
    if said or report.unread_words or report.contradictions:
        console.print()
    if said and full:
        line(console, f"{wording.HEARD}:", indent=0)
        for words, item in zip(said, report.read_words, strict=True):
            line(console, words, f' ("{item.words}")', bullet="-")
    elif said:
        line(console, f"{wording.HEARD}: {'; '.join(said)}.", indent=0)
    if report.unread_words:
        unread = "; ".join(f'"{words}"' for words in report.unread_words)
        line(console, f"{wording.UNREAD}: {unread}. {wording.UNREAD_HELP}", indent=0)
    for clash in report.contradictions:
        line(console, f"{wording.CLASH}: {clash}.", indent=0)


def _from_journal(report: Report, console: Page) -> None:
    """What other cases of this garden added."""
    if report.from_journal:
        run_in(console, wording.FROM_JOURNAL, " ".join(report.from_journal))


def _settle(report: Report, console: Page, form: Form, full: bool) -> None:
    """The deciding check of the first suspect; of both where both are likely."""
    leading = report.suspects[: 2 if form == "two" else 1]
    if len(leading) == 1 and not full:
        run_in(console, wording.SETTLE, *leading[0].settle[:1])
    else:
        heading(console, wording.SETTLE_TWO if len(leading) > 1 else wording.SETTLE)
        for suspect in leading:
            name = f"{suspect.name}: " if len(leading) > 1 else ""
            for check in suspect.settle if full else suspect.settle[:1]:
                line(console, (name, "triage.name"), check)
    for name, look in _alike(report.suspects[0], leading, full):
        line(console, (wording.MISTAKEN.format(wording.inside(name)), "triage.quiet"), look)


def _alike(suspect: SuspectLine, leading: tuple[SuspectLine, ...], full: bool) -> list[tuple[str, str]]:
    """What it is often taken for: not what is likely anyway."""
    named = {one.name for one in leading}
    alike = [(name, look) for name, look in suspect.not_to_confuse if name not in named]
    return alike if full else alike[:1]


def _next(report: Report, console: Page) -> None:
    if report.next_question is not None:
        run_in(console, wording.NEXT, report.next_question.ask)


def _cautions(report: Report, console: Page) -> None:
    run_in(console, wording.CAUTIONS, " ".join(report.cautions))
