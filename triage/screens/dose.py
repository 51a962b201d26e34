"""How the answer looks to how much to add: each product with its grams, its days, and what it does besides."""

from __future__ import annotations

from rich.console import Console

from ..report.dose_report import DoseOption, DoseReport, DoseStep, Effect
from ..responses.dose import say_grams
from ..responses.words import digits
from ..water.spoken import spoken_unit
from . import water_words as words
from . import wording
from .alarms import render_alarms
from .numbers import say_number, say_unit
from .style import heading, line

IN_FULL = 2  # products shown with everything they do
STEPS_SHOWN = 4


def render_dose(report: DoseReport, console: Console) -> None:
    """Alarms, what is asked, each product that may be used, then those refused with the reason."""
    render_alarms(report.alarms, console)
    _asked(report, console)
    good = [option for option in report.options if not option.refused]
    for place, option in enumerate(good):
        _option(option, report, console, full=place < IN_FULL)
    if not good:
        heading(console, words.NOTHING_FITS)
    refused = [option for option in report.options if option.refused]
    if refused:
        heading(console, words.NOT_HERE)
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
    now = words.NOT_KNOWN if report.value_now is None else f"{say_number(report.value_now)}{unit}"
    if report.low_now is not None and report.high_now is not None and report.low_now < report.high_now:
        now += words.NOW_SPAN.format(wording.RANGE.format(say_number(report.low_now), say_number(report.high_now)))
    to = words.TO.format(f"{say_number(report.to)}{unit}") if report.to is not None else ""
    litres = words.IN_LITRES.format(f"{report.volume_l:g}") if report.volume_l else ""
    heading(console, f"{report.name}: {now}{to}{litres}")
    if report.acid_times is not None and report.acid_times != 1:
        times = max(report.acid_times, 1 / report.acid_times)
        said = words.MORE_ACID if report.acid_times > 1 else words.LESS_ACID
        line(console, (said.format(say_number(times)), "triage.quiet"))


def _option(option: DoseOption, report: DoseReport, console: Console, *, full: bool) -> None:
    heading(console, option.name)
    grade = words.AT_GRADE.format(f"{option.grade_percent:g}") if option.grade_percent else ""
    spread = ""
    if option.high_grams - option.low_grams > 0.02 * option.grams:
        spread = words.LEAVE.format(say_grams(option.low_grams), say_grams(option.high_grams))
    volume = f", {digits(option.millilitres, 3)} mL" if option.millilitres else ""
    in_all = words.IN_ALL.format(grams=say_grams(option.grams), grade=grade, volume=volume)
    line(console, (in_all, "triage.name"), spread)
    for do in option.do:
        line(console, do, bullet="-")
    if not full:
        return
    for step in option.steps[:STEPS_SHOWN] if option.days > 1 else option.steps:
        line(console, _step(step), indent=4)
    if option.days > STEPS_SHOWN and option.steps:
        more = words.MORE_DAYS.format(days=option.days - STEPS_SHOWN, step=_step(option.steps[-1]))
        line(console, more, indent=4)
    line(console, (words.BESIDES, "triage.quiet"))
    for effect in option.effects:
        if not effect.quantity.endswith("-limit"):  # the share of the limit says it better
            line(console, _effect(effect), indent=4)
    for said in option.says:
        line(console, said.say, indent=4, bullet="!")
    for said in option.ends:
        line(console, (words.NO_MORE, "triage.quiet"), said.say, indent=4)
    for note in option.notes:
        line(console, note, indent=4)
    for caution in option.cautions[:4]:
        line(console, caution, indent=4, bullet="!")


def _step(step: DoseStep) -> str:
    said = words.STEP.format(day=step.day, grams=say_grams(step.grams))
    if step.ph_before is None or step.ph_at_once is None or step.ph_next_day is None:
        return said
    return words.STEP_PH.format(step=said, before=step.ph_before, at_once=step.ph_at_once, next_day=step.ph_next_day)


def _effect(effect: Effect) -> str:
    unit = say_unit(effect.unit)
    factor = spoken_unit(effect.unit, effect.before or 0.0)[0]
    about = words.ABOUT if effect.estimate else ""
    if effect.before is None or effect.after is None:
        sign = "+" if (effect.change or 0) > 0 else ""
        change = f"{sign}{say_number(effect.change or 0)}{unit}"
        return words.EFFECT_OPEN.format(name=effect.name, about=about, change=change)
    before, after = say_number(effect.before * factor), f"{say_number(effect.after * factor)}{unit}"
    return words.EFFECT.format(name=effect.name, about=about, before=before, after=after)
