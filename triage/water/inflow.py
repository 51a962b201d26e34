"""What people put in each day, as far as they told (feed, top-up water, bases), averaged over the days looked at."""

from __future__ import annotations

import datetime
from collections.abc import Container, Sequence

import msgspec

from ..model.interval import Interval
from ..model.quantity import Reading
from .latest import current_readings
from .terms import NOTHING, Term

TOP_UP = "top-up"  # the sampling point


class Inflow(msgspec.Struct, frozen=True, kw_only=True):
    """Each None is not known. Feed g/day and its protein in per cent; top-up L/day with its alkalinity and hardness in
    mg/L CaCO3; bases without and with calcium, g CaCO3/day."""

    feed_g: Term | None = None
    protein_percent: Term | None = None
    top_up_l: Term | None = None
    top_up_alkalinity: Term | None = None
    top_up_hardness: Term | None = None
    base_g_caco3: Term | None = None
    lime_g_caco3: Term | None = None


def find_inflow(readings: Sequence[Reading], first: str, last: str) -> Inflow:
    """The inflow over some days.

    Args:
        readings: any; those of later days are left out.
        first, last: ISO dates of the first and the last day.

    Returns:
        Means over the days. Who told of one kind of base and not of the other adds none of the other.
    """

    def mean(quantity: str, point: str = "") -> Term | None:
        return mean_over([r for r in readings if r.quantity == quantity and (r.point == TOP_UP) == bool(point)],
                         first, last)  # fmt: skip

    base, lime = mean("base-per-day"), mean("lime-per-day")
    if base is not None or lime is not None:
        base, lime = base or NOTHING, lime or NOTHING
    return Inflow(
        feed_g=mean("feed"), protein_percent=mean("feed-protein"), top_up_l=mean("top-up-per-day"),
        top_up_alkalinity=mean("alkalinity", TOP_UP), top_up_hardness=mean("hardness", TOP_UP), base_g_caco3=base,
        lime_g_caco3=lime,
    )  # fmt: skip


def top_up_readings(readings: Sequence[Reading], quantities: Container[str], on: str) -> list[Reading]:
    """What the top-up water holds, as quantities of their own ('top-up-chlorine') that rules can look at.

    Args:
        readings: any; the latest of each quantity taken from the top-up water counts.
        quantities: ids of the book; what has no quantity of its own there is left out.
        on: ISO date of today; empty where the readings have no dates.
    """
    own = [msgspec.structs.replace(r, point="") for r in readings if r.point == TOP_UP]
    return [
        msgspec.structs.replace(item.reading, quantity=f"{TOP_UP}-{item.reading.quantity}", derived=True)
        for item in current_readings(own, on)
        if f"{TOP_UP}-{item.reading.quantity}" in quantities
    ]


def mean_over(readings: Sequence[Reading], first: str, last: str) -> Term | None:
    """Mean over some days of something told now and then: each value holds until the next one is told.

    Args:
        readings: of one quantity. A reading without a date is of the last day.
        first, last: ISO dates. The first value told holds for the days before it, too.

    Returns:
        Mean with its range; None where nothing was told up to the last day.

    >>> days = ((60, "2026-05-01"), (20, "2026-05-08"))
    >>> told = [Reading(quantity="feed", value=grams, low=grams, high=grams, on=on) for grams, on in days]
    >>> mean_over(told, "2026-05-01", "2026-05-15").value
    40.0
    """
    past = sorted((r for r in readings if (r.on or last) <= last), key=lambda r: (r.on or last, r.time))
    if not past:
        return None
    begins = [max(_day(r.on or last), _day(first)) for r in past]
    begins[0] = _day(first)
    ends = [*begins[1:], max(_day(last), begins[-1])]
    weights = [end - begin for begin, end in zip(begins, ends, strict=True)]
    if not sum(weights):
        weights = [0] * (len(past) - 1) + [1]
    whole = sum(weights)

    def mean(values: Sequence[float]) -> float:
        return sum(weight * value for weight, value in zip(weights, values, strict=True)) / whole

    low, high = mean([r.low for r in past]), mean([r.high for r in past])
    return Term(mean([r.value for r in past]), Interval(min(low, high), max(low, high)))


def _day(on: str) -> int:
    return datetime.date.fromisoformat(on).toordinal()
