"""Exact sums over all sets of causes, by Quickscore in fixed-point integers.

With n seen findings the probability of the evidence is a signed sum over the 2^n subsets S of them,

    P(E) = Σ_S (−1)^|S| · Π_{f in S}(1 − l_f) · Π_i (1 − g_i + g_i · Π_{f in S}(1 − q_if)),

g_i being the share of cause i (its probability once the plain factors are counted): D. Heckerman, "A tractable
inference algorithm for diagnosing multiple diseases", UAI 1989 (https://arxiv.org/abs/1304.1511). The terms cancel down
to about Π l_f, so floats lose all digits from ten findings on; integers with enough bits lose none that matter.

A cause that shows k of the n findings has only 2^k different factors, and causes that show the same ones share a table.
Tables are multiplied up bit by bit and folded down again, so that most of the work is done on short tables.
"""

from __future__ import annotations

from collections import defaultdict
from math import ceil, ldexp, log2
from operator import add, mul

from .problem import Part, Problem

LEAST_BITS = 192
#: Leaks below this are not allowed for in the number of bits.
_LEAST_LEAK = 2.0**-20


class Factors:
    """The factors of one cause over the subsets of the findings it shows (2^k of each, fixed point).

    ``whole``: 1 − g + g·R; ``present``: g·R / whole, the cause's probability in a term of the sum.
    """

    __slots__ = ("mask", "present", "whole")

    def __init__(self, part: Part, bits: int) -> None:
        one = 1 << bits
        odds = to_fixed(part.odds, bits)
        share = (odds << bits) // (one + odds)
        missed = [one]
        for _, chance in part.links:
            rest = one - to_fixed(chance, bits)
            missed += [value * rest >> bits for value in missed]
        joint = [share * value >> bits for value in missed]
        self.mask = part.mask
        self.whole = [one - share + value for value in joint]
        self.present = [(value << bits) // whole for value, whole in zip(joint, self.whole, strict=True)]


class Sums:
    """All terms of one case, ready to be summed in different ways. Evidence that cannot occur is a ValueError."""

    __slots__ = ("_places", "bits", "factors", "folds", "problem", "terms", "total")

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.bits = enough_bits(problem)
        self._places: dict[int, list[int]] = {}
        self.factors = {part.cause: Factors(part, self.bits) for part in problem.parts}
        self.terms = self._build()
        self.folds = folded(self.terms)
        self.total = self.folds[0][0]
        if self.total <= 0:
            raise ValueError("this evidence cannot occur in this network")

    def places(self, mask: int) -> list[int]:
        """For every subset of the bits up to the top one of ``mask``: its place in a table over ``mask``."""
        found = self._places.get(mask)
        if found is None:
            found = self._places[mask] = places(mask)
        return found

    def _build(self) -> list[int]:
        """The signed term of every subset, multiplied up bit by bit."""
        by_top: defaultdict[int, dict[int, list[int]]] = defaultdict(dict)
        for mask, table in self.grouped({cause: each.whole for cause, each in self.factors.items()}).items():
            by_top[mask.bit_length() - 1][mask] = table
        terms = [one := 1 << self.bits]
        for bit, leak in enumerate(self.problem.leaks):
            rest = one - to_fixed(leak, self.bits)
            terms += [-(value * rest >> self.bits) for value in terms]
            if by_top[bit]:
                terms = self.spread_product(terms, *self.product(by_top[bit]))
        return terms

    def grouped(self, tables: dict[str, list[int]]) -> dict[int, list[int]]:
        """Tables of causes multiplied together where the causes show the same findings, by mask."""
        groups: dict[int, list[int]] = {}
        for cause, table in tables.items():
            mask = self.factors[cause].mask
            known = groups.get(mask)
            groups[mask] = [a * b >> self.bits for a, b in zip(known, table, strict=True)] if known else table
        return groups

    def spread_product(self, terms: list[int], mask: int, table: list[int]) -> list[int]:
        """Terms times a table over the bits of ``mask``; the terms must reach at least up to its top bit."""
        bits, where = self.bits, self.places(mask)
        where = where * (len(terms) // len(where))
        return [term * table[place] >> bits for term, place in zip(terms, where, strict=True)]

    def spread(self, mask: int, table: list[int]) -> list[int]:
        """A table over the bits of ``mask`` spread over all bits."""
        found = [table[place] for place in self.places(mask)]
        return found * (len(self.terms) // len(found))

    def product(self, groups: dict[int, list[int]]) -> tuple[int, list[int]]:
        """The product of tables over different masks: one table over all their bits."""
        whole, found = 0, [1 << self.bits]
        for mask, table in sorted(groups.items()):
            before, whole = whole, whole | mask
            pairs = zip(self.widened(before, found, whole), self.widened(mask, table, whole), strict=True)
            found = [a * b >> self.bits for a, b in pairs]
        return whole, found

    def gathered(self, folds: list[list[int]], mask: int) -> list[int]:
        """Folded terms summed over everything but the bits of ``mask`` (2^k sums)."""
        table = [0] * (1 << mask.bit_count())
        for term, place in zip(folds[mask.bit_length()], self.places(mask), strict=True):
            table[place] += term
        return table

    def present(self) -> dict[str, float]:
        """The exact posterior probability of every cause linked to a seen finding."""
        scale = self.total << self.bits
        tables = {mask: self.gathered(self.folds, mask) for mask in {each.mask for each in self.factors.values()}}
        return {cause: sum(map(mul, tables[each.mask], each.present)) / scale for cause, each in self.factors.items()}

    def both(self, one: str, other: str) -> float:
        """The exact posterior probability that two linked causes are both present."""
        first, second = self.factors[one], self.factors[other]
        mask = first.mask | second.mask
        ones = self.widened(first.mask, first.present, mask)
        others = self.widened(second.mask, second.present, mask)
        terms = self.gathered(self.folds, mask)
        joint = sum(term * a * b for term, a, b in zip(terms, ones, others, strict=True))
        return joint / (self.total << 2 * self.bits)

    def widened(self, mask: int, table: list[int], wider: int) -> list[int]:
        """A table over the bits of ``mask`` as one over the bits of a wider mask."""
        subsets = [0]
        for bit in range(wider.bit_length()):
            if wider >> bit & 1:
                subsets += [subset | 1 << bit for subset in subsets]
        where, below = self.places(mask), (1 << mask.bit_length()) - 1
        return [table[where[subset & below]] for subset in subsets]

    def folds_with(self, cause: str) -> list[list[int]]:
        """The folded terms of the sets in which a linked cause is present."""
        factors = self.factors[cause]
        shape = self.spread(factors.mask, factors.present)
        return folded([term * value >> self.bits for term, value in zip(self.terms, shape, strict=True)])

    def share_without(self, bit: int, folds: list[list[int]] | None = None) -> float:
        """P(E with this finding unknown) / P(E), at least one; with the folds of a cause: and that cause present."""
        return sum((folds or self.folds)[bit + 1][: 1 << bit]) / self.total


def to_fixed(value: float, bits: int) -> int:
    """A float in [0, 2^64) as a fixed-point integer, without rounding up.

    >>> to_fixed(0.75, 4)
    12
    """
    return int(ldexp(value, bits))


def enough_bits(problem: Problem) -> int:
    """Bits that leave more than 60 good ones after the terms have cancelled down to the product of the leaks."""
    lost = sum(-log2(max(leak, _LEAST_LEAK)) for leak in problem.leaks)
    steep = log2(1.0 + max((part.odds for part in problem.parts), default=0.0))
    return max(LEAST_BITS, ceil(lost + steep) + len(problem.leaks) + 80)


def folded(terms: list[int]) -> list[list[int]]:
    """At place h: the terms summed over all bits from h on (2^h sums).

    >>> folded([1, 2, 3, 4])
    [[10], [4, 6], [1, 2, 3, 4]]
    """
    folds = [terms]
    while len(folds[-1]) > 1:
        last = folds[-1]
        half = len(last) // 2
        folds.append(list(map(add, last[:half], last[half:])))
    return folds[::-1]


def places(mask: int) -> list[int]:
    """For every subset of the bits up to the top one of ``mask`` its place in a table over the bits of ``mask``.

    >>> places(0b101)
    [0, 1, 0, 1, 2, 3, 2, 3]
    """
    found, step = [0], 1
    for bit in range(mask.bit_length()):
        if mask >> bit & 1:
            found += [place + step for place in found]
            step *= 2
        else:
            found += found
    return found
