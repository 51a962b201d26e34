"""`triage setup`: say once what you have."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import click
import msgspec

from ..intake import BEDS, PLACES, TOP_UP, clean_text
from ..model.book import Book
from ..model.case import System
from ..screens import setup_words as words
from ..screens.setup import ask_system, parse_part
from ..screens.style import line
from . import common
from .common import home_folder, home_option, json_option, open_home_journal, open_own_book, print_json

if TYPE_CHECKING:
    from ..journal import Journal


@click.command()
@click.option("--volume", help="Water in the whole system: 1000L, 1 m3, 250 gal US.")
@click.option("--animals", help="Animals kept, with commas: tilapia,shrimp.")
@click.option("--crops", help="Crops grown, with commas.")
@click.option("--beds", type=click.Choice(BEDS), help="Kind of beds.")
@click.option("--filter", "filter_", help="Kind of filter, in your words.")
@click.option("--top-up", type=click.Choice(TOP_UP), help="Where top-up water comes from.")
@click.option("--place", type=click.Choice(PLACES), help="Where the system stands.")
@click.option("--altitude", help="Metres above the sea.")
@click.option("--shelf", help="Sprays and additives at hand, with commas.")
@home_option
@json_option
def setup(
    volume: str | None, animals: str | None, crops: str | None, beds: str | None, filter_: str | None,
    top_up: str | None, place: str | None, altitude: str | None, shelf: str | None, home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """Say once what you have; what is not given is asked on a terminal, and what was said before is kept.

    Example: triage setup --volume 1000L --animals tilapia,shrimp --beds media
    """
    folder = home_folder(home)
    book = open_own_book(folder)
    said = {
        "volume_l": volume, "animals": animals, "crops": crops, "beds": beds, "filter": filter_, "top_up": top_up,
        "place": place, "altitude_m": altitude, "shelf": shelf,
    }  # fmt: skip
    given = {part: parse_part(part, clean_text(text), book) for part, text in said.items() if text is not None}
    with open_home_journal(folder) as journal:
        old = journal.load_system() or System()
        system = msgspec.structs.replace(old, **given)
        if given:
            journal.save_system(system)
        elif not as_json:
            _ask(old, book, journal)
    if as_json:
        print_json({"format": "triage-system/1", "system": system})
    else:
        click.echo(words.SAVED)


def _ask(old: System, book: Book, journal: Journal) -> None:
    """Every answer is kept at once."""
    out = common.console()
    line(out, words.INTRO, indent=0)
    try:
        ask_system(old, book, out, common.ask, journal.save_system)
    except KeyboardInterrupt:
        click.echo(f"\n{words.STOPPED}", err=True)
        sys.exit(130)
