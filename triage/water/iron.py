"""How well a chelate still holds its iron at a pH, as far as published statements agree."""

from __future__ import annotations

from ..model.interval import Interval

#: pH up to which a source says that the form holds its iron, one row per statement.
CEILINGS: dict[str, tuple[tuple[float, str], ...]] = {
    "none": ((6.0, "fertiliser-maker-eddha"),),
    "EDTA": (
        (6.0, "fertiliser-maker-chelates"),
        (6.0, "retailer-chelated-iron"),
        (6.2, "hydroponics-shop-chelates"),
        (6.5, "fertiliser-maker-iron"),
        (7.0, "fertiliser-maker-iron-choice"),
    ),
    "DTPA": (
        (7.0, "fertiliser-maker-chelates"),
        (7.0, "fertiliser-maker-iron"),
        (7.0, "fertiliser-maker-iron-choice"),
        (7.5, "retailer-chelated-iron"),
    ),
    "EDDHA": (
        (8.5, "fertiliser-maker-chelates"),
        (10.0, "fertiliser-maker-iron-choice"),
        (11.0, "fertiliser-maker-iron-choice"),
    ),
}
#: pH at which a source says that all of it is gone, with the pH at which the same source sees loss begin.
ALL_GONE: dict[str, tuple[float, float, str]] = {"EDTA": (6.2, 9.4, "hydroponics-shop-chelates")}


def held_share(chelate: str, ph: float) -> Interval:
    """Share of the iron that the form still holds: what published statements allow.

    Args:
        chelate: ``none``, ``EDTA``, ``DTPA`` or ``EDDHA``.
        ph: pH.

    Returns:
        Interval within 0 to 1: [1, 1] where every source says that it holds, [0, 1] where they disagree, and beyond
        every ceiling [0, x], x being 0 or the straight line to where a source sees the last of it go. Neither end
        rises with pH.

    Raises:
        ValueError: an unknown form.

    Source: fertiliser-maker-chelates, fertiliser-maker-iron, fertiliser-maker-iron-choice, fertiliser-maker-eddha,
    retailer-chelated-iron, hydroponics-shop-chelates. They agree on DTPA at 6.9, not at 7.3:

    >>> held_share("DTPA", 6.9).low, held_share("DTPA", 7.3)
    (1.0, Interval(low=0.0, high=1.0))
    """
    if chelate not in CEILINGS:
        raise ValueError(f"no chelate '{chelate}' (allowed: {', '.join(CEILINGS)})")
    limits = [limit for limit, _ in CEILINGS[chelate]]
    if ph <= min(limits):
        return Interval(1.0, 1.0)
    if ph <= max(limits):
        return Interval(0.0, 1.0)
    return Interval(0.0, _share_left(chelate, ph))


def iron_rise(product_g: float, iron_percent: float, volume_l: float) -> float:
    """Iron that a dose of a chelate product brings.

    Args:
        product_g: grams of product.
        iron_percent: iron in the product, per cent by mass as the bag says; grades of 6 to 13 are sold.
        volume_l: water, L.

    Returns:
        mg/L Fe.

    Source: arithmetic; hydroponics-shop-chelates names 7 % for one DTPA grade. A page that promises 0.5 for this dose
    is wrong.

    >>> iron_rise(10, 7, 1000)
    0.7
    """
    return product_g * iron_percent * 10 / volume_l


def _share_left(chelate: str, ph: float) -> float:
    if chelate not in ALL_GONE:
        return 0.0
    begins, gone, _ = ALL_GONE[chelate]
    return min(1.0, max(0.0, (gone - ph) / (gone - begins)))
