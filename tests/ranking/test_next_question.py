"""The next question tells most per effort, is open, and makes sense now."""

from __future__ import annotations

from math import log2
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from triage.model.crop import Crop
from triage.model.finding import Question
from triage.ranking import Evidence, Network, Node, choose_question, infer
from triage.ranking.hypotheses import likely_sets
from triage.ranking.information import Answers, entropy
from triage.ranking.question import DO_SHARE, WORTH_BITS, answers_to, can_ask, why_none

BASIL = Crop(crop="basil", name="Basil", family="mint family", kind="herb", sources=["our-judgement"])


def question(name: str, options: str, **more: Any) -> Question:
    usual: dict[str, Any] = {"pick": "one", "place": "leaf", "effort": "glance"}
    return Question(question=name, ask="?", options=options.split(), **usual | more)


def garden() -> Network:
    nodes = [
        Node(cause="iron", name="Iron shortage", odds=0.1, shows={"pale": 0.9, "newest": 0.95}),
        Node(cause="magnesium", name="Magnesium shortage", odds=0.1, shows={"pale": 0.9, "oldest": 0.95}),
        Node(cause="mites", name="Spider mites", odds=0.005, shows={"webbing": 0.9, "pale": 0.1}),
    ]
    return Network.of(nodes, dict.fromkeys(("pale", "newest", "oldest", "webbing", "stray"), 0.03))


QUESTIONS = {
    each.question: each
    for each in (
        question("which-leaves", "newest oldest"),
        question("which-leaves-in-a-laboratory", "newest oldest", effort="laboratory"),
        question("webs", "webbing", place="underside"),
        question("stray", "stray"),
    )
}
PALE = Evidence(seen=frozenset({"pale"}))


def test_asks_what_tells_the_two_likely_causes_apart() -> None:
    chosen = choose_question(garden(), PALE, QUESTIONS)
    assert chosen is not None
    assert (chosen.id, set(chosen.about)) == ("which-leaves", {"iron", "magnesium"})
    assert chosen.why == "tells iron shortage from magnesium shortage"
    assert 0.5 < chosen.bits < 1.6


def test_equal_worth_goes_to_the_first_by_id_whatever_the_order() -> None:
    same = [question(name, "newest oldest") for name in ("b", "a", "c")]
    for order in (same, same[::-1]):
        chosen = choose_question(garden(), PALE, {each.question: each for each in order})
        assert chosen is not None
        assert chosen.id == "a"


def test_effort_decides_between_equal_answers_and_here_is_preferred() -> None:
    only = {"a": question("a", "newest oldest", effort="lens"), "b": question("b", "newest oldest", effort="glance")}
    cheap = choose_question(garden(), PALE, only)
    assert cheap is not None
    assert cheap.id == "b"
    near = {"a": question("a", "newest oldest"), "b": question("b", "newest oldest", place="root")}
    stay = choose_question(garden(), PALE, near, here="root")
    assert stay is not None
    assert stay.id == "b"


def test_nothing_is_asked_when_nothing_helps_or_all_is_settled() -> None:
    assert choose_question(garden(), PALE, {"stray": QUESTIONS["stray"]}) is None
    sure = {"iron": 0.97, "magnesium": 0.02, "mites": 0.01}
    assert choose_question(garden(), PALE, QUESTIONS, probabilities=sure) is None
    assert choose_question(garden(), PALE, QUESTIONS, asked=set(QUESTIONS)) is None
    assert choose_question(garden(), PALE, {}) is None


def test_nobody_is_asked_what_else_there_is_while_one_is_as_good_as_sure() -> None:
    nodes = [
        Node(cause="iron", name="Iron shortage", odds=0.5, shows={"pale": 0.9}),
        Node(cause="mites", name="Spider mites", odds=0.1, shows={"webbing": 0.95}),
    ]
    network = Network.of(nodes, {"pale": 0.01, "webbing": 0.001})
    only = {"webs": QUESTIONS["webs"]}
    open_ = {"iron": 0.8, "mites": 0.09}
    asked = choose_question(network, PALE, only, probabilities=open_)
    assert asked is not None
    assert asked.about == ("mites",)
    assert choose_question(network, PALE, only, probabilities=open_ | {"iron": 0.88}) is None
    assert choose_question(network, PALE, only, probabilities={"iron": 0.88, "mites": 0.2}) is not None


