"""What can be done with a case after its first look: the commands that `triage case` takes in."""

from __future__ import annotations

import click

from .recheck import recheck

LATER: tuple[click.Command, ...] = (recheck,)
