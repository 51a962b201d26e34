"""From a planned way to a rule of the engine: each need becomes a pattern of one fact."""

from __future__ import annotations

import operator
from collections.abc import Callable
from functools import cache
from typing import cast

from ..model.rule import Stage
from ..model.way import Need
from .check import check_rule, rule_faults
from .door import NOT, Fact, P
from .engine import BookRule, Engine
from .facts import (
    AnimalFact,
    AnimalsFact,
    ConclusionFact,
    CropFact,
    ExposureFact,
    FindingFact,
    MissingFact,
    ReadingFact,
    SuspectFact,
    SystemFact,
    TraitFact,
    TraitsFact,
    TrendFact,
    UnknownReading,
)
from .plan import PlannedWay

__all__ = ["build_rule", "check_rule", "rule_faults"]

#: Where a reading straddles a limit: these stages fire only if the whole interval is beyond it, the others (which
#: look after the fish) if any of it is.
CERTAIN_STAGES: frozenset[Stage] = frozenset({"conclude", "favour", "respond"})
_COMPARE = {"above": operator.gt, "at_least": operator.ge, "below": operator.lt, "at_most": operator.le}


def build_rule(way: PlannedWay) -> BookRule:
    """The engine's rule for one way: it records what it fired on and declares what it concludes."""
    certain = way.rule.stage in CERTAIN_STAGES
    wanted = [need for need in way.needs if not _is_exception(need)]
    patterns = [f"f{place:02}" << _pattern(need, certain) for place, need in enumerate(wanted)]
    barred = [NOT(ConclusionFact(id=need.id)) for need in way.needs if _is_exception(need)]
    order = way.place
    return BookRule(*patterns, *barred, salience=way.rule.salience, order=order, act=_recorder(way))


def _is_exception(need: Need) -> bool:
    return need.kind == "conclusion" and need.other


def _recorder(way: PlannedWay) -> Callable[[Engine, dict[str, Fact]], None]:
    conclude = way.rule.conclude

    def record(engine: Engine, facts: dict[str, Fact]) -> None:
        engine.fired.append((way, tuple(facts[name] for name in sorted(facts))))
        if conclude:
            engine.declare(ConclusionFact(id=conclude))

    return record


def _pattern(need: Need, certain: bool) -> Fact:
    return _PATTERNS[need.kind](need, certain)


def _ends(need: Need, certain: bool) -> dict[str, P]:
    """The end of the interval that decides each limit: the nearer one to be certain, the farther one to be safe."""
    ends = {}
    for name, value in need.limits:
        is_lower = name in ("above", "at_least")
        ends["low" if is_lower == certain else "high"] = _beyond(name, value)
    return ends


@cache
def _beyond(limit: str, value: float) -> P:
    compare = _COMPARE[limit]
    return P(lambda end: cast(bool, compare(end, value)))


@cache
def _one_of(values: tuple[str, ...], other: bool) -> P:
    return P(lambda value: (value in values) != other)


@cache
def _overlapping(values: tuple[str, ...], other: bool) -> P:
    wanted = frozenset(values)
    return P(lambda words: wanted.isdisjoint(words) == other)


def _animal(need: Need, certain: bool) -> Fact:
    kind = AnimalsFact if need.other else AnimalFact
    return kind(words=_overlapping(need.values, need.other))


def _trait(need: Need, certain: bool) -> Fact:
    return TraitsFact(words=_overlapping(need.values, True)) if need.other else TraitFact(id=need.values[0])


_PATTERNS: dict[str, Callable[[Need, bool], Fact]] = {
    "finding": lambda need, _: FindingFact(id=need.id, state=need.values[0]),
    "reading": lambda need, certain: ReadingFact(quantity=need.id, **_ends(need, certain)),
    "no-reading": lambda need, _: UnknownReading(quantity=need.id),
    "trend": lambda need, _: TrendFact(quantity=need.id, direction=_one_of(need.values, need.other)),
    "conclusion": lambda need, _: ConclusionFact(id=need.id),
    "crop": lambda need, _: CropFact(words=_overlapping(need.values, need.other)),
    "animal": _animal,
    "suspect": lambda need, certain: SuspectFact(id=need.id, **_ends(need, certain)),
    "system": lambda need, _: SystemFact(key=need.id, value=_one_of(need.values, need.other)),
    "exposure": lambda need, certain: ExposureFact(name=need.id, **_ends(need, certain)),
    "no-exposure": lambda need, _: MissingFact(name=need.id),
    "trait": _trait,
}
