"""The answer to one look at one plant, on one screen, in everyday words."""

from __future__ import annotations

from collections.abc import Mapping

from rich.console import Console

from ..report.case_report import Report, ResponseLine, SupportLine, SuspectLine
from . import wording
from .style import heading, line

SHOWN = 4  # suspects on the first screen
WORTH_NAMING = 0.03
CLEAR_BITS = 0.3


def render_answer(report: Report, console: Console, names: Mapping[str, str], *, numbers: bool = False) -> None:
    """Print the whole answer. ``names`` maps finding and cause ids to what people call them."""
    render_alarms(report, console)
    _heard(report, console, names)
    _suspects(report, console, names, numbers)
    _settle(report, console)
    _water(report, console)
    _responses(report, console)
    _avoid(report, console)
    _recovery(report, console)
    _next(report, console)
    _cautions(report, console)


def render_alarms(report: Report, console: Console) -> None:
    """What cannot wait; prints nothing when there is no alarm."""
    if not report.alarms:
        return
    heading(console, wording.ALARM, "triage.alarm")
    for alarm in report.alarms:
        line(console, (alarm.say, "triage.name"), bullet="!")
        for step in alarm.do:
            line(console, step, indent=4, bullet="-")


def _heard(report: Report, console: Console, names: Mapping[str, str]) -> None:
    if report.read_words:
        heading(console, wording.HEARD)
        for heard in report.read_words:
            state = {"seen": "", "absent": "not there: ", "unsure": "perhaps: "}[heard.state]
            line(console, state, names.get(heard.finding, heard.finding), (f'  ("{heard.words}")', "triage.quiet"))
    if report.unread_words:
        heading(console, wording.UNREAD)
        for words in report.unread_words:
            line(console, f'"{words}"')


def _suspects(report: Report, console: Console, names: Mapping[str, str], numbers: bool) -> None:
    heading(console, wording.SUSPECTS)
    shown = [suspect for suspect in report.suspects if suspect.probability >= WORTH_NAMING][:SHOWN]
    for place, suspect in enumerate(shown, start=1):
        sure = wording.sure_words(suspect.probability)
        number = f" ({suspect.probability:.0%})" if numbers else ""
        line(console, (suspect.name, "triage.name"), " — ", (sure + number, "triage.sure"), bullet=f"{place}")
        if place <= 2:
            _reasons(console, suspect)
    if not shown or report.none_in_book > shown[0].probability:
        line(console, (wording.NOTHING_FITS, "triage.name"), f" ({report.none_in_book:.0%})" if numbers else "")
    for pair in report.together[:1]:
        called = " and ".join(names.get(cause, cause) for cause in pair.causes)
        line(console, f"{wording.TOGETHER}: {called}", f" ({pair.probability:.0%})" if numbers else "")
    if report.unexplained:
        called = "; ".join(names.get(finding, finding) for finding in report.unexplained)
        line(console, f"{wording.UNEXPLAINED}: {called}")


def _reasons(console: Console, suspect: SuspectLine) -> None:
    line(console, suspect.plain, indent=4)
    for label, lines in (("speaks for it: ", suspect.for_), ("speaks against it: ", suspect.against)):
        clear = [support for support in lines if abs(support.support) >= CLEAR_BITS][:4]
        if clear:
            line(console, (label, "triage.quiet"), "; ".join(_say(support) for support in clear), indent=4)


def _say(support: SupportLine) -> str:
    return support.say.rstrip(".")


def _settle(report: Report, console: Console) -> None:
    if not report.suspects:
        return
    first = report.suspects[0]
    heading(console, wording.SETTLE)
    for check in first.settle[:1]:
        line(console, check)
    for name, look in first.not_to_confuse[:2]:
        line(console, (f"{wording.MISTAKEN} {name}: ", "triage.quiet"), look)


def _water(report: Report, console: Console) -> None:
    heading(console, wording.WATER)
    measured = [reading for reading in report.readings_used if reading.on or reading.age_days is not None]
    if not report.readings_used:
        line(console, wording.NO_WATER)
    for reading in measured:
        bound = {"=": "", "<=": "at most ", ">=": "at least ", "<": "below ", ">": "above "}[reading.bound]
        unit = "" if reading.unit == "pH" else f" {reading.unit}"
        note = "; ".join(part for part in (reading.on, reading.note) if part)
        line(console, f"{reading.name} {bound}{reading.value:g}{unit}", (f"  ({note})" if note else "", "triage.quiet"))
    for conclusion in report.conclusions:
        if any(fact.startswith(("reading ", "trend ")) for fact in conclusion.from_):
            line(console, conclusion.because, bullet=">")


def _responses(report: Report, console: Console) -> None:
    if not report.responses:
        return
    heading(console, wording.DO)
    for number, response in enumerate(report.responses[:6], start=1):
        _response(console, number, response)


def _response(console: Console, number: int, response: ResponseLine) -> None:
    tag = f"[{wording.GRADE_TAGS[response.grade]}] "
    line(console, (tag, f"triage.grade.{response.grade}"), (response.name, "triage.name"), bullet=f"{number}")
    for step in response.steps[:2] if number <= 3 else ():
        line(console, step, indent=4, bullet="-")
    if response.dose:
        line(console, (f"{response.dose.grams:.3g} g {response.dose.what}", "triage.name"), indent=4, bullet="=")
        for step in response.dose.steps:
            line(console, step, indent=6)
        if response.dose.note:
            line(console, response.dose.note, indent=6)
    for why in response.why[:1]:
        line(console, (why, "triage.quiet"), indent=4)
    for caution in response.cautions[:2] if number <= 3 else ():
        line(console, caution, indent=4, bullet="!")
    if response.harvest_wait_days:
        days = "1 day" if response.harvest_wait_days == 1 else f"{response.harvest_wait_days} days"
        line(console, f"Wait {days} before you harvest.", indent=4, bullet="!")


def _avoid(report: Report, console: Console) -> None:
    if not report.avoid:
        return
    heading(console, wording.AVOID)
    for avoided in report.avoid[:6]:
        refused = avoided.grade in ("never", "unknown")
        tag = f"[{wording.GRADE_TAGS[avoided.grade] if refused else wording.NOT_HERE}] "
        why = f": {avoided.why[0]}" if avoided.why else ""
        line(console, (tag, f"triage.grade.{avoided.grade}"), (avoided.name, "triage.name"), why, bullet="x")


def _recovery(report: Report, console: Console) -> None:
    if report.suspects and report.suspects[0].expect:
        heading(console, wording.RECOVER)
        for words in report.suspects[0].expect:
            line(console, words)


def _next(report: Report, console: Console) -> None:
    if report.next_question is None:
        return
    heading(console, wording.NEXT)
    line(console, report.next_question.ask, (f"  {report.next_question.why}", "triage.quiet"))


def _cautions(report: Report, console: Console) -> None:
    heading(console, wording.CAUTIONS)
    for caution in report.cautions:
        line(console, caution, bullet="-")
