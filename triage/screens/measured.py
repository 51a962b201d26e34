"""What the water has to do with it: this week's readings by day, and those conclusions that bear on the suspects."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import TYPE_CHECKING

from ..report.case_report import ConclusionLine, ReadingLine, Report
from . import wording
from .style import heading, line

if TYPE_CHECKING:
    from typing import Protocol

    from .page import Page

    class Value(Protocol):
        """What a reading and a line of a report have in common."""

        @property
        def value(self) -> float: ...
        @property
        def unit(self) -> str: ...
        @property
        def bound(self) -> str: ...
        @property
        def low(self) -> float: ...
        @property
        def high(self) -> float: ...
        @property
        def step(self) -> float: ...


BEARING = 3  # conclusions shown that bear on the suspects
BESIDE = 1  # and others
WIDE = 1.2  # a reading whose ends lie further apart than this is shown as a range
RESTS_ON = ("reading ", "trend ")


def say_value(name: str, reading: Value) -> str:
    """A reading in words; as a range where it left open which form was meant (nitrate as NO3 or as nitrogen)."""
    unit = "" if reading.unit == "pH" else f" {reading.unit}"
    open_ = reading.bound == "=" and not reading.step and reading.high > reading.low * WIDE
    if open_:
        return f"{name} {wording.RANGE.format(short(reading.low), short(reading.high))}{unit}"
    return f"{name} {wording.BOUND_WORDS[reading.bound]}{short(reading.value)}{unit}"


def short(value: float) -> str:
    """A number to three figures.

    >>> short(89.24), short(1000.0), short(0.1)
    ('89.2', '1000', '0.1')
    """
    return f"{float(f'{value:.3g}'):g}"


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
