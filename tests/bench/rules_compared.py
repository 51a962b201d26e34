"""The rules of a case, engine kept: ours against CLIPS and plain Python, on the same rules with the same firings.

Run: python tests/bench/rules_compared.py [--rules 200] [--cases 50] [--json]      (CLIPS: pip install clipspy)

Goals: rules at most 12 times CLIPS; rules and ranking together at most 3 times the same in plain Python. Without
clipspy the row of CLIPS is left out. Made-up rules and cases of ``rules.py``, made-up network of ``ranking.py``.
"""

from __future__ import annotations

import argparse
import importlib
import json
import random
import statistics
import sys
import time
from collections.abc import Callable, Sequence
from typing import Any

from ranking import made_up_cases
from rules import make_case, make_case_rules

from triage.model.facts import CaseFacts
from triage.model.rule import Rule
from triage.ranking.rank import rank_causes
from triage.rules.plan import Plan
from triage.rules.run import RuleRunner

CLIPS_GOAL, PLAIN_GOAL = 12.0, 3.0
LIMITS = {"above": ("low", ">"), "at_least": ("low", ">="), "below": ("high", "<"), "at_most": ("high", "<=")}
Run = Callable[[CaseFacts], Sequence[str]]  # a case → the rules that fired, sorted


def clips_runner(plan: Plan) -> Run | None:
    """The same rules in CLIPS; None where it is not installed."""
    try:
        clips: Any = importlib.import_module("clips")
    except ImportError:
        return None
    environment = clips.Environment()
    for template in (
        "(deftemplate finding (slot id) (slot state))", "(deftemplate reading (slot quantity) (slot low) (slot high))",
        "(deftemplate conclusion (slot id))", "(deftemplate crop (multislot words))", "(deftemplate fired (slot rule))",
    ):  # fmt: skip
        environment.build(template)
    for way in plan.ways:
        environment.build(_defrule(way))
    finding, reading, crop, fired = map(environment.find_template, ("finding", "reading", "crop", "fired"))
    symbol = clips.Symbol

    def run(facts: CaseFacts) -> Sequence[str]:
        environment.reset()
        for state, ids in (("seen", facts.case.seen), ("absent", facts.case.absent)):
            for id_ in ids:
                finding.assert_fact(id=symbol(id_), state=symbol(state))
        for one in facts.readings:
            reading.assert_fact(quantity=symbol(one.quantity), low=one.low, high=one.high)
        assert facts.crop is not None
        crop.assert_fact(words=[symbol(facts.crop.crop), symbol(facts.crop.kind)])
        environment.run()
        return sorted({str(fact["rule"]) for fact in fired.facts()})

    return run


def _defrule(way: Any) -> str:
    patterns = " ".join(map(_pattern, way.needs))
    rule = way.rule.rule
    concluded = f" (assert (conclusion (id {rule.conclude})))" if rule.conclude else ""
    head = f"(defrule w{way.place} (declare (salience {way.rule.salience}))"
    return f"{head} {patterns} => (assert (fired (rule {rule.rule}))){concluded})"


def _pattern(need: Any) -> str:
    if need.kind == "finding":
        return f"(finding (id {need.id}) (state {need.values[0]}))"
    if need.kind == "conclusion":
        return f"(conclusion (id {need.id}))"
    if need.kind == "crop":
        wanted = " ".join(f"(member$ {word} ?words)" for word in need.values)
        return f"(crop (words $?words&:(or {wanted})))"
    slots = [
        f"({LIMITS[name][0]} ?{place}&:({LIMITS[name][1]} ?{place} {value}))"
        for place, (name, value) in zip("ab", need.limits, strict=False)
    ]
    return f"(reading (quantity {need.id}) {' '.join(slots)})"


