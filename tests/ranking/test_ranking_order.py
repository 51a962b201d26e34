"""The ranking as the report gets it."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from triage.ranking import Evidence, Network, Node, infer, rank_causes
from triage.ranking.rank import MOST_SUSPECTS, SUSPECT_FROM


def twins() -> Network:
    nodes = [Node(cause=name, odds=0.05, shows={"f": 0.8, "g": 0.25}) for name in ("b", "c", "a")]
    return Network.of([*nodes, Node(cause="d", odds=0.0001, shows={"g": 0.1})], {"f": 0.03, "g": 0.03, "h": 0.03})


def test_most_likely_first_ties_by_id_and_a_floor() -> None:
    ranking = rank_causes(twins(), Evidence(seen=frozenset({"f"}), absent=frozenset({"g"})))
    assert [suspect.cause for suspect in ranking.suspects] == ["a", "b", "c"]
    assert all(suspect.probability >= SUSPECT_FROM for suspect in ranking.suspects)


@pytest.mark.parametrize("seed", range(3))
def test_ranking_says_what_the_posterior_says(made_up: SimpleNamespace, seed: int) -> None:
    network = made_up.big_network(seed)
    evidence = made_up.big_case(network, seed, seen=8)
    ranking, posterior = rank_causes(network, evidence, explain=4), infer(network, evidence)
    chances = [suspect.probability for suspect in ranking.suspects]
    assert chances == sorted(chances, reverse=True)
    listed = {suspect.cause: suspect.probability for suspect in ranking.suspects}
    likely = {cause: each for cause, each in posterior.probabilities.items() if each >= SUSPECT_FROM}
    assert listed.items() <= likely.items()
    assert len(listed) == min(len(likely), MOST_SUSPECTS)
    assert min(listed.values()) >= max((each for cause, each in likely.items() if cause not in listed), default=0)
    assert ranking.none_in_book == posterior.none_behind
    assert [bool(suspect.support) for suspect in ranking.suspects[:6]] == [True] * 4 + [False] * 2


def test_two_problems_at_once_come_out_as_a_pair() -> None:
    nodes = [
        Node(cause="iron", odds=0.03, shows={"pale": 0.95, "veins": 0.8}),
        Node(cause="mites", odds=0.03, shows={"webbing": 0.8, "dots": 0.95}),
        Node(cause="virus", odds=0.004, shows={"pale": 0.25, "dots": 0.25}),
    ]
    network = Network.of(nodes, dict.fromkeys(("pale", "veins", "webbing", "dots"), 0.02))
    ranking = rank_causes(network, Evidence(seen=frozenset(network.leaks)))
    assert ranking.together[0].causes == ("iron", "mites")
    assert ranking.together[0].probability > 0.9
    assert ranking.unexplained == ()


def test_a_finding_no_cause_explains_is_named() -> None:
    ranking = rank_causes(twins(), Evidence(seen=frozenset({"f", "h"})))
    assert ranking.unexplained == ("h",)
    assert rank_causes(twins(), Evidence(seen=frozenset({"h"}))).none_in_book == pytest.approx(1.0)


def test_a_case_too_large_to_sum_still_ranks(made_up: SimpleNamespace) -> None:
    network = made_up.big_network(5, causes=30, findings=40, links=10)
    ranking = rank_causes(network, made_up.big_case(network, 5, seen=19, looked=24))
    assert ranking.suspects[0].support
    assert {each.kind for each in ranking.suspects[0].support} <= {"seen", "absent"}
