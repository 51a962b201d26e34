"""When too much is seen to be summed exactly: an answer with a bound on its error.

The findings with the least to say (the largest leaks) are delinked: the logarithm of a seen finding's factor is concave
in the strength of the causes behind it, so a tangent bounds it from above and Jensen's inequality from below, and both
bounds are plain factors of the causes. T. Jaakkola and M. Jordan, "Variational probabilistic inference and the QMR-DT
network", JAIR 10 (1999) 291-322. Two exact runs then bracket the posterior odds of every cause.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from math import exp, expm1, log

from .evidence import Evidence
from .network import Network
from .problem import Delinked, Problem, apart_chances, boil_down
from .quickscore import Sums

#: Seen findings that keep a bit; the rest is delinked.
KEPT = 15
_NEVER_MISSED = 1e-12

Delinker = Callable[[float, Mapping[str, float], Mapping[str, float]], Delinked]


def bounded(network: Network, evidence: Evidence, problem: Problem, *, kept: int = KEPT) -> tuple[Sums, float]:
    """Sums of the case with the upper bound in place, and the largest error of any cause's probability."""
    links = {finding: len(network.shown_by[finding]) for finding in problem.findings}
    leaks = dict(zip(problem.findings, problem.leaks, strict=True))
    dropped = sorted(problem.findings, key=lambda finding: (-leaks[finding], links[finding], finding))[: -kept or None]

    def run(delinker: Delinker, belief: Mapping[str, float]) -> tuple[Sums, dict[str, float], float]:
        stand_ins = {one: delinker(leaks[one], network.shown_by[one], belief) for one in sorted(dropped)}
        sums = Sums(boil_down(network, evidence, stand_ins))
        log_evidence = sums.problem.log_scale + log(sums.total / (1 << sums.bits))
        return sums, apart_chances(sums.problem) | sums.present(), log_evidence

    _, belief, _ = run(lambda leak, shows, belief: Delinked(times={}), {})
    _, belief, _ = run(from_above, belief)
    upper, above, log_above = run(from_above, belief)
    _, below, log_below = run(from_below, above)
    gap = exp(min(log_below - log_above, 0.0))
    return upper, max(_error(above[cause], below[cause], gap) for cause in above)


def _error(above: float, below: float, gap: float) -> float:
    """How far the exact probability may be from ``above``; ``gap``: lower / upper bound of the evidence."""
    low = gap * below / (gap * below + 1.0 - above)
    high = above / (above + gap * (1.0 - below))
    return max(above - low, high - above)


def strength(chance: float) -> float:
    """θ = −ln(1 − q): strengths of causes that are present together add up.

    >>> round(strength(0.5) + strength(0.5), 12) == round(strength(0.75), 12)
    True
    """
    return -log(max(1.0 - chance, _NEVER_MISSED))


def log_seen(total: float) -> float:
    """Logarithm of the probability that a finding is there, from the strength of all that is behind it."""
    return log(-expm1(-total))


def from_above(leak: float, shows: Mapping[str, float], belief: Mapping[str, float]) -> Delinked:
    """The tangent at the expected strength."""
    base = strength(leak)
    expected = base + sum(belief.get(cause, 0.0) * strength(chance) for cause, chance in shows.items())
    slope = 1.0 / expm1(expected)
    times = {cause: exp(slope * strength(chance)) for cause, chance in shows.items()}
    return Delinked(times=times, log_scale=log_seen(expected) + slope * (base - expected))


def from_below(leak: float, shows: Mapping[str, float], belief: Mapping[str, float]) -> Delinked:
    """Jensen's inequality, the causes weighted by what each is expected to add."""
    base = strength(leak)
    added = {cause: (belief.get(cause, 0.0) + 1e-9) * strength(chance) for cause, chance in shows.items()}
    whole = sum(added.values())
    times = {
        cause: exp(part / whole * (log_seen(base + strength(shows[cause]) * whole / part) - log_seen(base)))
        for cause, part in added.items()
    }
    return Delinked(times=times, log_scale=log_seen(base))
