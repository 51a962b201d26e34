"""What cannot wait."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from ..model.outcome import AlarmRaised
from . import wording
from .style import heading, line

if TYPE_CHECKING:
    from .page import Page


def render_alarms(alarms: Sequence[AlarmRaised], console: Page) -> None:
    """Each alarm with what to do; a step that two alarms share is said once. Prints nothing when there is none."""
    if not alarms:
        return
    heading(console, wording.ALARM, "triage.alarm")
    said: set[str] = set()
    for alarm in alarms:
        line(console, (alarm.say, "triage.name"), bullet="!")
        for step in alarm.do:
            if step not in said:
                line(console, step, indent=4, bullet="-")
        said |= set(alarm.do)
