"""The rules of a book made ready: their ways, their order, and which of them a case can set off at all."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from ..model.rule import Rule, Stage
from ..model.way import Way
from .layers import layer_rules, salience_of, stage_of
from .ways import Key, gate_keys, list_ways


class PlannedWay:
    """One way in which one rule can fire. ``place`` counts all ways of the book, in its order."""

    __slots__ = ("gates", "needs", "place", "rule")

    def __init__(self, rule: PlannedRule, place: int, needs: Way) -> None:
        self.rule, self.place, self.needs = rule, place, needs
        #: For each need, the keys of which one must be told.
        self.gates = tuple(gate for need in needs if (gate := gate_keys(need)))

    def can_hold(self, told: set[Key]) -> bool:
        """Whether everything it needs is known in some form; limits and exceptions are left to the engine."""
        return all(any(key in told for key in gate) for gate in self.gates)


class PlannedRule:
    """A rule with its place in the book, its stage and layer, and the salience that follows from them."""

    __slots__ = ("layer", "number", "rule", "salience", "stage", "ways")

    def __init__(self, rule: Rule, number: int) -> None:
        self.rule, self.number = rule, number
        self.stage: Stage = stage_of(rule)
        self.layer = self.salience = 0
        self.ways: list[PlannedWay] = []


class Plan:
    """All rules in order, and an index from what is told to the ways that wait for it."""

    def __init__(self, rules: Mapping[str, Rule], ways: Mapping[str, Sequence[Way]] | None = None) -> None:
        """Plan sound rules; ValueError for others (``rule_faults`` says which and why).

        ``ways``: those of a compiled book (``list_all_ways``), by rule; worked out here where it has none.
        """
        self.rules = [PlannedRule(rule, number) for number, rule in enumerate(rules.values())]
        self._list_ways(ways or {})
        self._set_order()
        self._index = self._build_index()

    def _set_order(self) -> None:
        uses = {rule.rule.rule: _conclusions_of(rule) for rule in self.rules}
        layers = layer_rules(uses, {rule.rule.rule: rule.rule.conclude or "" for rule in self.rules})
        for rule in self.rules:
            rule.layer = layers[rule.rule.rule]
        order = sorted({salience_of(rule.stage, rule.layer) for rule in self.rules}, reverse=True)
        salience = {key: place for place, key in enumerate(order)}
        for rule in self.rules:
            rule.salience = salience[salience_of(rule.stage, rule.layer)]

    def _list_ways(self, compiled: Mapping[str, Sequence[Way]]) -> None:
        self.ways: list[PlannedWay] = []
        for rule in self.rules:
            for needs in compiled.get(rule.rule.rule) or list_ways(rule.rule.when):
                rule.ways.append(PlannedWay(rule, len(self.ways), needs))
                self.ways.append(rule.ways[-1])
        needed = [need for way in self.ways for need in way.needs]
        #: Quantities that some rule wants to know unmeasured.
        self.unmeasured = sorted({need.id for need in needed if need.kind == "no-reading"})

    def _build_index(self) -> dict[Key, list[PlannedWay]]:
        """Each way stands under every conclusion it needs, else under its rarest gate."""
        count: dict[Key, int] = {}
        for way in self.ways:
            for key in {key for gate in way.gates for key in gate}:
                count[key] = count.get(key, 0) + 1
        index: dict[Key, list[PlannedWay]] = {}
        for way in self.ways:
            for key in _index_keys(way, count):
                index.setdefault(key, []).append(way)
        return index

    def list_possible(self, told: Iterable[Key], stages: frozenset[Stage]) -> list[PlannedWay]:
        """The ways of these stages that what is told, or can be concluded from it, may set off; in book order."""
        known = set(told)
        waiting, found = sorted(known), {}
        while waiting:
            for way in self._index.get(waiting.pop(), ()):
                if way.place in found or way.rule.stage not in stages or not way.can_hold(known):
                    continue
                found[way.place] = way
                drawn: Key = ("conclusion", way.rule.rule.conclude or "", "")
                if way.rule.rule.conclude and drawn not in known:
                    known.add(drawn)
                    waiting.append(drawn)
        return [found[place] for place in sorted(found)]


def _conclusions_of(rule: PlannedRule) -> frozenset[str]:
    return frozenset(need.id for way in rule.ways for need in way.needs if need.kind == "conclusion")


def _index_keys(way: PlannedWay, count: Mapping[Key, int]) -> tuple[Key, ...]:
    conclusions = tuple(key for gate in way.gates for key in gate if key[0] == "conclusion")
    if conclusions:
        return conclusions
    return min(way.gates, key=lambda gate: sum(count[key] for key in gate), default=())
