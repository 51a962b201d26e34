"""The conductor of readings: what follows from them, how they drift, what the animals bear, what is due for a test."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from .model.book import Book
from .model.case import Case, System
from .model.quantity import Quantity, Reading
from .reasoning import Engines
from .report.show_report import Crossing, Drift, ShowReport
from .report.water_report import WaterReport, build_water_report
from .water.inflow import top_up_readings
from .water.latest import Current, current_readings
from .water.limits import Band, Bound, find_bands
from .water.trend import Trend, days_until, find_trend


def check_water(book: Book, system: System, readings: Sequence[Reading], *, on: str) -> WaterReport:
    """What follows from readings, and what to beware of.

    Args:
        book: all knowledge.
        system: the animals kept, the height above the sea, the litres.
        readings: any; the latest of each quantity counts.
        on: ISO date of today; empty where the readings have no dates.
    """
    engines = Engines(book)
    facts, current = engines.facts(Case(on=on, system=system, readings=tuple(readings)))
    measured = [item.reading for item in current] + top_up_readings(readings, book.quantities, on)
    derived = engines.derive(system, measured)
    return build_water_report(
        measured, derived, engines.rules.run_case(facts), book.quantities, bands=find_bands(facts.animals),
        crops=[book.crops[id_] for id_ in system.crops if id_ in book.crops],
    )  # fmt: skip


def show_water(book: Book, system: System, readings: Sequence[Reading], *, on: str) -> ShowReport:
    """The water as it stands on a day.

    Args:
        book: all knowledge.
        system: the saved system.
        readings: those of the last months.
        on: ISO date of today.
    """
    current = current_readings(readings, on)
    bands = find_bands([book.animals[id_] for id_ in system.animals if id_ in book.animals])
    latest = {item.reading.quantity: item.reading for item in current}
    return ShowReport(
        on=on, latest=current, due=tuple(_due(book.quantities, current)),
        trends=tuple(_drift(book.quantities[id_], readings, on, reading, bands) for id_, reading in latest.items()),
        limits={id_: band for id_, band in bands.items() if id_ in latest},
        report=check_water(book, system, readings, on=on),
    )  # fmt: skip


def _due(quantities: Mapping[str, Quantity], current: Sequence[Current]) -> list[str]:
    """Quantities whose last test is older than they should wait, or that were never tested."""
    ages = {item.reading.quantity: item.age_days for item in current}
    found = []
    for id_, quantity in quantities.items():
        if quantity.test_every_days is not None and not quantity.same_as:
            age = ages.get(id_)
            if id_ not in ages or (age is not None and age >= quantity.test_every_days):
                found.append(id_)
    return found


def _drift(
    quantity: Quantity, readings: Sequence[Reading], on: str, latest: Reading, bands: Mapping[str, Band]
) -> Drift:
    trend = find_trend(readings, quantity, on)
    band = bands.get(quantity.quantity)
    ends = [bound for bound in (band.low, band.high) if bound is not None] if band else []
    crosses = [crossing for bound in ends if (crossing := _crossing(trend, latest, bound)) is not None]
    return Drift(
        quantity=quantity.quantity, name=quantity.name, unit=quantity.unit, trend=trend, crosses=tuple(crosses)
    )


def _crossing(trend: Trend, latest: Reading, bound: Bound) -> Crossing | None:
    span = days_until(trend, latest.value, bound.limit)
    if span is None:
        return None
    return Crossing(
        limit=bound.limit, animal=bound.animal, name=bound.name, source=bound.source, from_days=span.low,
        to_days=None if math.isinf(span.high) else span.high,
    )  # fmt: skip
