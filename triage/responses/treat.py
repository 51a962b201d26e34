"""A treatment graded: each of its substances as the treatment uses it, in this water."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from ..model.outcome import Dose, HarmVerdict, Verdict
from ..model.substance import Substance
from ..model.treatment import DoseOf, Treatment, Use
from . import words
from .amounts import Amount, Strength
from .dose import Refused, days_for, dose_for, grams_for
from .grade import HARMS, Guard, exposure_none, grade_substance, unknown_verdict
from .setting import Assumptions, Plan, Water, Way, way_of

#: Water additions are written for so many litres; they are scaled to the system.
_PER_LITRES = 1000.0


class Treated(msgspec.Struct, frozen=True, kw_only=True):
    """A treatment with the verdicts on its substances and its dose, or why it has none."""

    verdicts: tuple[Verdict, ...] = ()
    dose: Dose | Refused | None = None
    dosed: bool = False  # put into the water on purpose


def grade_treatment(
    treatment: Treatment, substances: Mapping[str, Substance], water: Water, assumed: Assumptions, guard: Guard
) -> Treated:
    """Grade every substance of a treatment as it is used there; none for a treatment without substances."""
    first = substances.get(treatment.substances[0]) if treatment.substances else None
    dose = dose_for(treatment.dose, first, water, assumed) if treatment.dose else None
    verdicts = []
    for name in treatment.substances:
        if name not in substances:
            verdicts.append(unknown_verdict(name))
            continue
        plan, where = plan_of(treatment, substances[name], water, dose)
        verdicts.append(grade_substance(substances[name], plan, where, assumed, guard))
    if treatment.keep != "ok":
        verdicts.append(kept_verdict(treatment))
    dosed = any(_way(treatment, substances[n]) == "dosed" for n in treatment.substances if n in substances)
    return Treated(verdicts=tuple(verdicts), dose=dose, dosed=dosed)


def kept_verdict(treatment: Treatment) -> Verdict:
    """The verdict on a treatment itself, apart from its substances: what the book says of it."""
    why = (treatment.keep_because or words.NOT_DISSOLVED,)
    harms = tuple(HarmVerdict(harm=harm, grade=treatment.keep, why=why) for harm in HARMS)
    return Verdict(
        substance=treatment.treatment, grade=treatment.keep, why=why, exposure=exposure_none(), harms=harms
    )  # fmt: skip


def plan_of(
    treatment: Treatment, substance: Substance, water: Water, dose: Dose | Refused | None
) -> tuple[Plan, Water]:
    """How a treatment uses a substance, and the water it is reckoned for.

    A dose is reckoned for this water; where it cannot be told yet, the whole way from nothing to the target. A
    treatment that says nothing of its use has no amount, and the rules see to that.
    """
    way = _way(treatment, substance)
    if treatment.dose is not None:
        return _dosed(treatment.dose, dose, water, "metal" in substance.traits)
    if treatment.use is None:
        return Plan(way=way), water
    return _used(treatment.use, water, way, scaled=treatment.kind == "water"), water


def _way(treatment: Treatment, substance: Substance) -> Way:
    """Into the water on purpose is what has a dose, or goes into the water and is meant for it."""
    if treatment.dose is not None:
        return "dosed"
    return way_of(substance) if treatment.kind == "water" else "sprayed"


def _dosed(dose_of: DoseOf, dose: Dose | Refused | None, water: Water, adds_up: bool) -> tuple[Plan, Water]:
    """The day's step; what a metal's reading shows already counts too, since animals meet the sum."""
    if isinstance(dose, Dose) and water.volume_l is not None:
        step = Amount(grams=dose.grams / dose.days)
        already = max(grams_for(dose_of, dose_of.to, water.volume_l) - dose.grams, 0.0) if adds_up else 0.0
        return Plan(amount=step, times=dose.days, every_days=1.0, way="dosed", already_g=already), water
    days = days_for(dose_of.to, dose_of.most_per_day)
    step = Amount(grams=grams_for(dose_of, dose_of.to / days, _PER_LITRES))
    return Plan(amount=step, times=days, every_days=1.0, way="dosed"), msgspec.structs.replace(
        water, volume_l=_PER_LITRES
    )


def _used(use: Use, water: Water, way: Way, *, scaled: bool) -> Plan:
    """Sprays as they are; what goes into the water scaled to its volume, and all of it arriving."""
    litres = use.amount_l * (water.volume_l or _PER_LITRES) / _PER_LITRES if scaled else use.amount_l
    return Plan(
        strength=Strength(value=use.strength, unit=use.unit), amount=Amount(litres=litres),
        cover="drench" if scaled else use.cover, times=use.times, every_days=use.every_days, way=way,
    )  # fmt: skip
