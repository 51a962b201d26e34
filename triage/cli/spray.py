"""`triage spray`: may I use this near my fish?"""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import TYPE_CHECKING

import click

from ..errors import UsageError
from . import common
from .common import home_folder, home_option, json_option, open_own_book, print_json

if TYPE_CHECKING:
    from ..model.book import Book
    from ..model.case import System
    from ..model.quantity import Reading
    from ..report.spray_report import SprayReport, SprayTable
    from ..spraying import Asked

COVERS = ("none", "covered", "moved", "drench", "returned")


@click.command()
@click.argument("substance", nargs=-1)
@click.option("--strength", help="In the sprayer: 2%, 20 g/L, 5 mL/L. If not said, stronger than usual counts.")
@click.option("--amount", help="How much: 1L, 250 mL, 10 g.")
@click.option("--cover", type=click.Choice(COVERS), help="Water open or covered, plant moved and rinsed, a drench, "
              "or a plant brought back unrinsed.")  # fmt: skip
@click.option("--neighbour", is_flag=True, help="Somebody next door sprays it.")
@click.option("--perimeter", is_flag=True, help="It is sprayed round the house or glasshouse.")
@click.option("--into-water", is_flag=True, help="It is put into the water on purpose.")
@click.option("--volume", help="Water in the system: 1000L. The saved system's if not said.")
@click.option("--animals", help="Animals kept, with commas: tilapia,shrimp. The saved system's if not said.")
@click.option("--times", type=click.IntRange(1, 365), default=1, help="How many times.")
@click.option("--every", help="How far apart: 7d.")
@click.option("--spilled", is_flag=True, help="It got into the water: what to do now, how much water to change.")
@click.option("--compare", is_flag=True, help="Each SUBSTANCE side by side.")
@click.option("--shelf", is_flag=True, help="Everything on your shelf.")
@home_option
@json_option
def spray(
    substance: tuple[str, ...], strength: str | None, amount: str | None, cover: str | None, neighbour: bool,
    perimeter: bool, into_water: bool, volume: str | None, animals: str | None, times: int, every: str | None,
    spilled: bool, compare: bool, shelf: bool, home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """May I use this near my fish? By active ingredient, as the label names it; several with commas or "and".

    Example: triage spray soap --strength 1% --amount 1L --cover covered --volume 1000L --animals tilapia
    """
    from ..spraying import Asked

    cover = _one_cover(cover, neighbour=neighbour, perimeter=perimeter, into_water=into_water)
    folder = home_folder(home)
    book = open_own_book(folder)
    saved, readings = common.load_saved(folder)
    asked = Asked(
        words=" ".join(substance), strength=strength, amount=amount, cover=cover, volume=volume, animals=animals,
        times=times, every=every, into_water=into_water,
    )  # fmt: skip
    if compare or shelf:
        _show_table(book, _table(book, asked, saved, readings, substance, shelf=shelf), as_json)
    elif asked.words.strip():
        _show(book, _report(book, asked, saved, readings, spilled=spilled), as_json)
    else:
        _interview(book, saved, readings, as_json=as_json)


def _one_cover(cover: str | None, *, neighbour: bool, perimeter: bool, into_water: bool) -> str | None:
    """The cover, or the case that takes its place. Errors: UsageError where two are said."""
    said = [name for name, given in (("neighbour", neighbour), ("perimeter", perimeter)) if given]
    if len(said) + (cover is not None) + into_water > 1:
        raise UsageError("say one of --cover, --neighbour, --perimeter and --into-water")
    return said[0] if said else cover


def _report(
    book: Book, asked: Asked, saved: System | None, readings: tuple[Reading, ...], *, spilled: bool
) -> SprayReport:
    from ..spraying import answer_spray

    return answer_spray(book, asked, saved, readings, on=common.today(), spilled=spilled)


def _show(book: Book, report: SprayReport, as_json: bool) -> None:
    if as_json:
        print_json(report)
        return
    from ..report.names import Names
    from ..screens.spray import render_spray
    from ..screens.spray_spill import render_spill

    names = {**Names(book), **_animals(book)}
    (render_spill if report.spill else render_spray)(report, common.console(), names)


def _animals(book: Book) -> dict[str, str]:
    from ..screens.wording import inside

    return {id_: inside(animal.name) for id_, animal in book.animals.items()}


def _table(
    book: Book, asked: Asked, saved: System | None, readings: tuple[Reading, ...], words: tuple[str, ...], *,
    shelf: bool,
) -> SprayTable:  # fmt: skip
    from ..spraying import compare_sprays, grade_shelf

    if shelf:
        return grade_shelf(book, asked, saved, readings, on=common.today())
    names = _names(words)
    if len(names) < 2:
        raise UsageError("--compare needs two or more: triage spray --compare soap 'neem oil' pyrethrins")
    return compare_sprays(book, names, asked, saved, readings, on=common.today())


def _names(words: tuple[str, ...]) -> list[str]:
    """One name a word; with commas, what stands between them."""
    if any("," in word for word in words):
        return [name.strip() for name in " ".join(words).split(",") if name.strip()]
    return list(words)


def _show_table(book: Book, table: SprayTable, as_json: bool) -> None:
    if as_json:
        print_json(table)
        return
    from ..screens.spray_table import render_table

    render_table(table, common.console(), _animals(book))


def _interview(book: Book, saved: System | None, readings: tuple[Reading, ...], *, as_json: bool) -> None:
    """Ask on a terminal, or take the answers from standard input, one a line."""
    from ..model.case import System
    from ..screens.spray_questions import ask_spray

    answers = None if as_json else ask_spray(book, saved or System(), common.console(), _asker())
    if answers is None:
        raise UsageError("name a SUBSTANCE, as the label does (or --shelf for all that you have)")
    _show(book, _report(book, answers.asked, saved, readings, spilled=answers.spilled), as_json=False)


def _asker() -> Callable[[str], str]:
    """How to ask. Errors: UsageError where there is nobody to ask and nothing was piped in."""
    if sys.stdin.isatty():
        return common.ask
    lines: list[str] = sys.stdin.read().splitlines()
    if not any(line.strip() for line in lines):
        raise UsageError("name a SUBSTANCE, as the label does (or --shelf for all that you have)")
    left = list(reversed(lines))

    def next_line(prompt: str) -> str:
        click.echo(prompt, nl=False)
        if not left:
            click.echo()
            raise EOFError
        click.echo(left[-1])
        return left.pop()

    return next_line
