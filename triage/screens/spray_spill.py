"""How the answer looks when it got into the water: first actions first, the sums after them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rich.console import Console

from ..report.spray_report import Spill, SprayReport, WaterChange
from . import spray_words as words
from . import wording
from .spray import render_members, render_notes
from .spray_words import figure, share
from .style import heading, line


def render_spill(report: SprayReport, console: Console, names: Mapping[str, str]) -> None:
    """What to do now, in order; then how much water, what to test, when it is over and who should know."""
    spill = report.spill
    assert spill is not None  # asked for only where there is one
    heading(console, words.SPILL.format(report.name), "triage.alarm")
    line(console, f"[{wording.GRADE_TAGS[report.grade]}] {_level(spill, report)}")
    heading(console, words.FIRST)
    for number, text in enumerate(spill.first, start=1):
        line(console, text, bullet=f"{number}.")
    heading(console, words.CHANGE)
    for change in spill.change:
        line(console, _change(change), bullet="-")
    line(console, spill.change_note, bullet="-")
    for note in report.assumed:
        line(console, note, bullet="-")
    render_members(report, console)
    for title, lines in ((words.TEST, spill.test), (words.OVER, spill.over), (words.TELL, spill.tell)):
        _section(title, lines, console)
    render_notes(report, console)


def _level(spill: Spill, report: SprayReport) -> str:
    if spill.level_mg_l is None or report.exposure.volume_l is None:
        return words.LEVEL_UNKNOWN
    volume = f"{report.exposure.volume_l:g}"
    return words.LEVEL.format(level=figure(spill.level_mg_l), of=words.OF[spill.of], volume=volume)


def _change(change: WaterChange) -> str:
    decides = next((says for name, says in words.DECIDES.items() if change.decides.startswith(name)), change.decides)
    return words.CHANGE_LINE.format(
        aim=f"{change.aim[0].upper()}{change.aim[1:]}", times=change.times, each=share(change.each),
        litres=f"{change.litres:,.0f}".replace(",", words.THOUSANDS), factor=figure(change.factor), decides=decides,
        target="" if change.target_mg_l is None else words.TARGET.format(figure(change.target_mg_l)),
    )  # fmt: skip


def _section(title: str, lines: Sequence[str], console: Console) -> None:
    if lines:
        heading(console, title)
        for text in lines:
            line(console, text, bullet="-")
