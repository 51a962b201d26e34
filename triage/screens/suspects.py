"""What it most likely is, why, and what speaks against it; each kind of answer in its own honest form."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Literal

from ..report.case_report import Report, SupportLine, SuspectLine
from . import wording
from .measured import water_conclusions
from .style import heading, line

if TYPE_CHECKING:
    from .page import Page

Names = Mapping[str, str]
Form = Literal["one", "two", "well", "unfit", "untold"]

WITH_REASONS = 2  # suspects shown with their reasons
SHOWN = 4  # and named at all
WORTH_NAMING = 0.1
LIKELY, POSSIBLE = 0.5, 0.2  # as in wording.SURE
REASONS = 4
CLEAR_BITS = 0.2  # support that is worth a word
SHARE = 0.05  # of the strongest support; less than that does not count beside it
AGAINST_BITS = 0.5
ABSENT_BITS = 1.0  # what is not there must tell more to be worth one


def form_of(report: Report) -> Form:
    """Which kind of answer this is."""
    first = report.suspects[0].probability if report.suspects else 0.0
    told = report.seen or report.read_words or report.unsure or report.readings_used
    if not told and first < LIKELY:
        return "untold"
    if first < POSSIBLE or report.none_in_book > first:
        return "unfit"
    if report.suspects[0].kind == "harmless" and first >= LIKELY:
        return "well"
    both = report.together[0] if report.together else None
    leading = {suspect.cause for suspect in report.suspects[:2]}
    return "two" if both and both.probability >= LIKELY and set(both.causes) == leading else "one"


def render_suspects(report: Report, console: Page, names: Names, *, numbers: bool, full: bool) -> None:
    """The leading suspects with reasons, the others by name."""
    form = form_of(report)
    heading(console, wording.TITLES[form])
    if form in ("unfit", "untold"):
        _nearest(report, console, form, numbers)
        return
    shown = [suspect for suspect in report.suspects if suspect.probability >= WORTH_NAMING][:SHOWN]
    reasoned = len(shown) if full else _with_reasons(shown, form)
    for place, suspect in enumerate(shown[:reasoned], start=1):
        line(console, *_titled(suspect, numbers), bullet=f"{place}")
        _reasons(report, suspect, console, names)
    _others(shown[reasoned:], console, form, numbers)
    if report.unexplained:
        left = "; ".join(wording.inside(names.get(finding, finding)) for finding in report.unexplained)
        line(console, f"{wording.UNEXPLAINED}: {left}.")


def _with_reasons(shown: Sequence[SuspectLine], form: Form) -> int:
    """How many are worth their reasons: the first, and the second where it is likely, too."""
    if form == "well":
        return 1
    return max(1, sum(suspect.probability >= LIKELY for suspect in shown[:WITH_REASONS]))


def _titled(suspect: SuspectLine, numbers: bool) -> list[str | tuple[str, str]]:
    return [(suspect.name, "triage.name"), ": ", (_sure(suspect, numbers), "triage.sure")]


def _sure(suspect: SuspectLine, numbers: bool) -> str:
    return wording.sure_words(suspect.probability) + (f", {suspect.probability:.0%}" if numbers else "")


def _nearest(report: Report, console: Page, form: Form, numbers: bool) -> None:
    """No suspect convinces: what comes nearest, and what to do all the same."""
    near = report.suspects[:3]
    if near:
        lead = wording.NEAREST if form == "unfit" else wording.IN_GENERAL
        said = [wording.inside(suspect.name) + (f" ({suspect.probability:.0%})" if numbers else "") for suspect in near]
        line(console, f"{lead}: {'; '.join(said)}.")
    for step in wording.NOTHING_FITS_DO if form == "unfit" else wording.NOTHING_TOLD_DO:
        line(console, step, bullet="-")


def _others(others: Sequence[SuspectLine], console: Page, form: Form, numbers: bool) -> None:
    if not others:
        return
    said = "; ".join(f"{wording.inside(suspect.name)} ({_sure(suspect, numbers)})" for suspect in others)
    line(console, f"{wording.MIGHT_BE if form == 'well' else wording.ALSO}: {said}.")


def _reasons(report: Report, suspect: SuspectLine, console: Page, names: Names) -> None:
    line(console, suspect.plain, indent=4)
    by_water = {conclusion.rule for part in water_conclusions(report) for conclusion in part}
    least = max(CLEAR_BITS, SHARE * max((support.support for support in suspect.for_), default=0.0))
    untold = [s for s in (*suspect.for_, *suspect.against) if s.kind != "words" and s.say not in report.from_journal]
    for_ = [support for support in untold if support.support >= _least(support, least)]
    against = [support for support in untold if -support.support >= _least(support, AGAINST_BITS)]
    if suspect.probability >= wording.SURE[0]:  # what another cause explains better matters only where it is open
        against = [support for support in against if support.kind != "seen"]
    for label, supports in ((wording.SPEAKS_FOR, for_), (wording.SPEAKS_AGAINST, against)):
        said = dict.fromkeys(_say(support, names, by_water) for support in supports)
        if said:
            line(console, (label, "triage.quiet"), "; ".join(list(said)[:REASONS]) + ".", indent=4)


def _least(support: SupportLine, bits: float) -> float:
    return max(bits, ABSENT_BITS) if support.kind == "absent" and support.support > 0 else bits


def _say(support: SupportLine, names: Names, by_water: set[str]) -> str:
    """One reason as part of a sentence."""
    name = wording.inside(names.get(support.what, support.say))
    if support.kind == "rule":
        return wording.BY_WATER if support.what in by_water else wording.inside(support.say.rstrip("."))
    if support.kind == "crop":
        return (wording.CROP_FOR if support.support > 0 else wording.CROP_AGAINST).format(name)
    if support.kind == "seen":
        return name if support.support > 0 else wording.ELSEWHERE.format(name)
    return wording.REASONS[support.kind].format(name)
