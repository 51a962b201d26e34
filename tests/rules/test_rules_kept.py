"""Engines are kept from case to case: nothing of one case, or of one that failed, is in the next; no seed matters."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from triage.rules.run import RuleRunner

AsRules = Callable[..., Any]
AsFacts = Callable[..., Any]
ROOT = Path(__file__).parents[2]


def test_a_kept_engine_gives_what_a_new_one_gives(made_up: ModuleType) -> None:
    rules = made_up.make_rules(3, 40)
    kept, few = RuleRunner(rules), RuleRunner(rules, keep=1)
    for number in [*range(30), *range(30)]:
        facts, substance = made_up.make_case(number), made_up.make_guard(number)
        fresh = RuleRunner(rules)
        assert kept.run_case(facts) == few.run_case(facts) == fresh.run_case(facts)
        assert kept.trace_guard(substance) == few.trace_guard(substance) == fresh.trace_guard(substance)
    assert len(kept._kept) <= 16
    assert len(few._kept) == 1


@pytest.mark.parametrize(
    ("facts", "message"),
    [
        ({"seen": "w", "absent": "w"}, "'w' is both seen and absent"),
        ({"trends": {"ph": "up"}}, "trend of 'ph' is rising, falling or steady, not 'up'"),
        ({"suspects": {"mites": 1.5}}, "probability of 'mites' is between 0 and 1, not 1.5"),
        ({"suspects": {"mites": float("nan")}}, "probability of 'mites' is between 0 and 1, not nan"),
        ({"readings": {"ph": (8.0, 7.0)}}, "'ph' needs low <= high"),
        ({"readings": {"ph": (float("nan"), 7.0)}}, "'ph' needs low <= high"),
    ],
)
def test_facts_that_contradict_themselves_are_refused_first(
    as_rules: AsRules, as_facts: AsFacts, facts: Any, message: str
) -> None:
    runner = RuleRunner(as_rules(a={"when": {"finding": "x"}}))
    with pytest.raises(ValueError, match=message):
        runner.run_case(as_facts(**facts))
    assert [firing.rule for firing in runner.run_case(as_facts(seen="x")).firings] == ["a"]


def test_an_engine_that_failed_is_dropped(as_rules: AsRules, as_facts: AsFacts) -> None:
    """A test of a condition raises in the middle of declaring; the next case knows nothing of it."""
    high = {"all": [{"finding": "x"}, {"reading": "ph", "above": 7}]}
    runner = RuleRunner(as_rules(old={"when": {"finding": "x"}}, high={"when": high}))
    runner.run_case(as_facts(seen="x", readings={"ph": 8.0}))
    ((engine, _),) = runner._kept.values()
    for memory in engine.matcher._memories.values():
        memory.predicates = [(name, fail) for name, _ in memory.predicates]
    with pytest.raises(RuntimeError, match="odd value"):
        runner.run_case(as_facts(seen="x", readings={"ph": 8.0}))
    assert runner._kept == {}
    assert [firing.rule for firing in runner.run_case(as_facts(seen="x", readings={"ph": 6.0})).firings] == ["old"]
    assert runner.run_case(as_facts(readings={"ph": 8.0})).firings == ()


def fail(value: object) -> bool:
    raise RuntimeError("odd value")


def test_the_same_text_under_twenty_hash_seeds() -> None:
    script = Path(__file__).parent / "made_up_rules.py"
    running = [
        subprocess.Popen(
            [sys.executable, str(script), "0", "4"],
            env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONHASHSEED": str(seed)},
            stdout=subprocess.PIPE,
            text=True,
        )
        for seed in range(1, 21)
    ]
    said = {process.communicate()[0] for process in running}
    assert [process.returncode for process in running] == [0] * 20
    assert len(said) == 1
    assert said.pop().count('"rule":') > 100
