"""`triage water add|import|show|check|why`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from ..model.book import Book
from . import common
from .common import home_folder, home_option, json_option, open_home_journal, open_own_book, print_json
from .water_import import import_
from .water_why import why

if TYPE_CHECKING:
    from ..model.quantity import Reading
    from ..report.water_report import WaterReport


@click.group()
def water() -> None:
    """Record readings, look at them, and see what follows from numbers.

    Example: triage water add ph=7.2 iron=0.6mg/L 'tan<=0.25'
    """


@water.command()
@click.argument("readings", nargs=-1, required=True)
@click.option("--on", help="Day of the test (2026-05-03); today if not said.")
@click.option("--time", "at", default="", help="Time of the test (08:30).")
@click.option("--kit", default="", help="What gave the number: card, drops, strip, meter.")
@click.option("--point", default="", help="Where the water was taken: fish-tank, sump, bed, top-up.")
@home_option
@json_option
def add(
    readings: tuple[str, ...], on: str | None, at: str, kit: str, point: str, home: str | None, as_json: bool
) -> None:
    """Record readings.

    Example: triage water add ph=7.2 iron=0.6mg/L 'tan<=0.25' --on 2026-05-03 --kit card
    """
    from ..water.readings import parse_assignment

    folder = home_folder(home)
    book = open_own_book(folder)
    day = common.day(on)
    parsed = [parse_assignment(text, book.quantities, on=day, kit=kit, time=at, point=point) for text in readings]
    with open_home_journal(folder) as journal:
        added = journal.add_readings(parsed)
    if as_json:
        print_json({"format": "triage-readings/1", "added": added, "readings": parsed})
        return
    again = len(parsed) - added
    click.echo(f"{added} recorded for {day}" + (f"; {again} known already" if again else ""))
    for reading in parsed:
        if reading.note:
            click.echo(f"{book.quantities[reading.quantity].name}: {reading.note}")


@water.command()
@click.option("--on", help="As seen on this day; today if not said.")
@home_option
@json_option
def show(on: str | None, home: str | None, as_json: bool) -> None:
    """The latest readings, what they say, and what is due for a test.

    Example: triage water show
    """
    from ..water.latest import current_readings

    folder = home_folder(home)
    book = open_own_book(folder)
    day = common.day(on)
    system, readings = common.load_saved(folder, day)
    current = current_readings(readings, day)
    due = _due(book, {item.reading.quantity: item.age_days for item in current})
    animals = system.animals if system else ()
    report = _report(book, [item.reading for item in current], animals, day, system.altitude_m if system else None)
    if as_json:
        print_json({"format": "triage-water-show/1", "latest": current, "due": due, "report": report})
        return
    from ..screens.water import render_latest, render_warnings

    out = common.console()
    render_latest(current, [book.quantities[id_].name for id_ in due], book.quantities, out)
    render_warnings(report, out)


def _due(book: Book, ages: dict[str, int | None]) -> list[str]:
    """Quantities whose last test is older than they should wait, or that were never tested."""
    found = []
    for id_, quantity in book.quantities.items():
        if quantity.test_every_days is not None and not quantity.same_as:
            age = ages.get(id_)
            if id_ not in ages or (age is not None and age >= quantity.test_every_days):
                found.append(id_)
    return found


@water.command()
@click.argument("readings", nargs=-1, required=True)
@click.option("--animals", default="", help="Animals kept, with commas: tilapia,shrimp.")
@click.option("--kit", default="", help="What gave the numbers: card, drops, strip, meter.")
@home_option
@json_option
def check(readings: tuple[str, ...], animals: str, kit: str, home: str | None, as_json: bool) -> None:
    """What follows from numbers, and what to beware of; records nothing.

    Example: triage water check ph=8.0 temperature=24 tan=1.0 --animals tilapia
    """
    from ..intake import named_ids
    from ..water.readings import parse_assignment

    book = open_own_book(home_folder(home))
    ids = named_ids([name.strip() for name in animals.split(",") if name.strip()], book.animals, "animal")
    parsed = [parse_assignment(text, book.quantities, kit=kit) for text in readings]
    report = _report(book, parsed, ids, "", None)
    if as_json:
        print_json(report)
        return
    from ..screens.water import render_water

    render_water(report, common.console())


def _report(
    book: Book, readings: Sequence[Reading], animals: Sequence[str], on: str, altitude_m: float | None
) -> WaterReport:
    from ..model.case import Case, System
    from ..reasoning import Engines
    from ..report.water_report import build_water_report
    from ..water.derive import derive_values

    system = System(animals=tuple(animals), altitude_m=altitude_m)
    engines = Engines(book)
    facts, current = engines.facts(Case(on=on, system=system, readings=tuple(readings)))
    measured = [item.reading for item in current]
    salmonids = any(animal.salmonid for animal in facts.animals)
    derived = derive_values(measured, salmonids=salmonids, altitude_m=altitude_m)
    return build_water_report(measured, derived, engines.rules.run_case(facts), book.quantities)


water.add_command(import_)
water.add_command(why)
