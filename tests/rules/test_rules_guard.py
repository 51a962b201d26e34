"""What safety rules make of a substance in this water."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from triage.model.crop import Animal
from triage.model.facts import GuardFacts
from triage.model.interval import Interval
from triage.rules.run import RuleRunner

AsRules = Callable[..., Any]
TILAPIA = Animal(animal="tilapia", name="Tilapia", kind="fish", species=["t"], groups=["cichlid"], sources=["test"])


def test_a_substance_is_graded_by_its_exposures_traits_and_company(as_rules: AsRules) -> None:
    rules = as_rules(
        toxic={
            "when": {"all": [{"exposure": "fish-quotient", "at-least": 0.5}, {"animal": "fish"}]},
            "grade": "never",
            "harm": "fish",
            "because": "{fish-quotient} times the level for {substance}.",
            "sources": ["epa"],
        },
        unknown={"when": {"no-exposure": "shrimp-quotient"}, "grade": "unknown", "harm": "crustaceans"},
        film={"when": {"trait": "film"}, "grade": "keep-off-water", "harm": "water"},
        clean={"when": {"not": {"trait": "film"}}, "grade": "ok", "harm": "water"},
        bare={"when": {"system": "cover", "is": "none"}, "grade": "away-from-system", "harm": "fish"},
        case_only={"when": {"finding": "x"}},
    )
    runner = RuleRunner(rules)
    facts = GuardFacts(
        substance="soap",
        exposures={"fish-quotient": Interval(0.2, 0.8)},
        missing=frozenset({"shrimp-quotient"}),
        traits=frozenset({"film"}),
        animals=(TILAPIA,),
        system={"cover": "none"},
    )
    outcome = runner.trace_guard(facts)
    assert [(one.rule, one.grade, one.harm) for one in outcome.graded] == [
        ("toxic", "never", "fish"),
        ("unknown", "unknown", "crustaceans"),
        ("film", "keep-off-water", "water"),
        ("bare", "away-from-system", "fish"),
    ]
    assert outcome.graded[0].because == "0.2 to 0.8 times the level for soap."
    assert outcome.graded[0].sources == ("epa",)
    assert outcome.firings[0].facts == ("exposure fish-quotient 0.2 to 0.8", "animal tilapia")
    assert [one.rule for one in runner.run_guard(GuardFacts(substance="water"))] == ["clean"]


def test_a_measure_known_after_all_is_not_missing(as_rules: AsRules) -> None:
    grade = {"grade": "unknown", "harm": "fish"}
    runner = RuleRunner(
        as_rules(a={"when": {"no-exposure": "q"}, **grade}, b={"when": {"not": {"no-exposure": "q"}}, **grade})
    )
    known = GuardFacts(substance="s", exposures={"q": Interval(1, 2)}, missing=frozenset({"q"}))
    assert [one.rule for one in runner.run_guard(known)] == ["b"]
    assert [one.rule for one in runner.run_guard(GuardFacts(substance="s"))] == []
