"""The conductor of a dose: the wish, a plan for each product, the water after it, and what speaks against it."""

from __future__ import annotations

import math
from collections.abc import Sequence

import msgspec

from ..intake import system_as_asked
from ..model.book import Book
from ..model.case import System
from ..model.outcome import Verdict
from ..model.quantity import Reading
from ..model.rule import Grade
from ..model.substance import Substance
from ..model.treatment import DoseOf
from ..reasoning import Engines
from ..report.dose_report import DoseOption, DoseReport, DoseStep
from ..report.saying import inside
from ..responses.amounts import Amount
from ..responses.grade import strictest
from ..responses.setting import Assumptions
from ..responses.setting import Plan as Use
from ..responses.treat import grade_treatment
from ..water.carbonate import acidity_ratio
from ..water.latest import current_readings
from ..water.readings import make_reading, parse_assignment
from .after import at_least, changes_of, potassium_calcium_magnesium, readings_after
from .asked import PH, Asked, Product, Wish, grade_percent, grams_per_unit, understand
from .harm import harmed_animals
from .here import Here, sayings, told_effects
from .plan import Known, Plan, plan_product, say_plan

CAUTIONS = (
    "The label and local law come first. Weigh, never scoop; keep children away; goggles and gloves for base and acid.",
    "Fish come before plants: watch them for an hour after each step; stop if they gasp, dash or hang at the surface.",
)


#: A base or an acid is first planned by the safe change of pH alone. Where the safety rules find a step too much, it is
#: planned again with so many times the most that the book gives for a day; less than that where next to nothing
#: buffers the water.
BOLDNESS = (4.0, 2.0, 1.0, 0.5, 0.25, 0.1)
#: Share of the strongest product's strength from which its density is taken for that of the product in hand.
NEAR_STRONGEST = 0.9
_WORKS = ("well", "partly", "little")


def answer_dose(book: Book, asked: Asked, saved: System | None, readings: Sequence[Reading], *, on: str) -> DoseReport:
    """The report on one dose.

    Args:
        book: all knowledge.
        asked: the question as typed.
        saved: the saved system.
        readings: those recorded.
        on: ISO date of today.

    Raises:
        UsageError: a quantity, target, volume or strength that cannot be read, or that nothing moves.
    """
    wish = understand(book, asked)
    system = system_as_asked(book, saved or System(), volume=asked.volume, animals=asked.animals)
    now = _readings(book, asked, wish, readings, on)
    here = Here.of(Engines(book), system, on, now)
    wish = _with_target(wish, here)
    worth = [product for product in wish.products if _worth_answering(product, wish, asked, here)]
    options = [_option(product, wish, asked, here) for product in worth]
    reading = next((r for r in now if r.quantity == wish.quantity.quantity), None)
    return DoseReport(
        what=wish.quantity.quantity, name=wish.quantity.name, unit=wish.quantity.unit,
        value_now=reading.value if reading else None, low_now=reading.low if reading else None,
        high_now=reading.high if reading else None, to=wish.target, acid_times=_acid_times(wish, reading),
        volume_l=system.volume_l,
        alarms=here.outcome.alarms, options=tuple(sorted(options, key=lambda option: _order(option, book))),
        cautions=CAUTIONS,
    )  # fmt: skip


def _acid_times(wish: Wish, reading: Reading | None) -> float | None:
    if wish.quantity.quantity != PH or wish.target is None or reading is None:
        return None
    return acidity_ratio(reading.value, wish.target)


def _order(option: DoseOption, book: Book) -> tuple[bool, int, int, int, str]:
    """Those that may be used first; of them those said to work best, then the quickest, then the quietest."""
    works = [_WORKS.index(against.works) for against in book.treatments[option.treatment].against.values()]
    return (bool(option.refused), min(works, default=len(_WORKS)), option.days, len(option.says), option.treatment)


def _worth_answering(product: Product, wish: Wish, asked: Asked, here: Here) -> bool:
    """What was named; else what goes the right way, and is not done in a barrel of its own."""
    ph_asked = wish.quantity.quantity == PH  # of the system; a barrel of top-up water is asked for by its alkalinity
    tanks = [other for other in wish.products if (ph_asked if other.dose is None else not other.dose.apart)]
    if product.dose is None or (asked.using is not None and (not product.dose.apart or not tanks)):
        return True
    if asked.what.casefold() == product.treatment.treatment:
        return True
    now = next((r.value for r in here.readings if r.quantity == wish.quantity.quantity), None)
    target = wish.target if wish.target is not None else product.dose.to
    down = now is not None and target < now and any(p.dose and p.dose.lowers for p in wish.products)
    return product.dose.lowers == down and not product.dose.apart


