"""What the rule engine is told: one case, or one substance to be graded."""

import msgspec

from .case import Case
from .crop import Animal, Crop
from .interval import Interval
from .outcome import AlarmRaised, Favoured, Firing, Out
from .quantity import Reading
from .rule import Grade, Harm


class CaseFacts(msgspec.Struct, frozen=True, kw_only=True):
    """A case as the rules see it: answers, current readings (derived ones too), trends, context and suspects."""

    case: Case
    readings: tuple[Reading, ...] = ()  # latest of each quantity, derived quantities included
    trends: dict[str, str] = {}  # quantity id → rising | falling | steady
    crop: Crop | None = None
    animals: tuple[Animal, ...] = ()
    suspects: dict[str, float] = {}  # cause id → probability; empty before ranking


class Concluded(Out, frozen=True, kw_only=True):
    """A conclusion, the rule that drew it and the facts it rests on."""

    id: str
    because: str
    rule: str
    facts: tuple[str, ...]


class RulesOutcome(Out, frozen=True, kw_only=True):
    """Everything one run of the rules gave, in a fixed order (stage, layer, place in the book)."""

    alarms: tuple[AlarmRaised, ...] = ()
    conclusions: tuple[Concluded, ...] = ()
    favoured: tuple[Favoured, ...] = ()
    offered: tuple[tuple[str, str], ...] = ()  # (treatment, because)
    set_aside: tuple[tuple[str, str], ...] = ()  # (treatment, because)
    firings: tuple[Firing, ...] = ()


class GuardFacts(msgspec.Struct, frozen=True, kw_only=True):
    """One substance as the safety rules see it.

    ``exposures`` are measures by name (for example 'fish-quotient-spilled'); a measure that could not be computed is
    missing here and listed in ``missing``. ``traits`` are the substance's traits.
    """

    substance: str
    exposures: dict[str, Interval] = {}
    missing: frozenset[str] = frozenset()
    traits: frozenset[str] = frozenset()
    animals: tuple[Animal, ...] = ()
    readings: tuple[Reading, ...] = ()
    system: dict[str, str] = {}  # e.g. cover: none | covered | moved


class Graded(Out, frozen=True, kw_only=True):
    """One guard rule that fired: the grade it asks for, on account of which harm, and why."""

    rule: str
    harm: Harm
    grade: Grade
    because: str
    sources: tuple[str, ...] = ()
