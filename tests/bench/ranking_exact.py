"""How exact the ranking is: against every set of causes summed one by one, against a general library, against itself.

The small networks have 15 causes and 20 findings; the library is pyagrum, with its tables written out beforehand.
"""

from __future__ import annotations

import random
import statistics
import time
from collections.abc import Callable, Mapping
from itertools import product
from math import prod
from operator import mul

import pyagrum as gum

from triage.book.load import load_book
from triage.model.odds import BASE, BY_ITSELF, FREQUENCY
from triage.ranking import Evidence, Network, Node, build_network, infer

CAUSES, FINDINGS = 15, 20
SEEN = range(15)
ABSENT = 4
NETWORKS = 2
#: Runs of the faster one per run of the library, of which the median counts.
RUNS = 5


def small_network(seed: int) -> Network:
    """Odds, chances and leaks from the table of words; every finding has up to six causes, two causes are likely."""
    rnd = random.Random(seed)
    shows: dict[str, dict[str, float]] = {f"c{number:02d}": {} for number in range(CAUSES)}
    for number in range(FINDINGS):
        for cause in rnd.sample(sorted(shows), rnd.randint(2, 6)):
            shows[cause][f"f{number:02d}"] = rnd.choice(list(FREQUENCY.values()))
    nodes = [
        Node(cause=cause, odds=rnd.choice([*BASE.values(), 0.4, 2.0]), shows=links) for cause, links in shows.items()
    ]
    return Network.of(nodes, {f"f{number:02d}": rnd.choice(list(BY_ITSELF.values())) for number in range(FINDINGS)})


def some_evidence(network: Network, seed: int, seen: int) -> Evidence:
    """So many findings that several causes show, and a few absent ones."""
    shared = sorted(finding for finding, causes in network.shown_by.items() if len(causes) > 1)
    names = random.Random(seed).sample(shared, seen + ABSENT)
    return Evidence(seen=frozenset(names[:seen]), absent=frozenset(names[seen:]))


def one_by_one(network: Network, evidence: Evidence) -> dict[str, float]:
    """The posterior by weighing all 2^15 sets, each finding by the definition of noisy-OR."""
    weights = [1.0]
    for node in network.nodes.values():
        weights += [weight * node.odds for weight in weights]
    for finding in sorted(evidence.seen | evidence.absent):
        missing = [1.0 - network.leaks[finding]]
        for node in network.nodes.values():
            missed = 1.0 - node.shows.get(finding, 0.0)
            missing += [miss * missed for miss in missing]
        there = [1.0 - miss for miss in missing] if finding in evidence.seen else missing
        weights = list(map(mul, weights, there))
    whole = sum(weights)
    return {
        cause: sum(weight for place, weight in enumerate(weights) if place >> bit & 1) / whole
        for bit, cause in enumerate(network.nodes)
    }


def tables_of(network: Network) -> gum.BayesNet:
    """The same network for the library, its tables written out."""
    bayes = gum.BayesNet()
    for cause, node in network.nodes.items():
        bayes.add(gum.LabelizedVariable(cause, cause, 2))
        bayes.cpt(cause).fillWith([1 / (1 + node.odds), node.odds / (1 + node.odds)])
    for finding, leak in network.leaks.items():
        bayes.add(gum.LabelizedVariable(finding, finding, 2))
        parents = network.shown_by.get(finding, {})
        for cause in parents:
            bayes.addArc(cause, finding)
        for states in product((0, 1), repeat=len(parents)):
            missed = (1 - leak) * prod(1 - q for q, there in zip(parents.values(), states, strict=True) if there)
            bayes.cpt(finding)[dict(zip(parents, states, strict=True))] = [missed, 1 - missed]
    return bayes


def library(network: Network) -> Callable[[Evidence], dict[str, float]]:
    """The library's exact inference over the same network, ready to be asked."""
    bayes, causes = tables_of(network), list(network.nodes)

    def ask(evidence: Evidence) -> dict[str, float]:
        inference = gum.LazyPropagation(bayes)
        inference.setTargets(set(causes))
        inference.setEvidence(dict.fromkeys(evidence.seen, 1) | dict.fromkeys(evidence.absent, 0))
        inference.makeInference()
        return {cause: float(inference.posterior(cause)[1]) for cause in causes}

    return ask


def measure_small(seen: int) -> dict[str, float]:
    """Largest errors and median times (ms) over a few networks, for one number of seen findings."""
    errors: dict[str, list[float]] = {"error_one_by_one": [], "error_library": []}
    times: dict[str, list[float]] = {"own_ms": [], "library_ms": []}
    for seed in range(NETWORKS):
        network = small_network(seed)
        evidence, ask = some_evidence(network, seed, seen), library(network)
        by_hand, by_library = one_by_one(network, evidence), ask(evidence)
        for own in (infer(network, evidence), infer(network, evidence, method="sweep")):
            errors["error_one_by_one"].append(apart(own.probabilities, by_hand))
            errors["error_library"].append(apart(own.probabilities, by_library))
        times["own_ms"] += [_ms(infer, network, evidence) for _ in range(RUNS)]
        times["library_ms"] += [_ms(ask, evidence) for _ in range(RUNS)]
    worst = {name: max(each) for name, each in errors.items()}
    medians = {name: statistics.median(each) for name, each in times.items()}
    return {"seen": seen} | worst | medians | {"ratio": medians["own_ms"] / medians["library_ms"]}


def measure_book(seen: int) -> dict[str, float]:
    """How far the two exact methods are apart on all causes of the book, and how long each takes (ms)."""
    book = load_book()
    network = build_network(book.causes, book.findings, crop=None, favoured=())
    evidence = some_evidence(network, seen, seen)
    start = time.perf_counter()
    one = infer(network, evidence, method="quickscore")
    middle = time.perf_counter()
    other = infer(network, evidence, method="sweep")
    end = time.perf_counter()
    return {
        "seen": seen, "causes": len(network.nodes), "methods_apart": apart(one.probabilities, other.probabilities),
        "quickscore_ms": 1000 * (middle - start), "sweep_ms": 1000 * (end - middle),
    }  # fmt: skip


def apart(one: Mapping[str, float], other: Mapping[str, float]) -> float:
    """The largest difference of a probability; ``one`` may leave out what is no cause of the book."""
    return max(abs(one[cause] - other[cause]) for cause in one)


def _ms(work: Callable[..., object], *words: object) -> float:
    start = time.perf_counter()
    work(*words)
    return 1000.0 * (time.perf_counter() - start)
