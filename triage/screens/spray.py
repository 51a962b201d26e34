"""How the answer about a spray looks: the grade in words, the harms side by side, what to do instead."""

from __future__ import annotations

from collections.abc import Mapping

from rich.console import Console

from ..model.outcome import HarmVerdict
from ..report.spray_report import SprayReport
from . import wording
from .style import heading, line


def render_spray(report: SprayReport, console: Console, names: Mapping[str, str]) -> None:
    """The whole answer. ``names`` maps treatment ids to what people call them."""
    heading(console, f"{report.name}: {wording.GRADE_WORDS[report.grade]}", f"triage.grade.{report.grade}")
    line(console, f"[{wording.GRADE_TAGS[report.grade]}] {report.what}")
    for why in report.why:
        line(console, why, bullet="-")
    _exposure(report, console)
    heading(console, "The harms, one by one")
    for harm in ("fish", "crustaceans", "filter", "water", "people"):
        verdict = getattr(report.harms, harm)
        if verdict is not None:
            _harm(verdict, console)
    if report.instead:
        heading(console, "What to use instead")
        for treatment in report.instead:
            line(console, names.get(treatment, treatment), bullet="-")
    heading(console, wording.CAUTIONS)
    for caution in report.cautions:
        line(console, caution, bullet="!")
    if report.harvest_wait_days is not None:
        line(
            console,
            f"Wait {report.harvest_wait_days:g} days before harvest, or longer if the label says so.",
            bullet="!",
        )


def _exposure(report: SprayReport, console: Console) -> None:
    exposure = report.exposure
    heading(console, "How much would reach the water")
    for note in report.assumed:
        line(console, note, bullet="-")
    if exposure.spilled_mg_l is None or exposure.volume_l is None:
        line(console, "It cannot be reckoned: say --volume, --strength and --amount.")
        return
    line(
        console,
        f"{exposure.as_sprayed_mg_l or 0:.3g} mg/L ({exposure.of}) as sprayed with {exposure.share_reaching_water:.1%} "
        f"reaching {exposure.volume_l:g} L; {exposure.spilled_mg_l:.3g} mg/L if all of it is spilled.",
    )


def _harm(verdict: HarmVerdict, console: Console) -> None:
    tag = f"[{wording.GRADE_TAGS[verdict.grade]}]"
    line(console, (wording.HARM_WORDS[verdict.harm], "triage.name"), " ", (tag, f"triage.grade.{verdict.grade}"))
    for why in verdict.why[:3]:
        line(console, why, indent=4)
    if verdict.value_mg_l is not None:
        memory = " (from memory)" if verdict.verified == "memory" else ""
        value = f"{verdict.kind} {verdict.value_mg_l:g} mg/L, {verdict.species}, source {verdict.source}{memory}"
        line(console, (value, "triage.quiet"), indent=4)
