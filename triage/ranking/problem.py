"""A case boiled down to what the sums need: seen findings as bits, and the causes that may have made them.

Every finding f multiplies the weight of a set H of present causes by a_f + b_f · Π(1 − q) over the causes in H that
show it (q: how often they do, l: the leak):

- absent: 0 + (1 − l) · Π(1 − q), which is one plain factor per cause;
- seen: 1 − (1 − l) · Π(1 − q);
- unsure: soft (virtual) evidence. A report that comes for sure where the finding is there, and with probability v
  where it is not, weighs 1 − (1 − v)(1 − l) · Π(1 − q). With v = √l / (1 + √l) this is 1 − (1 − √l) · Π(1 − q): the
  very form of a seen finding, with √l for the leak. A cause that always shows the finding (q = 1) then gains log(1/√l),
  half of what it gains when the finding is seen, on the log scale; for smaller q the gain lies between 'unknown' and
  'seen'. In general a finding that keeps the share s of its word has the leak l^s (``odds.WEIGHT``); s = 1 is plain
  noisy-OR, s = 0 no evidence.

A seen finding that one cause alone shows is a plain factor of that cause too (l without it, 1 − (1 − l)(1 − q) with
it), and one that no cause shows is a constant; only the others need a bit.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import log, log1p

import msgspec

from triage.model.odds import WEIGHT

from .evidence import Evidence
from .network import Network, Node

Multipliers = Mapping[str, Mapping[str, float]]


class Delinked(msgspec.Struct, frozen=True, kw_only=True):
    """A plain factor that stands in for a finding: what it does to each cause's odds, and the rest as a logarithm."""

    times: dict[str, float]
    log_scale: float = 0.0


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """A cause linked to a bit: its odds after all plain factors, and (bit, q) of the seen findings it shows."""

    cause: str
    odds: float
    links: tuple[tuple[int, float], ...]

    @property
    def mask(self) -> int:
        """The bits of the seen findings it shows."""
        return sum(1 << bit for bit, _ in self.links)


class Problem(msgspec.Struct, frozen=True, kw_only=True):
    """What is left of a case.

    ``findings`` have a bit each and count with ``leaks``; ``plain`` holds, for every other finding that was answered,
    what it does to the odds of each cause; ``apart`` are the odds of the causes that plain factors touch and no bit
    does (causes that no evidence touches keep their priors). ``log_scale`` is the natural logarithm of everything that
    is the same for all sets of causes, counted so that the sums run over Π(share of each present part) ·
    Π(1 − share of each absent part); ``log_rest`` that of the probability that no untouched cause is present.
    """

    findings: tuple[str, ...]
    leaks: tuple[float, ...]
    parts: tuple[Part, ...]
    apart: dict[str, float]
    plain: dict[str, dict[str, float]]
    log_scale: float
    log_rest: float


def leak_of(network: Network, evidence: Evidence, finding: str) -> float:
    """The leak a seen or unsure finding counts with.

    >>> net = Network.of([], {"webbing": 0.04})
    >>> leak_of(net, Evidence(seen=frozenset({"webbing"})), "webbing")
    0.04
    >>> leak_of(net, Evidence(unsure=frozenset({"webbing"})), "webbing")
    0.2
    """
    if finding in evidence.unsure:
        share = WEIGHT["unsure"]
    else:
        share = WEIGHT["implied" if _implied(network, evidence, finding) else "seen"]
    leak: float = network.leaks[finding] ** share
    return leak


def _implied(network: Network, evidence: Evidence, finding: str) -> bool:
    """Whether a seen finding implies this one; of two that imply each other the first by id stands for both."""
    above = network.implied_by.get(finding, frozenset()) & evidence.seen
    return any(one < finding or finding not in network.implied_by.get(one, frozenset()) for one in above)


def seen_chance(leak: float, chance: float) -> float:
    """How often a finding is there when one cause that shows it is present.

    >>> round(seen_chance(0.1, 0.5), 12)
    0.55
    """
    return 1.0 - (1.0 - leak) * (1.0 - chance)


