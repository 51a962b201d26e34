"""The water as it is, or would be: what the rules make of it, and how two such waters differ."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from ..model.case import Case, System
from ..model.facts import CaseFacts, RulesOutcome
from ..model.quantity import Reading
from ..reasoning import Engines
from ..report.dose_report import Effect, Saying
from .after import derived_effects, effects_of


class Here(msgspec.Struct, frozen=True, kw_only=True):
    """One water: its system and readings, the facts of them, and what the rules say."""

    engines: Engines
    system: System
    on: str
    readings: tuple[Reading, ...]
    facts: CaseFacts
    outcome: RulesOutcome

    @classmethod
    def of(cls, engines: Engines, system: System, on: str, readings: Sequence[Reading]) -> Here:
        """The rules run on these readings alone; no history, so no trends."""
        facts, _ = engines.facts(Case(on=on, system=system, readings=tuple(readings)))
        outcome = engines.rules.run_case(facts)
        return cls(engines=engines, system=system, on=on, readings=tuple(readings), facts=facts, outcome=outcome)

    def then(self, readings: Sequence[Reading]) -> Here:
        """The same system with other water."""
        return Here.of(self.engines, self.system, self.on, readings)


def told_effects(here: Here, then: Here, changes: dict[str, float]) -> list[Effect]:
    """Everything that the dose changes, measured or worked out."""
    quantities = here.engines.book.quantities
    was, now = (here.engines.derive(here.system, side.readings) for side in (here, then))
    measured = [reading.quantity for reading in here.readings]
    return [
        *effects_of(changes, here.readings, then.readings, quantities),
        *derived_effects(was, now, measured, quantities),
    ]


def sayings(side: Here, other: Here) -> tuple[Saying, ...]:
    """Conclusions of one water that the other does not give."""
    sources = {firing.rule: firing.sources for firing in side.outcome.firings}
    known = {conclusion.id for conclusion in other.outcome.conclusions}
    return tuple(
        Saying(id=c.id, say=c.because, source=sources.get(c.rule, ()))
        for c in side.outcome.conclusions
        if c.id not in known
    )
