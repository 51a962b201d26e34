"""How saved cases look."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from rich.console import Console

from . import wording
from .style import heading, line

if TYPE_CHECKING:
    from ..journal import CaseLine, Closing, StoredAction, StoredCase


def render_cases(cases: Sequence[CaseLine], console: Console) -> None:
    """One line a case."""
    if not cases:
        line(console, "No case yet. Begin one: triage plant", indent=0)
    for case in cases:
        parts = [case.on, case.crop or case.plant or "a plant", case.state, case.summary, case.outcome]
        line(console, (f"{case.id:>3}", "triage.name"), "  ", "  ".join(part for part in parts if part), indent=0)


def render_case(
    case: StoredCase, report: Mapping[str, Any] | None, actions: Sequence[StoredAction], closings: Sequence[Closing],
    console: Console, *, numbers: bool,
) -> None:  # fmt: skip
    """What was told, advised, done, and how it ended."""
    heading(console, f"Case {case.id}, {case.on}, {case.crop or case.plant or 'a plant'} ({case.state})")
    if report is None:
        line(console, f"{case.answered} answers so far and no advice yet. Go on: triage plant")
    else:
        _advice(report, console, numbers)
    if actions:
        heading(console, "What was done")
    for action in actions:
        line(console, f"{action.on}  {action.what}", bullet="-")
    if closings:
        heading(console, "How it ended")
        line(console, f"{closings[-1].outcome}. {closings[-1].note}".rstrip(". ") + ".")


def _advice(report: Mapping[str, Any], console: Console, numbers: bool) -> None:
    for alarm in report["alarms"]:
        line(console, (alarm["say"], "triage.alarm"), bullet="!")
    heading(console, wording.SUSPECTS)
    for place, suspect in enumerate(report["suspects"][:4], start=1):
        number = f" ({suspect['probability']:.0%})" if numbers else ""
        sure = wording.sure_words(suspect["probability"]) + number
        line(console, (suspect["name"], "triage.name"), " — ", (sure, "triage.sure"), bullet=f"{place}")
    if report["suspects"] and report["suspects"][0]["settle"]:
        heading(console, wording.SETTLE)
        line(console, report["suspects"][0]["settle"][0])
    heading(console, wording.DO)
    for response in report["responses"][:6]:
        line(console, f"[{wording.GRADE_TAGS[response['grade']]}] ", response["name"], bullet="-")
