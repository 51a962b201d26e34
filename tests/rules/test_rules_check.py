"""What the checker of the book is told about rules that the engine cannot hold."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from triage.errors import KnowledgeError
from triage.model.rule import Condition, Rule
from triage.rules.check import check_rule, rule_faults
from triage.rules.run import RuleRunner

AsRules = Callable[..., Any]
X = {"finding": "x"}


@pytest.mark.parametrize(
    "entry",
    [
        {"when": X, "because": "Seen."},
        {"when": {"all": [X, {"not": {"conclusion": "c"}}]}},
        {"when": {"reading": "ph", "above": 7}, "because": "pH {ph} on {crop}."},
        {"when": {"trend": "ph", "is": "falling"}, "because": "pH {ph} falls."},
        {"when": {"suspect": "mites", "at-least": 0.3}, "offer": ["t"], "because": "{probability} mites."},
        {"when": {"exposure": "q", "at-least": 1}, "grade": "never", "harm": "fish", "because": "{q} of {substance}."},
        {"when": {"system": "top-up", "is": "mains"}},
        {"when": {"system": "cover", "is": "none"}, "grade": "never", "harm": "fish"},
    ],
)
def test_a_sound_rule_has_no_fault(as_rules: AsRules, entry: dict[str, Any]) -> None:
    assert check_rule(as_rules(a=entry)["a"]) == []


@pytest.mark.parametrize(
    ("entry", "fault"),
    [
        ({"when": X, "conclude": "c", "alarm": {"say": "s", "do": []}}, "one kind of thing, this does alarm, conclude"),
        ({"when": X, "conclude": ""}, "one kind of thing, this does nothing"),
        ({"when": {"trait": "film"}, "grade": "never"}, "a grade needs the harm"),
        ({"when": {"trait": "film"}, "harm": "fish"}, "a grade needs the harm"),
        (
            {"when": X, "favour": {"m": "slightly"}, "against": {"m": "slightly"}},
            "'m' stands in both favour and against",
        ),
        ({"when": X, "offer": ["t"], "set-aside": ["t"]}, "'t' stands in both offer and set-aside"),
        ({"when": {"reading": "ph"}}, "'reading' needs above"),
        ({"when": {"not": {"conclusion": "c"}}}, "cannot rest only on what was not concluded"),
        ({"when": {"any": [X, {"not": {"conclusion": "c"}}]}}, "cannot rest only on what was not concluded"),
        ({"when": {"suspect": "m", "above": 0.5}}, "'suspect' is not known to a rule of the stage conclude"),
        ({"when": {"trait": "film"}}, "'trait' is not known to a rule of the stage conclude"),
        ({"when": X, "grade": "never", "harm": "fish"}, "'finding' is not known to a rule of the stage guard"),
        ({"when": {"system": "bed", "is": "media"}}, "nothing of the system's 'bed' (allowed: beds, filter, top-up"),
        ({"when": X, "because": "pH {ph}."}, "{ph} names no reading"),
        ({"when": {"no-reading": "ph"}, "because": "pH {ph}."}, "{ph} names no reading"),
        ({"when": X, "alarm": {"say": "At {oxygen}.", "do": []}}, "{oxygen} names no reading"),
    ],
)
def test_a_fault_is_said(as_rules: AsRules, entry: dict[str, Any], fault: str) -> None:
    said = check_rule(as_rules(a=entry)["a"])
    assert [one for one in said if fault in one], said


def test_faults_between_rules_name_the_rule(as_rules: AsRules) -> None:
    rules = as_rules(
        lonely={"when": {"conclusion": "nowhere"}, "favour": {"m": "slightly"}},
        egg={"when": {"conclusion": "hen"}},
        hen={"when": {"all": [X, {"not": {"conclusion": "egg"}}]}},
        itself={"when": {"all": [X, {"not": {"conclusion": "itself"}}]}},
        sound={"when": X},
    )
    assert rule_faults(rules) == [
        ("lonely", "no rule concludes 'nowhere'"),
        ("egg", "conclusions rest on each other in a circle: egg → hen → egg"),
        ("itself", "conclusions rest on each other in a circle: itself → itself"),
    ]


def test_the_runner_refuses_what_it_cannot_hold_and_says_all(as_rules: AsRules) -> None:
    rules = as_rules(
        egg={"when": {"conclusion": "hen"}}, hen={"when": {"conclusion": "egg"}}, empty={"when": {"any": []}}
    )
    with pytest.raises(KnowledgeError, match="'any' holds no condition") as error:
        RuleRunner(rules)
    assert "rule egg:0: error KB216 conclusions rest on each other" in str(error.value)


def test_a_very_deep_condition_is_a_fault_not_a_crash() -> None:
    deep = Condition(finding="x")
    for _ in range(3000):
        deep = Condition(not_=deep)
    rule = Rule(rule="deep", when=deep, conclude="deep", because="So.", sources=["test"])
    assert rule_faults({"deep": rule}) == [
        ("deep", "more than 40 conditions or 12 levels in one rule: split it by a conclusion")
    ]