@pytest.mark.parametrize(
    ("offered", "chances", "why"),
    [
        (("which-leaves",), {"iron": 0.97, "magnesium": 0.02}, "settled"),
        (("which-leaves",), {"iron": 0.5, "magnesium": 0.5}, "nothing"),
        (("which-leaves-in-a-laboratory", "which-leaves"), {"iron": 0.5, "magnesium": 0.5}, "test"),
        (("stray",), {"iron": 0.5, "magnesium": 0.5}, "time"),
        ((), {"iron": 0.5, "magnesium": 0.5}, "time"),
    ],
)
def test_why_nothing_more_is_asked(offered: tuple[str, ...], chances: dict[str, float], why: str) -> None:
    chances = {"mites": 0.001, **chances}
    assert why_none(garden(), PALE, {name: QUESTIONS[name] for name in offered}, probabilities=chances) == why


def test_a_laboratory_is_not_worth_a_little() -> None:
    costly = {"webs": question("webs", "webbing", effort="laboratory")}
    assert choose_question(garden(), PALE, costly) is None


@pytest.mark.parametrize(
    ("asked_for", "evidence", "crop", "can"),
    [
        (question("q", "a b"), Evidence(), None, True),
        (question("q", "a b"), Evidence(seen=frozenset("a")), None, False),
        (question("q", "a b"), Evidence(absent=frozenset("a")), None, True),
        (question("q", "a b"), Evidence(absent=frozenset("a"), unsure=frozenset("b")), None, False),
        (question("q", "a b", pick="any"), Evidence(seen=frozenset("a")), None, True),
        (question("q", "a b", pick="any"), Evidence(seen=frozenset("ab")), None, False),
        (question("q", "a", after=["c", "d"]), Evidence(absent=frozenset("c")), None, False),
        (question("q", "a", after=["c", "d"]), Evidence(seen=frozenset("d")), None, True),
        (question("q", "a", for_crops=["herb"]), Evidence(), BASIL, True),
        (question("q", "a", for_crops=["basil"]), Evidence(), BASIL, True),
        (question("q", "a", for_crops=["mint family"]), Evidence(), BASIL, True),
        (question("q", "a", for_crops=["chard"]), Evidence(), BASIL, False),
        (question("q", "a", for_crops=["basil"]), Evidence(), None, False),
    ],
)
def test_only_open_questions_that_make_sense(
    asked_for: Question, evidence: Evidence, crop: Crop | None, can: bool
) -> None:
    assert can_ask(asked_for, evidence, frozenset(), crop) is can
    assert not can_ask(asked_for, evidence, {"q"}, crop)


def test_telling_what_to_do_counts_more_than_the_name() -> None:
    nodes = [
        Node(cause=name, odds=0.1, shows={"pale": 0.9, sign: 0.9, group: 0.9})
        for name, sign, group in (("a", "x", "left"), ("b", "y", "left"), ("c", "x", "right"), ("d", "y", "right"))
    ]
    network = Network.of(nodes, dict.fromkeys(("pale", "x", "y", "left", "right"), 0.03))
    both = {"by-sign": question("by-sign", "x y"), "by-group": question("by-group", "left right")}
    by_sign = {"a": ["iron"], "c": ["iron"], "b": ["spray"], "d": ["spray"]}
    by_group = {"a": ["iron"], "b": ["iron"], "c": ["spray"], "d": ["spray"]}
    for responses, wanted in ((by_sign, "by-sign"), (by_group, "by-group")):
        chosen = choose_question(network, PALE, both, responses=responses)
        assert chosen is not None
        assert chosen.id == wanted


@pytest.mark.parametrize("seed", range(4))
def test_the_search_that_ends_early_finds_the_best(made_up: SimpleNamespace, seed: int) -> None:
    network = made_up.big_network(seed)
    evidence = made_up.big_case(network, seed, seen=4)
    open_ = [name for name in sorted(network.shown_by) if name not in evidence.known]
    offered = {f"q{place}": question(f"q{place}", " ".join(open_[place : place + 3])) for place in range(0, 90, 3)}
    responses = {cause: [f"do-{int(cause[1:]) % 4}"] for cause in network.nodes}
    sets = likely_sets(network, evidence, infer(network, evidence).probabilities)
    todo = [frozenset(do for cause in each for do in responses[cause]) for each in sets.sets]
    labels = [todo.index(each) for each in todo]

    def worth(name: str) -> float:
        answers = answers_to(network, evidence, sets, offered[name])
        return (1 - DO_SHARE) * answers.bits() + DO_SHARE * answers.bits_about(labels)

    chosen = choose_question(network, evidence, offered, responses=responses)
    assert chosen is not None
    assert worth(chosen.id) == pytest.approx(max(worth(name) for name in offered), rel=1e-9)
    known = infer(network, evidence).probabilities
    assert choose_question(network, evidence, offered, responses=responses, probabilities=known) == chosen


