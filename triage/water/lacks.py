"""What one must know to tell why a quantity moves, and what of it is not known yet: the cheapest first."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import msgspec

from ..model.finding import Effort
from ..model.odds import EFFORT
from ..model.quantity import Quantity, Reading
from .balance import FOLLOWED
from .inflow import TOP_UP
from .trend import FEWEST, WINDOW_DAYS, days_before

#: What top-up water carries in, known only from a sample of it.
_CARRIED = ("alkalinity", "hardness")
_POURED = "top-up-per-day"
#: The two kinds of base; who told of one told of the other.
_BASES = ("base-per-day", "lime-per-day")


class Lack(msgspec.Struct, frozen=True, kw_only=True):
    """Something not known yet: how many readings there are of how many, what it costs to know, and how."""

    quantity: str
    name: str
    have: int
    want: int
    effort: Effort
    how: str
    point: str = ""


def find_lacks(
    quantity: Quantity, quantities: Mapping[str, Quantity], readings: Sequence[Reading], on: str
) -> list[Lack]:
    """What the readings of the last weeks do not tell.

    Args:
        quantity: what moves; its ``needs`` say what one must know.
        quantities: quantities of the book by id.
        readings: all readings.
        on: ISO date of today.

    Returns:
        By effort, then in the order of the needs. What is followed needs two days, the quantity itself as many
        readings as a trend does.
    """
    recent = [r for r in readings if not r.on or 0 <= days_before(r.on, on) <= WINDOW_DAYS]
    found = [_lack(quantity, recent, FEWEST)]
    for id_ in quantity.needs:
        if id_ != quantity.quantity and id_ in quantities:
            found.append(_lack(quantities[id_], recent, 2 if id_ in FOLLOWED else 1))
    if _POURED in quantity.needs and any(r.quantity == _POURED and r.high > 0 for r in recent):
        found += [_lack(quantities[id_], recent, 1, TOP_UP) for id_ in _CARRIED if id_ in quantities]
    told = any(r.quantity in _BASES for r in recent)
    open_ = [lack for lack in found if lack.have < lack.want and not (told and lack.quantity in _BASES)]
    return sorted(open_, key=lambda lack: EFFORT[lack.effort])


def _lack(quantity: Quantity, readings: Sequence[Reading], want: int, point: str = "") -> Lack:
    days = {r.on for r in readings if r.quantity == quantity.quantity and (r.point == TOP_UP) == bool(point)}
    return Lack(
        quantity=quantity.quantity, name=quantity.name, have=min(len(days), want), want=want, effort=quantity.effort,
        how=quantity.how, point=point,
    )  # fmt: skip
