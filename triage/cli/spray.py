"""`triage spray`: may I use this near my fish?"""

from __future__ import annotations

import click

from . import common
from .common import home_folder, home_option, json_option, open_own_book, print_json

COVERS = ("none", "covered", "moved", "drench")


@click.command()
@click.argument("substance", nargs=-1, required=True)
@click.option("--strength", help="In the sprayer: 2%, 20 g/L, 5 mL/L. The usual strength if not said.")
@click.option("--amount", help="How much: 1L, 250 mL, 10 g.")
@click.option("--cover", type=click.Choice(COVERS), help="Water open, covered, the plant moved away, or a drench.")
@click.option("--volume", help="Water in the system: 1000L. The saved system's if not said.")
@click.option("--animals", help="Animals kept, with commas: tilapia,shrimp. The saved system's if not said.")
@click.option("--times", type=click.IntRange(1, 365), default=1, help="How many times.")
@click.option("--every", help="How often: 7d.")
@home_option
@json_option
def spray(
    substance: tuple[str, ...], strength: str | None, amount: str | None, cover: str | None, volume: str | None,
    animals: str | None, times: int, every: str | None, home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """May I use this near my fish? By active ingredient, as the label names it.

    Example: triage spray soap --strength 1% --amount 1L --cover covered --volume 1000L --animals tilapia
    """
    from ..spraying import Asked, answer_spray

    folder = home_folder(home)
    book = open_own_book(folder)
    saved, readings = common.load_saved(folder)
    asked = Asked(
        words=" ".join(substance), strength=strength, amount=amount, cover=cover, volume=volume, animals=animals,
        times=times, every=every,
    )  # fmt: skip
    report = answer_spray(book, asked, saved, readings, on=common.today())
    if as_json:
        print_json(report)
        return
    from ..report.build import names_of
    from ..screens.spray import render_spray

    render_spray(report, common.console(), names_of(book))
