"""`triage setup`: say once what you have."""

from __future__ import annotations

import click

from ..errors import UsageError
from ..intake import BEDS, PLACES, TOP_UP, clean_text, named_ids, volume_litres
from ..model.case import System
from . import common
from .common import home_folder, home_option, json_option, open_home_journal, open_own_book, print_json


@click.command()
@click.option("--volume", help="Water in the whole system: 1000L, 1 m3, 250 gal US.")
@click.option("--animals", help="Animals kept, with commas: tilapia,shrimp.")
@click.option("--crops", help="Crops grown, with commas.")
@click.option("--beds", type=click.Choice(BEDS), help="Kind of beds.")
@click.option("--filter", "filter_", help="Kind of filter, in your words.")
@click.option("--top-up", type=click.Choice(TOP_UP), help="Where top-up water comes from.")
@click.option("--place", type=click.Choice(PLACES), help="Where the system stands.")
@click.option("--altitude", type=float, help="Metres above the sea.")
@click.option("--shelf", help="Sprays and additives at hand, with commas.")
@home_option
@json_option
def setup(
    volume: str | None, animals: str | None, crops: str | None, beds: str | None, filter_: str | None,
    top_up: str | None, place: str | None, altitude: float | None, shelf: str | None, home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """Say once what you have; what is not given is asked on a terminal, and what was said before is kept.

    Example: triage setup --volume 1000L --animals tilapia,shrimp --beds media
    """
    folder = home_folder(home)
    book = open_own_book(folder)
    said = (volume, animals, crops, beds, filter_, top_up, place, altitude, shelf)
    with open_home_journal(folder) as journal:
        old = journal.load_system() or System()
        if as_json or any(value is not None for value in said):

            def ids(text: str | None, entries: dict[str, object], what: str, kept: tuple[str, ...]) -> tuple[str, ...]:
                return kept if text is None else named_ids(_words(text), entries, what)  # type: ignore[arg-type]

            system = System(
                volume_l=old.volume_l if volume is None else volume_litres(volume),
                animals=ids(animals, dict(book.animals), "animal", old.animals),
                crops=ids(crops, dict(book.crops), "crop", old.crops),
                beds=beds or old.beds, filter=clean_text(filter_ or old.filter), top_up=top_up or old.top_up,
                place=place or old.place, altitude_m=old.altitude_m if altitude is None else altitude,
                shelf=old.shelf if shelf is None else tuple(clean_text(word) for word in _words(shelf)),
            )  # fmt: skip
        else:
            from ..screens.setup import ask_system

            system = ask_system(old, book, common.console(), common.ask)
        if as_json and not any(value is not None for value in said):
            print_json({"format": "triage-system/1", "system": old})
            return
        journal.save_system(system)
    if as_json:
        print_json({"format": "triage-system/1", "system": system})
    else:
        click.echo("Saved. Change any of it later: triage setup --help")


def _words(text: str) -> list[str]:
    words = [word.strip() for word in text.split(",") if word.strip()]
    if not words and text.strip():
        raise UsageError(f"'{text}' names nothing (write names with commas between them)")
    return words
