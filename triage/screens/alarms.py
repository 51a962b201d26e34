"""What cannot wait."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from . import wording
from .style import heading, line

if TYPE_CHECKING:
    from typing import Protocol

    from .page import Page

    class Alarm(Protocol):
        """What an alarm and an urgent line of a report have in common."""

        @property
        def say(self) -> str: ...
        @property
        def do(self) -> tuple[str, ...]: ...


def render_alarms(alarms: Sequence[Alarm], console: Page) -> None:
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
