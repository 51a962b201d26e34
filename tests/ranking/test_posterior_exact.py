"""Laws of the posterior: exact, in range, indifferent to order, and sensible about weak and missing evidence."""

from __future__ import annotations

import os
import random
import subprocess
import sys
from itertools import chain, combinations
from math import exp, prod
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from triage.model import odds
from triage.ranking import Evidence, Network, Node, Posterior, infer
from triage.ranking.bounds import from_above, from_below
from triage.ranking.network import OTHER
from triage.ranking.posterior import MOST_BITS, belief, together

TINY = 1e-9


def furthest(one: Posterior, other: Posterior) -> float:
    return max(abs(one.probabilities[cause] - other.probabilities[cause]) for cause in one.probabilities)


@given(data=st.data())
def test_equals_counting_every_set(made_up: SimpleNamespace, data: st.DataObject) -> None:
    network = made_up.draw_network(data)
    evidence = made_up.draw_evidence(data, network)
    found = infer(network, evidence)
    for cause, chance in found.probabilities.items():
        assert abs(chance - made_up.counted(network, evidence, cause)) <= TINY
    assert abs(found.none_at_all - made_up.counted(network, evidence)) <= TINY
    marks = evidence.seen | evidence.unsure
    behind = {cause for name in marks for cause in network.shown_by.get(name, ())}
    weights = made_up.every_set(network, evidence)
    none_behind = sum(each for causes, each in weights.items() if not behind.intersection(causes)) / sum(
        weights.values()
    )
    assert abs(found.none_behind - (none_behind if marks else found.none_at_all)) <= TINY
    assert exp(found.log_evidence) == pytest.approx(sum(made_up.every_set(network, evidence).values()), rel=TINY)


@pytest.mark.parametrize("seed", range(4))
def test_equals_counting_twelve_causes(made_up: SimpleNamespace, seed: int) -> None:
    network = made_up.big_network(seed, causes=12, findings=14, links=6)
    evidence = made_up.big_case(network, seed, seen=7, looked=12)
    for cause, chance in infer(network, evidence).probabilities.items():
        assert abs(chance - made_up.counted(network, evidence, cause)) <= TINY


@given(data=st.data())
def test_probabilities_stay_in_range(made_up: SimpleNamespace, data: st.DataObject) -> None:
    network = made_up.draw_network(data, causes=9, findings=10)
    found = infer(network, made_up.draw_evidence(data, network))
    every = [*found.probabilities.values(), found.none_at_all, found.none_behind, *found.by_itself.values()]
    assert all(-1e-12 <= chance <= 1.0 + 1e-12 for chance in every)
    assert found.none_at_all <= found.none_behind + 1e-12


@given(data=st.data())
@settings(max_examples=50)
def test_both_methods_agree_on_small_networks(made_up: SimpleNamespace, data: st.DataObject) -> None:
    network = made_up.draw_network(data, causes=8, findings=8)
    evidence = made_up.draw_evidence(data, network)
    first, second = infer(network, evidence), infer(network, evidence, method="sweep")
    assert furthest(first, second) <= TINY
    assert abs(first.none_behind - second.none_behind) <= TINY
    assert abs(first.log_evidence - second.log_evidence) <= TINY


@pytest.mark.parametrize("seen", [0, 1, 4, 8, 11, 14])
def test_both_methods_agree_on_a_large_network(made_up: SimpleNamespace, seen: int) -> None:
    network = made_up.big_network(seen)
    evidence = made_up.big_case(network, seen, seen=seen)
    assert furthest(infer(network, evidence), infer(network, evidence, method="sweep")) <= TINY


def test_nothing_known_leaves_the_prior(made_up: SimpleNamespace) -> None:
    network = made_up.big_network(3)
    found = infer(network, Evidence())
    for cause, chance in found.probabilities.items():
        assert chance == pytest.approx(network.nodes[cause].odds / (1.0 + network.nodes[cause].odds), rel=1e-12)
    assert found.none_behind == found.none_at_all
    assert found.log_evidence == 0.0


