"""How readings and what follows from them look."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rich.console import Console

from ..model.quantity import Quantity
from ..report.water_report import DerivedLine, GivenLine, WaterReport
from ..water.latest import Current
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


def render_warnings(report: WaterReport, console: Console) -> None:
    """Alarms and what the water says, without the numbers."""
    _alarms(report, console)
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


def render_latest(
    current: Sequence[Current], due: Sequence[str], quantities: Mapping[str, Quantity], console: Console
) -> None:
    """The latest reading of each quantity with its age, and what is due for testing."""
    heading(console, "Latest readings")
    if not current:
        line(console, "None yet. Record some: triage water add ph=7.2 iron=0.6mg/L")
    for item in current:
        reading = item.reading
        name = quantities[reading.quantity].name
        value = f"{name}: {wording.BOUND_WORDS[reading.bound]}{reading.value:g} {unit_word(reading.unit)}".rstrip()
        note = f"  {reading.on}" + (f" ({item.note})" if item.note else "")
        line(console, value, (note, "triage.quiet"))
    if due:
        heading(console, "Due for a test")
        line(console, ", ".join(due))
