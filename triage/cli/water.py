"""`triage water add|import|export|show|check|why`."""

from __future__ import annotations

from pathlib import Path

import click

from . import common
from .common import home_folder, home_option, json_option, open_home_journal, open_own_book, print_json
from .tables import export_readings
from .water_correct import correct, history
from .water_import import import_
from .water_why import why


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
@click.option("--diluted", help="The sample was diluted: 0.5/6 (0.5 mL filled up to 6 mL).")
@home_option
@json_option
def add(
    readings: tuple[str, ...], on: str | None, at: str, kit: str, point: str, diluted: str | None, home: str | None,
    as_json: bool,
) -> None:  # fmt: skip
    """Record readings.

    Example: triage water add ph=7.2 iron=0.6mg/L 'tan<=0.25' --on 2026-05-03 --kit card
    """
    from ..water.dilution import dilution_factor, undiluted
    from ..water.readings import parse_assignment

    folder = home_folder(home)
    book = open_own_book(folder)
    day = common.day(on)
    times = dilution_factor(diluted) if diluted is not None else 1.0
    read = [parse_assignment(text, book.quantities, on=day, kit=kit, time=at, point=point) for text in readings]
    parsed = [undiluted(reading, times) for reading in read]
    with open_home_journal(folder) as journal:
        added = journal.add_readings(parsed)
    if as_json:
        print_json({"format": "triage-readings/1", "added": added, "readings": parsed})
        return
    again = len(parsed) - added
    from ..screens import water_words as words

    click.echo(words.RECORDED_ON.format(number=added, day=day) + (words.KNOWN_ALREADY.format(again) if again else ""))
    for reading in parsed:
        if reading.note:
            click.echo(f"{book.quantities[reading.quantity].name}: {reading.note}")


@water.command()
@click.argument("quantities", nargs=-1)
@click.option("--on", help="As seen on this day; today if not said.")
@click.option("--charts/--no-charts", default=True, help="A small chart for each quantity.")
@click.option("--svg", type=click.Path(path_type=Path), help="Write charts as SVG files into this folder as well.")
@home_option
@json_option
def show(
    quantities: tuple[str, ...], on: str | None, charts: bool, svg: Path | None, home: str | None, as_json: bool
) -> None:
    """The latest readings, how they drift, what they say, and what is due for a test. QUANTITIES: only these.

    Example: triage water show ph nitrate --svg charts
    """
    from ..model.case import System
    from ..watch import show_water
    from ..water.readings import find_quantity

    folder = home_folder(home)
    book = open_own_book(folder)
    day = common.day(on)
    system, readings = common.load_saved(folder, day)
    named = [find_quantity(name, book.quantities) for name in quantities]
    only = {book.quantities.get(quantity.same_as, quantity).quantity for quantity in named}
    report = show_water(book, system or System(), readings, on=day)
    drawn = [r for r in readings if (not only or r.quantity in only) and (not r.on or r.on <= day)]
    if svg is not None:
        from ..screens.svg import save_charts

        for file in save_charts(svg, drawn, book.quantities, report.limits):
            click.echo(str(file), err=True)
    if as_json:
        print_json(report)
        return
    from ..screens.water_show import render_charts, render_show

    out = common.console()
    if not only:
        render_show(report, book.quantities, out)
    if charts or only:
        render_charts(drawn, book.quantities, report.limits, out)


@water.command()
@click.argument("readings", nargs=-1, required=True)
@click.option("--animals", default="", help="Animals kept, with commas: tilapia,shrimp.")
@click.option("--kit", default="", help="What gave the numbers: card, drops, strip, meter.")
@click.option("--volume", help="Water in the system, for what depends on it: 1000L.")
@click.option("--crops", default="", help="Crops grown, with commas: basil,strawberry.")
@click.option("--diluted", help="The sample was diluted: 0.5/6 (0.5 mL filled up to 6 mL).")
@home_option
@json_option
def check(
    readings: tuple[str, ...], animals: str, kit: str, volume: str | None, crops: str, diluted: str | None,
    home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """What follows from numbers, and what to beware of; records nothing.

    Example: triage water check ph=8.0 temperature=24 tan=1.0 --animals tilapia
    """
    from ..intake import named_ids, volume_litres
    from ..model.case import System
    from ..watch import check_water
    from ..water.dilution import dilution_factor, undiluted
    from ..water.readings import parse_assignment

    book = open_own_book(home_folder(home))
    ids = named_ids([name.strip() for name in animals.split(",") if name.strip()], book.animals, "animal")
    grown = named_ids([name.strip() for name in crops.split(",") if name.strip()], book.crops, "crop")
    litres = volume_litres(volume) if volume is not None else None
    times = dilution_factor(diluted) if diluted is not None else 1.0
    parsed = [undiluted(parse_assignment(text, book.quantities, kit=kit), times) for text in readings]
    report = check_water(book, System(animals=ids, volume_l=litres, crops=grown), parsed, on="")
    if as_json:
        print_json(report)
        return
    from ..screens.water import render_water

    render_water(report, common.console())


for command in (correct, history):
    water.add_command(command)
water.add_command(import_)
water.add_command(why)
water.add_command(export_readings)
