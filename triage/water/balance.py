"""Where the alkalinity goes and comes from: a balance of nitrogen, acid and base, in mg/L of the system per day.

Fish turn feed into ammonia, the filter turns it into nitrate and acid, plants and airless sludge take nitrate away and
give alkalinity back; top-up water and bases bring some. What is measured and not explained by these must come from
elsewhere: with hardness from stones or shells, without it from something else.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from ..model.interval import Interval
from ..model.quantity import Quantity, Reading
from .derive import Derived
from .molar import alkalinity_per_gram
from .nitrogen import tan_from_feed_consultancy, tan_from_feed_ksu2021
from .trend import change_per_day

NITRATE_PER_N = 4.42664  # molar masses
#: Alkalinity for each g of nitrogen as far as sources disagree: used (dryden-alk, ebeling2006, bft-ras-paper), and
#: given back where nitrate is taken away (denit-handbook: in practice, in theory).
USED_PER_G_N = Interval(7.05, 7.15)
RETURNED_PER_G_N = Interval(3.0, 3.57)


class Inflow(msgspec.Struct, frozen=True, kw_only=True):
    """What people put in each day: top-up water (L) with its alkalinity and hardness, and bases (g, by formula)."""

    top_up_l: float = 0.0
    top_up_alkalinity: Interval | None = None
    top_up_hardness: Interval | None = None
    bases_g: Mapping[str, float] = {}


class Term(msgspec.Struct, frozen=True):
    """One term of the balance: its point and its range."""

    value: float
    span: Interval


def from_feed(feed_g: Term, protein_percent: Term, volume_l: float) -> Term:
    """Nitrogen that the fish give off each day.

    Args:
        feed_g: feed, g per day.
        protein_percent: protein in the feed, per cent.
        volume_l: water, L.

    Returns:
        mg/L N per day, from the lower of two published rules at the low ends to the higher at the high ends.

    Source: ksu2021 (2 kg of 32 % feed give 58.9 g a day), web-consultancy-tan.

    >>> exact = lambda x: Term(x, Interval(x, x))
    >>> round(from_feed(exact(2000), exact(32), 1000).value, 1)
    58.9
    """
    point = tan_from_feed_ksu2021(feed_g.value, protein_percent.value / 100)
    low = tan_from_feed_ksu2021(feed_g.span.low, protein_percent.span.low / 100)
    high = tan_from_feed_consultancy(feed_g.span.high, protein_percent.span.high / 100)
    return _scale(Term(point, Interval(low, high)), 1000 / volume_l)


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


def _scale(term: Term, by: float) -> Term:
    ends = sorted((term.span.low * by, term.span.high * by))
    return Term(term.value * by, Interval(ends[0], ends[1]))


def _times(term: Term, factor: Interval) -> Term:
    ends = [end * by for end in (term.span.low, term.span.high) for by in (factor.low, factor.high)]
    point = term.value * factor.middle
    return Term(point, Interval(min(*ends, point), max(*ends, point)))


def _brought(amount_l: float, strength: Interval | None, volume_l: float) -> Term | None:
    if not amount_l:
        return Term(0.0, Interval(0.0, 0.0))
    return None if strength is None else _scale(Term(strength.middle, strength), amount_l / volume_l)


def _bases(inflow: Inflow, volume_l: float) -> Term:
    grams = sum(amount * alkalinity_per_gram(base) for base, amount in sorted(inflow.bases_g.items()))
    return Term(grams * 1000 / volume_l, Interval.exactly(grams * 1000 / volume_l))


def work_out_balance(
    readings: Sequence[Reading], quantities: Mapping[str, Quantity], *, on: str, volume_l: float,
    inflow: Inflow | None = None,
) -> tuple[Derived, ...]:  # fmt: skip
    """Every term of the balance that the readings allow.

    Args:
        readings: all dated readings; the latest feed and protein, and the change of alkalinity, hardness and nitrate
            over the last weeks, are used.
        quantities: quantities of the book by id.
        on: ISO date of today.
        volume_l: water in the system, L.
        inflow: what is put in each day; nothing if not given.

    Returns:
        Terms in mg/L per day: nitrogen as N, alkalinity and hardness as CaCO3. ``alkalinity_unexplained`` is what was
        measured less what is explained; the shares set a source against the acid made. A term whose inputs are
        missing is left out.
    """
    given = inflow or Inflow()
    terms: dict[str, Term | None] = _measured(readings, quantities, on)
    terms["nitrogen_from_feed"] = _nitrogen(readings, on, volume_l)
    terms["alkalinity_from_top_up"] = _brought(given.top_up_l, given.top_up_alkalinity, volume_l)
    terms["hardness_from_top_up"] = _brought(given.top_up_l, given.top_up_hardness, volume_l)
    terms["alkalinity_from_bases"] = _bases(given, volume_l)
    _explain(terms)
    return tuple(
        Derived(
            name=name, quantity=name.replace("_", "-"), value=term.value, low=term.span.low, high=term.span.high,
            unit=UNITS.get(name, "mg/L CaCO3 per day"), source=SOURCES.get(name, "our-judgement"),
        )
        for name in ORDER
        if (term := terms.get(name)) is not None
    )  # fmt: skip


ORDER = (
    "nitrogen_from_feed", "acid_made", "nitrate_change", "nitrogen_missing", "alkalinity_given_back",
    "alkalinity_from_top_up", "alkalinity_from_bases", "alkalinity_change", "alkalinity_unexplained",
    "hardness_from_top_up", "hardness_change", "hardness_unexplained", "top_up_share", "bases_share",
    "given_back_share",
)  # fmt: skip
UNITS = {
    **dict.fromkeys(("nitrogen_from_feed", "nitrate_change", "nitrogen_missing"), "mg/L N per day"),
    **dict.fromkeys(("top_up_share", "bases_share", "given_back_share"), "times"),
}
SOURCES = {
    "nitrogen_from_feed": "ksu2021",
    "acid_made": "dryden-alk",
    "alkalinity_given_back": "denit-handbook",
    "alkalinity_from_bases": "molar-mass",
}


def _measured(readings: Sequence[Reading], quantities: Mapping[str, Quantity], on: str) -> dict[str, Term | None]:
    found: dict[str, Term | None] = {}
    for quantity, scale in (("alkalinity", 1.0), ("hardness", 1.0), ("nitrate", 1 / NITRATE_PER_N)):
        change = change_per_day(readings, quantities[quantity], on) if quantity in quantities else None
        found[f"{quantity}_change"] = _scale(Term(*change), scale) if change else None
    return found


def _nitrogen(readings: Sequence[Reading], on: str, volume_l: float) -> Term | None:
    feed, protein = _latest(readings, "feed", on), _latest(readings, "feed-protein", on)
    return from_feed(feed, protein, volume_l) if feed and protein else None


def _latest(readings: Sequence[Reading], quantity: str, on: str) -> Term | None:
    dated = [(r.on or on, r.time, place, r) for place, r in enumerate(readings) if r.quantity == quantity]
    past = [entry for entry in dated if entry[0] <= on]
    return Term((last := max(past)[3]).value, last.interval) if past else None


def _explain(terms: dict[str, Term | None]) -> None:
    """Fill in what follows from the terms known: acid, nitrogen that went missing, and what nothing explains."""
    nitrogen, nitrate = terms["nitrogen_from_feed"], terms["nitrate_change"]
    terms["acid_made"] = acid = _times(nitrogen, USED_PER_G_N) if nitrogen else None
    terms["nitrogen_missing"] = missing = minus(nitrogen, nitrate) if nitrogen and nitrate else None
    terms["alkalinity_given_back"] = back = _times(missing, RETURNED_PER_G_N) if missing else None
    change, top_up, bases = terms["alkalinity_change"], terms["alkalinity_from_top_up"], terms["alkalinity_from_bases"]
    if change and acid and top_up and bases:
        brought = plus(top_up, bases, *([back] if back else []))
        terms["alkalinity_unexplained"] = minus(plus(change, acid), brought)
    hardness, with_top_up = terms["hardness_change"], terms["hardness_from_top_up"]
    if hardness and with_top_up:
        terms["hardness_unexplained"] = minus(hardness, with_top_up)
    for share, of in (("top_up_share", top_up), ("bases_share", bases), ("given_back_share", back)):
        terms[share] = _share(of, acid) if of and acid else None


def _share(of: Term, acid: Term) -> Term | None:
    if acid.span.low <= 0:
        return None
    ends = [end / by for end in (of.span.low, of.span.high) for by in (acid.span.low, acid.span.high)]
    return Term(of.value / acid.value, Interval(min(ends), max(ends)))
