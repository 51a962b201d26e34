"""From what was said to how it is used; what was not said is filled in on the careful side, and that is said."""

from __future__ import annotations

import msgspec

from ..model.book import Book
from ..model.outcome import Dose
from ..model.substance import Substance
from ..model.treatment import DoseOf
from ..responses.amounts import Amount, Strength, parse_amount, parse_every, parse_strength
from ..responses.dose import days_for, dose_for, grams_for
from ..responses.exposure import strongest_g_l
from ..responses.setting import Assumptions, Plan, Water, way_of
from ..responses.words import digits
from . import words
from .asked import Asked

#: What is reckoned with where nobody said how much: a small sprayer, or a handful of something dry.
USUAL_LITRES, USUAL_GRAMS = 1.0, 100.0
#: What the book usually puts into the water is written for so many litres.
PER_LITRES = 1000.0
#: Somebody else's spray: nobody knows how much they carry.
BY_OTHERS = frozenset({"neighbour", "perimeter"})


class Other(msgspec.Struct, frozen=True, kw_only=True):
    """Another way it may be meant, which counts as well, and why."""

    plan: Plan
    says: str


class Planned(msgspec.Struct, frozen=True, kw_only=True):
    """The plan that figures are shown for, the stricter readings that count beside it, and what was assumed."""

    plan: Plan
    others: tuple[Other, ...] = ()
    assumed: tuple[str, ...] = ()


def plan_use(asked: Asked, substance: Substance, water: Water, assumed: Assumptions, book: Book) -> Planned:
    """How the substance is used. Errors: UsageError for a strength, an amount or an interval that cannot be read.

    A strength or a cover means that it is sprayed, unless it is said to go into the water. Where nothing at all is said
    of something meant for the water, its usual dose and its usual spray both count. What is not meant for the water is
    graded by the rules for sprays wherever it goes; all of it arrives when it is put there.
    """
    strength = parse_strength(asked.strength) if asked.strength else None
    amount = parse_amount(asked.amount) if asked.amount else None
    meant = way_of(substance) == "dosed"
    if meant and (asked.into_water or (strength is None and asked.cover is None)):
        return _dosed(asked, substance, strength, amount, water, assumed, book)
    if asked.into_water:
        asked = msgspec.structs.replace(asked, cover="drench")
    return _sprayed(asked, substance, strength, amount, assumed)


# -- sprayed -----------------------------------------------------------------------------------------------------------


def _sprayed(
    asked: Asked, substance: Substance, strength: Strength | None, amount: Amount | None, assumed: Assumptions
) -> Planned:
    cover, notes = asked.cover or "none", _cover_notes(asked)
    every, every_notes = _every(asked)
    weighed = amount is not None and amount.grams is not None  # a weight is taken as all of what was weighed
    usual, usual_says = (strength, "") if strength is not None or weighed else _usual_strength(substance)
    litres, amount_notes = _usual_amount(substance, usual, cover, assumed)
    used = amount or litres
    plan = Plan(strength=usual, amount=used, cover=cover, times=asked.times, every_days=every)
    notes += ([usual_says] if usual_says and used.litres is not None else []) + ([] if amount else [amount_notes])
    others = _stricter(plan, substance, strength, amount, assumed)
    return Planned(plan=plan, others=others, assumed=tuple([*notes, *every_notes]))


def _cover_notes(asked: Asked) -> list[str]:
    return [] if asked.cover else [words.COVER_UNSAID]


def _every(asked: Asked) -> tuple[float, list[str]]:
    if asked.every:
        return parse_every(asked.every), []
    if asked.times > 1:
        return 1.0, [words.EVERY_UNSAID]
    return 7.0, []


def _usual_strength(substance: Substance) -> tuple[Strength | None, str]:
    known = substance.spray_strength
    if known is None:
        return None, ""
    recalled = words.RECALLED if known.read == "memory" else ""
    says = words.STRENGTH_UNSAID.format(value=f"{known.value:g}", unit=known.unit, recalled=recalled)
    return Strength(value=known.value, unit="g/L"), says


def _usual_amount(
    substance: Substance, strength: Strength | None, cover: str, assumed: Assumptions
) -> tuple[Amount, str]:
    if strength is None and strongest_g_l(substance) is None:
        return Amount(grams=USUAL_GRAMS), words.AMOUNT_UNSAID.format(f"{USUAL_GRAMS:g} g")
    litres = assumed.margin("others-sprayer") if cover in BY_OTHERS else USUAL_LITRES
    return Amount(litres=litres), words.AMOUNT_UNSAID.format(f"{litres:g} L")


