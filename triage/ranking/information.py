"""How much an answer is expected to tell, in bits (Shannon's mutual information)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from math import log2

Spread = tuple[float, ...]

#: Of a tick-list the answers to this many options are weighed together; the rest can only add to it.
TICKS = 3
_NEVER_MISSED = 1e-9


def entropy(spread: Iterable[float]) -> float:
    """Shannon entropy in bits.

    >>> entropy((0.5, 0.5)), entropy((1.0, 0.0))
    (1.0, 0.0)
    """
    return -sum([share * log2(share) for share in spread if share > 0]) or 0.0


def one_of(missing: Sequence[float]) -> Spread:
    """The answers to a pick-one question, 'none of these' last, from how often each option is missing.

    Options are taken as independent given the causes, on the condition that at most one is there.

    >>> one_of([0.5, 0.5])
    (0.3333333333333333, 0.3333333333333333, 0.3333333333333333)
    """
    odds = [(1.0 - miss) / max(miss, _NEVER_MISSED) for miss in missing]
    whole = 1.0 + sum(odds)
    return (*(each / whole for each in odds), 1.0 / whole)


def ticks(missing: Sequence[float]) -> Spread:
    """The answers to some ticked options: every combination, the first option changing slowest.

    >>> ticks([0.5, 0.25])
    (0.125, 0.375, 0.125, 0.375)
    """
    spread = [1.0]
    for miss in missing:
        spread = [share * part for share in spread for part in (miss, 1.0 - miss)]
    return tuple(spread)


def tick_bits(missing: Mapping[float, float]) -> float:
    """Expected information in a single tick, from the weight of hypotheses (in sum one) by how often it is missing.

    >>> tick_bits({0.0: 0.5, 1.0: 0.5})
    1.0
    """
    mean = sum([weight * miss for miss, weight in missing.items()])
    return entropy((mean, 1.0 - mean)) - sum([weight * entropy((miss, 1.0 - miss)) for miss, weight in missing.items()])


class Answers:
    """The spread of a question's answers for every hypothesis, and what they tell of it.

    Hypotheses that spread the answers alike are of one kind.
    """

    __slots__ = ("kinds", "spreads", "weights")

    def __init__(self, weights: Sequence[float], missing: Sequence[Sequence[float]], *, one: bool) -> None:
        """``weights`` of the hypotheses sum to one; ``missing``: for each option, how often each of them lacks it."""
        kind_of: dict[tuple[float, ...], int] = {}
        self.weights = weights
        self.kinds = [kind_of.setdefault(key, len(kind_of)) for key in zip(*missing, strict=True)]
        self.spreads = [one_of(key) if one else ticks(key) for key in kind_of]

    def expected(self, places: Iterable[int]) -> list[float]:
        """The probability of each answer together with 'one of these hypotheses'."""
        by_kind: defaultdict[int, float] = defaultdict(float)
        for place in places:
            by_kind[self.kinds[place]] += self.weights[place]
        return self._mixed(by_kind)

    def bits(self) -> float:
        """Expected information about the hypothesis."""
        by_kind: defaultdict[int, float] = defaultdict(float)
        for kind, weight in zip(self.kinds, self.weights, strict=True):
            by_kind[kind] += weight
        left = sum(weight * entropy(self.spreads[kind]) for kind, weight in by_kind.items())
        return max(entropy(self._mixed(by_kind)) - left, 0.0)

    def bits_about(self, labels: Sequence[int]) -> float:
        """Expected information about the hypothesis's label; never more than about the hypothesis."""
        grouped: defaultdict[int, defaultdict[int, float]] = defaultdict(lambda: defaultdict(float))
        for label, kind, weight in zip(labels, self.kinds, self.weights, strict=True):
            grouped[label][kind] += weight
        return information([self._mixed(by_kind) for by_kind in grouped.values()])

    def _mixed(self, by_kind: dict[int, float]) -> list[float]:
        """The answers' spread over kinds with these weights."""
        spreads = self.spreads
        rows = [[weight * share for share in spreads[kind]] for kind, weight in by_kind.items()]
        return [sum(column) for column in zip(*rows, strict=True)]


def information(joint: Sequence[Sequence[float]]) -> float:
    """Mutual information of rows and columns of a joint distribution.

    >>> information([[0.5, 0.0], [0.0, 0.5]]), information([[0.25, 0.25], [0.25, 0.25]])
    (1.0, 0.0)
    """
    columns = [sum(column) for column in zip(*joint, strict=True)]
    rows = [sum(row) for row in joint]
    cells = [cell for row in joint for cell in row]
    return max(entropy(columns) + entropy(rows) - entropy(cells), 0.0)
