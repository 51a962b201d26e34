"""Many cases at once: a line each, a bar while they are looked at, and what came of it."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, TypeVar

import msgspec

from . import wording
from .style import build_console, line

if TYPE_CHECKING:
    from .page import Page

One = TypeVar("One")


class _Suspect(msgspec.Struct):
    name: str
    probability: float


class _Alarm(msgspec.Struct):
    say: str


class _Gist(msgspec.Struct):
    """What one line says of a report."""

    suspects: list[_Suspect]
    alarms: list[_Alarm]
    none_in_book: float


def track(found: Iterable[One], count: int) -> Iterator[One]:
    """The same, with a bar on standard error that goes when it is done."""
    from rich.progress import track as rich_track

    console = build_console(file=sys.stderr)
    yield from rich_track(found, wording.MANY_LOOKING, total=count, console=console, transient=True)


def show_looked(console: Page, name: str, report: bytes, faults: Sequence[str]) -> None:
    """One case: its alarms and its first suspect, or why it could not be read."""
    if faults:
        for fault in faults:
            line(console, fault, indent=0)
        return
    gist = msgspec.json.decode(report, type=_Gist)
    for alarm in gist.alarms:
        line(console, f"{name}: ", (f"{wording.ALARM}: ", "triage.alarm"), alarm.say, indent=0)
    first = gist.suspects[0] if gist.suspects else None
    if first is None or first.probability < gist.none_in_book:
        line(console, f"{name}: {wording.MANY_NONE}", indent=0)
    else:
        line(console, f"{name}: ", (first.name, "triage.name"), f" ({wording.sure_words(first.probability)})", indent=0)


def say_count(looked: int, bad: int, alarms: int, before: int) -> str:
    """What came of it, in one line."""
    said = wording.MANY_DONE.format(looked=looked, bad=bad, alarms=alarms)
    return f"{said} {wording.MANY_BEFORE.format(before)}" if before else said
