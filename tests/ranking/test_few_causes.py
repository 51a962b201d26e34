"""Summing over sets of causes: exact within its bound, and the only way when much is seen and few causes are likely."""

from __future__ import annotations

import random
from math import prod
from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.ranking import Evidence, Network, Node, infer, posterior, rank_causes
from triage.ranking import few_causes as module
from triage.ranking.few_causes import sum_few
from triage.ranking.problem import boil_down
from triage.ranking.sweep import sweep


def dense(seed: int, *, causes: int, findings: int, odds: float) -> tuple[Network, Evidence]:
    """Every cause shows every finding and every finding is seen: no table of findings is small."""
    rnd = random.Random(seed)
    names = [f"f{number:02d}" for number in range(findings)]
    nodes = [
        Node(cause=f"c{number:02d}", odds=odds, shows={name: rnd.choice((0.1, 0.3, 0.6, 0.9)) for name in names})
        for number in range(causes)
    ]
    return Network.of(nodes, dict.fromkeys(names, 0.002)), Evidence(seen=frozenset(names))


@given(data=st.data())
def test_is_as_near_the_exact_sum_as_it_says(made_up: SimpleNamespace, data: st.DataObject) -> None:
    problem = boil_down(network := made_up.draw_network(data), made_up.draw_evidence(data, network))
    found = sum_few(problem)
    present, total = sweep(problem)
    assert found.bound <= 1e-4
    assert found.total == pytest.approx(total, rel=1e-4)
    assert all(abs(found.present[cause] - chance) <= found.bound + 1e-9 for cause, chance in present.items())


@pytest.mark.parametrize("most", [1, 5, 40])
@pytest.mark.parametrize("seed", range(3))
def test_what_is_left_out_is_within_the_bound(
    seed: int, most: int, made_up: SimpleNamespace, monkeypatch: pytest.MonkeyPatch
) -> None:
    network = made_up.big_network(seed, causes=14, findings=20, links=9)
    problem = boil_down(network, made_up.big_case(network, seed, seen=8, looked=14))
    monkeypatch.setattr(module, "MOST_BRANCHES", most)
    found = sum_few(problem)
    present, total = sweep(problem)
    assert found.total <= total * (1 + 1e-9)
    assert max(abs(found.present[cause] - chance) for cause, chance in present.items()) <= found.bound + 1e-9


def test_many_findings_that_every_cause_shows_are_summed_over_causes() -> None:
    """With odds so small that two at once cannot matter it is Bayes' rule over single causes."""
    network, evidence = dense(1, causes=19, findings=35, odds=1e-30)
    alone = {
        cause: prod(1.0 - (1.0 - network.leaks[name]) * (1.0 - chance) for name, chance in node.shows.items())
        for cause, node in network.nodes.items()
    }
    found = infer(network, evidence)
    assert found.method == "few"
    assert found.bound < 1e-4
    assert found.probabilities == pytest.approx(
        {cause: weight / sum(alone.values()) for cause, weight in alone.items()}, abs=1e-4
    )


def test_the_same_as_the_exact_sum_where_both_can_be_had() -> None:
    network, evidence = dense(2, causes=9, findings=10, odds=1e-5)
    exact, few = infer(network, evidence, method="quickscore"), infer(network, evidence, method="few")
    assert few.bound < 1e-5
    assert few.probabilities == pytest.approx(exact.probabilities, abs=few.bound + 1e-9)
    assert few.none_at_all == pytest.approx(exact.none_at_all, rel=1e-4)
    assert few.none_behind == pytest.approx(exact.none_behind, rel=1e-4)
    assert few.log_evidence == pytest.approx(exact.log_evidence, abs=1e-4)


def test_a_ranking_says_what_the_posterior_says(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(posterior, "MOST_BITS", 7)
    network, evidence = dense(3, causes=6, findings=8, odds=1e-9)
    found = infer(network, evidence)
    assert found.method == "few"
    for suspect in rank_causes(network, evidence).suspects:
        assert suspect.probability == found.probabilities[suspect.cause]


def test_what_nothing_can_make_is_an_error() -> None:
    network = Network.of(
        [Node(cause="a", odds=0.1, shows={"f": 0.5}), Node(cause="b", odds=0.1, shows={"g": 0.5, "f": 0.0})],
        {"f": 0.0, "g": 0.1},
    )
    problem = boil_down(network, Evidence(seen=frozenset({"f"})))
    with_nothing = [part for part in problem.parts if part.cause == "b"]
    with pytest.raises(ValueError, match="cannot occur"):
        sum_few(module.Problem(
            findings=problem.findings, leaks=problem.leaks, parts=tuple(with_nothing), apart={}, plain={},
            log_scale=0.0, log_rest=0.0,
        ))  # fmt: skip
