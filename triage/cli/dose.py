"""`triage dose`: how much to add, in steps the animals bear, and what it does to everything else."""

from __future__ import annotations

import click

from . import common
from .common import home_folder, home_option, json_option, open_own_book, print_json


@click.command()
@click.argument("what")
@click.argument("readings", nargs=-1)
@click.option("--to", help="Where it is to go: 7.0, 2mg/L, 4dKH. The usual target if not said.")
@click.option("--from", "come_from", help="Where it is now; the latest reading if not said.")
@click.option("--with", "using", help="The product: its substance or treatment. All that fit if not said.")
@click.option("--volume", help="Water in the system: 1000L. The saved system's if not said.")
@click.option("--days", type=click.IntRange(1, 365), help="Spread over at least so many days.")
@click.option("--grade", help="Strength of your product: the iron in it (11%), or its purity (85%).")
@click.option("--animals", help="Animals kept, with commas: tilapia,shrimp. The saved system's if not said.")
@click.option("--on", help="As seen on this day (2026-05-04); today if not said.")
@home_option
@json_option
def dose(
    what: str, readings: tuple[str, ...], to: str | None, come_from: str | None, using: str | None,
    volume: str | None, days: int | None, grade: str | None, animals: str | None, on: str | None, home: str | None,
    as_json: bool,
) -> None:  # fmt: skip
    """How much to add to bring a quantity where you want it, and what that does to fish, plants and water.

    WHAT is a quantity (ph, kh, iron, potassium ...), a treatment of the book, or nitrite-chloride-ratio. READINGS say
    what else the water has, where it is not recorded: temperature=24 tan=0.25

    Example: triage dose ph --to 7.0 ph=6.4 kh=2dKH temperature=24 --volume 1000L --animals tilapia
    """
    from ..dosing.answer import answer_dose
    from ..dosing.asked import Asked

    folder = home_folder(home)
    book = open_own_book(folder)
    day = common.day(on)
    saved, recorded = common.load_saved(folder, day)
    asked = Asked(
        what=what, to=to, come_from=come_from, using=using, volume=volume, days=days, grade=grade, animals=animals,
        readings=readings,
    )  # fmt: skip
    report = answer_dose(book, asked, saved, recorded, on=day)
    if as_json:
        print_json(report)
        return
    from ..screens.dose import render_dose

    render_dose(report, common.console())
