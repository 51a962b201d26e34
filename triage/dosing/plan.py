"""One product, planned: grams in all and for each day, or why it cannot be planned."""

from __future__ import annotations

import math

import msgspec

from ..model.interval import Interval
from ..model.treatment import DoseOf
from ..report.saying import inside
from ..responses.dose import days_for, say_grams
from ..water.basing import MOST_DAYS, Buffer, DayStep, carbon_per_equivalent, change_for_ph, corners, plan_days
from .asked import PH, Wish, grams_per_unit

#: Where nobody measured the temperature, chemistry is reckoned at this one (the answer says so).
USUAL_TEMPERATURE_C = 25.0


class Known(msgspec.Struct, frozen=True, kw_only=True):
    """The water as the plan needs it: litres, what is known of each quantity, and how far pH may move in a day."""

    volume_l: float
    readings: dict[str, Interval]
    ph_per_day: float

    @property
    def temperature_c(self) -> float:
        known = self.readings.get("temperature")
        return known.middle if known else USUAL_TEMPERATURE_C


class Plan(msgspec.Struct, frozen=True, kw_only=True):
    """Grams of the product in hand, in all and in the largest step; changes are of the quantity that the product moves.

    ``refused`` says why there is no plan, or why it must not be carried out.
    """

    change_of_product: float = 0.0
    grams: float = 0.0
    low_grams: float = 0.0
    high_grams: float = 0.0
    days: int = 1
    most_grams_a_day: float = 0.0
    steps: tuple[DayStep, ...] = ()  # of a base or an acid, where pH and alkalinity are known
    ph_end: float | None = None  # settled, after all of it
    notes: tuple[str, ...] = ()
    refused: tuple[str, ...] = ()


def plan_product(
    wish: Wish, dose: DoseOf, known: Known, grade: float | None, days: int | None, *, boldness: float = 1.0
) -> Plan:
    """The plan for one product.

    Args:
        wish: what is to move, and to where.
        dose: how the product is dosed.
        known: the water.
        grade: strength of the product in hand, per cent; the book's usual one if None.
        days: spread over at least so many days.
        boldness: how many times the book's most for a day a step of a base or an acid may be. The book's most holds
            where nobody measured the water; with pH and alkalinity known, the safe change of pH sets the step as well.
    """
    if dose.most_per_day is not None and _moves_ph(dose) and {PH, "alkalinity"} <= set(known.readings):
        dose = msgspec.structs.replace(dose, most_per_day=dose.most_per_day * boldness)
    ph = known.readings.get(PH)
    if dose.ph_at_most is not None and ph is not None and ph.middle > dose.ph_at_most:
        return Plan(
            refused=(f"{dose.product} is of use only to pH {dose.ph_at_most:g}; this water has {ph.middle:.3g}.",)
        )
    reading = known.readings.get(wish.quantity.quantity)
    if reading is None:
        return Plan(refused=(f"Measure {inside(wish.quantity.name)} first, or say --from: the dose follows from it.",))
    target = wish.target if wish.target is not None else dose.to
    if math.isclose(target, reading.middle, rel_tol=1e-6):
        return Plan(refused=("The water is there already.",))
    if wish.quantity.quantity == PH:
        return _by_ph(dose, known, target, grade, days)
    return _by_amount(wish, dose, known, reading, target, grade, days)


def _by_amount(
    wish: Wish, dose: DoseOf, known: Known, reading: Interval, target: float, grade: float | None, days: int | None
) -> Plan:
    way = -1.0 if dose.lowers else 1.0
    if (target - reading.middle) * way <= 0:
        return Plan(refused=(_wrong_way(wish, dose, reading, target),))
    needs = sorted(max((target - end) * way, 0.0) for end in (reading.low, reading.high))
    change = target - reading.middle
    if _moves_ph(dose) and PH in known.readings:
        return _stepped(dose, known, change, (needs[0], needs[1]), grade, days)
    if dose.lowers and _moves_ph(dose) and not dose.apart:
        return Plan(refused=("Measure pH first: without it nobody can tell how far a step of acid moves it.",))
    spread = max(days_for(abs(change), dose.most_per_day), days or 1)
    unit = grams_per_unit(dose, grade) * known.volume_l / 1000
    return Plan(
        change_of_product=change, grams=abs(change) * unit, low_grams=needs[0] * unit, high_grams=needs[1] * unit,
        days=spread, most_grams_a_day=abs(change) * unit / spread, notes=_fewer_days(days, spread),
    )  # fmt: skip


def _wrong_way(wish: Wish, dose: DoseOf, reading: Interval, target: float) -> str:
    name, now = wish.quantity.name, f"{reading.middle:.3g}"
    if dose.lowers:
        return f"{dose.product} takes {inside(name)} down; the water has {now}, and {target:.3g} is wanted."
    share = 1 - target / reading.middle if reading.middle > 0 else 0.0
    if share <= 0:
        return f"The water already has {now}."
    return f"The water already has {now}. Only other water takes it out: about {share:.0%} of it, in parts."