@pytest.mark.parametrize("seed", range(3))
def test_order_is_irrelevant(made_up: SimpleNamespace, seed: int) -> None:
    network = made_up.big_network(seed)
    evidence = made_up.big_case(network, seed, seen=7)
    rnd = random.Random(seed)
    nodes = [
        Node(cause=node.cause, odds=node.odds, shows=dict(rnd.sample(list(node.shows.items()), len(node.shows))))
        for node in rnd.sample(list(network.nodes.values()), len(network.nodes))
    ]
    leaks = dict(rnd.sample(list(network.leaks.items()), len(network.leaks)))
    shuffled = Evidence(
        seen=frozenset(rnd.sample(sorted(evidence.seen), len(evidence.seen))),
        absent=frozenset(rnd.sample(sorted(evidence.absent), len(evidence.absent))),
    )
    assert furthest(infer(network, evidence), infer(Network.of(nodes, leaks), shuffled)) <= 1e-12
    assert infer(network, evidence) == infer(network, shuffled)


@given(data=st.data())
def test_an_absent_finding_alone_never_raises_a_cause_that_shows_it(
    made_up: SimpleNamespace, data: st.DataObject
) -> None:
    network = made_up.draw_network(data)
    before = infer(network, Evidence()).probabilities
    for finding, shown_by in network.shown_by.items():
        after = infer(network, Evidence(absent=frozenset({finding}))).probabilities
        for cause in network.nodes:
            if cause in shown_by:
                assert after[cause] < before[cause]
            else:
                assert after[cause] == before[cause]


@given(data=st.data())
def test_unsure_lies_between_unknown_and_seen(made_up: SimpleNamespace, data: st.DataObject) -> None:
    network = made_up.draw_network(data)
    for finding, shown_by in network.shown_by.items():
        unknown = infer(network, Evidence()).probabilities
        unsure = infer(network, Evidence(unsure=frozenset({finding}))).probabilities
        seen = infer(network, Evidence(seen=frozenset({finding}))).probabilities
        for cause in shown_by:
            assert unknown[cause] < unsure[cause] < seen[cause]


def test_unsure_is_half_way_in_bits_for_a_cause_that_always_shows_it() -> None:
    network = Network.of([Node(cause="a", odds=0.1, shows={"f": 1.0})], {"f": 0.04})
    chance = infer(network, Evidence(unsure=frozenset({"f"}))).probabilities["a"]
    assert chance / (1 - chance) == pytest.approx(0.1 * (1 / 0.04) ** 0.5, rel=1e-12)


def test_one_cause_explains_the_other_away() -> None:
    shows = {"yellow": 0.8}
    nodes = [Node(cause="iron", odds=0.1, shows=shows), Node(cause="mites", odds=0.1, shows={**shows, "webbing": 0.9})]
    network = Network.of(nodes, {"yellow": 0.03, "webbing": 0.008})
    yellow = infer(network, Evidence(seen=frozenset({"yellow"}))).probabilities
    webbing = infer(network, Evidence(seen=frozenset({"yellow", "webbing"}))).probabilities
    assert yellow["iron"] == pytest.approx(yellow["mites"])
    assert webbing["mites"] > 0.9
    assert webbing["iron"] < yellow["iron"] / 2


def test_what_nothing_explains_is_said() -> None:
    network = Network.of([Node(cause="a", odds=0.02, shows={"g": 0.8})], {"f": 0.03, "g": 0.03})
    stray = infer(network, Evidence(seen=frozenset({"f"})))
    assert stray.by_itself["f"] == pytest.approx(1.0, abs=1e-12)
    assert stray.none_behind == pytest.approx(1.0, abs=1e-12)
    assert infer(network, Evidence(seen=frozenset({"g"}))).none_behind < 0.8


@given(data=st.data())
def test_by_itself_equals_counting_leaks_that_acted_alone(made_up: SimpleNamespace, data: st.DataObject) -> None:
    network = made_up.draw_network(data)
    evidence = made_up.draw_evidence(data, network)
    for finding, chance in infer(network, evidence).by_itself.items():
        without = Evidence(seen=evidence.seen - {finding}, absent=evidence.absent, unsure=evidence.unsure)
        alone = 0.0
        for causes in made_up.every_set(network, without):
            missed = prod(1.0 - network.nodes[cause].shows.get(finding, 0.0) for cause in causes)
            alone += made_up.weight(network, without, causes) * network.leaks[finding] * missed
        whole = sum(made_up.every_set(network, evidence).values())
        assert abs(chance - alone / whole) <= TINY


