"""What experta is known to do wrong, each as a test of the engine that we put in its place."""

from __future__ import annotations

import inspect
import random
from typing import Any

import pytest

from triage.rules.door import NOT, Fact, KnowledgeEngine, P
from triage.rules.engine import BookOrder, BookRule, Engine, activation_key


class Wanted(Fact):
    """id"""


class Veto(Fact):
    """id"""


class Danger(Fact):
    """level"""


class StockMatching(Engine):
    """Our order of firing under experta's own matcher."""

    __matcher__: Any = KnowledgeEngine.__matcher__


class StockOrder(StockMatching):
    """experta's own matcher and order."""

    __strategy__: Any = KnowledgeEngine.__strategy__


def note(engine: Engine, facts: dict[str, Fact], what: str) -> None:
    engine.fired.append((what, tuple(facts[name] for name in sorted(facts))))


def make_rule(
    order: int, *conditions: Any, salience: int = 0, says: str = "", declares: Fact | None = None
) -> BookRule:
    bound = [f"f{n}" << c if isinstance(c, Fact) else c for n, c in enumerate(conditions)]

    def act(engine: Engine, facts: dict[str, Fact]) -> None:
        note(engine, facts, says or f"rule {order}")
        if declares is not None:
            engine.declare(declares.copy())

    return BookRule(*bound, salience=salience, order=order, act=act)


def veto_rules(count: int, vetoed: int, chance: random.Random) -> list[BookRule]:
    """Offer each response in this case unless it is vetoed: many rules that rest on the same fact."""
    rules = [make_rule(n, Wanted(id="case"), NOT(Veto(id=n)), says=f"offer {n}") for n in range(count)]
    rules.append(make_rule(count, Danger(level="high"), salience=10, says="veto", declares=Veto(id=vetoed)))
    chance.shuffle(rules)
    return rules


def offered(kind: type[Engine], count: int, chance: random.Random) -> tuple[int, list[str]]:
    """The response vetoed, by a rule that fires first but after the offers are ready; and what was said."""
    vetoed = chance.randrange(count)
    facts: list[Fact] = [Wanted(id="case"), Danger(level="high")]
    chance.shuffle(facts)
    return vetoed, [what for what, _ in kind(veto_rules(count, vetoed, chance)).run_afresh(facts)]


@pytest.mark.parametrize(("kind", "trials"), [(Engine, 1000), (StockMatching, 150)])
def test_a_removed_activation_never_fires(kind: type[Engine], trials: int) -> None:
    chance = random.Random(7)
    for _ in range(trials):
        count = chance.choice([3, 4, 6, 10, 30])
        vetoed, said = offered(kind, count, chance)
        assert f"offer {vetoed}" not in said
        assert said[0] == "veto"
        assert len(said) == count


def test_the_order_of_experta_itself_would_let_it_fire() -> None:
    chance = random.Random(7)
    runs = [offered(StockOrder, 30, chance) for _ in range(40)]
    assert any(f"offer {vetoed}" in said for vetoed, said in runs)


def test_rules_fire_by_salience_then_place_then_age_of_facts() -> None:
    rules = [
        make_rule(2, Wanted(), says="late"),
        make_rule(1, Wanted(), says="early"),
        make_rule(3, Wanted(id=1), salience=5, says="first"),
    ]
    fired = Engine(rules).run_afresh([Wanted(id=1), Wanted(id=0)])
    assert [(what, [fact["id"] for fact in facts]) for what, facts in fired] == [
        ("first", [1]),
        ("early", [1]),
        ("early", [0]),
        ("late", [1]),
        ("late", [0]),
    ]


@pytest.mark.parametrize("kind", [Engine, StockMatching])
def test_activations_on_the_same_facts_have_keys_of_their_own(kind: type[Engine]) -> None:
    """Two facts that both match both patterns give four activations; two of them rest on the same set of facts."""
    rule = make_rule(0, Wanted(id=P(lambda id_: id_ > 0)), Wanted(id=P(lambda id_: id_ < 9)))
    engine = kind([rule])
    engine.reset()
    engine.declare(Wanted(id=1), Wanted(id=2))
    keys = [activation_key(activation) for activation in engine.agenda.activations]
    assert len(keys) == len(set(keys)) == 4
    engine.run()
    assert [[fact["id"] for fact in facts] for _, facts in engine.fired] == [[1, 1], [1, 2], [2, 1], [2, 2]]


