"""The engine and a plain reader of the same rules agree, on thousands of made-up cases."""

from __future__ import annotations

from types import ModuleType
from typing import Any

import pytest

from triage.rules import run as run_module
from triage.rules.check import rule_faults
from triage.rules.compile import build_rule
from triage.rules.door import KnowledgeEngine
from triage.rules.engine import Engine
from triage.rules.plan import Plan
from triage.rules.run import RuleRunner
from triage.rules.tell import tell_case, tell_guard

BOOKS = 150
CASES = 20


class StockEngine(Engine):
    """The same rules and order under experta's own matcher."""

    __matcher__: Any = KnowledgeEngine.__matcher__


def test_the_same_rules_fire_in_the_same_order(made_up: ModuleType, plain: ModuleType) -> None:
    fired_at_all: dict[str, int] = {}
    for seed in range(BOOKS):
        rules = made_up.make_rules(seed)
        runner = RuleRunner(rules)
        for number in range(CASES):
            facts = made_up.make_case(seed * CASES + number)
            outcome = runner.run_case(facts)
            assert [firing.rule for firing in outcome.firings] == plain.PlainReader(rules, facts).list_fired()
            for firing in outcome.firings:
                fired_at_all[firing.stage] = fired_at_all.get(firing.stage, 0) + 1
    assert min(fired_at_all[stage] for stage in ("alarm", "conclude", "favour", "respond")) > 500


def test_the_same_guards_fire(made_up: ModuleType, plain: ModuleType) -> None:
    fired = 0
    for seed in range(BOOKS):
        rules = made_up.make_rules(seed)
        runner = RuleRunner(rules)
        for number in range(CASES):
            facts = made_up.make_guard(seed * CASES + number)
            graded = runner.run_guard(facts)
            assert [one.rule for one in graded] == plain.PlainReader(rules, facts).list_fired()
            fired += len(graded)
    assert fired > 500


def test_made_up_books_are_sound(made_up: ModuleType) -> None:
    assert [rule_faults(made_up.make_rules(seed)) for seed in range(BOOKS)] == [[]] * BOOKS


@pytest.mark.parametrize("seed", range(8))
def test_both_matchers_fire_the_same_on_the_same_facts(made_up: ModuleType, seed: int) -> None:
    plan = Plan(made_up.make_rules(seed, 20))
    own, stock = (kind([build_rule(way) for way in plan.ways]) for kind in (Engine, StockEngine))
    for number in range(20):
        told = [*tell_case(made_up.make_case(number), plan.unmeasured), *tell_guard(made_up.make_guard(number), ())]
        runs = [
            [(way.place, [fact.readable() for fact in facts]) for way, facts in engine.run_afresh(make_facts(told))]
            for engine in (own, stock)
        ]
        assert runs[0] == runs[1]


def make_facts(told: list[Any]) -> list[Any]:
    """Each fact once, though the case and the guard may tell the same."""
    facts = {}
    for one in told:
        fact = one.make()
        facts.setdefault(repr(sorted(map(str, fact.items()))) + type(fact).__name__, fact)
    return list(facts.values())


def test_leaving_out_rules_that_cannot_fire_changes_nothing(
    made_up: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    rules = [made_up.make_rules(seed) for seed in range(20)]
    cases = [made_up.make_case(number) for number in range(10)]
    picked = [[RuleRunner(book).run_case(facts) for facts in cases] for book in rules]
    monkeypatch.setattr(
        run_module.Plan,
        "list_possible",
        lambda self, told, stages: [way for way in self.ways if way.rule.stage in stages],
    )
    assert [[RuleRunner(book).run_case(facts) for facts in cases] for book in rules] == picked