def _readings(book: Book, asked: Asked, wish: Wish, readings: Sequence[Reading], on: str) -> list[Reading]:
    """The current readings; what was typed with the question stands in for what was recorded."""
    typed = [parse_assignment(text, book.quantities, on=on) for text in asked.readings]
    if asked.come_from is not None:
        typed.append(make_reading(wish.quantity.quantity, asked.come_from, book.quantities, on=on))
    new = {reading.quantity: reading for reading in typed}
    old = [item.reading for item in current_readings(readings, on) if item.reading.quantity not in new]
    return sorted([*old, *new.values()], key=lambda reading: reading.quantity)


def _with_target(wish: Wish, here: Here) -> Wish:
    """A target that is so many times a reading, reckoned at the reading's higher end."""
    if not wish.ratio_of or wish.target is None:
        return wish
    known = next((r for r in here.readings if r.quantity == wish.ratio_of), None)
    return msgspec.structs.replace(wish, target=wish.target * known.high if known else None)


def _option(product: Product, wish: Wish, asked: Asked, here: Here) -> DoseOption:
    grade = grade_percent(asked.grade)
    if product.dose is None:
        return _undosed(product, here)
    plan = _plan(product, wish, asked, here, grade, math.inf)
    if not plan.grams:
        return _told(product, wish, plan, grade, here, here, "ok", (), {})
    verdict = _verdict(product, plan, here, grade)
    for boldness in BOLDNESS if plan.steps else ():
        if verdict is None or verdict.grade == "ok":
            break
        plan = _plan(product, wish, asked, here, grade, boldness)
        verdict = _verdict(product, plan, here, grade)
    quantities = here.engines.book.quantities
    changes = changes_of(product.dose, plan, quantities)
    then = here.then(readings_after(here.readings, changes, plan))
    reasons = () if product.dose.apart else (*_comes_back(product, plan, here), *_against(product, here, then, verdict))
    told = _told(product, wish, plan, grade, here, then, verdict.grade if verdict else "ok", reasons, changes)
    brought = here.then([*then.readings, *at_least(here.readings, changes, quantities)])
    return msgspec.structs.replace(told, says=sayings(brought, here), ends=sayings(here, brought))


def _plan(product: Product, wish: Wish, asked: Asked, here: Here, grade: float | None, boldness: float) -> Plan:
    assert product.dose is not None  # seen to by the caller
    if here.system.volume_l is None:
        return Plan(refused=("How many litres does the system hold (--volume)? The dose follows from it.",))
    if wish.ratio_of and wish.target is None:
        name = here.engines.book.quantities[wish.ratio_of].name
        return Plan(refused=(f"Measure {inside(name)} first: the dose follows from it.",))
    known = Known(
        volume_l=here.system.volume_l, readings={r.quantity: r.interval for r in here.readings},
        ph_per_day=Assumptions.from_book(here.engines.book).margin("ph-change-per-day"),
    )  # fmt: skip
    return plan_product(wish, product.dose, known, grade, asked.days, boldness=boldness)


def _substance(product: Product, here: Here) -> Substance | None:
    names = product.treatment.substances
    return here.engines.book.substances.get(names[0]) if names else None


def _verdict(product: Product, plan: Plan, here: Here, grade: float | None) -> Verdict | None:
    """How the product is graded, used like this; grams are those of the product as the book reckons it.

    What dissolves by itself is graded as it is usually hung in; no animal meets what is done in a barrel.
    """
    substance, book = _substance(product, here), here.engines.book
    if substance is None or product.dose is None or product.dose.apart:
        return None
    if product.dose.slow:
        water, assumed = here.engines.water(here.facts), Assumptions.from_book(book)
        hung = grade_treatment(product.treatment, book.substances, water, assumed, here.engines.rules.run_guard)
        return hung.verdicts[0]
    as_reckoned = grams_per_unit(product.dose, None) / grams_per_unit(product.dose, grade)
    held = next((r.value for r in here.readings if r.quantity == product.dose.quantity), 0.0)
    already = held * grams_per_unit(product.dose, None) * (here.system.volume_l or 0) / 1000
    use = Use(
        amount=Amount(grams=plan.most_grams_a_day * as_reckoned), times=plan.days, every_days=1.0, way="dosed",
        already_g=already if "metal" in substance.traits else 0.0,
    )  # fmt: skip
    return here.engines.grade(substance, use, here.engines.water(here.facts))


def _comes_back(product: Product, plan: Plan, here: Here) -> tuple[str, ...]:
    """An acid or a base that is eaten sooner than the animals bear the whole of it moves nothing for good."""
    substance = _substance(product, here)
    half = substance.half_life_days if substance else None
    if half is None or not plan.steps or plan.days <= half.value:
        return ()
    return (
        f"Within about {half.value:g} days half of it is eaten and pH comes back, but in steps that the animals bear "
        f"it takes {plan.days} days.",
    )


