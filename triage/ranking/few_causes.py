"""When too much is seen to be summed over findings: sum over the sets of causes, leaving out what cannot matter.

Each further cause costs its odds, so few sets carry nearly all of the weight. They are walked depth first. Before a
branch is entered, all sets in it are bounded from above: no cause that may still come explains more than all of them
together, and their odds add up to no more than Π(1 + odds). A branch that can add nothing worth counting is left out
and its bound kept, so that the answer says how far from the exact one it may be.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import prod
from operator import mul

import msgspec

from .problem import Part, Problem

#: A branch is left out when all of it is at most this share of what was summed so far.
LEAST_SHARE = 1e-7
#: Branches that are weighed before the rest is left out, whatever it may weigh.
MOST_BRANCHES = 5000


class FewSums(msgspec.Struct, frozen=True, kw_only=True):
    """Probability of every linked cause, the sum itself (see ``Problem.log_scale``), and the largest error of any."""

    present: dict[str, float]
    total: float
    bound: float


class _Walk:
    """The sets so far: what they weigh, alone and by cause, and what was left out at most."""

    def __init__(self, problem: Problem) -> None:
        self.leaks = problem.leaks
        self.parts = sorted(problem.parts, key=lambda part: (-self._alone(part), part.cause))
        self.missing = [_missing(part, len(self.leaks)) for part in self.parts]
        self.behind = _behind(self.parts, self.missing, len(self.leaks))
        self.having = dict.fromkeys((part.cause for part in problem.parts), 0.0)
        self.total = self.left_out = 0.0
        self.branches = 0

    def _alone(self, part: Part) -> float:
        return part.odds * self._seen(_missing(part, len(self.leaks)))

    def _seen(self, missing: Sequence[float]) -> float:
        """Probability that all findings are there, from how likely the causes miss each."""
        return prod(1.0 - (1.0 - leak) * miss for leak, miss in zip(self.leaks, missing, strict=True))

    def enter(self, names: tuple[str, ...], odds: float, missing: Sequence[float], after: int) -> None:
        """Count one set, then those that add causes from the place ``after`` on."""
        weight = odds * self._seen(missing)
        self.total += weight
        for name in names:
            self.having[name] += weight
        for place in range(after, len(self.parts)):
            part, at_most = self.parts[place], odds * self._at_most(place, missing)
            if at_most > LEAST_SHARE * self.total and self.branches < MOST_BRANCHES:
                now_missing = list(map(mul, missing, self.missing[place]))
                self.enter((*names, part.cause), odds * part.odds, now_missing, place + 1)
            else:
                self.left_out += at_most

    def _at_most(self, place: int, missing: Sequence[float]) -> float:
        """What all sets of a branch weigh at most: that of one more cause and any of those behind it."""
        odds, rest_missing = self.behind[place]
        self.branches += 1
        if self.branches > MOST_BRANCHES:
            return odds
        return odds * self._seen(list(map(mul, missing, rest_missing)))


def sum_few(problem: Problem) -> FewSums:
    """Sum over sets of causes, the likeliest first. Evidence that no set can make is a ValueError."""
    walk = _Walk(problem)
    walk.enter((), 1.0, [1.0] * len(problem.leaks), 0)
    if walk.total <= 0:
        raise ValueError("this evidence cannot occur in this network")
    return FewSums(
        present={cause: weight / walk.total for cause, weight in walk.having.items()},
        total=walk.total / prod(1.0 + part.odds for part in problem.parts),
        bound=walk.left_out / (walk.total + walk.left_out),
    )


def _missing(part: Part, count: int) -> list[float]:
    """How likely the cause, being present, misses each of the findings."""
    links = dict(part.links)
    return [1.0 - links.get(bit, 0.0) for bit in range(count)]


def _behind(parts: Sequence[Part], missing: Sequence[Sequence[float]], count: int) -> list[tuple[float, list[float]]]:
    """For each place: odds · Π(1 + odds of those behind), and what it and all behind it together miss of each."""
    found: list[tuple[float, list[float]]] = []
    rest, together = 1.0, [1.0] * count
    for part, each in zip(reversed(parts), reversed(missing), strict=True):
        together = list(map(mul, together, each))
        found.append((part.odds * rest, together))
        rest *= 1.0 + part.odds
    return found[::-1]
