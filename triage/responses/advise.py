"""Which lines of advice hold for a substance, an event and a grade."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import msgspec

from ..model.advice import Advice, Event, Moment
from ..model.rule import Grade
from ..model.substance import Substance


class Occasion(msgspec.Struct, frozen=True, kw_only=True):
    """What the advice is for. No substance: it is not in the book, and whatever is for all of them holds."""

    substances: tuple[Substance, ...] = ()
    event: Event = "sprayed"
    grade: Grade = "unknown"
    crustaceans: bool = True


def choose_advice(advice: Mapping[str, Advice], moment: Moment, occasion: Occasion) -> tuple[str, ...]:
    """The lines of a moment that hold here, in their order, each once."""
    lines = [line for line in advice.values() if line.moment == moment and _holds(line, occasion)]
    lines.sort(key=lambda line: (line.order, line.advice))
    return tuple(dict.fromkeys(line.say for line in lines))


def _holds(line: Advice, occasion: Occasion) -> bool:
    if line.events and occasion.event not in line.events:
        return False
    if line.grades and occasion.grade not in line.grades:
        return False
    if line.crustaceans and not occasion.crustaceans:
        return False
    if line.traits or line.unless or line.substances or line.not_for:
        return any(_fits(line, substance) for substance in occasion.substances)
    return True


def _fits(line: Advice, substance: Substance) -> bool:
    """Whether a line holds for a substance by what it is."""
    traits: set[str] = set(substance.traits)
    named = not line.substances or substance.substance in line.substances
    kept = substance.substance not in line.not_for and traits.isdisjoint(line.unless)
    return named and kept and (not line.traits or _some(traits, line.traits))


def _some(traits: set[str], wanted: Iterable[str]) -> bool:
    return not traits.isdisjoint(wanted)
