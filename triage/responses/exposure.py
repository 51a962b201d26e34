"""How much of a substance reaches the water: as sprayed with the stated cover, and with all of it spilled."""

from __future__ import annotations

import msgspec

from ..model.outcome import Exposure
from ..model.substance import AsSold, Basis, Substance
from . import words
from .amounts import Strength
from .setting import Assumptions, Plan


class Reckoned(msgspec.Struct, frozen=True, kw_only=True):
    """An exposure, what one filling alone gives when it is spilled (mg/L), and what was taken for granted."""

    exposure: Exposure
    single_mg_l: float | None
    notes: tuple[str, ...] = ()


def counted_as(substance: Substance) -> Basis:
    """What a strength of this substance counts: the active, unless all its values are for something else.

    Where it is known how much active the product holds, or how much metal the active, all is reckoned as the active.
    """
    bases = {row.basis for row in substance.toxicity}
    if substance.as_sold or substance.element_share is not None or len(bases) != 1:
        return "active"
    return next(iter(bases))


def _density(substance: Substance) -> float | None:
    return substance.density.value if substance.density else None


def _concentrate_g_l(sold: AsSold, density: float | None) -> float | None:
    """Active in a litre of the liquid as bought, g/L; a share by mass needs the density."""
    if sold.unit == "g/L":
        return sold.active
    per_kg = sold.active * 10 if sold.unit == "%" else sold.active
    return None if density is None else per_kg * density


def strongest_g_l(substance: Substance) -> float | None:
    """Active in the strongest liquid it is sold as, g/L; pure if nothing is known of it but the density."""
    density = _density(substance)
    if not substance.as_sold:
        return None if density is None else density * 1000
    known = [_concentrate_g_l(sold, density) for sold in substance.as_sold]
    found = [value for value in known if value is not None]
    return max(found) if found else None


def _share_of(sold: AsSold, density: float | None) -> float:
    """Active as a share of the product's mass; a litre is taken as a kilogram where the density is unknown."""
    if sold.unit == "g/L":
        return min(sold.active / (1000 * (density or 1.0)), 1.0)
    return min(sold.active / (100 if sold.unit == "%" else 1000), 1.0)


def most_active(substance: Substance) -> float:
    """Largest share of active (by mass) that it is sold with; all of it where that is unknown."""
    return max((_share_of(sold, _density(substance)) for sold in substance.as_sold), default=1.0)


def least_active(substance: Substance) -> float | None:
    """Smallest share of active (by mass) that it is sold with; None where that is unknown."""
    return min((_share_of(sold, _density(substance)) for sold in substance.as_sold), default=None)


def active_g_l(strength: Strength, substance: Substance) -> float | None:
    """Grams of active in a litre of the mix; None where density or content would be needed and are unknown.

    One per cent is 10 g/L, also of a product: then its strongest content counts.

    >>> from ..model.substance import AsSold
    >>> oil = Substance(substance="oil", name="Oil", what="", sources=[], status="draft",
    ...     as_sold=[AsSold(form="concentrate", active=500, unit="g/L", source="our-judgement", read="practice")])
    >>> active_g_l(Strength(value=1, unit="%"), oil), active_g_l(Strength(value=4, unit="mL/L"), oil)
    (10.0, 2.0)
    """
    if strength.unit == "mL/L":
        concentrate = strongest_g_l(substance)
        return None if concentrate is None else strength.value / 1000 * concentrate
    if strength.unit == "% vol":
        density = _density(substance)
        grams = None if density is None else strength.value * 10 * density
    else:
        grams = float(strength.value) * (10 if strength.unit == "%" else 1)
    if grams is None or strength.of == "active":
        return grams
    return grams * most_active(substance)


def content_mg(plan: Plan, substance: Substance) -> float | None:
    """Milligrams of active in one filling: amount × strength. None where either is unknown.

    Without a strength, a liquid is taken undiluted as bought and a weight as the strongest product.
    """
    amount = plan.amount
    if amount is None:
        return None
    if amount.grams is not None:
        return amount.grams * 1000 * _share_by_mass(plan.strength, substance)
    strength = strongest_g_l(substance) if plan.strength is None else active_g_l(plan.strength, substance)
    return None if strength is None or amount.litres is None else amount.litres * strength * 1000


