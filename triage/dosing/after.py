"""The water after a dose: what each quantity becomes, and the readings that the rules are then shown."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from ..model.interval import Interval
from ..model.quantity import Quantity, Reading
from ..model.treatment import DoseOf
from ..report.dose_report import Effect
from ..water.carbonate import hardness
from ..water.conductivity import ec_change
from ..water.derive import Derived
from ..water.molar import brings
from .asked import ALKALINITY, PH
from .plan import Plan

EC, HARDNESS = "ec", "hardness"
#: A derived value that moves by less than this share is not worth a line.
WORTH_TELLING = 0.02


def changes_of(dose: DoseOf, plan: Plan, quantities: Mapping[str, Quantity]) -> dict[str, float]:
    """What the whole dose adds to each quantity (negative where it takes), in the quantity's own unit.

    By the product's formula, so that no element comes from nowhere; pH apart (see :func:`ph_after`).
    """
    product_mg_l = abs(plan.change_of_product) * dose.grams_per_unit_per_1000_l.value
    found = {dose.quantity: plan.change_of_product}
    if dose.formula:
        for quantity in quantities.values():
            if quantity.formula and (brought := product_mg_l * brings(dose.formula, quantity.formula)):
                found[quantity.quantity] = brought
    if hard := hardness(found.get("calcium", 0.0), found.get("magnesium", 0.0)):
        found[HARDNESS] = hard
    if carried := ec_change(found):
        found[EC] = carried
    return found


def ph_after(plan: Plan, now: Interval) -> Interval | None:
    """pH after the last day's step: settled, and as it was at once. None where the dose does not move it."""
    if plan.ph_end is None or not plan.steps:
        return None
    last = plan.steps[-1]
    low, high = sorted((plan.ph_end, plan.ph_end + last.ph_at_once - last.ph_next_day))
    return Interval(low - (now.middle - now.low), high + (now.high - now.middle))


def readings_after(readings: Sequence[Reading], changes: Mapping[str, float], plan: Plan) -> list[Reading]:
    """The readings as they would be; what nobody measured stays unknown."""
    return [_after(reading, changes, plan) for reading in readings]


def at_least(
    readings: Sequence[Reading], changes: Mapping[str, float], quantities: Mapping[str, Quantity]
) -> list[Reading]:
    """What the dose brings of things that nobody measured: at least so much, up to what is likely in such water."""
    known = {reading.quantity for reading in readings}
    found = []
    for id_, change in changes.items():
        if id_ in known or id_ == EC or change <= 0 or not quantities[id_].formula:
            continue
        likely = quantities[id_].likely or quantities[id_].possible
        least = _rounded(change)
        found.append(
            Reading(
                quantity=id_, value=least, unit=quantities[id_].unit, bound=">=", low=least, high=max(least, likely[1])
            )
        )
    return found


def _after(reading: Reading, changes: Mapping[str, float], plan: Plan) -> Reading:
    if reading.quantity == PH and (span := ph_after(plan, reading.interval)) is not None:
        value, low, high = (round(end, 2) for end in (plan.ph_end or 0.0, span.low, span.high))
        return msgspec.structs.replace(reading, value=value, low=low, high=high, bound="=")
    change = changes.get(reading.quantity, 0.0)
    if not change:
        return reading
    low, high, value = (_rounded(max(0.0, end + change)) for end in (reading.low, reading.high, reading.value))
    return msgspec.structs.replace(reading, value=value, low=low, high=high, bound="=")


def _rounded(value: float) -> float:
    """Four digits: a predicted value is no laboratory's."""
    return float(f"{value:.4g}")


def effects_of(
    changes: Mapping[str, float],
    before: Sequence[Reading],
    after: Sequence[Reading],
    quantities: Mapping[str, Quantity],
) -> list[Effect]:
    """pH first, then what the product adds or takes, the largest share of a milligram last."""
    was, now = ({r.quantity: r.value for r in readings} for readings in (before, after))
    found = []
    if PH in was and was[PH] != now[PH]:
        found.append(_effect(quantities[PH], now[PH] - was[PH], was[PH], now[PH]))
    for id_, change in changes.items():
        if id_ in quantities and abs(change) > 1e-9:
            found.append(_effect(quantities[id_], change, was.get(id_), now.get(id_)))
    return found


def _effect(quantity: Quantity, change: float, before: float | None, after: float | None) -> Effect:
    return Effect(
        quantity=quantity.quantity, name=quantity.name, unit=quantity.unit, change=change, before=before, after=after,
        estimate=quantity.quantity == EC,
    )  # fmt: skip


def derived_effects(
    before: Sequence[Derived], after: Sequence[Derived], measured: Sequence[str], quantities: Mapping[str, Quantity]
) -> list[Effect]:
    """What is worked out from the readings and moves with the dose: toxic ammonia, limits, iron still held."""
    was = {derived.quantity: derived for derived in before}
    found = []
    for now in after:
        then = was.get(now.quantity)
        if then is None or now.quantity in measured or now.quantity in (ALKALINITY, HARDNESS):
            continue
        if abs(now.value - then.value) > WORTH_TELLING * max(abs(now.value), abs(then.value)):
            quantity = quantities[now.quantity]
            found.append(
                Effect(
                    quantity=now.quantity, name=quantity.name, unit=now.unit, change=now.value - then.value,
                    before=then.value, after=now.value,
                )
            )  # fmt: skip
    return found


def potassium_calcium_magnesium(readings: Sequence[Reading]) -> str:
    """The three set against calcium, as growers compare them; empty where one is not known."""
    known = {reading.quantity: reading.value for reading in readings}
    three = [known.get(name) for name in ("potassium", "calcium", "magnesium")]
    if any(value is None for value in three) or not three[1]:
        return ""
    potassium, calcium, magnesium = (float(value or 0) for value in three)
    return f"K : Ca : Mg = {potassium / calcium:.2g} : 1 : {magnesium / calcium:.2g} by mass"
