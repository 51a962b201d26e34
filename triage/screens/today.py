"""What is due, as a person reads it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ..report.due_report import DueLine, DueReport
from . import later_words as words
from . import wording
from .style import heading, line

if TYPE_CHECKING:
    from .page import Page

#: What is due, by group in this order, and the kinds of which one may be late.
GROUPS = {
    "alarm": ("alarm",),
    "wait": ("wait",),
    "step": ("step",),
    "look": ("look", "watch", "series"),
    "test": ("retest", "test"),
}
LATE_KINDS = ("step", "look", "test")


def render_due(report: DueReport, console: Page) -> None:
    """What cannot wait, what is due, what comes."""
    if not report.due and not report.coming:
        line(console, words.NOTHING_DUE, indent=0)
        return
    for group, kinds in GROUPS.items():
        shown = [item for item in report.due if item.kind in kinds]
        if shown:
            heading(console, words.DUE_GROUPS[group])
            _lines(shown, console)
    if report.coming:
        heading(console, words.COMING)
    for day in dict.fromkeys(item.due for item in report.coming):
        _coming([item for item in report.coming if item.due == day], console)


def _coming(same_day: Sequence[DueLine], console: Page) -> None:
    """What comes on a day, its usual tests in one line."""
    tests = [item.name for item in same_day if item.kind == "test"]
    said = [item.say for item in same_day if item.kind != "test"]
    said += [words.TESTS_COMING.format(wording.listed(tests))] if tests else []
    for text in said:
        line(console, f"{same_day[0].due}: {text}", bullet="-")


def _lines(shown: Sequence[DueLine], console: Page) -> None:
    for item in shown:
        if item.kind == "test":
            continue
        late = f" ({_late(item)})" if item.late > 0 and item.kind in LATE_KINDS else ""
        style = "triage.alarm" if item.kind == "alarm" else "none"
        line(console, (f"{item.say}{late}", style), bullet="!" if item.kind in ("alarm", "wait") else "-")
        if item.command and item.kind != "retest":
            line(console, (item.command, "triage.quiet"), indent=4)
    _tests([item for item in shown if item.kind == "test"], console)


def _late(item: DueLine) -> str:
    return words.LATE.format(wording.count(item.late, "day"))


def _tests(shown: Sequence[DueLine], console: Page) -> None:
    """The usual tests in as few lines as there are days on which they were last done."""
    for last in dict.fromkeys(item.last for item in shown):
        same = [item for item in shown if item.last == last]
        names = wording.listed([item.name for item in same])
        late = f", {_late(same[0])}" if last and same[0].late > 0 else ""
        line(
            console,
            words.TESTED_LAST.format(names, last, late) if last else words.NEVER_TESTED.format(names),
            bullet="-",
        )
