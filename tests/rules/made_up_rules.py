"""A made-up book of rules and made-up cases, the same for the same seed; and a plain reader of the same rules.

The plain reader knows nothing of ways, layers or engines: it asks of every condition whether it holds and whether its
opposite holds (neither, for what is unknown), and draws conclusions by asking the rules that draw them.

Run as a script it prints what the engine makes of some of it: the output must not depend on the hash seed.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Callable
from typing import Any

import msgspec

from triage.model.case import Case, System
from triage.model.crop import Animal, Crop
from triage.model.facts import CaseFacts, GuardFacts
from triage.model.interval import Interval
from triage.model.quantity import Reading
from triage.model.rule import STAGES, Condition, Rule
from triage.rules.check import check_rule
from triage.rules.run import RuleRunner

FINDINGS = ["webbing", "stippling", "wilting", "spots", "new-stones", "fish-gasping"]
QUANTITIES = ["ph", "iron", "oxygen", "temperature"]
MEASURES = ["fish-quotient", "shrimp-quotient", "oxygen-eaten"]
TRAITS = ["film", "metal", "salt"]
CAUSES = ["mites", "thirst", "rust"]
LIMITS = [2.0, 4.0, 6.0]
CROPS = [
    Crop(crop="basil", name="Basil", kind="herb", sources=["made-up"]),
    Crop(crop="chard", name="Chard", kind="leafy", sources=["made-up"]),
]
ANIMALS = [
    Animal(animal="tilapia", name="Tilapia", kind="fish", species=["t"], groups=["cichlid"], sources=["made-up"]),
    Animal(animal="shrimp", name="Shrimp", kind="crustacean", species=["s"], groups=["decapod"], sources=["made-up"]),
    Animal(animal="carp", name="Carp", kind="fish", species=["c"], groups=["cold-water-fish"], sources=["made-up"]),
]
ANIMAL_WORDS = ["tilapia", "fish", "crustacean", "cichlid"]
OUTCOMES: dict[str, dict[str, Any]] = {
    "alarm": {"alarm": {"say": "Stop.", "do": ["Look."]}},
    "favour": {"favour": {"mites": "strongly"}, "against": {"thirst": "slightly"}},
    "respond": {"offer": ["hose-down"], "set-aside": ["soap"]},
    "guard": {"grade": "never", "harm": "fish"},
}


def make_limits(chance: random.Random) -> dict[str, float]:
    limits = {chance.choice(["above", "at-least"]): chance.choice(LIMITS[:2])}
    if chance.random() < 0.3:
        limits[chance.choice(["below", "at-most"])] = chance.choice(LIMITS[1:]) + 1
    elif chance.random() < 0.5:
        limits = {chance.choice(["below", "at-most"]): chance.choice(LIMITS)}
    return limits


def make_leaf(chance: random.Random, stage: str, conclusions: list[str]) -> dict[str, Any]:
    """One condition that this stage may ask."""
    leaves: list[Callable[[], dict[str, Any]]] = [
        lambda: {"reading": chance.choice(QUANTITIES), **make_limits(chance)},
        lambda: {"no-reading": chance.choice(QUANTITIES)},
        lambda: {"animal": chance.choice([chance.choice(ANIMAL_WORDS), chance.sample(ANIMAL_WORDS, 2)])},
        lambda: {"system": "beds", "is": chance.choice(["media", ["raft", "media"]])},
    ]
    if stage == "guard":
        leaves += [
            lambda: {"exposure": chance.choice(MEASURES), **make_limits(chance)},
            lambda: {"no-exposure": chance.choice(MEASURES)},
            lambda: {"trait": chance.choice(TRAITS)},
        ]
    else:
        leaves += [lambda: {chance.choice(["finding", "change", "absent"]): chance.choice(FINDINGS)}] * 4
        leaves += [
            lambda: {"trend": "ph", "is": chance.choice(["rising", "falling", ["steady", "rising"]])},
            lambda: {"crop": chance.choice(["basil", "leafy", ["herb", "fruiting"]])},
        ]
        leaves += [lambda: {"conclusion": chance.choice(conclusions)}] * 4 if conclusions else []
    if stage == "respond":
        leaves += [lambda: {"suspect": chance.choice(CAUSES), **{chance.choice(["at-least", "below"]): 0.3}}] * 3
    return chance.choice(leaves)()


def make_condition(chance: random.Random, stage: str, conclusions: list[str], depth: int = 0) -> dict[str, Any]:
    draw = chance.random()
    if depth == 3 or draw < 0.3:
        return make_leaf(chance, stage, conclusions)
    if draw < 0.45:
        return {"not": make_condition(chance, stage, conclusions, depth + 1)}
    parts = [make_condition(chance, stage, conclusions, depth + 1) for _ in range(chance.choice([1, 2, 2, 3]))]
    return {"all" if draw < 0.8 else "any": parts}


def make_rule(chance: random.Random, number: int, conclusions: list[str]) -> Rule:
    """A sound rule of any stage; one that concludes adds its conclusion to those that later rules may ask for."""
    stage = chance.choice(["alarm", "conclude", "conclude", "conclude", "favour", "respond", "guard"])
    while True:
        drawn = chance.choice([*conclusions[-1:], f"conclusion-{number}"])
        known = (
            [conclusion for conclusion in conclusions if conclusion != drawn] if stage == "conclude" else conclusions
        )
        entry = {
            "rule": f"rule-{number}",
            "when": make_condition(chance, stage, known),
            **({"conclude": drawn} if stage == "conclude" else OUTCOMES[stage]),
            "because": "It was {crop}.",
            "sources": ["made-up"],
        }
        rule = msgspec.convert(entry, Rule)
        if not check_rule(rule):
            return rule


def make_rules(seed: int, count: int = 14) -> dict[str, Rule]:
    """A book whose rules stand in an order that has nothing to do with who needs whom."""
    chance = random.Random(seed)
    rules: list[Rule] = []
    conclusions: list[str] = []
    for number in range(count):
        rules.append(make_rule(chance, number, conclusions))
        drawn = rules[-1].conclude
        if drawn and drawn not in conclusions:
            conclusions.append(drawn)
    chance.shuffle(rules)
    return {rule.rule: rule for rule in rules}


def make_readings(chance: random.Random) -> tuple[Reading, ...]:
    readings = []
    for quantity in chance.sample(QUANTITIES, chance.randrange(len(QUANTITIES) + 1)):
        low, high = sorted(chance.choices([1, 2, 3, 4, 5, 6, 7], k=2))
        low, high = (low, high) if chance.random() < 0.5 else (low, low)
        readings.append(Reading(quantity=quantity, value=low, low=low, high=high))
    return tuple(readings)


def make_case(seed: int) -> CaseFacts:
    chance = random.Random(seed)
    states = {finding: chance.choice(["seen", "absent", "unsure", "set_aside", "unknown"]) for finding in FINDINGS}
    known = {
        state: frozenset(finding for finding in FINDINGS if states[finding] == state)
        for state in ("seen", "absent", "unsure", "set_aside")
    }
    return CaseFacts(
        case=Case(on="2026-05-04", system=System(beds=chance.choice(["", "media", "raft"])), **known),
        readings=make_readings(chance),
        trends={"ph": chance.choice(["rising", "falling", "steady"])} if chance.random() < 0.6 else {},
        crop=chance.choice([None, *CROPS]),
        animals=tuple(chance.sample(ANIMALS, chance.randrange(len(ANIMALS) + 1))),
        suspects={cause: chance.random() for cause in CAUSES if chance.random() < 0.7},
    )


def make_guard(seed: int) -> GuardFacts:
    chance = random.Random(seed)
    ends = {name: sorted(chance.choices([1.0, 2.0, 3.0, 4.0, 5.0, 6.0], k=2)) for name in MEASURES}
    measured = chance.sample(MEASURES, chance.randrange(len(MEASURES) + 1))
    missing = [name for name in MEASURES if name not in measured and chance.random() < 0.5]
    return GuardFacts(
        substance="soap",
        exposures={name: Interval(*ends[name]) for name in measured},
        missing=frozenset(missing),
        traits=frozenset(chance.sample(TRAITS, chance.randrange(len(TRAITS) + 1))),
        animals=tuple(chance.sample(ANIMALS, chance.randrange(len(ANIMALS) + 1))),
        readings=make_readings(chance),
        system={"beds": chance.choice(["media", "raft"])} if chance.random() < 0.7 else {},
    )


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
            return ask_words(c.crop, {facts.crop.crop, facts.crop.kind} if facts.crop else set())
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


if __name__ == "__main__":
    first, last = (int(word) for word in sys.argv[1:3])
    for seed in range(first, last):
        runner = RuleRunner(make_rules(seed, 30))
        for other in range(5):
            print(msgspec.json.encode(runner.run_case(make_case(other))).decode())
            print(msgspec.json.encode(runner.trace_guard(make_guard(other))).decode())
