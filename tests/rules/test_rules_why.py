"""The why-tree is the record of what fired."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from triage.rules.run import RuleRunner
from triage.rules.why import WhyNode, build_why_tree

RULES: dict[str, Any] = {
    "bottom": {"when": {"reading": "ph", "above": 7}, "because": "pH is {ph}.", "sources": ["one"]},
    "beside": {"when": {"finding": "x"}, "conclude": "bottom", "because": "It was seen."},
    "middle": {"when": {"all": [{"conclusion": "bottom"}, {"not": {"conclusion": "never"}}]}},
    "never": {"when": {"finding": "y"}},
    "top": {"when": {"conclusion": "middle"}, "favour": {"mites": "slightly"}},
    "plain": {"when": {"finding": "x"}, "favour": {"mites": "strongly"}},
    "give": {"when": {"suspect": "mites", "above": 0.2}, "offer": ["hose"], "because": "{probability} mites."},
}


def outline(nodes: tuple[WhyNode, ...]) -> list[Any]:
    return [[node.rule, *outline(node.children)] for node in nodes]


def test_the_tree_goes_down_to_what_was_told(as_rules: Callable[..., Any], as_facts: Callable[..., Any]) -> None:
    facts = as_facts(seen="x", readings={"ph": 7.4}, suspects={"mites": 0.5})
    outcome = RuleRunner(as_rules(**RULES)).run_case(facts)
    assert outline(build_why_tree(outcome, "mites")) == [["plain"], ["top", ["middle", ["bottom"], ["beside"]]]]
    assert outline(build_why_tree(outcome, "bottom")) == [["bottom"], ["beside"]]
    assert outline(build_why_tree(outcome, "hose")) == outline(build_why_tree(outcome, "give")) == [["give"]]
    assert build_why_tree(outcome, "never") == build_why_tree(outcome, "unheard-of") == ()
    (middle,) = build_why_tree(outcome, "middle")
    assert middle.facts == ("conclusion bottom", "conclusion never not drawn")
    assert middle.children[0] == WhyNode(
        rule="bottom",
        stage="conclude",
        because="pH is 7.4.",
        conclude="bottom",
        facts=("reading ph = 7.4",),
        sources=("one",),
    )
    assert build_why_tree(outcome, "give")[0].facts == ("suspect mites 50%",)


def test_a_rule_taken_back_leaves_the_tree(as_rules: Callable[..., Any], as_facts: Callable[..., Any]) -> None:
    runner = RuleRunner(as_rules(**RULES))
    runner.run_case(as_facts(seen="x", readings={"ph": 7.4}))
    outcome = runner.run_case(as_facts(seen="x"))
    assert outline(build_why_tree(outcome, "mites")) == [["plain"], ["top", ["middle", ["beside"]]]]
