"""Nitrite and the chloride that keeps it out of the gills."""

from __future__ import annotations

#: British Columbia's steps: chloride from (mg/L), long-term and short-term limit (mg/L nitrite-N). bc-limits; the steps
#: for chloride 2-4 and 8-10 were not in the text read, so the step below stands for them: stricter, never milder.
BC_STEPS: tuple[tuple[float, float, float], ...] = (
    (0, 0.02, 0.06), (4, 0.06, 0.18), (6, 0.08, 0.24), (10, 0.2, 0.6),
)  # fmt: skip


def chloride_ratio(chloride_mg_l: float, nitrite_mg_l: float) -> float:
    """Chloride for each part of nitrite, by mass.

    Args:
        chloride_mg_l: mg/L Cl.
        nitrite_mg_l: mg/L NO2 (not nitrite-N); infinite ratio at 0.

    Returns:
        Ratio; srac462 asks for 10 in catfish ponds, other rules for 5, 6 or 30.

    Source: srac462.

    >>> chloride_ratio(100, 10)
    10.0
    """
    return chloride_mg_l / nitrite_mg_l if nitrite_mg_l > 0 else float("inf")


def chloride_needed(nitrite_mg_l: float, ratio: float) -> float:
    """Chloride that gives a wanted ratio.

    Args:
        nitrite_mg_l: mg/L NO2.
        ratio: chloride to nitrite by mass.

    Returns:
        mg/L Cl.

    Source: farm-notes-nitrite (worked example at a ratio of 6).

    >>> chloride_needed(3, 6)
    18
    """
    return nitrite_mg_l * ratio


def salt_for_chloride(chloride_mg_l: float, chloride_share: float = 0.607) -> float:
    """Table salt that brings so much chloride.

    Args:
        chloride_mg_l: mg/L Cl.
        chloride_share: chloride in the salt by mass; 0.607 for pure sodium chloride (molar-mass).

    Returns:
        mg/L of salt. Each mg of chloride from it brings 0.65 mg of sodium, which plants bear badly.

    Source: hobby-salt-2010 (worked example with 0.60).

    >>> salt_for_chloride(3, 0.60)
    5.0
    """
    return chloride_mg_l / chloride_share


def limit_bc(chloride_mg_l: float, *, short_term: bool) -> float:
    """British Columbia's guideline for wild life, far below what fish farms live with.

    Args:
        chloride_mg_l: mg/L Cl.
        short_term: maximum (True) or 30-day mean (False).

    Returns:
        mg/L nitrite-N; grows with chloride.

    Source: bc-limits.

    >>> limit_bc(5, short_term=True), limit_bc(20, short_term=False)
    (0.18, 0.2)
    """
    step = max(row for row in BC_STEPS if row[0] <= max(chloride_mg_l, 0))
    return step[2] if short_term else step[1]
