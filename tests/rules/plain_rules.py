"""A plain reader of rules that knows nothing of ways, layers or engines.

It asks of every condition whether it holds and whether its opposite holds (neither, for what is unknown), and draws
conclusions by asking the rules that draw them.
"""

from __future__ import annotations

from typing import Any

from triage.model.facts import CaseFacts, GuardFacts
from triage.model.interval import Interval
from triage.model.rule import STAGES, Condition, Rule

Holds = tuple[bool, bool]  # the condition holds, its opposite holds


class PlainReader:
    """Says which rules fire, by asking each condition in turn."""

    def __init__(self, rules: dict[str, Rule], facts: CaseFacts | GuardFacts) -> None:
        self.rules, self.facts = rules, facts

    def list_fired(self) -> list[str]:
        """Rules that fire, by stage, by depth of the conclusions they look at, by place in the book."""
        if isinstance(self.facts, GuardFacts):
            wanted = ["guard"]
        else:
            wanted = ["alarm", "conclude", "favour", *(["respond"] if self.facts.suspects else [])]
        fired = [rule for rule in self.rules.values() if self._stage(rule) in wanted and self._fires(rule)]
        place = list(self.rules)
        order = {
            rule.rule: (STAGES.index(self._stage(rule)), self._depth(rule), place.index(rule.rule)) for rule in fired
        }
        return sorted(order, key=order.__getitem__)

    def _stage(self, rule: Rule) -> Any:
        if rule.alarm:
            return "alarm"
        if rule.conclude:
            return "conclude"
        return "favour" if rule.favour else "respond" if rule.offer else "guard"

    def _drawers(self, conclusion: str) -> list[Rule]:
        return [rule for rule in self.rules.values() if rule.conclude == conclusion]

    def _depth(self, rule: Rule) -> int:
        makers = [maker for conclusion in self._asked(rule.when) for maker in self._drawers(conclusion)]
        return max((1 + self._depth(maker) for maker in makers), default=0)

    def _asked(self, condition: Condition) -> list[str]:
        parts = (condition.all or []) + (condition.any or []) + ([condition.not_] if condition.not_ else [])
        return ([condition.conclusion] if condition.conclusion else []) + [
            c for part in parts for c in self._asked(part)
        ]

    def _fires(self, rule: Rule) -> bool:
        return self._ask(rule.when, self._stage(rule))[0]

    def _ask(self, c: Condition, stage: str) -> Holds:
        if c.not_:
            return self._ask(c.not_, stage)[::-1]
        if c.all:
            answers = [self._ask(part, stage) for part in c.all]
            return all(yes for yes, _ in answers), any(no for _, no in answers)
        if c.any:
            answers = [self._ask(part, stage) for part in c.any]
            return any(yes for yes, _ in answers), all(no for _, no in answers)
        return self._ask_guard(c) if isinstance(self.facts, GuardFacts) else self._ask_case(c, stage, self.facts)

    def _ask_shared(self, c: Condition, cautious: bool, beds: str) -> Holds:
        readings = {reading.quantity: reading.interval for reading in self.facts.readings}
        if c.no_reading:
            return c.no_reading not in readings, c.no_reading in readings
        if c.reading:
            return ask_limits(c, readings.get(c.reading), cautious)
        if c.animal:
            kept = {word for a in self.facts.animals for word in (a.animal, a.kind, *a.groups)}
            return ask_words(c.animal, kept)
        assert c.system
        return ask_words(c.is_, {beds} if beds else set())

    def _ask_case(self, c: Condition, stage: str, facts: CaseFacts) -> Holds:
        case, name = facts.case, c.finding or c.change
        absent = case.absent | case.set_aside
        if name:
            return name in case.seen, name in absent
        if c.absent:
            return c.absent in absent, c.absent in case.seen
        if c.conclusion:
            drawn = any(self._fires(rule) for rule in self._drawers(c.conclusion))
            return drawn, not drawn
        if c.trend:
            return ask_words(c.is_, {facts.trends[c.trend]} if c.trend in facts.trends else set())
        if c.crop:
            return ask_words(c.crop, {facts.crop.crop, facts.crop.family, facts.crop.kind} if facts.crop else set())
        if c.suspect:
            known = facts.suspects.get(c.suspect)
            return ask_limits(c, None if known is None else Interval.exactly(known), False)
        return self._ask_shared(c, stage == "alarm", case.system.beds)

    def _ask_guard(self, c: Condition) -> Holds:
        facts = self.facts
        assert isinstance(facts, GuardFacts)
        if c.exposure:
            return ask_limits(c, facts.exposures.get(c.exposure), True)
        if c.no_exposure:
            return c.no_exposure in facts.missing, c.no_exposure in facts.exposures
        if c.trait:
            return c.trait in facts.traits, c.trait not in facts.traits
        return self._ask_shared(c, True, facts.system.get("beds", ""))


def ask_words(wanted: str | list[str] | None, known: set[str]) -> Holds:
    words = {wanted} if isinstance(wanted, str) else set(wanted or ())
    return bool(words & known), bool(known) and not words & known


def ask_limits(c: Condition, known: Interval | None, cautious: bool) -> Holds:
    """Every point of the interval must be within (or without), or any point where we are cautious."""
    if known is None:
        return False, False
    points = [known.low, known.high, *(p for p in inner_points() if known.low < p < known.high)]
    inside = [
        (c.above is None or p > c.above)
        and (c.at_least is None or p >= c.at_least)
        and (c.below is None or p < c.below)
        and (c.at_most is None or p <= c.at_most)
        for p in points
    ]
    return (any(inside), not all(inside)) if cautious else (all(inside), not any(inside))


def inner_points() -> list[float]:
    return [number / 20 for number in range(0, 161)]