@given(data=st.data())
def test_pairs_equal_counting(made_up: SimpleNamespace, data: st.DataObject) -> None:
    network = made_up.draw_network(data)
    evidence = made_up.draw_evidence(data, network)
    posterior, sums = belief(network, evidence)
    pairs = together(sums, posterior.probabilities)
    assert list(pairs) == sorted(pairs, key=lambda pair: (-pair.probability, pair.causes))
    for pair in pairs:
        assert abs(pair.probability - made_up.counted(network, evidence, *pair.causes)) <= TINY


@pytest.mark.parametrize("seed", range(3))
def test_the_stated_bound_holds_when_too_much_is_seen(made_up: SimpleNamespace, seed: int) -> None:
    network = made_up.big_network(seed, causes=40, findings=40, links=9)
    evidence = made_up.big_case(network, seed, seen=17, looked=25)
    exact, roughly = infer(network, evidence, method="quickscore"), infer(network, evidence)
    assert roughly.method == "bounds"
    assert 0.0 < furthest(exact, roughly) <= roughly.bound
    assert roughly.log_evidence >= exact.log_evidence
    assert infer(network, made_up.big_case(network, seed, seen=MOST_BITS)).bound == 0.0


@given(
    leak=st.sampled_from((0.008, 0.03, 0.2)),
    chances=st.lists(st.sampled_from((0.02, 0.25, 0.8, 0.95)), min_size=1, max_size=5),
    belief=st.lists(st.floats(0.0, 1.0), min_size=5, max_size=5),
)
def test_tangent_and_jensen_bracket_a_seen_finding(leak: float, chances: list[float], belief: list[float]) -> None:
    shows = {f"c{number}": chance for number, chance in enumerate(chances)}
    beliefs = dict(zip(shows, belief, strict=False))
    above, below = from_above(leak, shows, beliefs), from_below(leak, shows, beliefs)
    for there in chain.from_iterable(combinations(shows, size) for size in range(len(shows) + 1)):
        exact = 1.0 - (1.0 - leak) * prod(1.0 - shows[cause] for cause in there)
        upper, lower = (exp(each.log_scale) * prod(each.times[cause] for cause in there) for each in (above, below))
        assert lower * (1 - TINY) <= exact <= upper * (1 + TINY)
        touching = from_above(leak, shows, {cause: float(cause in there) for cause in shows})
        assert exp(touching.log_scale) * prod(touching.times[cause] for cause in there) == pytest.approx(
            exact, rel=TINY
        )


def test_a_bound_with_nothing_left_out_is_exact(made_up: SimpleNamespace) -> None:
    network = made_up.big_network(1)
    evidence = made_up.big_case(network, 1, seen=6)
    roughly = infer(network, evidence, method="bounds")
    assert roughly.bound <= 1e-12
    assert furthest(roughly, infer(network, evidence)) <= 1e-12


def test_damping_what_is_implied_keeps_to_the_model(monkeypatch: pytest.MonkeyPatch) -> None:
    nodes = [
        Node(cause="a", odds=0.1, shows={"f": 0.8, "g": 0.8}),
        Node(cause="b", odds=0.1, shows={"f": 0.3, "g": 0.1}),
    ]
    network = Network.of(nodes, {"f": 0.03, "g": 0.08}, implied_by={"g": frozenset({"f"})})
    both, one = Evidence(seen=frozenset({"f", "g"})), Evidence(seen=frozenset({"f"}))
    plain = infer(network, both).probabilities["a"]
    monkeypatch.setitem(odds.WEIGHT, "implied", 0.5)
    damped = infer(network, both).probabilities["a"]
    monkeypatch.setitem(odds.WEIGHT, "implied", 0.0)
    assert infer(network, both).probabilities["a"] == pytest.approx(infer(network, one).probabilities["a"], abs=1e-12)
    assert infer(network, one).probabilities["a"] < damped < plain