def plain_runner(plan: Plan) -> Run:
    """The same rules as a loop over conditions, in the order of their layers."""
    order = sorted(plan.ways, key=lambda way: (-way.rule.salience, way.place))
    compare: dict[str, Callable[[float, float], bool]] = {
        ">": float.__gt__, ">=": float.__ge__, "<": float.__lt__, "<=": float.__le__,
    }  # fmt: skip

    def holds(need: Any, facts: CaseFacts, readings: dict[str, Any], words: set[str], drawn: set[str]) -> bool:
        if need.kind == "finding":
            return need.id in (facts.case.seen if need.values[0] == "seen" else facts.case.absent)
        if need.kind == "conclusion":
            return need.id in drawn
        if need.kind == "crop":
            return not words.isdisjoint(need.values)
        one = readings.get(need.id)
        return one is not None and all(
            compare[LIMITS[name][1]](getattr(one, LIMITS[name][0]), value) for name, value in need.limits
        )

    def run(facts: CaseFacts) -> Sequence[str]:
        assert facts.crop is not None
        readings = {one.quantity: one for one in facts.readings}
        words, drawn, fired = {facts.crop.crop, facts.crop.kind}, set[str](), set[str]()
        for way in order:
            if all(holds(need, facts, readings, words, drawn) for need in way.needs):
                fired.add(way.rule.rule.rule)
                if way.rule.rule.conclude:
                    drawn.add(way.rule.rule.conclude)
        return sorted(fired)

    return run


def own_runner(rules: dict[str, Rule]) -> Run:
    """This project's rules: an engine of experta with the project's matcher, kept."""
    runner = RuleRunner(rules, keep=256)
    return lambda facts: sorted({firing.rule for firing in runner.run_case(facts).firings})


def measure(count: int, cases: int) -> dict[str, Any]:
    """Median milliseconds a case of each way, and the ratios."""
    chance = random.Random(1)
    rules = make_case_rules(count, chance)
    facts = [make_case(chance) for _ in range(cases)]
    plan = Plan(rules)
    ways = {"own": own_runner(rules), "plain": plain_runner(plan), "clips": clips_runner(plan)}
    network = made_up_cases(1, 8)[0]
    runs = {name: run for name, run in ways.items() if run is not None}
    for one in facts:  # engines built, and the same rules fired
        fired = {name: list(run(one)) for name, run in runs.items()}
        assert all(each == fired["plain"] for each in fired.values()), fired
    times: dict[str, list[float]] = {name: [] for name in (*runs, "ranking")}
    for one in facts * 3:
        for name, run in runs.items():
            times[name].append(_ms(lambda run=run, one=one: run(one)))
        times["ranking"].append(_ms(lambda: rank_causes(network.network, network.evidence)))
    found = {f"{name}_ms": statistics.median(own) for name, own in times.items()}
    ranked = found["ranking_ms"]
    ratios = {"own_to_plain_with_ranking": (found["own_ms"] + ranked) / (found["plain_ms"] + ranked)}
    if "clips_ms" in found:
        ratios["own_to_clips"] = found["own_ms"] / found["clips_ms"]
    return {"rules": count, "cases": cases} | found | ratios


def _ms(work: Callable[[], object]) -> float:
    begun = time.perf_counter()
    work()
    return 1000 * (time.perf_counter() - begun)


def main() -> int:
    """Print the figures; exit 1 if a goal is missed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rules", type=int, default=200)
    parser.add_argument("--cases", type=int, default=50)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    found = measure(options.rules, options.cases)
    clips, plain = found.get("own_to_clips"), found["own_to_plain_with_ranking"]
    if options.json:
        print(json.dumps(found))
    else:
        for name in ("own", "clips", "plain", "ranking"):
            print(
                f"{name:8} {found[f'{name}_ms']:7.2f} ms a case" if f"{name}_ms" in found else f"{name:8} not installed"
            )
        print(f"ours to CLIPS {clips:.1f} (goal {CLIPS_GOAL:g})" if clips else "CLIPS not compared")
        print(f"with ranking, ours to plain Python {plain:.2f} (goal {PLAIN_GOAL:g})")
    return int(plain > PLAIN_GOAL or (clips or 0) > CLIPS_GOAL)


if __name__ == "__main__":
    sys.exit(main())
