"""What to believe about the causes once the evidence is counted: exact, over all sets of causes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import combinations
from math import exp, log, prod
from typing import Literal

import msgspec

from triage.model.outcome import Together

from .bounds import bounded
from .evidence import Evidence
from .network import Network
from .problem import Problem, apart_chances, boil_down, leak_of, seen_chance
from .quickscore import Sums
from .sweep import sweep

#: More seen findings that several causes show than this are not summed exactly (each one more doubles the time).
MOST_BITS = 16
#: Pairs are worth a word from this probability on.
TOGETHER_FROM = 0.05
TOGETHER_MOST = 3
#: Pairs are looked for among this many of the likeliest causes.
_PAIRS_AMONG = 6

Method = Literal["quickscore", "sweep", "bounds"]


class Posterior(msgspec.Struct, frozen=True, kw_only=True):
    """Belief after the evidence.

    ``probabilities``: of every cause, by id. ``none_at_all``: that no cause of the book is present.
    ``none_behind``: that no cause linked to anything seen or unsure is present, so that nothing in the book explains it
    (with nothing seen or unsure: the same as ``none_at_all``). ``by_itself``: for each seen finding, the probability
    that its leak made it and no present cause did. ``log_evidence``: natural logarithm of the probability of the
    evidence. ``bound``: no cause's probability is further than this from the exact one (0: exact).
    """

    probabilities: dict[str, float]
    none_at_all: float
    none_behind: float
    by_itself: dict[str, float]
    log_evidence: float
    method: Method = "quickscore"
    bound: float = 0.0


def infer(network: Network, evidence: Evidence, *, method: Method | None = None) -> Posterior:
    """The posterior of one case, by the named method or by the best one for its size.

    ``sweep`` leaves ``by_itself`` empty. Evidence that cannot occur, or names an unknown finding, is a ValueError.
    """
    if method != "sweep":
        return belief(network, evidence, method)[0]
    problem = boil_down(network, evidence)
    present, total = sweep(problem)
    return _posterior(network, evidence, problem, present, total, method="sweep")


def belief(network: Network, evidence: Evidence, method: Method | None = None) -> tuple[Posterior, Sums]:
    """The posterior with the sums it was read from, for whoever asks them more."""
    problem = boil_down(network, evidence)
    used: Method = method or ("quickscore" if len(problem.findings) <= MOST_BITS else "bounds")
    sums, bound = bounded(network, evidence, problem) if used == "bounds" else (Sums(problem), 0.0)
    total = sums.total / (1 << sums.bits)
    found = _posterior(network, evidence, sums.problem, sums.present(), total, method=used)
    by_itself = {one: _by_itself(network, evidence, sums, one, found.probabilities) for one in sorted(evidence.seen)}
    return msgspec.structs.replace(found, by_itself=by_itself, bound=bound), sums


def _posterior(
    network: Network,
    evidence: Evidence,
    problem: Problem,
    present: Mapping[str, float],
    total: float,
    *,
    method: Method,
) -> Posterior:
    nothing = _all_absent(part.odds for part in problem.parts) * prod(problem.leaks) / total
    marks = evidence.seen | evidence.unsure
    behind = {cause for finding in marks for cause in network.shown_by.get(finding, ())}
    linked = [odds for cause, odds in problem.apart.items() if cause in behind]
    none_at_all = nothing * _all_absent(problem.apart.values()) * exp(problem.log_rest)
    return Posterior(
        probabilities=network.priors | apart_chances(problem) | dict(present),
        none_at_all=none_at_all,
        none_behind=nothing * _all_absent(linked) if marks else none_at_all,
        by_itself={},
        log_evidence=problem.log_scale + log(total),
        method=method,
    )


def _all_absent(odds: Iterable[float]) -> float:
    return prod(1.0 / (1.0 + each) for each in odds)


def _by_itself(
    network: Network, evidence: Evidence, sums: Sums, finding: str, probabilities: Mapping[str, float]
) -> float:
    """Probability that the leak made a seen finding and no present cause did.

    That is l · Π(1 − q) in place of the finding's factor 1 − (1 − l) · Π(1 − q), hence l / (1 − l) times the odds that
    the rest of the evidence gives for the finding being absent. A delinked finding is judged as if the causes behind
    it were independent.
    """
    leak = leak_of(network, evidence, finding)
    if finding in sums.problem.findings:
        return leak / (1.0 - leak) * (sums.share_without(sums.problem.findings.index(finding)) - 1.0)
    shown_by = network.shown_by.get(finding, {})
    if len(shown_by) == 1:
        ((cause, chance),) = shown_by.items()
        made = probabilities.get(cause, 0.0) * (1.0 - leak * (1.0 - chance) / seen_chance(leak, chance))
        return 1.0 - made
    missed = prod(1.0 - probabilities[cause] * chance for cause, chance in shown_by.items())
    return leak * missed / seen_chance(leak, 1.0 - missed)


def together(sums: Sums, probabilities: Mapping[str, float]) -> tuple[Together, ...]:
    """The likeliest pairs of causes that are both present, exactly, the likeliest first (ties by id)."""
    likely_causes = [cause for cause, chance in probabilities.items() if chance >= TOGETHER_FROM]
    among = sorted(likely_causes, key=lambda cause: (-probabilities[cause], cause))[:_PAIRS_AMONG]
    pairs = [
        Together(causes=(one, other), probability=_both(sums, one, other, probabilities))
        for one, other in combinations(among, 2)
    ]
    found = [pair for pair in pairs if pair.probability >= TOGETHER_FROM]
    return tuple(sorted(found, key=lambda pair: (-pair.probability, pair.causes))[:TOGETHER_MOST])


def _both(sums: Sums, one: str, other: str, probabilities: Mapping[str, float]) -> float:
    if one in sums.factors and other in sums.factors:
        return sums.both(one, other)
    return probabilities[one] * probabilities[other]