def _share_by_mass(strength: Strength | None, substance: Substance) -> float:
    if strength is None or strength.unit not in ("%", "g/L"):
        return most_active(substance)
    share = strength.value / (100 if strength.unit == "%" else 1000)
    return min(share * (most_active(substance) if strength.of == "product" else 1.0), 1.0)


def left_over(times: int, every_days: float, half_life_days: float | None) -> float:
    """What is left of earlier sprays just before the last one, counted in single sprays.

    Args:
        times: how many sprays in all.
        every_days: days between them.
        half_life_days: days until half is gone; None: it does not go.

    Returns:
        Sum of halving over the earlier sprays, in sprays.

    Source: geometric decay; half-life bands as in npic-halflife. Two earlier sprays, one and two half-lives old:

    >>> left_over(3, 7, 7)
    0.75
    >>> left_over(3, 7, None)
    2.0
    """
    keep = 1.0 if half_life_days is None else float(0.5 ** (every_days / half_life_days))
    return float(sum(keep**number for number in range(1, times)))


def screening_mg_l(content: float, share: float, volume_l: float) -> float:
    """Concentration right after the spray: content × share reaching the water ÷ volume, mixed at once.

    Args:
        content: mg in the sprayer.
        share: share of it that reaches the water, 0 to 1.
        volume_l: litres of water in the system.

    Returns:
        mg/L.

    Source: cerruto2009 for the share. One litre of 1 % (10 g), a quarter of it into 1,000 L:

    >>> screening_mg_l(10_000, 0.25, 1000)
    2.5
    """
    return content * share / volume_l


def reckon_exposure(substance: Substance, plan: Plan, volume_l: float | None, assumed: Assumptions) -> Reckoned:
    """As sprayed and all spilled, in mg/L of what the substance is counted as; None where something is unknown.

    As sprayed is the highest level, just after the last spray. Spilled is one whole filling (of somebody else's sprayer
    what comes over at worst) on top of what earlier sprays left. What is dosed into the water reaches it wholly, every
    time.
    """
    share = 1.0 if plan.way == "dosed" else assumed.share(plan.cover)
    worst = 1.0 if plan.way == "dosed" else assumed.share_at_worst(plan.cover)
    content = content_mg(plan, substance)
    single = sprayed = spilled = None
    if content is not None and volume_l is not None and volume_l > 0:
        half_life = substance.half_life_days.value if substance.half_life_days else None
        earlier = left_over(plan.times, plan.every_days, half_life)
        single = screening_mg_l(content, 1.0, volume_l)
        already = plan.already_g * 1000 * most_active(substance) / volume_l
        sprayed = single * share * (1 + earlier) + already
        spilled = single * (worst + share * earlier) + already
    exposure = Exposure(
        as_sprayed_mg_l=sprayed, spilled_mg_l=spilled, share_reaching_water=share, volume_l=volume_l,
        of=counted_as(substance),
    )  # fmt: skip
    return Reckoned(exposure=exposure, single_mg_l=single, notes=_notes(substance, plan, volume_l, content))


def _notes(substance: Substance, plan: Plan, volume_l: float | None, content: float | None) -> tuple[str, ...]:
    """What the reader should know about the reckoning."""
    notes = []
    if volume_l is None:
        notes.append(words.VOLUME_UNKNOWN)
    if plan.amount is None:
        notes.append(words.AMOUNT_UNKNOWN)
    elif content is None:
        notes.append(words.STRENGTH_UNKNOWN)
    elif plan.strength is None and (plan.amount.grams is None or substance.as_sold):
        notes.append(words.UNDILUTED)
    elif plan.strength is not None and plan.strength.of == "product" and not substance.as_sold:
        notes.append(words.ALL_ACTIVE)
    if plan.times > 1 and substance.half_life_days is None:
        notes.append(words.ADDS_UP)
    return tuple(notes)
