"""The rules of a book made ready: their ways, their order, and which of them a case can set off at all."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property

from ..model.rule import Rule, Stage
from ..model.way import Schedule, Turn, Way
from .layers import layer_rules, salience_of, stage_of
from .ways import Key, gate_keys, list_ways

_Gates = tuple[tuple[Key, ...], ...]


class PlannedWay:
    """One way in which one rule can fire. ``place`` counts all ways of the book, in its order."""

    def __init__(self, rule: PlannedRule, place: int, number: int) -> None:
        self.rule, self.place, self._number = rule, place, number

    @property
    def needs(self) -> Way:
        return self.rule.needs(self._number)

    @cached_property
    def gates(self) -> _Gates:
        """For each need, the keys of which one must be told."""
        return _gates_of(self.needs)

    def can_hold(self, told: set[Key]) -> bool:
        """Whether everything it needs is known in some form; limits and exceptions are left to the engine."""
        return all(any(key in told for key in gate) for gate in self.gates)


class PlannedRule:
    """A rule with its place in the book and its turn; rule and needs are fetched when somebody wants to read them."""

    __slots__ = ("_rules", "_ways", "conclude", "id", "layer", "number", "salience", "stage", "ways")

    def __init__(self, rules: Mapping[str, Rule], known: Schedule, id_: str, number: int, first: int) -> None:
        self._rules, self._ways, self.id, self.number = rules, known.ways, id_, number
        turn = known.turns[id_]
        self.stage, self.layer, self.salience, self.conclude = turn.stage, turn.layer, turn.salience, turn.conclude
        self.ways = [PlannedWay(self, first + place, place) for place in range(turn.ways)]

    def needs(self, way: int) -> Way:
        """What must be known for one of its ways to hold."""
        return self._ways[self.id][way]

    @property
    def rule(self) -> Rule:
        return self._rules[self.id]


class Plan:
    """All rules in order, and an index from what is told to the ways that wait for it."""

    def __init__(self, rules: Mapping[str, Rule], schedule: Schedule | None = None) -> None:
        """Plan sound rules; ValueError for others (``rule_faults`` says which and why).

        ``schedule``: that of a compiled book; worked out here where there is none.
        """
        known = schedule if schedule is not None and len(schedule.turns) == len(rules) else make_schedule(rules)
        self.rules: list[PlannedRule] = []
        self.ways: list[PlannedWay] = []
        for id_ in rules:
            planned = PlannedRule(rules, known, id_, len(self.rules), len(self.ways))
            self.rules.append(planned)
            self.ways += planned.ways
        #: Quantities that some rule wants to know unmeasured.
        self.unmeasured = known.unmeasured
        self._waiting = known.waiting

    def list_possible(self, told: Iterable[Key], stages: frozenset[Stage]) -> list[PlannedWay]:
        """The ways of these stages that what is told, or can be concluded from it, may set off; in book order."""
        known = set(told)
        waiting, found = sorted(known), {}
        while waiting:
            for place in self._waiting.get(_text_of(waiting.pop()), ()):
                way = self.ways[place]
                if place in found or way.rule.stage not in stages or not way.can_hold(known):
                    continue
                found[place] = way
                drawn: Key = ("conclusion", way.rule.conclude, "")
                if way.rule.conclude and drawn not in known:
                    known.add(drawn)
                    waiting.append(drawn)
        return [found[place] for place in sorted(found)]


def make_schedule(rules: Mapping[str, Rule]) -> Schedule:
    """What a plan needs of the rules; ValueError for a rule that no engine can hold, or conclusions in a circle."""
    ways = {id_: tuple(list_ways(rule.when)) for id_, rule in rules.items()}
    needed = [need for each in ways.values() for way in each for need in way]
    return Schedule(
        ways=ways,
        turns=_turns(rules, ways),
        waiting=_index([_gates_of(way) for each in ways.values() for way in each]),
        unmeasured=tuple(sorted({need.id for need in needed if need.kind == "no-reading"})),
    )


def _turns(rules: Mapping[str, Rule], ways: Mapping[str, Sequence[Way]]) -> dict[str, Turn]:
    uses = {id_: frozenset(need.id for way in ways[id_] for need in way if need.kind == "conclusion") for id_ in rules}
    draws = {id_: rule.conclude or "" for id_, rule in rules.items()}
    layers = layer_rules(uses, draws)
    stages = {id_: stage_of(rule) for id_, rule in rules.items()}
    times = {id_: salience_of(stages[id_], layers[id_]) for id_ in rules}
    salience = {time: place for place, time in enumerate(sorted(set(times.values()), reverse=True))}
    return {id_: Turn(stages[id_], layers[id_], salience[times[id_]], draws[id_], len(ways[id_])) for id_ in rules}


def _gates_of(needs: Way) -> _Gates:
    return tuple(gate for need in needs if (gate := gate_keys(need)))


def _index(gates: Sequence[_Gates]) -> dict[str, tuple[int, ...]]:
    """Each way stands under every conclusion it needs, else under its rarest gate."""
    count: dict[Key, int] = {}
    for each in gates:
        for key in {key for gate in each for key in gate}:
            count[key] = count.get(key, 0) + 1
    index: dict[str, list[int]] = {}
    for place, each in enumerate(gates):
        for key in _index_keys(each, count):
            index.setdefault(_text_of(key), []).append(place)
    return {key: tuple(places) for key, places in index.items()}


def _index_keys(gates: _Gates, count: Mapping[Key, int]) -> tuple[Key, ...]:
    conclusions = tuple(key for gate in gates for key in gate if key[0] == "conclusion")
    if conclusions:
        return conclusions
    return min(gates, key=lambda gate: sum(count[key] for key in gate), default=())


def _text_of(key: Key) -> str:
    return "\t".join(key)
