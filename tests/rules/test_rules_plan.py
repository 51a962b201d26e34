"""Stages, layers and salience, and which rules a case can set off."""

from __future__ import annotations

from collections.abc import Callable
from itertools import permutations
from typing import Any

import pytest

from triage.rules.layers import CircleError, conclusions_in, layer_rules, stage_of
from triage.rules.plan import Plan

AsRules = Callable[..., Any]
CASE = frozenset({"alarm", "conclude", "favour"})


def test_stages_are_told_by_what_a_rule_does(as_rules: AsRules) -> None:
    rules = as_rules(
        a={"when": {"finding": "x"}, "alarm": {"say": "s", "do": []}},
        c={"when": {"finding": "x"}, "conclude": "c", "favour": {"y": "slightly"}},
        f={"when": {"finding": "x"}, "against": {"y": "slightly"}},
        r={"when": {"finding": "x"}, "set-aside": ["t"]},
        g={"when": {"trait": "film"}, "grade": "never", "harm": "fish"},
    )
    assert [stage_of(rule) for rule in rules.values()] == ["alarm", "conclude", "favour", "respond", "guard"]


def test_a_rule_of_two_stages_has_none(as_rules: AsRules) -> None:
    rules = as_rules(a={"when": {"finding": "x"}, "conclude": "c", "offer": ["t"]})
    with pytest.raises(ValueError, match="one kind of thing, this does conclude, respond"):
        stage_of(rules["a"])


def test_layers_stand_one_above_what_they_look_at() -> None:
    uses = {"top": frozenset({"m", "b"}), "middle": frozenset({"b"}), "base": frozenset(), "lone": frozenset({"none"})}
    draws = {"top": "t", "middle": "m", "base": "b", "lone": ""}
    for order in permutations(uses):
        layers = layer_rules({rule: uses[rule] for rule in order}, {rule: draws[rule] for rule in order})
        assert layers == {"top": 2, "middle": 1, "base": 0, "lone": 0}


def test_two_rules_for_one_conclusion_both_come_first() -> None:
    uses = {"reader": frozenset({"c"}), "low": frozenset(), "high": frozenset({"d"}), "source": frozenset()}
    draws = {"reader": "", "low": "c", "high": "c", "source": "d"}
    assert layer_rules(uses, draws) == {"reader": 2, "low": 0, "high": 1, "source": 0}


def test_a_circle_is_named_in_its_order() -> None:
    uses = {"a": frozenset({"from-b"}), "b": frozenset({"from-c"}), "c": frozenset({"from-a"})}
    draws = {"a": "from-a", "b": "from-b", "c": "from-c"}
    with pytest.raises(CircleError, match="a → b → c → a"):
        layer_rules(uses, draws)


def test_conclusions_are_found_under_not(as_rules: AsRules) -> None:
    rules = as_rules(
        a={"when": {"all": [{"finding": "x"}, {"not": {"any": [{"conclusion": "p"}, {"conclusion": "q"}]}}]}}
    )
    assert conclusions_in(rules["a"].when) == {"p", "q"}


def test_an_alarm_waits_only_for_the_conclusions_it_looks_at(as_rules: AsRules) -> None:
    plan = Plan(
        as_rules(
            second={"when": {"conclusion": "first"}},
            favoured={"when": {"finding": "x"}, "favour": {"y": "slightly"}},
            waits={"when": {"conclusion": "first"}, "alarm": {"say": "s", "do": []}},
            first={"when": {"finding": "x"}},
            at_once={"when": {"finding": "x"}, "alarm": {"say": "s", "do": []}},
            offers={"when": {"finding": "x"}, "offer": ["t"]},
        )
    )
    by_salience = sorted(plan.rules, key=lambda rule: -rule.salience)
    assert [rule.rule.rule for rule in by_salience] == ["at-once", "first", "waits", "second", "favoured", "offers"]


def possible(plan: Plan, *keys: tuple[str, str, str]) -> list[str]:
    return [way.rule.rule.rule for way in plan.list_possible(keys, CASE)]


def test_only_rules_that_something_can_set_off_are_possible(as_rules: AsRules) -> None:
    plan = Plan(
        as_rules(
            late={"when": {"all": [{"conclusion": "middle"}, {"conclusion": "other"}]}, "favour": {"y": "slightly"}},
            middle={"when": {"all": [{"conclusion": "base"}, {"crop": ["basil", "chard"]}]}},
            other={"when": {"all": [{"conclusion": "base"}, {"reading": "ph", "above": 7}]}},
            base={"when": {"finding": "x"}},
            unless={"when": {"all": [{"finding": "x"}, {"not": {"conclusion": "base"}}]}},
            offers={"when": {"finding": "x"}, "offer": ["t"]},
        )
    )
    x, ph, chard = ("finding", "x", "seen"), ("reading", "ph", ""), ("crop", "chard", "")
    assert possible(plan) == []
    assert possible(plan, ("finding", "x", "absent"), ph, chard) == []
    assert possible(plan, x) == ["base", "unless"]
    assert possible(plan, x, ph) == ["other", "base", "unless"]
    assert possible(plan, x, ph, chard) == ["late", "middle", "other", "base", "unless"]
