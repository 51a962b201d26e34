"""A made-up book of rules and made-up cases, the same for the same seed.

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
from triage.model.rule import Rule
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


if __name__ == "__main__":
    first, last = (int(word) for word in sys.argv[1:3])
    for seed in range(first, last):
        runner = RuleRunner(make_rules(seed, 30))
        for other in range(5):
            print(msgspec.json.encode(runner.run_case(make_case(other))).decode())
            print(msgspec.json.encode(runner.trace_guard(make_guard(other))).decode())
