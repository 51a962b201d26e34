"""A number with its range, and sums of such numbers."""

from __future__ import annotations

import msgspec

from ..model.interval import Interval


class Term(msgspec.Struct, frozen=True):
    """One term of a balance: its point and its range."""

    value: float
    span: Interval


NOTHING = Term(0.0, Interval(0.0, 0.0))


def plus(*terms: Term) -> Term:
    """Sum of terms, range and all.

    >>> plus(Term(1, Interval(0, 2)), Term(3, Interval(2, 5)))
    Term(value=4, span=Interval(low=2, high=7))
    """
    return Term(
        sum(term.value for term in terms),
        Interval(sum(term.span.low for term in terms), sum(term.span.high for term in terms)),
    )


def minus(term: Term, other: Term) -> Term:
    """Difference of two terms, range and all.

    >>> minus(Term(1, Interval(0, 2)), Term(3, Interval(2, 5)))
    Term(value=-2, span=Interval(low=-5, high=0))
    """
    return Term(term.value - other.value, Interval(term.span.low - other.span.high, term.span.high - other.span.low))


def scale(term: Term, by: float) -> Term:
    """A term so many times.

    >>> scale(Term(1, Interval(0, 2)), -2)
    Term(value=-2, span=Interval(low=-4, high=0))
    """
    ends = sorted((term.span.low * by, term.span.high * by))
    return Term(term.value * by, Interval(ends[0], ends[1]))


def times(term: Term, factor: Interval) -> Term:
    """A term times a factor that is known as a range; the point goes by its middle.

    >>> times(Term(2, Interval(1, 3)), Interval(3, 5))
    Term(value=8.0, span=Interval(low=3, high=15))
    """
    ends = [end * by for end in (term.span.low, term.span.high) for by in (factor.low, factor.high)]
    point = term.value * factor.middle
    return Term(point, Interval(min(*ends, point), max(*ends, point)))


def share(of: Term, whole: Term) -> Term | None:
    """A term set against another; None where the other may be nothing.

    >>> share(Term(1, Interval(1, 1)), Term(4, Interval(2, 5)))
    Term(value=0.25, span=Interval(low=0.2, high=0.5))
    """
    if whole.span.low <= 0:
        return None
    ends = [end / by for end in (of.span.low, of.span.high) for by in (whole.span.low, whole.span.high)]
    return Term(of.value / whole.value, Interval(min(ends), max(ends)))