def _by_ph(dose: DoseOf, known: Known, target: float, grade: float | None, days: int | None) -> Plan:
    ph, alkalinity = known.readings[PH], known.readings.get("alkalinity")
    if alkalinity is None:
        return Plan(refused=("Measure alkalinity (KH) first: without it nobody can tell how far a gram moves pH.",))
    needs = [change_for_ph(water, target) for water in corners(ph, alkalinity, known.temperature_c)]
    if (needs[0] < 0) != dose.lowers:
        way = "down" if dose.lowers else "up"
        return Plan(refused=(f"{dose.product} takes pH {way}; the water has {ph.middle:.3g}, {target:.3g} is wanted.",))
    ends = sorted(abs(need) if (need < 0) == dose.lowers else 0.0 for need in needs)
    return _stepped(dose, known, needs[0], (ends[0], ends[-1]), grade, days)


def _moves_ph(dose: DoseOf) -> bool:
    return dose.quantity == "alkalinity"


def _stepped(
    dose: DoseOf, known: Known, change: float, ends: tuple[float, float], grade: float | None, days: int | None
) -> Plan:
    """A base or an acid: the days are found by what pH does each day."""
    ph, alkalinity = known.readings[PH], known.readings["alkalinity"]
    waters = corners(ph, alkalinity, known.temperature_c)
    unit = grams_per_unit(dose, grade) * known.volume_l / 1000
    free = dose.apart  # no animal meets the step
    cap = [most for most in (None if free else dose.most_per_day, abs(change) / days if days else None) if most]
    steps = plan_days(
        waters, change, carbon_per_eq=carbon_per_equivalent(dose.formula, dose.grams_per_unit_per_1000_l.value),
        ph_per_day=math.inf if free else known.ph_per_day, most_per_day=min(cap) if cap else None,
    )  # fmt: skip
    return Plan(
        change_of_product=change, grams=abs(change) * unit, low_grams=ends[0] * unit, high_grams=ends[1] * unit,
        days=len(steps), most_grams_a_day=max(abs(step.change) for step in steps) * unit, steps=tuple(steps),
        ph_end=waters[0].with_alkalinity(change).ph,
        notes=(*_fewer_days(days, len(steps)), *_assumed(known)),
        refused=_too_much(dose, waters[0], change, steps),
    )  # fmt: skip


def _too_much(dose: DoseOf, water: Buffer, change: float, steps: list[DayStep]) -> tuple[str, ...]:
    found = []
    left = water.alkalinity + change
    if dose.floor is not None and left < dose.floor - 1e-9:
        stop = water.with_alkalinity(dose.floor - water.alkalinity).ph
        found.append(
            f"It would take alkalinity down to {max(left, 0):.3g} mg/L; below {dose.floor:g} nothing holds pH any "
            f"more, and it falls off a cliff. That is at about pH {stop:.1f}; the filter takes pH on from there."
        )
    if len(steps) >= MOST_DAYS:
        found.append(
            f"In steps that the animals bear it would take more than {MOST_DAYS} days: find out first what pulls the "
            "other way (triage water why ph)."
        )
    return tuple(found)


def _fewer_days(wanted: int | None, days: int) -> tuple[str, ...]:
    if wanted is None or wanted >= days:
        return ()
    return (f"Not in {wanted} day{'s' if wanted > 1 else ''}: the animals bear it in {days}.",)


def _assumed(known: Known) -> tuple[str, ...]:
    if "temperature" in known.readings:
        return ()
    return (f"Reckoned at {USUAL_TEMPERATURE_C:g} °C; nobody measured the temperature.",)


def say_plan(dose: DoseOf, plan: Plan, quantity: str, grade: float | None) -> tuple[str, ...]:
    """The plan as one does it."""
    product = dose.product if grade is None else f"{dose.product.split(',')[0]}, {grade:g} %"
    if dose.slow:
        return (
            f"{say_grams(plan.grams)} of it must dissolve, over {plan.days} days or more; hang in several times that.",
            f"Test {inside(quantity)} twice a week, and lift it out when it is there.",
        )
    if dose.apart:
        return (f"{say_grams(plan.grams)} of {product} into the barrel, diluted ten times, a day before use.",)
    how = "diluted at least ten times in system water" if dose.lowers else "dissolved in a bucket of system water"
    if plan.days == 1:
        return (f"{say_grams(plan.grams)} of {product}, {how}, slowly into the sump.",
                f"Test {inside(quantity)} the next day.")  # fmt: skip
    most = say_grams(plan.most_grams_a_day)
    return (f"Over {plan.days} days, at most {most} of {product} a day, {how}, slowly into the sump.",
            f"Test {inside(quantity)} before each day's step, and stop when it is there.")  # fmt: skip
