"""`triage water history|correct`: readings with their numbers, and how a wrong one is set right."""

from __future__ import annotations

import click

from ..errors import UsageError
from ..intake import clean_text
from ..screens import garden_words, water_words
from . import common
from .common import home_option, json_option, open_home_journal, open_own_book, print_json
from .journal import existing_home

#: So many are shown where not more are asked for.
_SHOWN = 20


@click.command()
@click.argument("quantity", required=False)
@click.option("--last", type=click.IntRange(1), default=_SHOWN, show_default=True, help="So many of the latest.")
@home_option
@json_option
def history(quantity: str | None, last: int, home: str | None, as_json: bool) -> None:
    """Readings as they were recorded, each with its number; corrected and withdrawn ones too.

    Example: triage water history ph
    """
    from ..water.readings import find_quantity

    folder = existing_home(home)
    book = open_own_book(folder)
    asked = find_quantity(quantity, book.quantities) if quantity else None
    only = (asked.same_as or asked.quantity) if asked else ""
    with open_home_journal(folder, read_only=True) as journal:
        found = [each for each in journal.reading_history() if only in ("", each.reading.quantity)][-last:]
    if as_json:
        print_json({"format": "triage-readings-history/1", "readings": found})
        return
    from ..screens.numbers import say_measured
    from ..screens.style import line

    out = common.page()
    for each in found:
        fate = garden_words.FATES[each.fate].format(by=each.replaced_by) + (f" ({each.why})" if each.why else "")
        reading = each.reading
        name = book.quantities[reading.quantity].name if reading.quantity in book.quantities else reading.quantity
        line(out, f"{reading.on}  {name} {say_measured(reading)}{fate}", indent=0, bullet=f"{each.id:>6} ")


@click.command()
@click.argument("number", type=int)
@click.argument("reading", required=False)
@click.option("--on", help="The day it was really taken; as before if not said.")
@click.option("--why", default="", help="Why it is set right.")
@click.option("--withdraw", is_flag=True, help="It does not count at all.")
@home_option
@json_option
def correct(
    number: int, reading: str | None, on: str | None, why: str, withdraw: bool, home: str | None, as_json: bool
) -> None:
    """Set a reading right (NUMBER is its number in the history); the old one is kept.

    Example: triage water correct 12 ph=7.2 --why "read the card in lamp light"
    """
    from ..water.readings import parse_assignment

    if withdraw == (reading is not None):
        raise UsageError("say what it was instead, for example ph=7.2, or --withdraw if it does not count")
    folder = existing_home(home)
    with open_home_journal(folder) as journal, journal.all_or_nothing():
        if reading is None:
            journal.withdraw_reading(number, clean_text(why))
            new = None
        else:
            old = next((each.reading for each in journal.reading_history() if each.id == number), None)
            if old is None:
                raise UsageError(f"there is no reading number {number} (see: triage water history)")
            parsed = parse_assignment(
                reading, open_own_book(folder).quantities, on=common.day(on) if on else old.on, kit=old.kit,
                time=old.time, point=old.point,
            )  # fmt: skip
            new = journal.correct_reading(number, parsed, clean_text(why))
    if as_json:
        print_json({"format": "triage-correction/1", "reading": number, "by": new})
    else:
        common.speak_here()
        text = garden_words.WITHDRAWN if new is None else water_words.READING_CORRECTED
        click.echo(text.format(old=number, new=new, what=reading))
