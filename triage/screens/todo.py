"""What to do, what not to use, and how it gets better."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from ..model.outcome import Avoided
from ..report.case_report import Report, ResponseLine
from ..responses.words import digits
from . import wording
from .style import heading, line, run_in
from .suspects import Form

if TYPE_CHECKING:
    from .page import Page

Names = Mapping[str, str]

STEPS = (2, 1, 0)  # steps shown of the first, second and third response
MOST_CAUTIONS = 4  # of one that is poured or sprayed
NAMED = 4  # responses named after them
AVOID_SHOWN, AVOID_NAMED = 2, 4
WHY_FULL = 3  # reasons for each, when all is asked for
#: Kinds that want more than one caution, because what is poured or sprayed can hurt.
HANDLED = ("spray", "water")


def render_todo(report: Report, console: Page, names: Names, *, full: bool, form: Form = "one") -> None:
    """Responses, best first; the first two with their steps, the third with its first caution, the others by name."""
    if not report.responses:
        return
    heading(console, wording.DO)
    responses = report.responses if full else chosen(report, form)
    shown = responses if full else responses[: len(STEPS)]
    several = len({cause for response in shown for cause in response.works_for[:1]}) > 1
    for place, response in enumerate(shown):
        _titled(response, console, names, place + 1, several)
        _how(response, console, len(response.steps) if full else STEPS[place], full)
    rest = responses[len(shown) : len(shown) + NAMED]
    more = [f"{_tag(response)}{wording.inside(response.name)}" for response in rest]
    if more:
        line(console, f"{wording.MORE_WAYS}: {'; '.join(more)}.")


def chosen(report: Report, form: Form) -> Sequence[ResponseLine]:
    """Responses as a short answer gives them, each kind of answer in its own way.

    Of two causes at once each has its best response before either has a second. When most likely nothing is wrong,
    nothing is treated on a mere suspicion.
    """
    leading = [suspect.cause for suspect in report.suspects[:2]]
    if form == "well":
        return [response for response in report.responses if leading[0] in response.works_for]
    if form != "two":
        return report.responses
    best = [next((r for r in report.responses if cause in r.works_for[:1]), None) for cause in leading]
    first = [response for response in best if response is not None]
    return [*first, *(response for response in report.responses if response not in first)]


def _titled(response: ResponseLine, console: Page, names: Names, number: int, several: bool) -> None:
    cause = wording.inside(names.get(response.works_for[0], "")) if several and response.works_for else ""
    line(
        console, (_tag(response), f"triage.grade.{response.grade}"), (response.name, "triage.name"),
        f" ({wording.FOR_CAUSE.format(cause)})" if cause else "", bullet=f"{number}",
    )  # fmt: skip


def _tag(response: ResponseLine | Avoided) -> str:
    """The grade, where it asks for care."""
    return "" if response.grade == "ok" else f"[{wording.GRADE_TAGS[response.grade]}] "


def _how(response: ResponseLine, console: Page, steps: int, full: bool) -> None:
    if response.dose is not None:
        amount = wording.DOSE.format(grams=digits(response.dose.grams, 3), what=response.dose.what)
        line(console, (amount, "triage.name"), indent=4, bullet="=")
        for step in response.dose.steps:
            line(console, step, indent=4, bullet="-")
        if full and response.dose.note:
            line(console, response.dose.note, indent=4)
    for step in response.steps[: steps if full or response.dose is None else 0]:
        line(console, step, indent=4, bullet="-")
    if full:
        for why in response.why:
            line(console, why, indent=4)
    for caution in response.cautions if full else response.cautions[: _most_cautions(response, steps)]:
        line(console, caution, indent=4, bullet="!")
    if response.harvest_wait_days:
        days = wording.count(response.harvest_wait_days, "day")
        line(console, wording.HARVEST_WAIT.format(days), indent=4, bullet="!")


def _most_cautions(response: ResponseLine, steps: int) -> int:
    return MOST_CAUTIONS if response.kind in HANDLED and (steps or response.dose) else 1


def render_avoid(avoid: Sequence[Avoided], console: Page, *, full: bool) -> None:
    """What not to use here, with the reason; the rest by name."""
    if not avoid:
        return
    heading(console, wording.AVOID)
    shown = len(avoid) if full else AVOID_SHOWN
    for one in avoid[:shown]:
        why = " ".join(one.why[: WHY_FULL if full else 1])
        line(console, (f"[{_refusal(one)}] ", f"triage.grade.{one.grade}"), (one.name, "triage.name"), f": {why}",
             bullet="x")  # fmt: skip
    rest = [f"{wording.inside(one.name)} ({_refusal(one).lower()})" for one in avoid[shown:]]
    if rest:
        line(console, f"{wording.AVOID_MORE}: {'; '.join(rest[:AVOID_NAMED])}.", bullet="x")


def _refusal(one: Avoided) -> str:
    return wording.GRADE_TAGS[one.grade] if one.grade in ("never", "unknown") else wording.NOT_HERE


def render_recovery(report: Report, console: Page) -> None:
    """How the leading cause gets better, and when to look again."""
    if report.suspects and report.suspects[0].expect:
        run_in(console, wording.RECOVER, " ".join(report.suspects[0].expect))
