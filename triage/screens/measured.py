"""What the water has to do with it: this week's readings by day, and those conclusions that bear on the suspects."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import TYPE_CHECKING

from ..report.case_report import ConclusionLine, ReadingLine, Report
from . import wording
from .numbers import say_measured
from .style import heading, line

if TYPE_CHECKING:
    from .numbers import Measured
    from .page import Page

BEARING = 3  # conclusions shown that bear on the suspects
BESIDE = 1  # and others
RESTS_ON = ("reading ", "trend ")


def say_value(name: str, reading: Measured) -> str:
    """A reading in words, with its name."""
    return f"{name} {say_measured(reading)}"


def render_measured(report: Report, console: Page, *, full: bool) -> None:
    """Readings and what follows from them; what does not bear on the suspects comes after that is said."""
    heading(console, wording.WATER)
    if not report.readings_used:
        line(console, wording.NO_WATER)
    for words in _by_day(report, full):
        line(console, words)
    bearing, beside = water_conclusions(report)
    for conclusion in bearing if full else bearing[:BEARING]:
        line(console, conclusion.because, bullet=">")
    if report.readings_used and report.suspects and not bearing:
        line(console, wording.WATER_SILENT, bullet=">")
    for conclusion in beside if full else beside[: BESIDE if report.readings_used else 0]:
        line(console, f"{wording.WATER_BESIDE}{wording.inside(conclusion.because)}", bullet=">")


def _by_day(report: Report, full: bool) -> Iterator[str]:
    """One line for each day on which something was measured, the latest first."""
    dated = sorted(report.readings_used, key=lambda reading: reading.on, reverse=True)
    for day, readings in groupby(dated, key=lambda reading: reading.on):
        said = [_said(reading, full) for reading in readings]
        when = f"{wording.day_words(day, report.on)} ({day}): " if day else ""
        words = when + ", ".join(wording.inside(one) if when else one for one in said)
        yield f"{words}."


def _said(reading: ReadingLine, full: bool) -> str:
    note = f" ({reading.note})" if full and reading.note else ""
    return f"{say_value(reading.name, reading)}{note}"


def water_conclusions(report: Report) -> tuple[list[ConclusionLine], list[ConclusionLine]]:
    """Conclusions drawn from readings: those that bear on the suspects worth a word, and the others."""
    drawn = [c for c in report.conclusions if any(fact.startswith(RESTS_ON) for fact in c.from_)]
    bearing = bearing_on(report)
    return [c for c in drawn if c.id in bearing], [c for c in drawn if c.id not in bearing]


def bearing_on(report: Report, *, from_probability: float = 0.2) -> set[str]:
    """Conclusions that speak for or against a suspect, themselves or through others."""
    rules = {
        support.what for suspect in report.suspects if suspect.probability >= from_probability
        for support in (*suspect.for_, *suspect.against) if support.kind == "rule"
    }  # fmt: skip
    facts = [fact for firing in report.firings if firing.rule in rules for fact in firing.facts]
    used = {c.id for c in report.conclusions if c.rule in rules} | _conclusions(facts)
    while more := _conclusions(fact for c in report.conclusions if c.id in used for fact in c.from_) - used:
        used |= more
    return used


def _conclusions(facts: Iterable[str]) -> set[str]:
    return {fact.removeprefix("conclusion ") for fact in facts if fact.startswith("conclusion ")}
