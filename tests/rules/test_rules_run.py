"""What rules make of a case and of a substance."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from triage.model.case import System
from triage.model.crop import Animal, Crop
from triage.model.facts import GuardFacts
from triage.model.quantity import Reading
from triage.rules.run import RuleRunner

AsRules = Callable[..., Any]
AsFacts = Callable[..., Any]
BASIL = Crop(crop="basil", name="Sweet basil", kind="herb", sources=["test"])
TILAPIA = Animal(animal="tilapia", name="Tilapia", kind="fish", species=["t"], groups=["cichlid"], sources=["test"])
CARP = Animal(animal="carp", name="Carp", kind="fish", species=["c"], groups=["cyprinid"], sources=["test"])
SHRIMP = Animal(animal="shrimp", name="Shrimp", kind="crustacean", species=["s"], groups=["decapod"], sources=["test"])


def fires(rules: Any, facts: Any) -> list[str]:
    return [firing.rule for firing in RuleRunner(rules).run_case(facts).firings]


@pytest.mark.parametrize(
    ("state", "fired"),
    [
        ({"seen": "w"}, ["seen", "not-absent", "either"]),
        ({"absent": "w"}, ["absent", "not-seen", "either"]),
        ({"set_aside": "w"}, ["absent", "not-seen", "either"]),
        ({"unsure": "w"}, []),
        ({}, []),
        ({"seen": "w", "set_aside": "w"}, ["seen", "not-absent", "either"]),
    ],
)
def test_unknown_is_neither_seen_nor_absent(as_rules: AsRules, as_facts: AsFacts, state: Any, fired: list[str]) -> None:
    rules = as_rules(
        seen={"when": {"finding": "w"}},
        absent={"when": {"absent": "w"}},
        not_seen={"when": {"not": {"finding": "w"}}},
        not_absent={"when": {"not": {"absent": "w"}}},
        either={"when": {"any": [{"finding": "w"}, {"not": {"finding": "w"}}]}},
    )
    assert fires(rules, as_facts(**state)) == fired


@pytest.mark.parametrize(
    ("ends", "plant", "fish"),
    [
        ((7.1, 7.5), ["over"], ["over"]),
        ((7.0, 7.5), [], ["over", "not-over"]),
        ((6.5, 7.5), [], ["over", "not-over"]),
        ((6.5, 7.0), ["not-over"], ["not-over"]),
        ((6.5, 6.9), ["not-over"], ["not-over"]),
        ((6.5, float("inf")), [], ["over", "not-over"]),
        ((7.5, float("inf")), ["over"], ["over"]),
        (None, [], []),
    ],
)
def test_a_straddled_limit_decides_about_fish_and_not_about_plants(
    as_rules: AsRules, as_facts: AsFacts, ends: Any, plant: list[str], fish: list[str]
) -> None:
    over, alarm = {"reading": "ph", "above": 7.0}, {"say": "s", "do": []}
    facts = as_facts(readings={"ph": ends} if ends else {}, suspects={"mites": 0.4})
    for outcome in ({"conclude": "c"}, {"favour": {"mites": "slightly"}}, {"offer": ["hose"]}):
        rules = as_rules(over={"when": over, **outcome}, not_over={"when": {"not": over}, **outcome})
        assert fires(rules, facts) == plant
    rules = as_rules(over={"when": over, "alarm": alarm}, not_over={"when": {"not": over}, "alarm": alarm})
    assert fires(rules, facts) == fish
    grade = {"grade": "never", "harm": "fish"}
    guards = as_rules(over={"when": over, **grade}, not_over={"when": {"not": over}, **grade})
    substance = GuardFacts(substance="soap", readings=facts.readings)
    assert [graded.rule for graded in RuleRunner(guards).run_guard(substance)] == fish


@pytest.mark.parametrize(
    ("limits", "plant", "fish"),
    [
        ({"at-least": 7.0}, [7.0, 8.0], [7.0, 8.0, (6.0, 7.0), (6.0, 8.0)]),
        ({"above": 7.0}, [8.0], [8.0, (6.0, 8.0)]),
        ({"at-most": 7.0}, [6.0, 7.0, (6.0, 7.0)], [6.0, 7.0, (6.0, 7.0), (6.0, 8.0)]),
        ({"below": 7.0}, [6.0], [6.0, (6.0, 7.0), (6.0, 8.0)]),
        ({"above": 6.0, "below": 8.0}, [7.0], [7.0, (6.0, 7.0), (6.0, 8.0)]),
    ],
)
def test_each_limit_at_its_edge(as_rules: AsRules, as_facts: AsFacts, limits: Any, plant: Any, fish: Any) -> None:
    values: list[Any] = [6.0, 7.0, 8.0, (6.0, 7.0), (6.0, 8.0)]
    when = {"reading": "ph", **limits}
    for entry, expected in (({"conclude": "c"}, plant), ({"alarm": {"say": "s", "do": []}}, fish)):
        runner = RuleRunner(as_rules(a={"when": when, **entry}))
        held = [value for value in values if runner.run_case(as_facts(readings={"ph": value})).firings]
        assert held == expected


def test_what_was_not_measured_is_a_fact_of_its_own(as_rules: AsRules, as_facts: AsFacts) -> None:
    rules = as_rules(unmeasured={"when": {"no-reading": "ph"}}, measured={"when": {"not": {"no-reading": "ph"}}})
    assert fires(rules, as_facts()) == ["unmeasured"]
    assert fires(rules, as_facts(readings={"iron": 1.0})) == ["unmeasured"]
    assert fires(rules, as_facts(readings={"ph": (0, 14)})) == ["measured"]


@pytest.mark.parametrize(
    ("facts", "fired"),
    [
        ({}, []),
        ({"trends": {"ph": "rising"}}, ["trend"]),
        ({"trends": {"ph": "steady"}}, ["not-trend"]),
        ({"crop": BASIL}, ["crop"]),
        ({"crop": Crop(crop="chard", name="Chard", kind="leafy", sources=["test"])}, ["not-crop"]),
        ({"crop": Crop(crop="dill", name="Dill", kind="herb", sources=["test"])}, ["crop"]),
        ({"animals": (TILAPIA,)}, ["not-animal"]),
        ({"animals": (SHRIMP,)}, ["animal"]),
        ({"animals": (TILAPIA, SHRIMP)}, ["animal"]),
        ({"system": System(beds="media")}, ["system"]),
        ({"system": System(beds="raft", top_up="mains")}, ["not-system", "top-up"]),
    ],
)
def test_not_needs_something_known(as_rules: AsRules, as_facts: AsFacts, facts: Any, fired: list[str]) -> None:
    conditions = {
        "trend": {"trend": "ph", "is": "rising"},
        "crop": {"crop": ["strawberry", "herb"]},
        "animal": {"animal": ["trout", "decapod"]},
        "system": {"system": "beds", "is": "media"},
    }
    entries = {name: {"when": condition} for name, condition in conditions.items()}
    entries |= {f"not_{name}": {"when": {"not": condition}} for name, condition in conditions.items()}
    rules = as_rules(**entries, top_up={"when": {"system": "top-up", "is": ["mains", "well"]}})
    assert sorted(fires(rules, as_facts(**facts))) == sorted(fired)


def test_not_a_conclusion_waits_until_it_could_have_been_drawn(as_rules: AsRules, as_facts: AsFacts) -> None:
    rules = as_rules(
        reader={"when": {"all": [{"finding": "x"}, {"not": {"conclusion": "second"}}]}},
        second={"when": {"all": [{"conclusion": "first"}, {"finding": "x"}]}},
        first={"when": {"reading": "ph", "above": 7}},
    )
    assert fires(rules, as_facts(seen="x", readings={"ph": 8})) == ["first", "second"]
    assert fires(rules, as_facts(seen="x", readings={"ph": 6})) == ["reader"]


def test_a_changed_answer_leaves_no_stale_conclusion(as_rules: AsRules, as_facts: AsFacts) -> None:
    runner = RuleRunner(as_rules(first={"when": {"finding": "x"}}, second={"when": {"conclusion": "first"}}))
    said = [
        [conclusion.id for conclusion in runner.run_case(facts).conclusions]
        for facts in (as_facts(seen="x"), as_facts(), as_facts(absent="x"), as_facts(seen="x"))
    ]
    assert said == [["first", "second"], [], [], ["first", "second"]]


def test_the_order_of_answers_and_readings_changes_nothing(as_rules: AsRules, as_facts: AsFacts) -> None:
    runner = RuleRunner(as_rules(a={"when": {"all": [{"animal": "fish"}, {"reading": "ph", "above": 7}]}}))
    one = as_facts(readings={"ph": 8, "iron": 1}, animals=(TILAPIA, CARP))
    other = as_facts(readings={"iron": 1, "ph": 8}, animals=(CARP, TILAPIA))
    assert runner.run_case(one) == runner.run_case(other)


def test_a_rule_that_holds_in_several_ways_fires_once_with_all_its_facts(as_rules: AsRules, as_facts: AsFacts) -> None:
    when = {"any": [{"animal": "fish"}, {"finding": "x"}]}
    rules = as_rules(a={"when": when, "favour": {"mites": "somewhat"}, "because": "For the {animal}."})
    outcome = RuleRunner(rules).run_case(as_facts(seen="x", animals=(TILAPIA, CARP, SHRIMP)))
    (firing,) = outcome.firings
    assert firing.facts == ("animal carp", "animal tilapia", "finding x seen")
    assert firing.because == "For the Carp and Tilapia."
    assert [(moved.cause, moved.factor) for moved in outcome.favoured] == [("mites", 4.0)]


def test_alarms_come_first_also_when_they_wait_for_a_conclusion(as_rules: AsRules, as_facts: AsFacts) -> None:
    rules = as_rules(
        first={"when": {"reading": "oxygen", "below": 3}, "because": "Only {oxygen} mg/L."},
        waits={"when": {"conclusion": "first"}, "alarm": {"say": "Air, now: {oxygen}.", "do": ["Aerate at {oxygen}."]}},
        gasping={"when": {"finding": "gasping"}, "alarm": {"say": "Look at the fish.", "do": ["Aerate."]}},
    )
    reading = Reading(quantity="oxygen", value=2.5, unit="mg/L", step=0.5, low=2.25, high=2.75)
    outcome = RuleRunner(rules).run_case(as_facts(seen="gasping", readings={"oxygen": reading}))
    assert [alarm.id for alarm in outcome.alarms] == ["gasping", "waits"]
    assert [firing.rule for firing in outcome.firings] == ["gasping", "waits", "first"]
    assert outcome.alarms[1].say == "Air, now: 2.5 mg/L."
    assert outcome.alarms[1].do == ("Aerate at 2.5 mg/L.",)
    assert outcome.alarms[1].because == ("So.",)
    assert outcome.conclusions[0].because == "Only 2.5 mg/L."
    assert outcome.conclusions[0].facts == ("reading oxygen = 2.5 mg/L",)


def test_strengths_become_factors_and_their_inverse(as_rules: AsRules, as_facts: AsFacts) -> None:
    rules = as_rules(
        both={
            "when": {"finding": "x"},
            "conclude": "c",
            "favour": {"mites": "strongly", "rust": "slightly"},
            "against": {"thirst": "somewhat"},
        }
    )
    outcome = RuleRunner(rules).run_case(as_facts(seen="x"))
    moved = [(one.cause, one.factor, one.rule) for one in outcome.favoured]
    assert moved == [("mites", 12.0, "both"), ("rust", 1.8, "both"), ("thirst", 0.25, "both")]
    assert [firing.stage for firing in outcome.firings] == ["conclude"]


def test_responses_wait_for_suspects(as_rules: AsRules, as_facts: AsFacts) -> None:
    rules = as_rules(
        likely={
            "when": {"suspect": "mites", "at-least": 0.3},
            "offer": ["hose", "soap"],
            "because": "Mites at {probability} on {crop}.",
        },
        unlikely={"when": {"not": {"suspect": "mites", "at-least": 0.3}}, "set-aside": ["hose"], "because": "Few."},
        always={"when": {"finding": "x"}, "offer": ["look"], "because": "Seen."},
    )
    runner = RuleRunner(rules)
    assert runner.run_case(as_facts(seen="x")).offered == ()
    likely = runner.run_case(as_facts(seen="x", suspects={"mites": 0.35}, crop=BASIL))
    reason = "Mites at 35% on Sweet basil."
    assert likely.offered == (("hose", reason), ("soap", reason), ("look", "Seen."))
    assert likely.set_aside == ()
    assert runner.run_case(as_facts(suspects={"mites": 0.2})).set_aside == (("hose", "Few."),)
    assert runner.run_case(as_facts(suspects={"rust": 0.9})).set_aside == ()


def test_no_rules_and_no_facts(as_rules: AsRules, as_facts: AsFacts) -> None:
    assert RuleRunner({}).run_case(as_facts(seen="x")).firings == ()
    assert RuleRunner({}).run_guard(GuardFacts(substance="soap")) == ()
    assert RuleRunner(as_rules(a={"when": {"finding": "x"}})).run_case(as_facts()).firings == ()
