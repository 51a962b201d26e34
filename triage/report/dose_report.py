"""One report on one dose: each product with its grams, its days, what it does to everything else, or why not."""

from __future__ import annotations

import msgspec

from ..model.outcome import AlarmRaised
from ..model.rule import Grade

FORMAT = "triage-dose/1"


class DoseStep(msgspec.Struct, frozen=True, kw_only=True):
    """One day of a dose; pH only where a base or an acid moves it."""

    day: int
    grams: float
    ph_before: float | None = None
    ph_at_once: float | None = None
    ph_next_day: float | None = None
    alkalinity: float | None = None


class Effect(msgspec.Struct, frozen=True, kw_only=True):
    """What the whole dose does to one quantity; before and after are None where nobody measured it."""

    quantity: str
    name: str
    unit: str
    change: float | None
    before: float | None
    after: float | None
    estimate: bool = False


class Saying(msgspec.Struct, frozen=True, kw_only=True):
    """Something the water says after the dose that it did not say before, or no more."""

    id: str
    say: str
    source: tuple[str, ...] = ()


class DoseOption(msgspec.Struct, frozen=True, kw_only=True):
    """One product. ``refused`` holds the reasons why not; then the grams are what was asked for, not advice."""

    treatment: str
    name: str
    product: str
    refused: tuple[str, ...]
    grade: Grade
    grade_percent: float | None
    grams: float
    low_grams: float
    high_grams: float
    millilitres: float | None
    days: int
    change: float
    do: tuple[str, ...]
    steps: tuple[DoseStep, ...]
    effects: tuple[Effect, ...]
    says: tuple[Saying, ...]
    ends: tuple[Saying, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]


class DoseReport(msgspec.Struct, frozen=True, kw_only=True):
    """The answer: products in the order in which they are to be thought of, refused ones last.

    ``acid_times``: how many times more acid the water is at the target than now, where pH is asked for.
    """

    format: str = FORMAT
    what: str
    name: str
    unit: str
    value_now: float | None
    low_now: float | None
    high_now: float | None
    to: float | None
    acid_times: float | None = None
    volume_l: float | None
    alarms: tuple[AlarmRaised, ...]
    options: tuple[DoseOption, ...]
    cautions: tuple[str, ...]