def odds_after(node: Node, plain: Multipliers, *, but: str = "") -> float:
    """A cause's odds once the plain factors are counted (in the order the cause shows them), one left out if named."""
    odds = node.odds
    for finding in node.shows:
        if finding in plain and finding != but:
            odds *= plain[finding].get(node.cause, 1.0)
    return odds


def boil_down(network: Network, evidence: Evidence, delinked: Mapping[str, Delinked] | None = None) -> Problem:
    """The problem of one case; ``delinked`` findings count by the plain factors given instead of by a bit.

    A finding the network does not know is a ValueError.
    """
    unknown = (evidence.seen | evidence.absent | evidence.unsure) - network.leaks.keys()
    if unknown:
        raise ValueError(f"not among the findings: {', '.join(sorted(unknown))}")
    leaks = {finding: leak_of(network, evidence, finding) for finding in sorted(evidence.seen | evidence.unsure)}
    plain = {finding: stand_in.times for finding, stand_in in (delinked or {}).items()}
    log_scale = sum(stand_in.log_scale for stand_in in (delinked or {}).values())
    log_scale += _absent(network, evidence, plain) + _hardly_linked(network, leaks, plain)
    bits = sorted(leaks.keys() - plain.keys(), key=lambda finding: (-len(network.shown_by[finding]), finding))
    parts, apart, before, after = _split(network, plain, {finding: bit for bit, finding in enumerate(bits)})
    return Problem(
        findings=tuple(bits),
        leaks=tuple(leaks[finding] for finding in bits),
        parts=parts,
        apart=apart,
        plain=plain,
        log_scale=log_scale + after - before,
        log_rest=network.log_nothing + before,
    )


def apart_chances(problem: Problem) -> dict[str, float]:
    """The probabilities of the causes that plain factors alone touch."""
    return {cause: odds / (1.0 + odds) for cause, odds in problem.apart.items()}


def _absent(network: Network, evidence: Evidence, plain: dict[str, dict[str, float]]) -> float:
    """Put the factors of the absent findings into ``plain``; returns the logarithm of what is the same for all."""
    for finding in sorted(evidence.absent):
        plain[finding] = {cause: 1.0 - chance for cause, chance in network.shown_by.get(finding, {}).items()}
    return sum(log(1.0 - network.leaks[finding]) for finding in sorted(evidence.absent))


def _hardly_linked(network: Network, leaks: Mapping[str, float], plain: dict[str, dict[str, float]]) -> float:
    """The same for the seen findings that one cause shows, or none."""
    log_scale = 0.0
    for finding, leak in leaks.items():
        shown_by = network.shown_by.get(finding, {})
        if leak == 0 and not shown_by:
            raise ValueError(f"{finding} is seen, and nothing in this network can make it")
        if leak == 1:
            plain[finding] = {}
        elif leak > 0 and len(shown_by) < 2 and finding not in plain:
            plain[finding] = {cause: seen_chance(leak, chance) / leak for cause, chance in shown_by.items()}
            log_scale += log(leak)
    return log_scale


def _split(
    network: Network, plain: Multipliers, bit_of: Mapping[str, int]
) -> tuple[tuple[Part, ...], dict[str, float], float, float]:
    """The causes linked to a bit, the odds of those touched otherwise, and Σ ln(1 + odds) of both before and after."""
    parts: list[Part] = []
    apart: dict[str, float] = {}
    before = after = 0.0
    touched = {cause for finding in (*bit_of, *plain) for cause in network.shown_by.get(finding, ())}
    for node in (network.nodes[cause] for cause in sorted(touched)):
        odds = odds_after(node, plain)
        before += log1p(node.odds)
        after += log1p(odds)
        links = sorted((bit, node.shows[finding]) for finding, bit in bit_of.items() if finding in node.shows)
        if links:
            parts.append(Part(cause=node.cause, odds=odds, links=tuple(links)))
        else:
            apart[node.cause] = odds
    return tuple(parts), apart, before, after
