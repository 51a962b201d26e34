"""How the answer looks to how much to add: each product with its grams, its days, and what it does besides."""

from __future__ import annotations

from rich.console import Console

from ..report.dose_report import DoseOption, DoseReport, DoseStep, Effect
from ..responses.dose import say_grams
from ..water.spoken import spoken_unit
from . import wording
from .numbers import say_number, say_unit
from .style import heading, line

IN_FULL = 2  # products shown with everything they do
STEPS_SHOWN = 4


def render_dose(report: DoseReport, console: Console) -> None:
    """Alarms, what is asked, each product that may be used, then those refused with the reason."""
    for alarm in report.alarms:
        heading(console, wording.ALARM, "triage.alarm")
        line(console, (alarm.say, "triage.name"), bullet="!")
    _asked(report, console)
    good = [option for option in report.options if not option.refused]
    for place, option in enumerate(good):
        _option(option, report, console, full=place < IN_FULL)
    if not good:
        heading(console, "There is nothing here that may be used for it")
    refused = [option for option in report.options if option.refused]
    if refused:
        heading(console, "Not here")
    for why in dict.fromkeys(" ".join(option.refused[:3]) for option in refused):
        names = [option.name for option in refused if " ".join(option.refused[:3]) == why]
        line(console, ("; ".join(names), "triage.name"), ": ", why, bullet="x")
    if not good and len(refused) == 1 and not refused[0].grams:
        for step in refused[0].do:
            line(console, step, indent=4, bullet="-")
    heading(console, wording.CAUTIONS)
    for caution in report.cautions:
        line(console, caution, bullet="!")


def _asked(report: DoseReport, console: Console) -> None:
    unit = say_unit(report.unit)
    now = "not known" if report.value_now is None else f"{say_number(report.value_now)}{unit}"
    if report.low_now is not None and report.high_now is not None and report.low_now < report.high_now:
        now += f" ({say_number(report.low_now)} to {say_number(report.high_now)})"
    to = f" to {say_number(report.to)}{unit}" if report.to is not None else ""
    litres = f" in {report.volume_l:g} L" if report.volume_l else ""
    heading(console, f"{report.name}: {now}{to}{litres}")
    if report.acid_times is not None and report.acid_times != 1:
        times, way = max(report.acid_times, 1 / report.acid_times), "more" if report.acid_times > 1 else "less"
        line(console, (f"That is {say_number(times)} times {way} acid.", "triage.quiet"))


def _option(option: DoseOption, report: DoseReport, console: Console, *, full: bool) -> None:
    heading(console, option.name)
    grade = f" at {option.grade_percent:g} %" if option.grade_percent else ""
    spread = ""
    if option.high_grams - option.low_grams > 0.02 * option.grams:
        spread = f" (the readings leave {say_grams(option.low_grams)} to {say_grams(option.high_grams)})"
    volume = f", {option.millilitres:.3g} mL" if option.millilitres else ""
    line(console, (f"{say_grams(option.grams)}{grade}{volume} in all", "triage.name"), spread)
    for do in option.do:
        line(console, do, bullet="-")
    if not full:
        return
    for step in option.steps[:STEPS_SHOWN] if option.days > 1 else option.steps:
        line(console, _step(step), indent=4)
    if option.days > STEPS_SHOWN and option.steps:
        line(console, f"… {option.days - STEPS_SHOWN} more days; the last: {_step(option.steps[-1])}", indent=4)
    line(console, ("What it does besides", "triage.quiet"))
    for effect in option.effects:
        if not effect.quantity.endswith("-limit"):  # the share of the limit says it better
            line(console, _effect(effect), indent=4)
    for said in option.says:
        line(console, said.say, indent=4, bullet="!")
    for said in option.ends:
        line(console, ("no more: ", "triage.quiet"), said.say, indent=4)
    for note in option.notes:
        line(console, note, indent=4)
    for caution in option.cautions[:4]:
        line(console, caution, indent=4, bullet="!")


def _step(step: DoseStep) -> str:
    said = f"day {step.day}: {say_grams(step.grams)}"
    if step.ph_before is None or step.ph_at_once is None or step.ph_next_day is None:
        return said
    return f"{said}; pH {step.ph_before:.2f}, after an hour {step.ph_at_once:.2f}, next day {step.ph_next_day:.2f}"


def _effect(effect: Effect) -> str:
    unit = say_unit(effect.unit)
    factor = spoken_unit(effect.unit, effect.before or 0.0)[0]
    about = "about " if effect.estimate else ""
    if effect.before is None or effect.after is None:
        sign = "+" if (effect.change or 0) > 0 else ""
        return f"{effect.name}: {about}{sign}{say_number(effect.change or 0)}{unit} (not measured)"
    return f"{effect.name}: {about}{say_number(effect.before * factor)} to {say_number(effect.after * factor)}{unit}"
