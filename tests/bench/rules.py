"""Times of the rules: planning, building, a case, a guard run; with this project's matcher and experta's own.

    python tests/bench/rules.py [rules for cases] [rules for guards]

Medians in milliseconds over a made-up book; a script, not a test.
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from collections.abc import Callable
from typing import Any

import msgspec

from triage.model.case import Case, System
from triage.model.crop import Animal, Crop
from triage.model.facts import CaseFacts, GuardFacts
from triage.model.interval import Interval
from triage.model.quantity import Reading
from triage.model.rule import Rule
from triage.rules.compile import build_rule
from triage.rules.door import KnowledgeEngine
from triage.rules.engine import Engine
from triage.rules.plan import Plan
from triage.rules.run import RuleRunner
from triage.rules.tell import tell_case, tell_guard

TIMES = 200
FINDINGS = [f"finding-{number}" for number in range(30)]
QUANTITIES = [f"quantity-{number}" for number in range(8)]
MEASURES = [f"measure-{number}" for number in range(8)]
TRAITS = [f"trait-{number}" for number in range(12)]
BASIL = Crop(crop="basil", name="Basil", kind="herb", sources=["bench"])
SHRIMP = Animal(animal="shrimp", name="Shrimp", kind="crustacean", species=["s"], groups=["g"], sources=["bench"])
TILAPIA = Animal(animal="tilapia", name="Tilapia", kind="fish", species=["t"], groups=["cichlid"], sources=["bench"])


class StockEngine(Engine):
    """The same rules and order under experta's own matcher."""

    __matcher__ = KnowledgeEngine.__matcher__  # type: ignore[attr-defined]


def make_case_rules(count: int, chance: random.Random) -> dict[str, Rule]:
    """Three conditions a rule; a third reads what earlier rules concluded."""
    rules = {}
    for number in range(count):
        parts: list[dict[str, Any]] = [
            {"reading": chance.choice(QUANTITIES), chance.choice(["above", "below"]): chance.uniform(3, 7)},
            {"finding": chance.choice(FINDINGS)},
            {"crop": ["basil", "leafy"]},
        ]
        if number % 3 == 2:
            parts[0] = {"conclusion": f"conclusion-{chance.randrange(number // 3 * 3)}"} if number > 3 else parts[0]
        entry = {
            "rule": f"rule-{number}",
            "when": {"all": parts},
            "because": "bench",
            "sources": ["bench"],
            **({"favour": {"cause": "somewhat"}} if number % 3 == 2 else {"conclude": f"conclusion-{number}"}),
        }
        rules[f"rule-{number}"] = msgspec.convert(entry, Rule)
    return rules


def make_guard_rules(count: int, chance: random.Random) -> dict[str, Rule]:
    """Two or three conditions a rule."""
    rules = {}
    for number in range(count):
        second = [{"animal": "crustacean"}, {"reading": "quantity-1", "below": 9}, {"no-exposure": "measure-9"}]
        parts: list[dict[str, Any]] = [
            {"exposure": chance.choice(MEASURES), "at-least": chance.uniform(0.2, 0.9)},
            chance.choice([*second, {"trait": chance.choice(TRAITS)}]),
        ]
        entry = {
            "rule": f"guard-{number}",
            "when": {"all": parts},
            "grade": "never",
            "harm": "fish",
            "because": "bench",
            "sources": ["bench"],
        }
        rules[f"guard-{number}"] = msgspec.convert(entry, Rule)
    return rules


def make_readings(chance: random.Random) -> tuple[Reading, ...]:
    values = [chance.uniform(2, 8) for _ in QUANTITIES]
    return tuple(Reading(quantity=q, value=v, low=v, high=v) for q, v in zip(QUANTITIES, values, strict=True))


def make_case(chance: random.Random) -> CaseFacts:
    seen = frozenset(chance.sample(FINDINGS, 10))
    case = Case(on="2026-05-04", seen=seen, absent=frozenset(FINDINGS) - seen, system=System(beds="media"))
    return CaseFacts(case=case, readings=make_readings(chance), crop=BASIL, animals=(TILAPIA, SHRIMP))


def make_guard(number: int, chance: random.Random) -> GuardFacts:
    ends = [sorted((chance.random(), chance.random())) for _ in MEASURES]
    return GuardFacts(
        substance=f"substance-{number}",
        exposures={name: Interval(low, high) for name, (low, high) in zip(MEASURES, ends, strict=True)},
        missing=frozenset(["measure-9"]),
        traits=frozenset(chance.sample(TRAITS, 3)),
        animals=(TILAPIA, SHRIMP),
        readings=make_readings(chance),
        system={"cover": "none"},
    )


def median_ms(work: Callable[[], object], times: int = TIMES) -> float:
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        spent.append((time.perf_counter() - start) * 1000)
    return statistics.median(spent)


def time_engine(kind: type[Engine], plan: Plan, told: list[Any]) -> tuple[float, float, int]:
    """Building an engine of all ways, running it once, and how many rules fired."""
    built = median_ms(lambda: kind([build_rule(way) for way in plan.ways]), 15)
    engine = kind([build_rule(way) for way in plan.ways])
    ran = median_ms(lambda: engine.run_afresh([fact.make() for fact in told]))
    return built, ran, len(engine.run_afresh([fact.make() for fact in told]))


def compare_matchers(rules: dict[str, Rule], told: list[Any], what: str) -> None:
    plan = Plan(rules)
    for kind in (Engine, StockEngine):
        built, ran, fired = time_engine(kind, plan, told)
        print(f"{kind.__name__:11} {len(plan.ways):4} {what} built {built:7.2f} ms, run {ran:7.2f} ms, {fired} fired")


def main(cases: int = 60, guards: int = 40) -> None:
    chance = random.Random(1)
    case_rules, guard_rules = make_case_rules(cases, chance), make_guard_rules(guards, chance)
    rules = {**case_rules, **guard_rules}
    facts, substances = make_case(chance), [make_guard(number, chance) for number in range(20)]
    runner = RuleRunner(rules)
    first = median_ms(lambda: RuleRunner(rules).run_case(facts), 30)
    each = median_ms(lambda: [runner.run_guard(one) for one in substances], 30) / len(substances)
    print(f"plan {len(rules)} rules            {median_ms(lambda: RuleRunner(rules), 30):8.2f} ms")
    print(f"plan, build, first case   {first:8.2f} ms")
    print(f"a case, engine kept       {median_ms(lambda: runner.run_case(facts)):8.2f} ms")
    print(f"a guard run, engine kept  {each:8.2f} ms")
    print(
        f"fired: {len(runner.run_case(facts).firings)} in the case, {len(runner.run_guard(substances[0]))} in a guard"
    )
    compare_matchers(case_rules, tell_case(facts, ()), "case rules")
    compare_matchers(guard_rules, tell_guard(substances[0], ()), "guard rules")


if __name__ == "__main__":
    main(*(int(word) for word in sys.argv[1:]))
