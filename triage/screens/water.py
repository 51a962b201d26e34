"""How readings look, and what follows from them for animals, plants and the water itself."""

from __future__ import annotations

from rich.console import Console

from ..report.water_lines import CropLine, IonLine, NutrientLine
from ..report.water_report import DerivedLine, GivenLine, WaterReport
from ..water.limits import Band, Row
from . import water_words as words
from . import wording
from .alarms import render_alarms
from .numbers import say_amount, say_measured, say_number, say_span, say_unit
from .style import heading, line


def render_water(report: WaterReport, console: Console) -> None:
    """Warnings first, then the readings, what follows from them, and what that means."""
    render_urgent(report, console)
    heading(console, words.READINGS)
    for reading in report.readings:
        render_given(reading, console)
    shown = [derived for derived in report.derived.values() if _worth_showing(derived, report)]
    if shown:
        heading(console, words.FOLLOWS)
    for derived in shown:
        _derived(derived, console)
    render_said(report, console)
    render_meaning(report, console)
    console.print()
    for caution in report.cautions:
        line(console, (caution, "triage.quiet"), indent=0)


def render_urgent(report: WaterReport, console: Console) -> None:
    """What cannot wait; nothing where there is none."""
    render_alarms([warning for warning in report.warnings if warning.urgent], console)


def render_said(report: WaterReport, console: Console) -> None:
    """What the water says beside the alarms."""
    rest = [warning for warning in report.warnings if not warning.urgent]
    if rest:
        heading(console, words.SAYS)
    for warning in rest:
        line(console, warning.say, bullet=">")


def render_meaning(report: WaterReport, console: Console) -> None:
    """What the animals kept bear, what each nutrient is like, what salt costs each crop."""
    if report.limits:
        heading(console, words.BEAR)
    for id_, band in report.limits.items():
        _band(band, report, id_, console)
    told = [nutrient for nutrient in report.nutrients if nutrient.state != "unknown"]
    if told:
        heading(console, words.NUTRIENTS)
        line(console, "; ".join(_nutrient(nutrient) for nutrient in told))
        unknown = [wording.inside(nutrient.name) for nutrient in report.nutrients if nutrient.state == "unknown"]
        if unknown:
            line(console, (words.NOT_MEASURED.format(", ".join(unknown)), "triage.quiet"))
    if report.crops:
        heading(console, words.SALT)
    for crop in report.crops:
        if crop.ec_ms_cm is not None:
            line(console, _crop(crop), (f"  [{crop.sources[0]}]" if crop.sources else "", "triage.quiet"))
        for ion in crop.ions:
            memory = words.MEMORY if ion.read == "memory" else ""
            line(console, _ion(crop, ion), (f"  [{ion.source}{memory}]", "triage.quiet"))


def render_given(reading: GivenLine, console: Console) -> None:
    """One reading with its bound, unit and note."""
    note = f"  ({reading.note})" if reading.note else ""
    line(console, f"{reading.name}: {say_measured(reading)}", (note, "triage.quiet"))


def _worth_showing(derived: DerivedLine, report: WaterReport) -> bool:
    """What a grower reads: not what was read and only turned into its own unit, not a limit where a share of one says
    it better, not how a nutrient is held that nobody measured, not the most of what is known."""
    known = {other.quantity for other in report.derived.values()}
    given = {reading.quantity for reading in report.readings}
    held_of = derived.quantity.partition("-held-share")
    return not (
        derived.quantity in given
        or (derived.quantity.endswith("-limit") and any(other.endswith("-share") for other in known))
        or (held_of[1] and held_of[0] not in given)
        or (derived.quantity.endswith("-at-most") and derived.quantity.replace("-at-most", "-left") in known)
    )


def _derived(derived: DerivedLine, console: Console) -> None:
    spread = say_span(derived.low, derived.high, derived.unit)
    note = f"; {derived.note}" if derived.note else ""
    said = f"{derived.say}: {say_amount(derived.value, derived.unit)}{f' ({spread})' if spread else ''}{note}"
    line(console, said, (f"  [{derived.source}]", "triage.quiet"))


def _band(band: Band, report: WaterReport, id_: str, console: Console) -> None:
    known = {reading.quantity: (reading.name, reading.unit, reading.low, reading.high) for reading in report.readings}
    known |= {d.quantity: (d.say, d.unit, d.low, d.high) for d in report.derived.values() if d.quantity not in known}
    name, unit, low, high = known[id_]
    outside = (band.low is not None and low < band.low.limit) or (band.high is not None and high > band.high.limit)
    ends = [
        words.FROM.format(f"{band.low.limit:g}") if band.low else "",
        words.UP_TO.format(f"{band.high.limit:g}") if band.high else "",
    ]
    strictest = next(bound for bound in (band.high, band.low) if bound) if band.low or band.high else None
    said = " ".join(end for end in ends if end)
    said = f"{said}{say_unit(unit)}" if said else words.NO_RANGE
    who = f" ({wording.inside(strictest.name)})" if strictest else ""
    line(console, (f"{name}: ", "triage.name"), f"{said}{who}; {words.OUTSIDE if outside else words.WITHIN}")
    if band.disagree:
        line(console, ("; ".join(_row(row) for row in band.rows), "triage.quiet"), indent=4)


def _row(row: Row) -> str:
    low, high = ("" if end is None else f"{end:g}" for end in (row.low, row.high))
    one_end = words.FROM.format(low) if low else words.UP_TO.format(high)
    span = wording.RANGE.format(low, high) if low and high else one_end
    memory = words.MEMORY if row.read == "memory" else ""
    what = words.LIMIT_WORDS.get(row.what, row.what)
    return f"{wording.inside(row.name)} {span} {what} ({row.source}{memory})"


def _nutrient(nutrient: NutrientLine) -> str:
    said, also = words.STATE_WORDS[nutrient.state], [words.STATE_WORDS[state] for state in nutrient.also]
    both = words.STATES_ALSO.format(said, ", ".join(also)) if also else said
    return f"{wording.inside(nutrient.name)} {both}"


def _crop(crop: CropLine) -> str:
    lost = words.CROP_LOST.format(crop=crop.name, threshold=f"{crop.threshold_ds_m or 0:g}")
    said = words.CROP_HAS.format(lost=lost, ec=f"{crop.ec_ms_cm or 0:.3g}")
    if not crop.above or crop.yield_low is None or crop.yield_high is None:
        return said
    low, high = f"{crop.yield_low:.0f}", f"{crop.yield_high:.0f}"
    return words.CROP_LEFT.format(has=said, left=low if low == high else wording.RANGE.format(low, high))


def _ion(crop: CropLine, ion: IonLine) -> str:
    note = f" ({ion.note})" if ion.note else ""
    return words.ION.format(
        crop=crop.name, ion=wording.inside(ion.name), limit=f"{ion.limit:g}{say_unit(ion.unit)}", note=note,
        value=say_number(ion.value), verdict=words.TOO_MUCH if ion.above else words.FINE,
    )  # fmt: skip