def exact_bits(made_up: SimpleNamespace, network: Network, evidence: Evidence, finding: str) -> float:
    """Information about the set of causes in one finding, over every set."""
    weights = made_up.every_set(network, evidence)
    there = made_up.every_set(network, Evidence(seen=evidence.seen | {finding}, absent=evidence.absent))
    whole = sum(weights.values())
    chance = sum(there.values()) / whole
    left = sum(
        weights[causes] / whole * entropy((there[causes] / weights[causes], 1 - there[causes] / weights[causes]))
        for causes in weights
    )
    return entropy((chance, 1 - chance)) - left


@given(data=st.data())
@settings(max_examples=40)
def test_bits_equal_counting_where_three_causes_are_all(made_up: SimpleNamespace, data: st.DataObject) -> None:
    network = made_up.draw_network(data, causes=3, findings=5)
    names = sorted(network.leaks)
    evidence = Evidence(absent=frozenset(names[1:3]))
    sets = likely_sets(network, evidence, infer(network, evidence).probabilities)
    found = answers_to(network, evidence, sets, question("q", names[0])).bits()
    assert found == pytest.approx(exact_bits(made_up, network, evidence, names[0]), abs=1e-9)


@given(data=st.data(), pick=st.sampled_from(("one", "any")))
def test_information_is_never_more_than_there_is_to_know(
    made_up: SimpleNamespace, data: st.DataObject, pick: str
) -> None:
    network = made_up.draw_network(data, causes=6, findings=6)
    options = sorted(network.leaks)[: data.draw(st.integers(1, 6))]
    evidence = Evidence(seen=frozenset(network.leaks.keys() - set(options)))
    sets = likely_sets(network, evidence, infer(network, evidence).probabilities)
    assert sum(sets.weights) == pytest.approx(1.0)
    answers = answers_to(network, evidence, sets, question("q", " ".join(options), pick=pick))
    labels = [place % 3 for place in range(len(sets.sets))]
    assert -1e-12 <= answers.bits_about(labels) <= answers.bits() + 1e-9
    assert answers.bits() <= entropy(sets.weights) + 1e-9


def test_a_tick_list_tells_at_least_as_much_as_its_best_option(made_up: SimpleNamespace) -> None:
    network = made_up.big_network(2)
    evidence = made_up.big_case(network, 2, seen=4)
    sets = likely_sets(network, evidence, infer(network, evidence).probabilities)
    options = [name for name in sorted(network.shown_by) if name not in evidence.known][:8]
    alone = [answers_to(network, evidence, sets, question("q", name)).bits() for name in options]
    ticked = answers_to(network, evidence, sets, question("q", " ".join(options), pick="any"))
    assert max(alone) < ticked.bits() <= sum(sorted(alone)[-3:]) + 1e-9
    assert len(ticked.spreads[0]) == 8


def test_the_likely_sets_weigh_as_counting_weighs_them(made_up: SimpleNamespace) -> None:
    network = garden()
    sets = likely_sets(network, PALE, infer(network, PALE).probabilities)
    weights = made_up.every_set(network, PALE)
    whole = sum(weights.values())
    for causes, weight in zip(sets.sets, sets.weights, strict=True):
        assert weight == pytest.approx(weights[tuple(sorted(causes))] / whole, rel=1e-9)


def test_a_choice_in_a_large_network_is_worth_nearly_the_best(made_up: SimpleNamespace) -> None:
    """Judged by the exact posterior for every answer: information about each single cause, summed."""
    network = made_up.big_network(7)
    evidence = made_up.big_case(network, 7, seen=5)
    names = [name for name in sorted(network.leaks) if name not in evidence.known and name in network.shown_by][:40]
    offered = {name: question(name, name) for name in names}

    def worth(name: str) -> float:
        now = infer(network, evidence)
        yes = infer(network, Evidence(seen=evidence.seen | {name}, absent=evidence.absent))
        no = infer(network, Evidence(seen=evidence.seen, absent=evidence.absent | {name}))
        chance = 2.0 ** ((yes.log_evidence - now.log_evidence) / 0.6931471805599453)
        return sum(
            entropy((p, 1 - p))
            - chance * entropy((yes.probabilities[cause], 1 - yes.probabilities[cause]))
            - (1 - chance) * entropy((no.probabilities[cause], 1 - no.probabilities[cause]))
            for cause, p in now.probabilities.items()
        )

    chosen = choose_question(network, evidence, offered)
    assert chosen is not None
    assert worth(chosen.id) >= 0.9 * max(worth(name) for name in names)
    assert chosen.bits >= WORTH_BITS


def test_a_fair_coin_tells_one_bit() -> None:
    assert Answers([0.5, 0.5], [[1e-12, 1.0]], one=True).bits() == pytest.approx(1.0, abs=1e-6)
    assert Answers([0.25] * 4, [[1e-12, 1.0] * 2, [1e-12] * 2 + [1.0] * 2], one=False).bits() == pytest.approx(log2(4))
