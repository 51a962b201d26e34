"""What to believe about the causes once the evidence is counted: exact, over all sets of causes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import combinations
from math import exp, log, log1p, prod
from typing import Literal

import msgspec

from triage.model.outcome import Together

from .bounds import bounded
from .evidence import Evidence
from .few_causes import sum_few
from .network import OTHER, Network
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

Method = Literal["quickscore", "sweep", "bounds", "few"]
#: A sum over few sets of causes stands in for the exact one when it is as near as this.
FEW_WITHIN = 1e-4


class Posterior(msgspec.Struct, frozen=True, kw_only=True):
    """Belief after the evidence.

    ``probabilities``: of every cause of the book, by id. ``none_at_all``: that no cause of the book is present.
    ``none_behind``: that no cause linked to anything seen or unsure is present, so that nothing in the book explains it
    (with nothing seen or unsure: the same as ``none_at_all``). ``by_itself``: for each seen finding, the probability
    that no present cause of the book made it. ``other``: that
    something that is not in the book is behind it. ``log_evidence``: natural logarithm of the probability of the
    evidence. ``bound``: no cause's probability is further than this from the exact one (0: exact).
    """

    probabilities: dict[str, float]
    none_at_all: float
    none_behind: float
    by_itself: dict[str, float]
    log_evidence: float
    other: float = 0.0
    method: Method = "quickscore"
    bound: float = 0.0


def infer(network: Network, evidence: Evidence, *, method: Method | None = None) -> Posterior:
    """The posterior of one case, by the named method or by the best one for its size.

    ``sweep`` and ``few`` leave ``by_itself`` empty. Evidence that cannot occur, or names an unknown finding, is a
    ValueError.
    """
    problem = boil_down(network, evidence)
    if method == "sweep":
        present, total = sweep(problem)
        return _posterior(network, evidence, problem, present, total, method="sweep")
    if method == "few" or (method is None and len(problem.findings) > MOST_BITS):
        found = _by_few(network, evidence, problem)
        if method == "few" or found.bound <= FEW_WITHIN:
            return found
    return _belief(network, evidence, problem, method)[0]


def belief(network: Network, evidence: Evidence, method: Method | None = None) -> tuple[Posterior, Sums]:
    """The posterior with the sums it was read from, for whoever asks them more."""
    problem = boil_down(network, evidence)
    posterior, sums = _belief(network, evidence, problem, method)
    if method is None and posterior.method == "bounds":
        few = _by_few(network, evidence, problem)
        if few.bound <= FEW_WITHIN:
            posterior = msgspec.structs.replace(few, by_itself=posterior.by_itself)
    return posterior, sums


def _belief(network: Network, evidence: Evidence, problem: Problem, method: Method | None) -> tuple[Posterior, Sums]:
    used: Method = method or ("quickscore" if len(problem.findings) <= MOST_BITS else "bounds")
    sums, bound = bounded(network, evidence, problem) if used == "bounds" else (Sums(problem), 0.0)
    total = sums.total / (1 << sums.bits)
    found = _posterior(network, evidence, sums.problem, sums.present(), total, method=used)
    beside = sums.folds_with(OTHER) if OTHER in sums.factors and evidence.seen else None
    by_itself = {one: _by_itself(network, evidence, sums, one, found, beside) for one in sorted(evidence.seen)}
    return msgspec.structs.replace(found, by_itself=by_itself, bound=bound), sums


def _by_few(network: Network, evidence: Evidence, problem: Problem) -> Posterior:
    few = sum_few(problem)
    found = _posterior(network, evidence, problem, few.present, few.total, method="few")
    return msgspec.structs.replace(found, bound=few.bound)


def _posterior(
    network: Network,
    evidence: Evidence,
    problem: Problem,
    present: Mapping[str, float],
    total: float,
    *,
    method: Method,
) -> Posterior:
    nothing = _all_absent(part.odds for part in problem.parts) * prod(problem.leaks) / total * _with_other(problem)
    marks = evidence.seen | evidence.unsure
    behind = {cause for finding in marks for cause in network.shown_by.get(finding, ())} - {OTHER}
    linked = [odds for cause, odds in problem.apart.items() if cause in behind]
    apart = [odds for cause, odds in problem.apart.items() if cause != OTHER]
    rest = problem.log_rest if evidence.known or OTHER not in network.nodes else _without_other(network)
    none_at_all = nothing * _all_absent(apart) * exp(rest)
    chances = network.priors | apart_chances(problem) | dict(present)
    return Posterior(
        probabilities={cause: chance for cause, chance in chances.items() if cause != OTHER},
        other=chances.get(OTHER, 0.0),
        none_at_all=none_at_all,
        none_behind=nothing * _all_absent(linked) if marks else none_at_all,
        by_itself={},
        log_evidence=problem.log_scale + log(total),
        method=method,
    )


def _with_other(problem: Problem) -> float:
    """How much likelier the evidence is without any cause of the book once what is not in the book may be there."""
    part = next((part for part in problem.parts if part.cause == OTHER), None)
    if part is None:
        return 1.0
    made = prod(seen_chance(problem.leaks[bit], chance) / problem.leaks[bit] for bit, chance in part.links)
    return 1.0 + part.odds * made


def _without_other(network: Network) -> float:
    """Logarithm of the probability that no cause of the book is present when nothing is known."""
    return network.log_nothing + log1p(network.nodes[OTHER].odds)


def _all_absent(odds: Iterable[float]) -> float:
    return prod(1.0 / (1.0 + each) for each in odds)


def _by_itself(
    network: Network, evidence: Evidence, sums: Sums, finding: str, found: Posterior, beside: list[list[int]] | None
) -> float:
    """Probability that no present cause of the book made a seen finding: its leak did, or what is not in the book.

    That is l · Π(1 − q) in place of the finding's factor 1 − (1 − l) · Π(1 − q), hence l / (1 − l) times the odds that
    the rest of the evidence gives for the finding being absent; with what is not in the book present, the same with
    the leak that both make together. A delinked finding is judged as if the causes behind it were independent.
    """
    leak = leak_of(network, evidence, finding)
    shown_by = dict(network.shown_by.get(finding, {}))
    other = shown_by.pop(OTHER, 0.0)
    if finding in sums.problem.findings:
        bit = sums.problem.findings.index(finding)
        missing = sums.share_without(bit) - 1.0
        with_other = sums.share_without(bit, beside) - beside[0][0] / sums.total if beside else 0.0
        both = seen_chance(leak, other)
        return leak / (1.0 - leak) * (missing - with_other) + both / (1.0 - both) * with_other
    leak = seen_chance(leak, other * found.other)
    if len(shown_by) == 1:
        ((cause, chance),) = shown_by.items()
        made = found.probabilities.get(cause, 0.0) * (1.0 - leak * (1.0 - chance) / seen_chance(leak, chance))
        return 1.0 - made
    missed = prod(1.0 - found.probabilities[cause] * chance for cause, chance in shown_by.items())
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
