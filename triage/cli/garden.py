"""`triage garden`: the garden as one, its beds and plants, and whether it teaches."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click
import msgspec

from ..errors import UsageError
from ..intake import BEDS, clean_text, named_ids
from ..model.garden import Bed, Plant
from ..screens import garden_words as words
from . import common
from .common import home_folder, home_option, json_option, open_home_journal, open_own_book, print_json

if TYPE_CHECKING:
    from ..model.book import Book


@click.group(invoke_without_command=True)
@click.option("--on", help="As known on this day (2026-05-14); today if not said.")
@home_option
@json_option
@click.pass_context
def garden(ctx: click.Context, on: str | None, home: str | None, as_json: bool) -> None:
    """The garden as one: what spreads and where to look, what comes back, what proven cases here have taught.

    Example: triage garden
    """
    if ctx.invoked_subcommand is not None:
        if on or home or as_json:
            raise UsageError(f"options belong behind the command: triage garden {ctx.invoked_subcommand} ...")
        return
    from ..recall.garden import garden_on

    folder = home_folder(home)
    book, day = open_own_book(folder), common.day(on)
    with open_home_journal(folder, read_only=True) as journal:
        report = garden_on(book, journal, day)
    if as_json:
        print_json(report)
        return
    from ..screens.garden import render_garden

    render_garden(report, common.console(), book.crops)


def _listed(text: str | None) -> list[str] | None:
    """Names with commas; None if nothing was said."""
    return None if text is None else [name for part in text.split(",") if (name := clean_text(part))]


def _crop_ids(book: Book, text: str | None) -> tuple[str, ...] | None:
    names = _listed(text)
    return None if names is None else named_ids(names, book.crops, "crop")


@garden.command()
@click.argument("name")
@click.option("--crops", help="Crops in it, with commas: basil,chard.")
@click.option("--kind", type=click.Choice(BEDS), help="Kind of bed.")
@click.option("--beside", help="Names of the beds next to it, with commas.")
@click.option("--note", help="Anything worth keeping.")
@click.option("--gone", help="The day on which it was taken away.")
@home_option
@json_option
def bed(
    name: str, crops: str | None, kind: str | None, beside: str | None, note: str | None, gone: str | None,
    home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """Name a bed, or say what is new about it; what it was before is kept.

    Example: triage garden bed window --crops basil,cucumber --beside wall
    """
    folder = home_folder(home)
    next_to = _listed(beside)
    said = {
        "crops": _crop_ids(open_own_book(folder), crops), "kind": kind,
        "note": None if note is None else clean_text(note),
        "beside": None if next_to is None else tuple(next_to), "gone": common.day(gone) if gone else None,
    }  # fmt: skip
    with open_home_journal(folder) as journal:
        known = next((each for each in journal.beds() if each.name == clean_text(name)), Bed(name=clean_text(name)))
        new = msgspec.structs.replace(known, **{key: value for key, value in said.items() if value is not None})
        journal.save_bed(new)
    if as_json:
        print_json({"format": "triage-bed/1", "bed": new})
    else:
        click.echo(words.BED_KEPT.format(new.name))


@garden.command()
@click.argument("name")
@click.option("--bed", help="The bed it grows in.")
@click.option("--crop", help="What it is: an id or a name.")
@click.option("--planted", help="The day on which it was planted or sown.")
@click.option("--note", help="Anything worth keeping.")
@click.option("--gone", help="The day on which it was pulled or harvested.")
@home_option
@json_option
def plant(
    name: str, bed: str | None, crop: str | None, planted: str | None, note: str | None, gone: str | None,
    home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """Name a plant or a row, or say what is new about it; what it was before is kept.

    Example: triage garden plant "row 2" --bed window --crop basil --planted 2026-03-01
    """
    folder = home_folder(home)
    crops = _crop_ids(open_own_book(folder), crop)
    said = {
        "bed": None if bed is None else clean_text(bed), "crop": crops[0] if crops else None,
        "planted": common.day(planted) if planted else None, "note": None if note is None else clean_text(note),
        "gone": common.day(gone) if gone else None,
    }  # fmt: skip
    with open_home_journal(folder) as journal:
        known = next((each for each in journal.plants() if each.name == clean_text(name)), Plant(name=clean_text(name)))
        new = msgspec.structs.replace(known, **{key: value for key, value in said.items() if value is not None})
        journal.save_plant(new)
    if as_json:
        print_json({"format": "triage-plant/1", "plant": new})
    else:
        click.echo(words.PLANT_KEPT.format(new.name))


@garden.command()
@click.argument("whether", type=click.Choice(("on", "off")))
@home_option
@json_option
def learn(whether: str, home: str | None, as_json: bool) -> None:
    """Whether proven cases of this garden move the odds. Nothing is lost by turning it off.

    Example: triage garden learn off
    """
    from ..recall.garden import OWN_CASES

    with open_home_journal(home_folder(home)) as journal:
        journal.set_setting(OWN_CASES, whether)
    if as_json:
        print_json({"format": "triage-garden-learns/1", "on": whether == "on"})
    else:
        click.echo(words.LEARNS_ON if whether == "on" else words.LEARNS_OFF)
