"""`triage water why`: what most likely moves pH or nitrate."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import click
import msgspec

from . import common
from .common import home_folder, home_option, json_option, open_own_book, print_json
from .naming import check_known

if TYPE_CHECKING:
    from ..model.book import Book


@click.command()
@click.argument("quantity")
@click.option("--on", help="As seen on this day (2026-05-04); today if not said.")
@click.option("--volume", help="Water in the system: 1000L. The saved system's if not said.")
@click.option("--seen", multiple=True, help="A finding seen, by its id (triage book find WORDS); may be repeated.")
@click.option("--absent", multiple=True, help="A finding looked for and not there; may be repeated.")
@home_option
@json_option
def why(
    quantity: str, on: str | None, volume: str | None, seen: tuple[str, ...], absent: tuple[str, ...],
    home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """What most likely moves pH (or nitrate) in this system, with the mass balance.

    Feed, protein, top-up water and bases are told like readings: triage water add feed=60 protein=32 top-up=30 base=0

    Example: triage water why ph --absent media-fizzes-in-vinegar
    """
    from ..drift import Told, explain_drift
    from ..intake import volume_litres
    from ..model.case import System

    folder = home_folder(home)
    book = open_own_book(folder)
    day = common.day(on)
    saved, readings = common.load_saved(folder, day)
    system = saved or System()
    if volume is not None:
        system = msgspec.structs.replace(system, volume_l=volume_litres(volume))
    told = Told(seen=_findings(seen, book), absent=_findings(absent, book))
    report = explain_drift(book, quantity.lower(), system, readings, on=day, told=told)
    if as_json:
        print_json(report)
        return
    from ..screens.drift import render_drift

    render_drift(report, common.console())


def _findings(names: Sequence[str], book: Book) -> frozenset[str]:
    for name in names:
        check_known(name, book.findings, "finding")
    return frozenset(names)
