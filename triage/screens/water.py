"""How readings and what follows from them look."""

from __future__ import annotations

from rich.console import Console

from ..report.water_report import DerivedLine, GivenLine, WaterReport
from . import wording
from .style import heading, line


def render_water(report: WaterReport, console: Console) -> None:
    """Warnings first, then the readings, then what follows from them."""
    _alarms(report, console)
    heading(console, "Readings")
    for reading in report.readings:
        _given(reading, console)
    if report.derived:
        heading(console, "What follows from them")
    for name, derived in report.derived.items():
        _derived(name, derived, console)
    _said(report, console)
    console.print()
    for caution in report.cautions:
        line(console, (caution, "triage.quiet"), indent=0)


def render_alarms(report: WaterReport, console: Console) -> None:
    """What cannot wait; nothing where there is none."""
    _alarms(report, console)


def render_said(report: WaterReport, console: Console) -> None:
    """What the water says beside the alarms."""
    _said(report, console)


def _alarms(report: WaterReport, console: Console) -> None:
    urgent = [warning for warning in report.warnings if warning.urgent]
    if urgent:
        heading(console, wording.ALARM, "triage.alarm")
    for warning in urgent:
        line(console, (warning.say, "triage.name"), bullet="!")
        for step in warning.do:
            line(console, step, indent=4, bullet="-")


def _said(report: WaterReport, console: Console) -> None:
    rest = [warning for warning in report.warnings if not warning.urgent]
    if rest:
        heading(console, "What this water says")
    for warning in rest:
        line(console, warning.say, bullet=">")


def _given(reading: GivenLine, console: Console) -> None:
    value = f"{reading.name}: {wording.BOUND_WORDS[reading.bound]}{reading.value:g} {unit_word(reading.unit)}".rstrip()
    note = f"  ({reading.note})" if reading.note else ""
    line(console, value, (note, "triage.quiet"))


def unit_word(unit: str) -> str:
    """The unit as it is printed; pH has none."""
    return "" if unit == "pH" else unit


def _derived(name: str, derived: DerivedLine, console: Console) -> None:
    words = name.replace("_mg_l_caco3", "").replace("_mg_l", "").replace("_ug_l", "").replace("_", " ")
    spread = f" (from {derived.low:.3g} to {derived.high:.3g})" if derived.high > derived.low else ""
    line(console, f"{words}: {derived.value:.3g} {derived.unit}{spread}", (f"  [{derived.source}]", "triage.quiet"))
