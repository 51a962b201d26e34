"""How much of a water addition this system needs, in daily steps the animals bear."""

from __future__ import annotations

import math

import msgspec

from ..model.interval import Interval
from ..model.outcome import Dose
from ..model.substance import Substance
from ..model.treatment import DoseOf
from . import words
from .setting import Assumptions, Water

#: First acid constant of carbonic acid at 30 °C (sears2002); in colder water pH moves less.
_PK1_WARM = 6.33


class Refused(msgspec.Struct, frozen=True, kw_only=True):
    """No dose, and why. ``pointless``: do not offer it at all; otherwise something must be measured first."""

    why: str
    pointless: bool


def alkalinity_step(ph: float, alkalinity_mg_l: float, ph_change: float, pk1: float = _PK1_WARM) -> float:
    """Alkalinity that lye adds, or acid takes, when pH moves by ``ph_change`` before any gas is exchanged.

    Args:
        ph: pH now, 6 to 8.4.
        alkalinity_mg_l: alkalinity now, mg/L CaCO3.
        ph_change: change of pH, positive for lye, negative for acid.
        pk1: first acid constant of carbonic acid.

    Returns:
        mg/L CaCO3, always positive. Carbonates and bicarbonates move pH less.

    Source: CO2 = ALK × 10^(pK1 − pH) with carbonate as the only weak acid (sears2002). At the pH of the constant
    bicarbonate equals carbon dioxide; lye that turns a third of it over makes them 2 to 1 (pH up by log10 2):

    >>> round(alkalinity_step(6.35, 30, math.log10(2), pk1=6.35), 6)
    10.0
    """
    carbon_dioxide = alkalinity_mg_l * 10 ** (pk1 - ph)
    ratio = 10 ** (ph + ph_change - pk1)
    return float(abs((carbon_dioxide * ratio - alkalinity_mg_l) / (1 + ratio)))


def grams_for(dose: DoseOf, rise: float, volume_l: float) -> float:
    """Grams of the product that raise the quantity by ``rise`` (its own unit) in so many litres.

    >>> from ..model.record import Sourced
    >>> chelate = DoseOf(quantity="iron", product="Fe-DTPA, 7 %", to=2.0, grams_per_unit_per_1000_l=Sourced(
    ...     value=14.29, unit="g per mg/L per 1000 L", source="hydroponics-shop-chelates"))
    >>> round(grams_for(chelate, 2.0, 500), 2)
    14.29
    """
    return dose.grams_per_unit_per_1000_l.value * rise * volume_l / 1000


def days_for(rise: float, most_per_day: float | None) -> int:
    """Days over which a rise is spread; one where nothing limits it.

    >>> days_for(2.0, 1.0), days_for(2.1, 1.0), days_for(2.0, None)
    (2, 3, 1)
    """
    return 1 if most_per_day is None else max(1, math.ceil(round(rise / most_per_day, 6)))


def dose_for(dose: DoseOf, substance: Substance | None, water: Water, assumed: Assumptions) -> Dose | Refused:
    """The dose that brings this water to the usual target, or why there is none.

    A reading known as a range gives a range of grams; the steps go by its middle. The pH limit of a chelate goes by
    the middle of the pH reading.
    """
    if isinstance(known := _known(dose, water), Refused):
        return known
    reading, volume = known
    need = Interval(max(dose.to - reading.high, 0.0), dose.to - reading.low)
    rise = max(dose.to - reading.middle, 0.0) or need.high / 2
    most = _most_per_day(dose, substance, water, assumed)
    days = days_for(rise, most)
    grams = grams_for(dose, rise, volume)
    return Dose(
        what=dose.product, grams=grams, low_grams=grams_for(dose, need.low, volume),
        high_grams=grams_for(dose, need.high, volume), steps=_steps(dose, grams, days), note=_note(dose, water),
        days=days,
    )  # fmt: skip


def _known(dose: DoseOf, water: Water) -> tuple[Interval, float] | Refused:
    """What the water holds now and its litres."""
    ph, reading = water.reading("ph"), water.reading(dose.quantity)
    if dose.ph_at_most is not None and ph is not None and ph.middle > dose.ph_at_most:
        here = words.digits(ph.middle, 3)
        why = words.HOLDS_TO.format(product=dose.product, ph=f"{dose.ph_at_most:g}", here=here)
        return Refused(why=why, pointless=True)
    if reading is not None and reading.low >= dose.to:
        why = words.ENOUGH.format(here=words.digits(reading.low, 3), to=f"{dose.to:g}")
        return Refused(why=why, pointless=True)
    if reading is None or math.isinf(reading.low):
        return Refused(why=words.MEASURE_FIRST.format(quantity=_said(dose.quantity)), pointless=False)
    if water.volume_l is None:
        return Refused(why=words.LITRES_FIRST, pointless=False)
    return reading, water.volume_l


def _most_per_day(dose: DoseOf, substance: Substance | None, water: Water, assumed: Assumptions) -> float | None:
    """The most a day in the quantity's unit; of lye no more than moves pH by the safe change."""
    most = dose.most_per_day
    traits = set(substance.traits) if substance else set()
    ph, alkalinity = water.reading("ph"), water.reading("alkalinity")
    if dose.quantity != "alkalinity" or not {"raises-ph", "burns-people"} <= traits or ph is None or alkalinity is None:
        return most
    change = assumed.margin("ph-change-per-day")
    safe = alkalinity_step(ph.high, max(alkalinity.low, assumed.margin("alkalinity-unmeasured")), change)
    return safe if most is None else min(most, safe)


def _steps(dose: DoseOf, grams: float, days: int) -> tuple[str, ...]:
    today = words.STEP.format(grams=say_grams(grams / days), product=dose.product)
    quantity = _said(dose.quantity)
    if days == 1:
        return (today, words.TEST_NEXT_DAY.format(quantity=quantity))
    return (
        words.EACH_DAY.format(days=days, step=today),
        words.TEST_EACH_DAY.format(quantity=quantity, to=f"{dose.to:g}"),
    )


def _said(quantity: str) -> str:
    return words.QUANTITIES.get(quantity, quantity)


def _note(dose: DoseOf, water: Water) -> str:
    ph = water.reading("ph")
    if dose.ph_at_most is None:
        return dose.note
    if ph is None:
        return words.PH_FIRST.format(ph=f"{dose.ph_at_most:g}", note=dose.note).strip()
    if ph.high > dose.ph_at_most:
        return words.MAY_NOT_HOLD.format(ph=f"{dose.ph_at_most:g}", note=dose.note).strip()
    return dose.note


def say_grams(grams: float) -> str:
    """Grams as one weighs them: three digits that count, milligrams below a tenth of a gram.

    >>> say_grams(33.34), say_grams(0.0512), say_grams(1234.0)
    ('33.3 g', '51 mg', '1.23 kg')
    """
    if float(f"{grams:.3g}") >= 1000:
        return f"{words.digits(grams / 1000, 3)} kg"
    return f"{words.digits(grams, 3)} g" if grams >= 0.1 else f"{words.digits(grams * 1000, 2)} mg"
