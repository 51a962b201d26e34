"""Proven cases of this garden move how common each cause is here: a count beside the book's own idea of it.

The book counts as so many cases it has seen elsewhere (``own-cases-weight``), and each proven case here counts one. A
case that turned out to be two things counts for both; one that was nothing of the book counts for none. Whatever was
counted, a cause becomes at most ``own-cases-most`` times likelier or less likely; without proven cases nothing moves.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import msgspec

from ..model.book import Book
from ..model.cause import Cause
from ..model.odds import BASE
from ..model.outcome import Favoured
from ..report import words

#: What a reason from proven cases is called where reasons are named.
RULE = "proven-cases-here"


class OwnRate(msgspec.Struct, frozen=True, kw_only=True):
    """How common one cause is: in the book, and here after ``proven`` of ``cases``; ``factor`` is on its odds."""

    cause: str
    proven: int
    cases: int
    book: float
    here: float
    factor: float
    bounded: bool


def posterior_mean(hits: int, cases: int, *, prior: float, weight: float) -> float:
    """Mean of a beta distribution after ``hits`` in ``cases``, begun with a mean of ``prior`` worth ``weight`` cases.

    The textbook's births with placenta praevia: 437 girls of 980 under a uniform prior (one girl in two births) give
    0.446 (Bayesian Data Analysis, 3rd edition, section 2.4).

    >>> round(posterior_mean(437, 980, prior=0.5, weight=2), 3)
    0.446

    The rule of succession, (hits + 1) / (cases + 2), is the same with that prior; without cases the prior stands.

    >>> posterior_mean(8, 8, prior=0.5, weight=2), posterior_mean(0, 0, prior=0.25, weight=32)
    (0.9, 0.25)
    """
    return (weight * prior + hits) / (weight + cases)


def own_rates(book: Book, proven: Sequence[Sequence[str]]) -> tuple[OwnRate, ...]:
    """The rate of every cause of the book after these proven cases (the causes of each), by id."""
    counts = Counter(cause for causes in proven for cause in dict.fromkeys(causes))
    weight, most = (book.margins[name].value for name in ("own-cases-weight", "own-cases-most"))
    known = [book.causes[id_] for id_ in sorted(book.causes) if book.causes[id_].status != "retired"]
    return tuple(_rate(cause, counts[cause.cause], len(proven), weight, most) for cause in known)


def _rate(cause: Cause, proven: int, cases: int, weight: float, most: float) -> OwnRate:
    base = BASE[cause.base]
    book = base / (1 + base)  # the words for a base are odds
    here = posterior_mean(proven, cases, prior=book, weight=weight)
    plain = here / (1 - here) / base
    factor = min(max(plain, 1 / most), most)
    return OwnRate(
        cause=cause.cause, proven=proven, cases=cases, book=book, here=here, factor=factor, bounded=factor != plain
    )


def as_favoured(book: Book, rates: Sequence[OwnRate]) -> tuple[Favoured, ...]:
    """The rates as what moves the odds of causes; nothing where no case was proven."""
    return tuple(
        Favoured(cause=rate.cause, factor=rate.factor, rule=RULE, because=say_rate(book, rate))
        for rate in rates
        if rate.cases
    )


def say_rate(book: Book, rate: OwnRate) -> str:
    """The count and what follows from it, in a sentence."""
    likelier = rate.factor >= 1
    times = words.AS_LIKELY.format(rate.factor) if likelier else words.LESS_LIKELY.format(1 / rate.factor)
    said = words.ONE_PROVEN_HERE if rate.cases == 1 else words.PROVEN_HERE
    return said.format(proven=rate.proven, cases=rate.cases, cause=book.causes[rate.cause].name, times=times)
