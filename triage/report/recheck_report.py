"""One report of a later look: how it is, what was done, how that moved the causes, and what comes next."""

from __future__ import annotations

import msgspec

from .case_report import Report, SuspectLine

FORMAT = "triage-recheck/1"


class DoneLine(msgspec.Struct, frozen=True, kw_only=True):
    """A remedy that was done: on which days, how often it takes (None: as long as it is needed), and how it stands.

    ``against`` is the likeliest cause it works against; ``better_by`` the day by which it should show. ``hindered``
    says why it could not work here.
    """

    treatment: str
    name: str
    days: tuple[str, ...]
    times: int | None
    whole: bool
    against: str
    works: str
    better_by: str
    waited: bool
    hindered: tuple[str, ...]


class MovedLine(msgspec.Struct, frozen=True, kw_only=True):
    """A cause with its probability at the look before and now."""

    cause: str
    name: str
    before: float
    now: float


class SecondLine(msgspec.Struct, frozen=True, kw_only=True):
    """A cause that nothing was done about and that may be at work: beside the treated one, or instead of it."""

    cause: str
    name: str
    probability: float
    instead: bool
    settle: tuple[str, ...]


class NotAgainLine(msgspec.Struct, frozen=True, kw_only=True):
    """A remedy that had its time and did not help."""

    treatment: str
    name: str
    why: str


class RecheckReport(msgspec.Struct, frozen=True, kw_only=True):
    """What a later look gave.

    ``verdict``: better | same | worse, '' if nobody said. ``suspects`` say what it was, most likely first: judged by
    the water of the first look where it is better, by the water of today where it is not. ``now`` is the whole report
    of today, ``retest`` the quantities that nobody tested since they were changed on purpose.
    """

    format: str = FORMAT
    case: int
    on: str
    first_on: str
    verdict: str
    done: tuple[DoneLine, ...]
    not_understood: tuple[str, ...]  # what was done in words that no treatment of the book fits
    too_early: bool
    better_by: str
    days_longer: bool  # because it is cold
    temperature_c: float | None
    moved: tuple[MovedLine, ...]
    suspects: tuple[SuspectLine, ...]
    second: SecondLine | None
    not_again: tuple[NotAgainLine, ...]
    retest: tuple[str, ...]
    next_look: str
    now: Report