@pytest.mark.parametrize("kind", [Engine, StockMatching])
def test_a_fact_taken_back_takes_its_activation_along(kind: type[Engine]) -> None:
    engine = kind([make_rule(0, Wanted(id=1), says="one"), make_rule(1, Wanted(id=2), says="two")])
    engine.reset()
    first = Wanted(id=1)
    engine.declare(first, Wanted(id=2))
    engine.retract(first)
    engine.run()
    assert [what for what, _ in engine.fired] == ["two"]


def test_nothing_of_a_case_that_failed_is_left_in_the_next() -> None:
    """A predicate that raises leaves the matcher half told; reset clears it."""
    engine = Engine(
        [make_rule(0, Wanted(id="old"), says="old case"), make_rule(1, Danger(level=P(lambda level: level > 1)))]
    )
    with pytest.raises(TypeError, match="not supported between"):
        engine.run_afresh([Wanted(id="old"), Danger(level="high")])
    assert [what for what, _ in engine.run_afresh([Danger(level=2)])] == ["rule 1"]


def test_an_error_in_a_rule_does_not_leave_the_engine_running() -> None:
    def fail(engine: Engine, facts: dict[str, Fact]) -> None:
        raise RuntimeError("in a rule")

    engine = Engine([BookRule("f0" << Wanted(id=1), salience=0, order=0, act=fail), make_rule(1, Wanted(id=2))])
    with pytest.raises(RuntimeError, match="in a rule"):
        engine.run_afresh([Wanted(id=1)])
    assert [what for what, _ in engine.run_afresh([Wanted(id=2)])] == ["rule 1"]
    assert engine.running is False


def test_a_second_run_holds_nothing_of_the_first() -> None:
    rules = [
        make_rule(0, Wanted(id=1), salience=1, says="veto", declares=Veto(id=1)),
        make_rule(1, Danger(level="high"), NOT(Veto(id=1)), says="free"),
        make_rule(2, Veto(id=1), says="vetoed"),
    ]
    engine = Engine(rules)
    assert [what for what, _ in engine.run_afresh([Wanted(id=1), Danger(level="high")])] == ["veto", "vetoed"]
    assert [what for what, _ in engine.run_afresh([Danger(level="high")])] == ["free"]


def test_two_engines_in_turn_do_not_meet() -> None:
    one, two = (Engine([make_rule(0, Wanted(id=1), says=name)]) for name in ("one", "two"))
    said = [[what for what, _ in engine.run_afresh([Wanted(id=1)])] for engine in (one, two, one, two)]
    assert said == [["one"], ["two"], ["one"], ["two"]]


def test_neither_members_nor_signatures_of_rules_are_looked_through(monkeypatch: pytest.MonkeyPatch) -> None:
    """experta runs every property of the engine at each reset, and reads nine signatures a rule to build it."""
    looked: list[object] = []
    real = inspect.signature
    monkeypatch.setattr(inspect, "getmembers", lambda *_: pytest.fail("looked through the engine"))
    monkeypatch.setattr(inspect, "signature", lambda of: looked.append(of) or real(of))
    engine = Engine([make_rule(number, Wanted(id=number)) for number in range(50)])
    assert looked == []
    engine.run_afresh([Wanted(id=3)])
    assert len(looked) <= 1
    assert [what for what, _ in engine.fired] == ["rule 3"]


def test_a_rule_taken_back_while_others_wait_is_cut_out_of_the_middle() -> None:
    """The agenda stays sorted and keeps everything else."""
    engine = Engine([make_rule(number, Wanted(id=number)) for number in range(9)])
    engine.reset()
    facts = [Wanted(id=number) for number in range(9)]
    engine.declare(*facts)
    for number in (4, 0, 8):
        engine.retract(facts[number])
    engine.run()
    assert [what for what, _ in engine.fired] == [f"rule {number}" for number in (1, 2, 3, 5, 6, 7)]
    assert isinstance(engine.strategy, BookOrder)
