"""A base or an acid in daily steps: no step moves pH further than fish bear, at once or by the next morning."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from ..model.interval import Interval
from .carbonate import CACO3_PER_MEQ
from .carbonate_system import (
    alkalinity_settled,
    carbon_dioxide_mmol,
    ph_closed,
    ph_settled,
    total_carbon_mmol,
)
from .molar import atoms_of, molar_mass

#: More days than this are no plan (our-judgement): find out first what pulls the other way.
MOST_DAYS = 90


class Buffer(msgspec.Struct, frozen=True):
    """Water as far as its pH goes: alkalinity mg/L CaCO3, free carbon dioxide mmol/L, temperature °C."""

    alkalinity: float
    carbon_dioxide: float
    temperature_c: float

    @classmethod
    def of(cls, ph: float, alkalinity_mg_l_caco3: float, temperature_c: float) -> Buffer:
        """The buffer of water whose pH and alkalinity were measured."""
        found = carbon_dioxide_mmol(ph, alkalinity_mg_l_caco3, temperature_c)
        return cls(alkalinity_mg_l_caco3, found, temperature_c)

    @property
    def ph(self) -> float:
        return ph_settled(self.alkalinity, self.carbon_dioxide, self.temperature_c)

    def with_alkalinity(self, change: float) -> Buffer:
        """The water of the next day: alkalinity changed, carbon dioxide as before."""
        return Buffer(self.alkalinity + change, self.carbon_dioxide, self.temperature_c)

    def ph_at_once(self, change: float, carbon_per_eq: float) -> float:
        """pH before any gas has come or gone.

        Args:
            change: of alkalinity, mg/L CaCO3.
            carbon_per_eq: carbon that comes with each equivalent, mol (0 for lye and acid, 1 for bicarbonate).
        """
        carbon = total_carbon_mmol(self.ph, self.alkalinity, self.temperature_c)
        brought = max(change, 0.0) / CACO3_PER_MEQ * carbon_per_eq
        return ph_closed(self.alkalinity + change, carbon + brought, self.temperature_c)


class DayStep(msgspec.Struct, frozen=True, kw_only=True):
    """One day: the change of alkalinity (mg/L CaCO3), and pH before, an hour after and the next morning."""

    day: int
    change: float
    alkalinity: float  # afterwards
    ph_before: float
    ph_at_once: float
    ph_next_day: float


def carbon_per_equivalent(formula: str, grams_per_mg_l: float) -> float:
    """Carbon that a base brings with each equivalent of alkalinity.

    Args:
        formula: of the base.
        grams_per_mg_l: grams for each mg/L CaCO3 in 1000 L.

    Returns:
        mol/mol: 1 for a bicarbonate, a half for a carbonate, 0 for lye.

    >>> round(carbon_per_equivalent("K2CO3", 1.381), 2), round(carbon_per_equivalent("KHCO3", 2.001), 2)
    (0.5, 1.0)
    """
    equivalents = molar_mass(formula) / (grams_per_mg_l * CACO3_PER_MEQ)
    return atoms_of(formula).get("C", 0) / equivalents


def change_for_ph(buffer: Buffer, ph: float) -> float:
    """Change of alkalinity that brings settled water to a pH.

    Args:
        buffer: the water.
        ph: wanted, once its carbon dioxide is back where it was.

    Returns:
        mg/L CaCO3, negative for acid. Doubling the alkalinity raises pH by log10(2):

    >>> round(change_for_ph(Buffer.of(6.6, 40, 25), 6.9010))
    40
    """
    return alkalinity_settled(ph, buffer.carbon_dioxide, buffer.temperature_c) - buffer.alkalinity


def plan_days(
    buffers: Sequence[Buffer], change: float, *, carbon_per_eq: float, ph_per_day: float,
    most_per_day: float | None = None,
) -> list[DayStep]:  # fmt: skip
    """The days of a dose.

    Args:
        buffers: the water, and other waters that the readings leave possible; every one of them must bear each step.
        change: of alkalinity in all, mg/L CaCO3; negative for acid.
        carbon_per_eq: see :meth:`Buffer.ph_at_once`.
        ph_per_day: how far pH may move within a day.
        most_per_day: the most alkalinity a day for other reasons.

    Returns:
        Steps as they go in the first of the waters; at most ``MOST_DAYS``, which may not reach the end.
    """
    steps: list[DayStep] = []
    left, waters = change, list(buffers)
    while abs(left) > 1e-9 and len(steps) < MOST_DAYS:
        part = min(abs(left), *(_most(water, left > 0, carbon_per_eq, ph_per_day) for water in waters))
        part = part if most_per_day is None else min(part, most_per_day)
        part = part if left > 0 else -part
        first = waters[0]
        after = first.with_alkalinity(part)
        steps.append(
            DayStep(
                day=len(steps) + 1, change=part, alkalinity=after.alkalinity, ph_before=first.ph,
                ph_at_once=first.ph_at_once(part, carbon_per_eq), ph_next_day=after.ph,
            )
        )  # fmt: skip
        waters = [water.with_alkalinity(part) for water in waters]
        left -= part
    return steps


def _most(water: Buffer, up: bool, carbon_per_eq: float, ph_per_day: float) -> float:
    """The most alkalinity, either way, that moves pH no further than allowed, at once or by the next day."""
    sign = 1.0 if up else -1.0
    now = water.ph

    def too_far(part: float) -> bool:
        moved = (water.ph_at_once(sign * part, carbon_per_eq) - now, water.with_alkalinity(sign * part).ph - now)
        return max(abs(move) for move in moved) > ph_per_day

    low, high = 0.0, 1.0
    while not too_far(high) and high < 4096:
        low, high = high, 2 * high
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (low, middle) if too_far(middle) else (middle, high)
    return low


def corners(ph: Interval, alkalinity: Interval, temperature_c: float) -> list[Buffer]:
    """The water at the middle of its readings, then at every corner of them."""
    pairs = [(ph.middle, alkalinity.middle)] + [
        (p, a) for p in (ph.low, ph.high) for a in (alkalinity.low, alkalinity.high)
    ]
    return [Buffer.of(p, max(a, 0.1), temperature_c) for p, a in dict.fromkeys(pairs)]