def _against(product: Product, here: Here, then: Here, verdict: Verdict | None) -> tuple[str, ...]:
    """Every reason not to: alarms that the dose would raise, animals, rules that set it aside, its grade."""
    old = {alarm.id for alarm in here.outcome.alarms}
    found = [f"{a.say} {' '.join(a.because)}" for a in then.outcome.alarms if a.id not in old]
    found += harmed_animals(here.facts.animals, here.facts.readings, then.facts.readings, here.engines.book.quantities)
    found += [why for treatment, why in then.outcome.set_aside if treatment == product.treatment.treatment]
    if verdict is not None and verdict.grade != "ok":
        found += [why for harm in verdict.harms if harm.grade != "ok" for why in harm.why[:1]]
    return tuple(dict.fromkeys(found))


def _undosed(product: Product, here: Here) -> DoseOption:
    """Something the book does not dose: graded as it is usually used, and refused."""
    book = here.engines.book
    treated = grade_treatment(
        product.treatment, book.substances, here.engines.water(here.facts), Assumptions.from_book(book),
        here.engines.rules.run_guard,
    )  # fmt: skip
    why = [why for v in treated.verdicts for harm in v.harms if harm.grade != "ok" for why in harm.why[:1]]
    grade: Grade = strictest([verdict.grade for verdict in treated.verdicts])
    plan = Plan(refused=(product.treatment.plain, *dict.fromkeys(why)))
    return msgspec.structs.replace(
        _told(product, None, plan, None, here, here, grade, (), {}), do=tuple(product.treatment.steps)
    )


def _told(
    product: Product, wish: Wish | None, plan: Plan, grade: float | None, here: Here, then: Here, safe: Grade,
    reasons: tuple[str, ...], changes: dict[str, float],
) -> DoseOption:  # fmt: skip
    treatment, dose, substance = product.treatment, product.dose, _substance(product, here)
    refused = (*plan.refused, *reasons)
    unit = grams_per_unit(dose, grade) * (here.system.volume_l or 0) / 1000 if dose else 0.0
    density = _density(substance, grade)
    ratio = potassium_calcium_magnesium(then.readings) if {"potassium", "calcium", "magnesium"} & set(changes) else ""
    notes = [
        *plan.notes,
        *_ammonia_first(here, then),
        *_other_grades(dose, grade),
        *([dose.note] if dose and dose.note else []),
        *([ratio] if ratio else []),
    ]
    return DoseOption(
        treatment=treatment.treatment, name=treatment.name, product=dose.product if dose else treatment.name,
        refused=refused, grade=safe, grade_percent=grade or (dose.percent if dose else None), grams=plan.grams,
        low_grams=plan.low_grams, high_grams=plan.high_grams, millilitres=plan.grams / density if density else None,
        days=plan.days, change=plan.change_of_product, steps=_steps(plan, unit),
        do=say_plan(dose, plan, wish.quantity.name, grade) if dose and wish and plan.grams else (),
        effects=tuple(told_effects(here, then, changes)), says=(), ends=(),
        notes=tuple(notes), cautions=(*treatment.cautions, *(substance.people if substance else ())),
        sources=tuple(treatment.sources),
    )  # fmt: skip


def _density(substance: Substance | None, grade: float | None) -> float | None:
    """g/mL of the product in hand; the book's is that of the strongest one on sale, and holds near it only."""
    if substance is None or substance.density is None or grade is None:
        return None
    strongest = max((form.active for form in substance.as_sold if form.unit == "%"), default=grade)
    return substance.density.value if grade >= NEAR_STRONGEST * strongest else None


def _other_grades(dose: DoseOf | None, grade: float | None) -> list[str]:
    if dose is None or grade is not None or not dose.grades:
        return []
    sold = ", ".join(f"{percent:g}" for percent in sorted(dose.grades))
    return [f"It is sold with {sold} % as well: read your bag, and say --grade."]


def _ammonia_first(here: Here, then: Here) -> list[str]:
    """A caution where pH rises and nobody knows how much ammonia there is to turn poisonous."""
    was, now = ({r.quantity: r.value for r in side.readings} for side in (here, then))
    if "tan" in was or now.get("ph", 0.0) <= was.get("ph", 0.0):
        return []
    return ["Test ammonia first: nobody measured it, and more of it is poison the higher pH is."]


def _steps(plan: Plan, unit: float) -> tuple[DoseStep, ...]:
    return tuple(
        DoseStep(
            day=step.day, grams=abs(step.change) * unit, ph_before=step.ph_before, ph_at_once=step.ph_at_once,
            ph_next_day=step.ph_next_day, alkalinity=step.alkalinity,
        )
        for step in plan.steps
    )  # fmt: skip
