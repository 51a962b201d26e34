"""How it stands before the next answer: a few words, so that they pull nobody's answer."""

from __future__ import annotations

from rich.console import Console

from ..report.case_report import Report
from . import wording
from .style import line

SHOWN = 3
WORTH_NAMING = 0.2


def render_so_far(report: Report, console: Console) -> None:
    """The suspects that are at least possible, in words."""
    likely = [suspect for suspect in report.suspects if suspect.probability >= WORTH_NAMING][:SHOWN]
    if not likely:
        line(console, wording.SO_FAR_NOTHING)
        return
    line(console, wording.SO_FAR)
    for suspect in likely:
        line(console, f"{suspect.name} ({wording.sure_words(suspect.probability)})", bullet="-")
