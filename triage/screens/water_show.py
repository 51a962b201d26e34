"""How the water looks as it stands: latest readings with their drift, small charts, what is due, what it says."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rich.console import Console

from ..model.quantity import Quantity, Reading
from ..report.show_report import Crossing, Drift, ShowReport
from ..water.latest import Current
from ..water.limits import Band
from . import water_words as words
from . import wording
from .numbers import say_measured, say_unit
from .style import heading, line
from .water import render_given, render_meaning, render_said, render_urgent

FEWEST_DRAWN = 2


def render_show(report: ShowReport, quantities: Mapping[str, Quantity], console: Console) -> None:
    """Alarms, the latest readings with their drift, what is due, and what the water says; charts apart."""
    render_urgent(report.report, console)
    heading(console, words.LATEST)
    if not report.latest:
        line(console, words.NONE_YET)
    drifts = {drift.quantity: drift for drift in report.trends}
    for item in report.latest:
        _latest(item, quantities[item.reading.quantity], drifts[item.reading.quantity], console)
    for given in report.report.readings:
        if given.quantity not in drifts:  # of the top-up water
            render_given(given, console)
    if report.due:
        heading(console, words.DUE)
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
    from .chart import SHADE, draw_chart, key_of

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
    line(console, (key_of(), "triage.quiet"), indent=0)


def _in(unit: str) -> str:
    return f",{say_unit(unit)}" if say_unit(unit) else ""


def _beyond(band: Band, shaded: bool) -> str:
    ends = [(words.BELOW, band.low), (words.ABOVE, band.high)]
    said = [
        words.BOUND_BY.format(bound=text.format(f"{bound.limit:g}"), name=bound.name, source=bound.source)
        for text, bound in ends if bound
    ]  # fmt: skip
    where = words.SHADED if shaded else words.TOO_FAR
    return where.format(words.AND.join(said), words.DISAGREE if band.disagree else "")


def _latest(item: Current, quantity: Quantity, drift: Drift, console: Console) -> None:
    reading = item.reading
    note = f"  {reading.on}" + (f" ({item.note})" if item.note else "")
    line(console, f"{quantity.name}: {say_measured(reading)}", (note, "triage.quiet"))
    if drift.trend.readings >= FEWEST_DRAWN:
        line(console, _drift(drift), indent=4, bullet="~")


def _drift(drift: Drift) -> str:
    trend = drift.trend
    said = words.WAYS[trend.direction]
    if trend.direction == "cannot-tell":
        return f"{said}: {trend.why}"
    if trend.direction == "steady" or trend.slope is None or trend.low is None or trend.high is None:
        return said
    unit = say_unit(drift.unit)
    if trend.low <= 0 <= trend.high:
        pace = words.PACE_UNKNOWN
    else:
        span = wording.RANGE.format(f"{trend.low * 7:+.2g}", f"{trend.high * 7:+.2g}")
        pace = words.A_WEEK.format(pace=f"{trend.slope * 7:+.2g}{unit}", span=span)
    return "; ".join([f"{said}, {pace}", *(_crossing(crossing, unit) for crossing in drift.crosses)])


def _crossing(crossing: Crossing, unit: str) -> str:
    days = words.IN_DAYS_OR_LATER.format(f"{crossing.from_days:.0f}")
    if crossing.to_days is not None:
        days = words.IN_DAYS.format(low=f"{crossing.from_days:.0f}", high=f"{crossing.to_days:.0f}")
    return words.REACHES.format(limit=f"{crossing.limit:g}{unit}", name=wording.inside(crossing.name), days=days)
