"""Made-up noisy-OR networks, drawn by hypothesis or by seed, and the posterior by counting every set of causes."""

from __future__ import annotations

import random
from collections.abc import Callable
from itertools import product
from math import prod
from types import SimpleNamespace

import pytest
from hypothesis import strategies as st

from triage.ranking import Evidence, Network, Node

CHANCES = (0.02, 0.08, 0.25, 0.55, 0.8, 0.95)
LEAKS = (0.008, 0.03, 0.08, 0.2)


def draw_network(data: st.DataObject, *, causes: int = 6, findings: int = 6) -> Network:
    """A small network: any odds up to 3, any links, named c0…, f0…."""
    names = [f"f{number}" for number in range(data.draw(st.integers(1, findings), label="findings"))]
    leaks = {name: data.draw(st.sampled_from(LEAKS)) for name in names}
    links = st.dictionaries(st.sampled_from(names), st.sampled_from(CHANCES), max_size=len(names))
    odds = st.floats(0.0005, 3.0)
    count = data.draw(st.integers(1, causes), label="causes")
    nodes = [Node(cause=f"c{number}", odds=data.draw(odds), shows=data.draw(links)) for number in range(count)]
    return Network.of(nodes, leaks)


def draw_evidence(data: st.DataObject, network: Network) -> Evidence:
    """Any state for any finding."""
    states = {name: data.draw(st.sampled_from(("seen", "absent", "unsure", ""))) for name in network.leaks}
    return Evidence(
        seen=frozenset(name for name, state in states.items() if state == "seen"),
        absent=frozenset(name for name, state in states.items() if state == "absent"),
        unsure=frozenset(name for name, state in states.items() if state == "unsure"),
    )


def big_network(seed: int, *, causes: int = 120, findings: int = 250, links: int = 12) -> Network:
    """A network of the size of the book; a few findings are linked far more than others."""
    rnd = random.Random(seed)
    names = [f"f{number:03d}" for number in range(findings)]
    weights = [1.0 / (1.0 + number / 25) for number in range(findings)]
    nodes = [
        Node(
            cause=f"c{number:03d}",
            odds=rnd.choice((0.03, 0.012, 0.004, 0.075)),
            shows={name: rnd.choice(CHANCES) for name in rnd.choices(names, weights, k=links)},
        )
        for number in range(causes)
    ]
    return Network.of(nodes, {name: rnd.choice(LEAKS) for name in names})


def big_case(network: Network, seed: int, *, seen: int, looked: int = 30) -> Evidence:
    """What two causes that are there would show, and other findings up to the number seen; the rest is absent."""
    rnd = random.Random(seed)
    shown = [name for cause in rnd.sample(sorted(network.nodes), 2) for name in network.nodes[cause].shows]
    there = list(dict.fromkeys([*shown, *rnd.sample(sorted(network.leaks), seen)]))[:seen]
    rest = rnd.sample(sorted(network.leaks.keys() - set(there)), looked - seen)
    return Evidence(seen=frozenset(there), absent=frozenset(rest))


def weight(network: Network, evidence: Evidence, causes: tuple[str, ...]) -> float:
    """Probability of exactly these causes and all the evidence, straight from the definitions."""
    found = prod(
        node.odds / (1.0 + node.odds) if name in causes else 1.0 / (1.0 + node.odds)
        for name, node in network.nodes.items()
    )
    for name, leak in network.leaks.items():
        missed = prod(1.0 - network.nodes[cause].shows.get(name, 0.0) for cause in causes)
        if name in evidence.seen:
            found *= 1.0 - (1.0 - leak) * missed
        elif name in evidence.absent:
            found *= (1.0 - leak) * missed
        elif name in evidence.unsure:
            false_report = leak**0.5 / (1.0 + leak**0.5)
            there = 1.0 - (1.0 - leak) * missed
            found *= there + false_report * (1.0 - there)
    return found


def every_set(network: Network, evidence: Evidence) -> dict[tuple[str, ...], float]:
    """The weight of each of the 2^n sets of causes."""
    names = list(network.nodes)
    sets = (
        tuple(name for name, there in zip(names, states, strict=True) if there)
        for states in product((False, True), repeat=len(names))
    )
    return {causes: weight(network, evidence, causes) for causes in sets}


def counted(network: Network, evidence: Evidence, *wanted: str) -> float:
    """Probability that all the wanted causes are present (none wanted: that none is)."""
    weights = every_set(network, evidence)
    hits = (each for causes, each in weights.items() if (set(wanted) <= set(causes) if wanted else not causes))
    return sum(hits) / sum(weights.values())


@pytest.fixture(scope="session")
def made_up() -> SimpleNamespace:
    """Everything above."""
    tools: dict[str, Callable[..., object]] = {
        each.__name__: each for each in (draw_network, draw_evidence, big_network, big_case, weight, every_set, counted)
    }
    return SimpleNamespace(**tools)
