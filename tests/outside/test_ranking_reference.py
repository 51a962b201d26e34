"""The ranking against others' numbers: a lecture's noisy-OR table, and a general-purpose Bayesian-network library."""

from __future__ import annotations

import random
from math import exp, prod

import pyagrum as gum
import pytest
from ranking_exact import tables_of

from triage.model.odds import BASE, BY_ITSELF, FREQUENCY
from triage.ranking import Evidence, Network, Node, infer

#: Lecture slides on Bayesian networks, "Noisy-OR example" (fever; cold 0.6, flu 0.2, malaria 0.1 are the chances that
#: a disease fails to cause it), https://www.sambuz.com/doc/outline-pdf-document-763250, read in a stored copy.
FAILS = {"cold": 0.6, "flu": 0.2, "malaria": 0.1}
FEVER = {
    (): 0.0,
    ("malaria",): 0.9,
    ("flu",): 0.8,
    ("flu", "malaria"): 0.98,
    ("cold",): 0.4,
    ("cold", "malaria"): 0.94,
    ("cold", "flu"): 0.88,
    ("cold", "flu", "malaria"): 0.988,
}
SURE = 1e15  # odds that leave no doubt


def fever_network(odds: dict[str, float]) -> Network:
    nodes = [Node(cause=cause, odds=odds[cause], shows={"fever": 1.0 - fails}) for cause, fails in FAILS.items()]
    return Network.of(nodes, {"fever": 0.0})


@pytest.mark.parametrize("there", FEVER)
def test_the_fever_table(there: tuple[str, ...]) -> None:
    network = fever_network({cause: SURE if cause in there else 0.0 for cause in FAILS})
    unseen = infer(network, Evidence(absent=frozenset({"fever"})))
    assert exp(unseen.log_evidence) == pytest.approx(1.0 - FEVER[there], abs=1e-12)
    if there:
        seen = infer(network, Evidence(seen=frozenset({"fever"})))
        assert exp(seen.log_evidence) == pytest.approx(FEVER[there], abs=1e-12)


def test_the_fever_table_turned_round() -> None:
    """Bayes' rule over the eight rows of the table, with made-up priors."""
    priors = {"cold": 0.2, "flu": 0.05, "malaria": 0.001}
    found = infer(
        fever_network({cause: chance / (1 - chance) for cause, chance in priors.items()}),
        Evidence(seen=frozenset({"fever"})),
    )
    rows = {
        there: fever * prod(priors[cause] if cause in there else 1 - priors[cause] for cause in priors)
        for there, fever in FEVER.items()
    }
    for cause in priors:
        expected = sum(row for there, row in rows.items() if cause in there) / sum(rows.values())
        assert found.probabilities[cause] == pytest.approx(expected, abs=1e-12)


def random_network(seed: int, *, causes: int, findings: int) -> Network:
    """Odds, chances and leaks from the table of words; every finding has a few causes."""
    rnd = random.Random(seed)
    shows: dict[str, dict[str, float]] = {f"c{number:02d}": {} for number in range(causes)}
    for number in range(findings):
        for cause in rnd.sample(sorted(shows), rnd.randint(0, min(6, causes))):
            shows[cause][f"f{number:02d}"] = rnd.choice(list(FREQUENCY.values()))
    nodes = [
        Node(cause=cause, odds=rnd.choice([*BASE.values(), 0.4, 2.0]), shows=links) for cause, links in shows.items()
    ]
    return Network.of(nodes, {f"f{number:02d}": rnd.choice(list(BY_ITSELF.values())) for number in range(findings)})


def random_evidence(network: Network, seed: int, *, seen: int, absent: int, unsure: int) -> Evidence:
    names = random.Random(seed).sample(sorted(network.leaks), seen + absent + unsure)
    return Evidence(
        seen=frozenset(names[:seen]),
        absent=frozenset(names[seen : seen + absent]),
        unsure=frozenset(names[seen + absent :]),
    )


def library_posterior(network: Network, evidence: Evidence) -> dict[str, float]:
    """The same network with its tables written out, solved by the library's lazy propagation."""
    inference = gum.LazyPropagation(tables_of(network))
    likelihoods = {finding: [0.0, 1.0] for finding in evidence.seen}
    likelihoods |= {finding: [1.0, 0.0] for finding in evidence.absent}
    for finding in evidence.unsure:
        root = network.leaks[finding] ** 0.5
        likelihoods[finding] = [root / (1 + root), 1.0]
    inference.setEvidence(likelihoods)
    inference.makeInference()
    return {cause: float(inference.posterior(cause)[1]) for cause in network.nodes}


@pytest.mark.parametrize(
    ("seed", "causes", "seen", "absent", "unsure"),
    [
        (1, 3, 2, 1, 0),
        (2, 6, 3, 3, 1),
        (3, 9, 5, 4, 0),
        (4, 12, 6, 6, 2),
        (5, 15, 4, 10, 0),
        (6, 15, 8, 6, 0),
        (7, 15, 8, 5, 3),
        (8, 15, 12, 4, 2),
        (9, 15, 0, 9, 6),
    ],
)
def test_equals_the_library(seed: int, causes: int, seen: int, absent: int, unsure: int) -> None:
    network = random_network(seed, causes=causes, findings=20)
    evidence = random_evidence(network, seed, seen=seen, absent=absent, unsure=unsure)
    expected = library_posterior(network, evidence)
    for method in ("quickscore", "sweep"):
        found = infer(network, evidence, method=method).probabilities
        assert max(abs(found[cause] - expected[cause]) for cause in expected) <= 1e-9
