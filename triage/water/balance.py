"""Where the alkalinity goes and comes from: a balance of nitrogen, acid and base, in mg/L of the system per day.

Fish turn feed into ammonia, the filter turns it into nitrate and acid, plants and airless sludge take nitrate away and
give alkalinity back; top-up water and bases bring some. What is measured and not explained by these must come from
elsewhere: with hardness from stones or shells, without it from something else.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..model.interval import Interval
from ..model.quantity import Quantity, Reading
from .derive import Derived
from .inflow import TOP_UP, Inflow, find_inflow
from .nitrogen import tan_from_feed_consultancy, tan_from_feed_ksu2021
from .terms import NOTHING, Term, minus, plus, scale, share, times
from .trend import WINDOW_DAYS, change_per_day, days_before

NITRATE_PER_N = 4.42664  # molar masses
#: Alkalinity for each g of nitrogen as far as sources disagree: used (filter-maker-alkalinity, ebeling2006,
#: bft-ras-paper), and given back where nitrate is taken away (denit-handbook: in practice, in theory).
USED_PER_G_N = Interval(7.05, 7.15)
RETURNED_PER_G_N = Interval(3.0, 3.57)
#: What the balance follows over the days, and the factor from a reading to the balance's unit.
FOLLOWED: dict[str, float] = {"alkalinity": 1.0, "hardness": 1.0, "nitrate": 1 / NITRATE_PER_N, "tan": 1.0}

ORDER = (
    "nitrogen_from_feed", "tan_change", "acid_made", "nitrate_change", "nitrogen_missing", "alkalinity_given_back",
    "alkalinity_from_top_up", "alkalinity_from_bases", "alkalinity_expected", "alkalinity_change",
    "alkalinity_unexplained", "hardness_from_top_up", "hardness_from_lime", "hardness_change", "hardness_unexplained",
    "top_up_share", "bases_share", "given_back_share",
)  # fmt: skip
UNITS = {
    **dict.fromkeys(("nitrogen_from_feed", "tan_change", "nitrate_change", "nitrogen_missing"), "mg/L N per day"),
    **dict.fromkeys(("top_up_share", "bases_share", "given_back_share"), "times"),
}
SOURCES = {
    "nitrogen_from_feed": "ksu2021",
    "acid_made": "filter-maker-alkalinity",
    "alkalinity_given_back": "denit-handbook",
    "alkalinity_from_bases": "molar-mass",
    "hardness_from_lime": "molar-mass",
}


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
    return scale(Term(point, Interval(low, high)), 1000 / volume_l)


def work_out_balance(
    readings: Sequence[Reading], quantities: Mapping[str, Quantity], *, on: str, volume_l: float,
    inflow: Inflow | None = None,
) -> tuple[Derived, ...]:  # fmt: skip
    """Every term of the balance that the readings allow.

    Args:
        readings: all dated readings of the last weeks: what is followed, and what is put in each day.
        quantities: quantities of the book by id.
        on: ISO date of today.
        volume_l: water in the system, L.
        inflow: what is put in each day; as the readings tell it where it is not given.

    Returns:
        Terms in mg/L per day: nitrogen as N, alkalinity and hardness as CaCO3. ``alkalinity_unexplained`` is what was
        measured less what is to be expected; the shares set a source against the acid made. A term whose inputs are
        not known is left out: what nobody told is not taken for nothing.
    """
    given = inflow or find_inflow(readings, _first_day(readings, on), on)
    terms = _measured(readings, quantities, on)
    terms |= _brought_in(given, volume_l)
    _explain_nitrogen(terms)
    _explain_alkalinity(terms)
    return tuple(
        Derived(
            name=name, quantity=name.replace("_", "-"), value=term.value, low=term.span.low, high=term.span.high,
            unit=UNITS.get(name, "mg/L CaCO3 per day"), source=SOURCES.get(name, "our-judgement"),
            note=_note(name, terms),
        )
        for name in ORDER
        if (term := terms.get(name)) is not None
    )  # fmt: skip


def _note(name: str, terms: Mapping[str, Term | None]) -> str:
    open_ = name == "alkalinity_given_back" and terms["nitrogen_missing"] is None
    return "nitrate was not followed: anything between none and all of it" if open_ else ""


def _first_day(readings: Sequence[Reading], on: str) -> str:
    """The first day of what is followed, within the window."""
    days = [r.on for r in readings if r.quantity in FOLLOWED and r.on and r.point != TOP_UP]
    return min((day for day in days if 0 <= days_before(day, on) <= WINDOW_DAYS), default=on)


def _measured(readings: Sequence[Reading], quantities: Mapping[str, Quantity], on: str) -> dict[str, Term | None]:
    found: dict[str, Term | None] = {}
    for quantity, factor in FOLLOWED.items():
        change = change_per_day(readings, quantities[quantity], on) if quantity in quantities else None
        found[f"{quantity}_change"] = scale(Term(*change), factor) if change else None
    return found


def _brought_in(given: Inflow, volume_l: float) -> dict[str, Term | None]:
    base, lime = given.base_g_caco3, given.lime_g_caco3
    return {
        "nitrogen_from_feed": (
            from_feed(given.feed_g, given.protein_percent, volume_l) if given.feed_g and given.protein_percent else None
        ),
        "alkalinity_from_top_up": _with_top_up(given.top_up_l, given.top_up_alkalinity, volume_l),
        "hardness_from_top_up": _with_top_up(given.top_up_l, given.top_up_hardness, volume_l),
        "alkalinity_from_bases": scale(plus(base, lime), 1000 / volume_l) if base and lime else None,
        "hardness_from_lime": scale(lime, 1000 / volume_l) if lime else None,
    }


def _with_top_up(amount_l: Term | None, strength: Term | None, volume_l: float) -> Term | None:
    if amount_l is None or amount_l.span.high == 0:
        return None if amount_l is None else NOTHING
    if strength is None:
        return None
    brought = times(amount_l, strength.span)
    return scale(Term(amount_l.value * strength.value, brought.span), 1 / volume_l)


def _explain_nitrogen(terms: dict[str, Term | None]) -> None:
    """Acid made, nitrogen that went missing, and the alkalinity that gave back."""
    nitrogen, nitrate, left = terms["nitrogen_from_feed"], terms["nitrate_change"], terms["tan_change"]
    turned = minus(nitrogen, left) if nitrogen and left else nitrogen
    terms["acid_made"] = times(turned, USED_PER_G_N) if turned else None
    terms["nitrogen_missing"] = missing = _missing(turned, nitrate) if turned and nitrate else None
    terms["alkalinity_given_back"] = times(missing, RETURNED_PER_G_N) if missing else None
    if turned and not missing:  # nobody followed nitrate: anything between none and all of it went
        most = Term(0.0, Interval(0.0, max(0.0, turned.span.high * RETURNED_PER_G_N.high)))
        terms["alkalinity_given_back"] = most


def _missing(turned: Term, nitrate: Term) -> Term:
    """Nitrogen that did not turn up. A kit that leaves more open cannot make more nitrate than there was nitrogen."""
    left = minus(turned, nitrate)
    return Term(left.value, Interval(max(left.span.low, min(0.0, left.value)), left.span.high))


def _explain_alkalinity(terms: dict[str, Term | None]) -> None:
    acid, back = terms["acid_made"], terms["alkalinity_given_back"]
    top_up, bases = terms["alkalinity_from_top_up"], terms["alkalinity_from_bases"]
    if acid and back and top_up and bases:
        terms["alkalinity_expected"] = expected = minus(plus(top_up, bases, back), acid)
        if change := terms["alkalinity_change"]:
            terms["alkalinity_unexplained"] = minus(change, expected)
    hardness, with_top_up, with_lime = (terms[f"hardness_{of}"] for of in ("change", "from_top_up", "from_lime"))
    if hardness and with_top_up and with_lime:
        terms["hardness_unexplained"] = minus(hardness, plus(with_top_up, with_lime))
    for name, of in (("top_up_share", top_up), ("bases_share", bases), ("given_back_share", back)):
        terms[name] = share(of, acid) if of and acid else None
