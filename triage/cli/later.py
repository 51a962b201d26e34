"""What can be done with a case after its first look: the commands that `triage case` takes in."""

from __future__ import annotations

import click

from .case_keep import correct, history, outcome, photo, place
from .case_report import report
from .recheck import recheck

LATER: tuple[click.Command, ...] = (recheck, report, outcome, place, photo, correct, history)