def test_unknown_and_impossible_evidence_is_refused() -> None:
    network = Network.of([Node(cause="a", odds=0.1, shows={})], {"f": 0.0})
    with pytest.raises(ValueError, match="not among the findings: webing"):
        infer(network, Evidence(absent=frozenset({"webing"})))
    with pytest.raises(ValueError, match="nothing in this network can make it"):
        infer(network, Evidence(seen=frozenset({"f"})))


HASH_SCRIPT = """
from triage.model.finding import Question
from triage.ranking import Evidence, Network, Node, choose_question, rank_causes
nodes = [Node(cause=f"c{i}", odds=0.02, shows={f"f{(i * 5 + k) % 11}": (0.25, 0.8, 0.55)[k] for k in range(3)})
         for i in range(20)]
network = Network.of(nodes, {f"f{k}": 0.03 for k in range(12)})
evidence = Evidence(seen=frozenset({"f1", "f6", "f9"}), absent=frozenset({"f3", "f4"}), unsure=frozenset({"f2"}))
questions = {f"q{k}": Question(question=f"q{k}", ask="?", pick="one", options=[f"f{k}", f"f{k + 1}"], place="leaf")
             for k in range(9)}
print(rank_causes(network, evidence), choose_question(network, evidence, questions))
"""


def test_the_hash_seed_decides_nothing() -> None:
    said = {
        subprocess.run(
            [sys.executable, "-c", HASH_SCRIPT],
            env={**os.environ, "PYTHONHASHSEED": str(seed), "PYTHONPATH": os.pathsep.join(sys.path)},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in range(4)
    }
    assert len(said) == 1
    assert "NextQuestion" in said.pop()


@given(data=st.data())
def test_what_is_not_in_the_book_is_summed_exactly_and_is_no_cause_of_it(
    made_up: SimpleNamespace, data: st.DataObject
) -> None:
    drawn = made_up.draw_network(data, causes=4)
    odds = data.draw(st.floats(0.001, 1.0))
    other = Node(
        cause=OTHER, odds=odds, shows=dict.fromkeys(drawn.leaks, data.draw(st.sampled_from((0.02, 0.1, 0.35))))
    )
    network = Network.of([*drawn.nodes.values(), other], drawn.leaks)
    evidence = made_up.draw_evidence(data, network)
    found = infer(network, evidence)
    weights = made_up.every_set(network, evidence)
    whole = sum(weights.values())
    assert found.probabilities.keys() == drawn.nodes.keys()
    assert abs(found.other - made_up.counted(network, evidence, OTHER)) <= TINY
    assert abs(found.none_at_all - sum(w for causes, w in weights.items() if {*causes} <= {OTHER}) / whole) <= TINY
    behind = {cause for one in evidence.seen | evidence.unsure for cause in drawn.shown_by.get(one, ())}
    if evidence.seen | evidence.unsure:
        none = sum(weight for causes, weight in weights.items() if behind.isdisjoint(causes)) / whole
        assert abs(found.none_behind - none) <= TINY
    for finding, chance in found.by_itself.items():
        without = Evidence(seen=evidence.seen - {finding}, absent=evidence.absent, unsure=evidence.unsure)
        alone = sum(
            weight
            * prod(1.0 - drawn.nodes[cause].shows.get(finding, 0.0) for cause in causes if cause != OTHER)
            * (1.0 - (1.0 - drawn.leaks[finding]) * (1.0 - other.shows[finding] * (OTHER in causes)))
            for causes, weight in made_up.every_set(network, without).items()
        )
        assert abs(chance - alone / whole) <= TINY


def test_several_strange_findings_speak_for_what_is_not_in_the_book_together() -> None:
    leaks = dict.fromkeys(("f", "g", "h"), 0.004)
    nodes = [
        Node(cause="a", odds=0.03, shows={"f": 0.8}),
        Node(cause=OTHER, odds=0.06, shows=dict.fromkeys(leaks, 0.1)),
    ]
    network = Network.of(nodes, leaks)
    found = [infer(network, Evidence(seen=frozenset(seen))) for seen in ("f", "fg", "fgh")]
    assert found[0].none_behind < 0.4 < 0.7 < found[1].none_behind < found[2].none_behind
    assert found[0].other < 0.5 < 0.9 < found[2].other
