"""Support is the posterior odds with a finding against those without it."""

from __future__ import annotations

from math import log2
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from triage.model.outcome import Support
from triage.ranking import Evidence, Network, Node, infer, rank_causes
from triage.ranking.posterior import belief
from triage.ranking.support import LEAST_BITS, support_of


def without(evidence: Evidence, finding: str) -> Evidence:
    out = {finding}
    return Evidence(seen=evidence.seen - out, absent=evidence.absent - out, unsure=evidence.unsure - out)


def bits_by_leaving_out(network: Network, evidence: Evidence, finding: str, cause: str) -> float:
    now = infer(network, evidence).probabilities[cause]
    before = infer(network, without(evidence, finding)).probabilities[cause]
    return log2(now / (1 - now) / before * (1 - before))


@given(data=st.data())
@settings(max_examples=60)
def test_equals_leaving_each_finding_out(made_up: SimpleNamespace, data: st.DataObject) -> None:
    network = made_up.draw_network(data)
    evidence = made_up.draw_evidence(data, network)
    _, sums = belief(network, evidence)
    for cause, found in support_of(network, evidence, sums, list(network.nodes)).items():
        bits = {each.what: each.bits for each in found}
        for finding in evidence.seen | evidence.absent | evidence.unsure:
            expected = bits_by_leaving_out(network, evidence, finding, cause)
            if finding in bits:
                assert bits[finding] == pytest.approx(expected, abs=1e-7)
            else:
                assert abs(expected) < LEAST_BITS + 1e-7


@pytest.mark.parametrize("seen", [3, 8, 10])
def test_equals_leaving_out_in_a_large_network(made_up: SimpleNamespace, seen: int) -> None:
    network = made_up.big_network(seen)
    evidence = made_up.big_case(network, seen, seen=seen)
    for suspect in rank_causes(network, evidence).suspects[:3]:
        for each in suspect.support:
            expected = bits_by_leaving_out(network, evidence, each.what, suspect.cause)
            assert each.bits == pytest.approx(expected, abs=1e-7)


def test_signs_and_kinds() -> None:
    nodes = [
        Node(
            cause="mites",
            odds=0.06,
            crop_bits=1.0,
            rule_bits=(("dry-air", 2.0),),
            shows={"webbing": 0.8, "dots": 0.9, "dust": 0.5},
        ),
        Node(cause="thrips", odds=0.03, shows={"dots": 0.5, "dust": 0.2}),
    ]
    network = Network.of(nodes, {"webbing": 0.01, "dots": 0.03, "dust": 0.08}, crop="basil")
    evidence = Evidence(seen=frozenset({"dots"}), absent=frozenset({"webbing"}), unsure=frozenset({"dust"}))
    _, sums = belief(network, evidence)
    found = support_of(network, evidence, sums, ["mites"])["mites"]
    assert [(each.what, each.kind, each.bits > 0) for each in sorted(found, key=lambda each: each.what)] == [
        ("basil", "crop", True),
        ("dots", "seen", True),
        ("dry-air", "rule", True),
        ("dust", "unsure", True),
        ("webbing", "absent", False),
    ]
    assert Support(what="dry-air", bits=2.0, kind="rule") in found
    assert list(found) == sorted(found, key=lambda each: -abs(each.bits))


def test_a_cause_ruled_out_for_good_has_no_bits() -> None:
    nodes = [
        Node(cause="a", odds=0.1, shows={"f": 0.8, "g": 1.0}),
        Node(cause="b", odds=0.1, shows={"f": 0.8}),
        Node(cause="c", odds=0.1, shows={"g": 1.0}),
    ]
    network = Network.of(nodes, {"f": 0.03, "g": 0.03})
    evidence = Evidence(seen=frozenset({"f"}), absent=frozenset({"g"}))
    posterior, sums = belief(network, evidence)
    assert posterior.probabilities["a"] == posterior.probabilities["c"] == 0.0
    found = support_of(network, evidence, sums, ["a", "b", "c"])
    assert {cause: [each.what for each in bits] for cause, bits in found.items()} == {"a": [], "b": ["f", "g"], "c": []}


def test_the_bits_of_a_rule_are_what_it_did_to_the_posterior_odds() -> None:
    def odds(prior: float) -> float:
        nodes = [Node(cause="a", odds=prior, shows={"f": 0.8}), Node(cause="b", odds=0.1, shows={"f": 0.5})]
        chance = infer(Network.of(nodes, {"f": 0.03}), Evidence(seen=frozenset({"f"}))).probabilities["a"]
        return chance / (1 - chance)

    assert log2(odds(0.12) / odds(0.03)) == pytest.approx(2.0)