def _stricter(
    plan: Plan, substance: Substance, strength: Strength | None, amount: Amount | None, assumed: Assumptions
) -> tuple[Other, ...]:
    """The strictest that is likely to be meant: stronger than usual, and a full sprayer or ten times the handful."""
    used, strongest, says = plan.amount, None, []
    if amount is None and used is not None:
        used = _most(used, assumed)
        told = f"{used.litres:g} L" if used.litres else f"{used.grams:g} g"
        says.append(words.AMOUNT_COUNTS.format(told))
    if strength is None and used is not None and used.litres is not None:
        strongest = _strongest(substance, plan.strength, assumed)
    if strongest is not None:
        says.append(words.STRENGTH_COUNTS.format(f"{strongest.value:.4g}"))
    if not says:
        return ()
    stricter = msgspec.structs.replace(plan, amount=used, strength=strongest or plan.strength)
    return (Other(plan=stricter, says=_sentence(says)),)


def _most(amount: Amount, assumed: Assumptions) -> Amount:
    if amount.grams is not None:
        return Amount(grams=amount.grams * assumed.margin("overdose"))
    return Amount(litres=max(amount.litres or 0.0, assumed.margin("amount-unsaid")))


def _strongest(substance: Substance, usual: Strength | None, assumed: Assumptions) -> Strength | None:
    """The strongest that is likely: some times the usual, undiluted at most; undiluted where none is usual."""
    undiluted = strongest_g_l(substance)
    if usual is None:
        return None if undiluted is None else Strength(value=undiluted, unit="g/L")
    likely = usual.value * assumed.margin("strength-unsaid")
    return Strength(value=likely if undiluted is None else max(min(likely, undiluted), usual.value), unit="g/L")


def _sentence(parts: list[str]) -> str:
    text = "; ".join(parts)
    return f"{text[0].upper()}{text[1:]}"


# -- put into the water ------------------------------------------------------------------------------------------------


def _dosed(
    asked: Asked, substance: Substance, strength: Strength | None, amount: Amount | None, water: Water,
    assumed: Assumptions, book: Book,
) -> Planned:  # fmt: skip
    every, notes = _every(asked)
    if amount is not None:
        plan = Plan(strength=strength, amount=amount, times=asked.times, every_days=every, way="dosed")
        return Planned(plan=plan, assumed=tuple(notes))
    plan, says = _usual_dose(substance, water, assumed, book)
    usual, _ = _usual_strength(substance)
    spray = () if usual is None else (
        Other(
            plan=Plan(strength=usual, amount=Amount(litres=USUAL_LITRES)),
            says=words.ON_LEAVES.format(litres=f"{USUAL_LITRES:g}", strength=f"{usual.value:g}"),
        ),
    )  # fmt: skip
    return Planned(plan=plan, others=() if asked.into_water else spray, assumed=(says, *notes))


def _usual_dose(substance: Substance, water: Water, assumed: Assumptions, book: Book) -> tuple[Plan, str]:
    """The first step of the book's dose of it, else what the book usually puts in; no amount where it has neither."""
    own = [t for _, t in sorted(book.treatments.items()) if t.substances[:1] == [substance.substance]]
    doses = [t.dose for t in own if t.dose]
    uses = [t.use for t in own if t.use and t.kind == "water" and t.use.unit == "g/L"]
    if water.volume_l is None or not (doses or uses):
        return Plan(way="dosed"), words.DOSE_UNSAID
    if not doses:
        grams = uses[0].strength * uses[0].amount_l * water.volume_l / PER_LITRES
        says = words.DOSE_USUAL.format(digits(grams, 3))
        return Plan(amount=Amount(grams=grams), way="dosed"), says
    grams, days = _step(doses[0], dose_for(doses[0], substance, water, assumed), water.volume_l)
    says = words.DOSE_OF_DAY.format(grams=digits(grams, 3), product=doses[0].product)
    return Plan(amount=Amount(grams=grams), times=days, every_days=1.0, way="dosed"), says


def _step(dose_of: DoseOf, dose: object, volume_l: float) -> tuple[float, int]:
    """Grams a day and days: as reckoned for this water, else the whole way from nothing to the target."""
    if isinstance(dose, Dose):
        return dose.grams / dose.days, dose.days
    days = days_for(dose_of.to, dose_of.most_per_day)
    return grams_for(dose_of, dose_of.to / days, volume_l), days
