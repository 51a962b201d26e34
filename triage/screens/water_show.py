"""How the water looks as it stands: latest readings with their drift, small charts, what is due, what it says."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rich.console import Console

from ..model.quantity import Quantity, Reading
from ..report.show_report import Crossing, Drift, ShowReport
from ..water.latest import Current
from ..water.limits import Band
from . import wording
from .numbers import say_number, say_unit
from .style import heading, line
from .water import render_alarms, render_given, render_meaning, render_said

WAYS = {"rising": "rising", "falling": "falling", "steady": "steady", "cannot-tell": "can't tell yet which way it goes"}
FEWEST_DRAWN = 2


def render_show(report: ShowReport, quantities: Mapping[str, Quantity], console: Console) -> None:
    """Alarms, the latest readings with their drift, what is due, and what the water says; charts apart."""
    render_alarms(report.report, console)
    heading(console, "Latest readings")
    if not report.latest:
        line(console, "None yet. Record some: triage water add ph=7.2 iron=0.6mg/L")
    drifts = {drift.quantity: drift for drift in report.trends}
    for item in report.latest:
        _latest(item, quantities[item.reading.quantity], drifts[item.reading.quantity], console)
    for given in report.report.readings:
        if given.quantity not in drifts:  # of the top-up water
            render_given(given, console)
    if report.due:
        heading(console, "Due for a test")
        line(console, ", ".join(quantities[id_].name for id_ in report.due))
    render_said(report.report, console)
    render_meaning(report.report, console)


def render_charts(
    readings: Sequence[Reading], quantities: Mapping[str, Quantity], bands: Mapping[str, Band], console: Console
) -> None:
    """A small chart for each quantity with two dated readings or more; nothing where there is none."""
    shown = [reading for reading in readings if reading.on and reading.point != "top-up"]
    counts = {id_: [r for r in shown if r.quantity == id_] for id_ in sorted({r.quantity for r in shown})}
    drawn = {id_: own for id_, own in counts.items() if len({r.on for r in own}) >= FEWEST_DRAWN}
    if not drawn:
        return
    from .chart import KEY, SHADE, draw_chart

    for id_, own in drawn.items():
        band = bands.get(id_)
        heading(console, f"{quantities[id_].name}{_in(quantities[id_].unit)}")
        low, high = (bound.limit if bound else None for bound in (band.low, band.high)) if band else (None, None)
        lines = draw_chart(own, width=console.width, low=low, high=high, least=quantities[id_].possible[0])
        for text in lines:
            console.print(text, soft_wrap=True)
        if band and (band.low or band.high):
            line(console, (_beyond(band, any(SHADE in text for text in lines)), "triage.quiet"))
    console.print()
    line(console, (KEY, "triage.quiet"), indent=0)


def _in(unit: str) -> str:
    return f",{say_unit(unit)}" if say_unit(unit) else ""


def _beyond(band: Band, shaded: bool) -> str:
    ends = [("below", band.low), ("above", band.high)]
    said = [f"{word} {bound.limit:g} ({bound.name}, {bound.source})" for word, bound in ends if bound]
    where = "Shaded" if shaded else "Too far off to be drawn"
    return f"{where}: {' and '.join(said)}{'; sources disagree' if band.disagree else ''}"


def _latest(item: Current, quantity: Quantity, drift: Drift, console: Console) -> None:
    reading = item.reading
    value = f"{wording.BOUND_WORDS[reading.bound]}{say_number(reading.value)}{say_unit(reading.unit)}"
    note = f"  {reading.on}" + (f" ({item.note})" if item.note else "")
    line(console, f"{quantity.name}: {value}", (note, "triage.quiet"))
    if drift.trend.readings >= FEWEST_DRAWN:
        line(console, _drift(drift), indent=4, bullet="~")


def _drift(drift: Drift) -> str:
    trend = drift.trend
    said = WAYS[trend.direction]
    if trend.direction == "cannot-tell":
        return f"{said}: {trend.why}"
    if trend.direction == "steady" or trend.slope is None or trend.low is None or trend.high is None:
        return said
    unit = say_unit(drift.unit)
    if trend.low <= 0 <= trend.high:
        pace = "how fast, the steps of the kit cannot tell"
    else:
        pace = f"{trend.slope * 7:+.2g}{unit} a week ({trend.low * 7:+.2g} to {trend.high * 7:+.2g})"
    return "; ".join([f"{said}, {pace}", *(_crossing(crossing, unit) for crossing in drift.crosses)])


def _crossing(crossing: Crossing, unit: str) -> str:
    days = f"in {crossing.from_days:.0f} days or later"
    if crossing.to_days is not None:
        days = f"in {crossing.from_days:.0f} to {crossing.to_days:.0f} days"
    return f"reaches {crossing.limit:g}{unit}, the limit for {crossing.name.lower()}, {days}"
