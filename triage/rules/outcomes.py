"""From what the engine fired to records: one for each rule, in the order of stage, layer and book."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import cast

import msgspec

from ..model.facts import Concluded, Graded, RulesOutcome
from ..model.odds import STRENGTH
from ..model.outcome import AlarmRaised, Favoured, Firing
from ..model.quantity import Reading
from ..model.rule import STAGES, Rule
from .door import Fact
from .facts import AnimalFact, KnownFact
from .plan import PlannedRule, PlannedWay
from .texts import Said, fill, names_in, say_reading, templates_of


class Fired(msgspec.Struct, frozen=True):
    """One activation that fired, with its facts."""

    way: PlannedWay
    facts: tuple[Fact, ...]


class Record(msgspec.Struct, frozen=True):
    """All activations of one rule as one firing, and what filled its reasons."""

    rule: Rule
    firing: Firing
    said: Mapping[str, Said]


def merge_fired(fired: Iterable[Fired], readings: Iterable[Reading], names: Mapping[str, Said]) -> list[Record]:
    """One record a rule: the reason of its first activation, the facts of all of them, none twice.

    ``readings`` and ``names`` are what reasons may name beside the facts that fired them.
    """
    by_rule: dict[int, list[Fired]] = {}
    for one in fired:
        by_rule.setdefault(one.way.rule.number, []).append(one)
    groups = sorted(by_rule.values(), key=lambda group: _order(group[0].way.rule))
    return [_record(group, readings, names) for group in groups]


def _order(rule: PlannedRule) -> tuple[int, int, int]:
    return STAGES.index(rule.stage), rule.layer, rule.number


def _record(group: list[Fired], readings: Iterable[Reading], names: Mapping[str, Said]) -> Record:
    planned = group[0].way.rule
    own = {**names, **_said_by(group)}
    other = {name for text in templates_of(planned.rule) for name in names_in(text)} - own.keys()
    own |= {reading.quantity: say_reading(reading) for reading in readings if reading.quantity in other}
    firing = Firing(
        rule=planned.id,
        stage=planned.stage,
        because=fill(planned.rule.because, own),
        facts=tuple(dict.fromkeys(text for one in group for text in _readable(one))),
        conclude=planned.conclude,
        sources=tuple(planned.rule.sources),
    )
    return Record(planned.rule, firing, own)


def _said_by(group: list[Fired]) -> dict[str, Said]:
    """What the facts of the first activation say, and the names of all animals that the rule fired for."""
    own: dict[str, Said] = {}
    for fact in reversed(group[0].facts):
        own.update(cast(KnownFact, fact).said())
    animals = dict.fromkeys(fact["name"] for one in group for fact in one.facts if isinstance(fact, AnimalFact))
    return {**own, "animal": Said(" and ".join(animals))} if animals else own


def _readable(fired: Fired) -> list[str]:
    missing = [
        f"conclusion {need.id} not drawn" for need in fired.way.needs if need.kind == "conclusion" and need.other
    ]
    return [cast(KnownFact, fact).readable() for fact in fired.facts] + missing


def as_outcome(records: list[Record]) -> RulesOutcome:
    """What a run over a case gave."""
    return RulesOutcome(
        alarms=tuple(alarm for record in records for alarm in _alarms(record)),
        conclusions=tuple(_concluded(record) for record in records if record.rule.conclude),
        favoured=tuple(moved for record in records for moved in _favoured(record)),
        offered=tuple((id_, record.firing.because) for record in records for id_ in record.rule.offer),
        set_aside=tuple((id_, record.firing.because) for record in records for id_ in record.rule.set_aside),
        firings=tuple(record.firing for record in records),
    )


def as_graded(records: list[Record]) -> tuple[Graded, ...]:
    """What a run over a substance gave."""
    return tuple(
        Graded(
            rule=record.rule.rule,
            harm=record.rule.harm,
            grade=record.rule.grade,
            because=record.firing.because,
            sources=record.firing.sources,
        )
        for record in records
        if record.rule.harm is not None and record.rule.grade is not None
    )


def _alarms(record: Record) -> list[AlarmRaised]:
    alarm = record.rule.alarm
    if alarm is None:
        return []
    say, *do = (fill(text, record.said) for text in (alarm.say, *alarm.do))
    return [AlarmRaised(id=record.rule.rule, say=say, do=tuple(do), because=(record.firing.because,))]


def _concluded(record: Record) -> Concluded:
    firing = record.firing
    return Concluded(id=firing.conclude, because=firing.because, rule=firing.rule, facts=firing.facts)


def _favoured(record: Record) -> list[Favoured]:
    factors = [(cause, STRENGTH[word]) for cause, word in record.rule.favour.items()]
    factors += [(cause, 1.0 / STRENGTH[word]) for cause, word in record.rule.against.items()]
    rule, because = record.rule.rule, record.firing.because
    return [Favoured(cause=cause, factor=factor, rule=rule, because=because) for cause, factor in factors]
