"""What can be done with a case after its first look: the commands that `triage case` takes in."""

from __future__ import annotations

import click

from .case_keep import correct, history, outcome, photo, place
from .case_report import report
from .recheck import recheck
from .tables import export_cases

LATER: tuple[click.Command, ...] = (recheck, report, export_cases, outcome, place, photo, correct, history)
