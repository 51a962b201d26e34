"""One report on why a quantity moves: the balance, the suspects, the check that would decide, and what is not known."""

from __future__ import annotations

import msgspec

from ..model.outcome import AlarmRaised
from ..water.lacks import Lack
from ..water.trend import Trend
from .case_report import ConclusionLine, QuestionLine, SuspectLine
from .water_lines import Figure

FORMAT = "triage-water-why/1"


class BalanceLine(Figure, frozen=True, kw_only=True):
    """One term of the balance, with its range."""

    name: str


class Decide(msgspec.Struct, frozen=True, kw_only=True):
    """The one measurement that would decide, and how to do it."""

    cause: str
    how: str
    tell_from: tuple[tuple[str, str], ...] = ()  # (name of a rival, how to tell)
    question: QuestionLine | None = None


class DriftReport(msgspec.Struct, frozen=True, kw_only=True):
    """Why a quantity moves. ``told``: one cause leads clearly; otherwise it can't be told yet."""

    format: str = FORMAT
    quantity: str
    name: str
    unit: str
    on: str
    direction: str  # rising | falling | steady | cannot-tell
    trend: Trend
    told: bool
    say: str
    balance: tuple[BalanceLine, ...]
    suspects: tuple[SuspectLine, ...]  # most likely first
    none_in_book: float
    decide: Decide | None
    lacks: tuple[Lack, ...]  # the cheapest first
    missing_volume: bool
    alarms: tuple[AlarmRaised, ...]
    conclusions: tuple[ConclusionLine, ...]
    cautions: tuple[str, ...]
