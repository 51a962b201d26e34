"""Our matcher and experta's own hold the same activations after every step of a random walk."""

from __future__ import annotations

import random
from typing import Any

import pytest

from triage.rules.door import NOT, Fact, KnowledgeEngine, P
from triage.rules.engine import BookRule, Engine, activation_key


class Sign(Fact):
    """id, state"""


class Level(Fact):
    """id, value"""


class StockMatching(Engine):
    """experta's own matcher."""

    __matcher__: Any = KnowledgeEngine.__matcher__


ABOVE = {limit: P(lambda value, limit=limit: value > limit) for limit in (1, 2, 3)}


def make_pattern(chance: random.Random) -> Fact:
    if chance.random() < 0.5:
        return Sign(id=chance.choice("abc"), state=chance.choice(["seen", "absent"]))
    if chance.random() < 0.3:
        return Level(value=ABOVE[chance.choice([1, 2, 3])])
    return Level(id=chance.choice("abc"), value=ABOVE[chance.choice([1, 2, 3])])


def make_rules(chance: random.Random) -> list[BookRule]:
    rules = []
    for order in range(8):
        wanted = [f"f{place}" << make_pattern(chance) for place in range(chance.randint(1, 3))]
        barred = [NOT(make_pattern(chance)) for _ in range(chance.choice([0, 0, 1, 2]))]
        rules.append(BookRule(*wanted, *barred, salience=0, order=order, act=lambda engine, facts: None))
    return rules


def make_fact(chance: random.Random) -> Fact:
    if chance.random() < 0.5:
        return Sign(id=chance.choice("abc"), state=chance.choice(["seen", "absent"]))
    return Level(id=chance.choice("abcd"), value=chance.choice([1, 2, 3, 4]))


@pytest.mark.parametrize("seed", range(20))
def test_the_same_activations_wait_after_every_step(seed: int) -> None:
    chance = random.Random(seed)
    engines = [kind(make_rules(random.Random(seed))) for kind in (Engine, StockMatching)]
    kept: list[tuple[Fact, ...]] = []
    waited = 0
    for engine in engines:
        engine.reset()
    for _ in range(100):
        if kept and chance.random() < 0.4:
            for engine, fact in zip(engines, kept.pop(chance.randrange(len(kept))), strict=True):
                engine.retract(fact)
        else:
            pair = tuple(
                engine.declare(fact.copy()) for engine, fact in zip(engines, [make_fact(chance)] * 2, strict=True)
            )
            kept += [pair] if pair[0] is not None else []
        ours, theirs = ([activation_key(a) for a in engine.agenda.activations] for engine in engines)
        assert ours == theirs
        waited += len(ours)
    assert waited > 20


@pytest.mark.parametrize("strange", [P(bool), ("a", "tuple"), NOT(NOT(Sign(id="a")))])
def test_a_condition_that_it_cannot_match_is_refused(strange: Any) -> None:
    rule = BookRule(strange, salience=0, order=0, act=lambda engine, facts: None)
    with pytest.raises(TypeError, match="a condition is a fact pattern or NOT of one"):
        Engine([rule])


def test_a_field_that_a_fact_lacks_matches_nothing() -> None:
    engine = Engine([BookRule("f0" << Level(value=ABOVE[1]), salience=0, order=0, act=lambda engine, facts: None)])
    engine.reset()
    engine.declare(Level(id="a"))
    assert engine.agenda.activations == []
    engine.declare(Level(id="a", value=2))
    assert len(engine.agenda.activations) == 1
