"""The record of what fired: which rule, on which facts, from which source."""

from __future__ import annotations

from collections.abc import Mapping

from rich.console import Console

from ..model.record import Source
from ..report.case_report import Report
from .style import heading, line


def render_why(report: Report, console: Console, sources: Mapping[str, Source]) -> None:
    """Every firing in order, conclusions followed down to what was seen and measured."""
    heading(console, "What fired, and on what")
    if not report.firings:
        line(console, "No rule fired; the ranking rests on the signs alone.")
    for firing in report.firings:
        line(console, (firing.rule, "triage.name"), f" ({firing.stage}): {firing.because}", bullet="*")
        for fact in firing.facts:
            line(console, f"because {fact}", indent=4)
        for name in firing.sources:
            title = sources[name].title if name in sources else name
            line(console, (f"source {name}: {title}", "triage.quiet"), indent=4)
