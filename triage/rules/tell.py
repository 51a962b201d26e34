"""A case, or a substance in this water, told fact by fact: checked before anything is declared, in a fixed order."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial

import msgspec

from ..model.case import Case
from ..model.crop import Animal, Crop
from ..model.facts import CaseFacts, GuardFacts
from ..model.interval import Interval
from ..model.quantity import Reading
from .facts import (
    AnimalFact,
    AnimalsFact,
    CropFact,
    ExposureFact,
    FindingFact,
    KnownFact,
    MissingFact,
    ReadingFact,
    SuspectFact,
    SystemFact,
    TraitFact,
    TraitsFact,
    TrendFact,
    UnknownReading,
)
from .texts import interval_text, say_reading
from .ways import SYSTEM_KEYS, Key


class Told(msgspec.Struct, frozen=True):
    """Something known: the keys that rules look for, and how to make the fact (a fact is declared only once)."""

    keys: tuple[Key, ...]
    make: Callable[[], KnownFact]


def tell_case(facts: CaseFacts, unmeasured: Iterable[str]) -> list[Told]:
    """All that is known of a case, in a fixed order; ``unmeasured`` are quantities whose absence rules ask about.

    Raises ValueError, before anything is declared, for facts that contradict themselves.
    """
    case = facts.case
    told = [*_tell_findings(case), *_tell_readings(facts.readings, unmeasured)]
    told += [_tell_trend(quantity, facts.trends[quantity]) for quantity in sorted(facts.trends)]
    told += [_tell_crop(facts.crop)] if facts.crop else []
    told += _tell_animals(facts.animals)
    system = {key: getattr(case.system, key.replace("-", "_")) for key in SYSTEM_KEYS}
    told += _tell_system({key: value for key, value in system.items() if value})
    return told + [_tell_suspect(cause, facts.suspects[cause]) for cause in sorted(facts.suspects)]


def tell_guard(facts: GuardFacts, unmeasured: Iterable[str]) -> list[Told]:
    """All that is known of a substance in this water, in a fixed order."""
    told = [_tell_exposure(name, facts.exposures[name]) for name in sorted(facts.exposures)]
    missing = sorted(facts.missing - facts.exposures.keys())
    told += [Told((("no-exposure", name, ""),), partial(MissingFact, name=name)) for name in missing]
    told += [Told((("trait", trait, ""),), partial(TraitFact, id=trait)) for trait in sorted(facts.traits)]
    told.append(Told((("trait", "", ""),), partial(TraitsFact, words=facts.traits)))
    return [
        *told,
        *_tell_animals(facts.animals),
        *_tell_readings(facts.readings, unmeasured),
        *_tell_system(facts.system),
    ]


def _tell_findings(case: Case) -> Iterator[Told]:
    """Options of a pick-one question that were not chosen are absent: its options exclude each other."""
    both = sorted(case.seen & case.absent)
    if both:
        raise ValueError(f"finding '{both[0]}' is both seen and absent")
    absent = (case.absent | case.set_aside) - case.seen
    for state, ids in (("seen", case.seen), ("absent", absent)):
        for id_ in sorted(ids):
            yield Told((("finding", id_, state),), partial(FindingFact, id=id_, state=state))


def _tell_readings(readings: Iterable[Reading], unmeasured: Iterable[str]) -> Iterator[Told]:
    known = sorted(readings, key=lambda reading: (reading.quantity, reading.low, reading.high))
    for reading in known:
        _check_ends(reading.quantity, reading.low, reading.high)
        yield Told((("reading", reading.quantity, ""),), partial(_reading_fact, reading))
    for quantity in sorted(set(unmeasured) - {reading.quantity for reading in known}):
        yield Told((("no-reading", quantity, ""),), partial(UnknownReading, quantity=quantity))


def _reading_fact(reading: Reading) -> KnownFact:
    said = say_reading(reading)
    ends = {"low": float(reading.low), "high": float(reading.high)}
    return ReadingFact(quantity=reading.quantity, **ends, text=said.text, unit=said.unit)


def _check_ends(name: str, low: float, high: float) -> None:
    if not low <= high:
        raise ValueError(f"'{name}' needs low <= high, not {low} and {high}")


def _tell_trend(quantity: str, direction: str) -> Told:
    if direction not in ("rising", "falling", "steady"):
        raise ValueError(f"the trend of '{quantity}' is rising, falling or steady, not '{direction}'")
    return Told((("trend", quantity, ""),), partial(TrendFact, quantity=quantity, direction=direction))


def _tell_crop(crop: Crop) -> Told:
    words = frozenset(filter(None, (crop.crop, crop.family, crop.kind)))
    keys = tuple(("crop", word, "") for word in ("", *sorted(words)))
    return Told(keys, partial(CropFact, id=crop.crop, words=words))


def _tell_animals(animals: tuple[Animal, ...]) -> Iterator[Told]:
    words = {a.animal: frozenset((a.animal, a.kind, *a.groups)) for a in animals}
    for animal in sorted(animals, key=lambda animal: animal.animal):
        own = words[animal.animal]
        keys = tuple(("animal", word, "") for word in sorted(own))
        yield Told(keys, partial(AnimalFact, id=animal.animal, name=animal.name, words=own))
    if words:
        every = frozenset().union(*words.values())
        yield Told((("animal", "", ""),), partial(AnimalsFact, ids=tuple(sorted(words)), words=every))


def _tell_system(system: dict[str, str]) -> Iterator[Told]:
    for key in sorted(system):
        yield Told((("system", key, ""),), partial(SystemFact, key=key, value=system[key]))


def _tell_suspect(cause: str, probability: float) -> Told:
    if not 0.0 <= probability <= 1.0:
        raise ValueError(f"the probability of '{cause}' is between 0 and 1, not {probability}")
    ends = {"low": float(probability), "high": float(probability)}
    return Told((("suspect", cause, ""),), partial(SuspectFact, id=cause, **ends))


def _tell_exposure(name: str, known: Interval) -> Told:
    return Told((("exposure", name, ""),), partial(_exposure_fact, name, known))


def _exposure_fact(name: str, known: Interval) -> KnownFact:
    return ExposureFact(name=name, low=float(known.low), high=float(known.high), text=interval_text(known))
