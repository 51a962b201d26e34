"""`triage case recheck|proved`: did it work, and what was it?"""

from __future__ import annotations

import sys
from contextlib import suppress
from typing import TYPE_CHECKING

import click

from ..errors import UsageError
from ..model.aftermath import RoleName
from . import common
from .common import home_option, json_option, open_home_journal, open_own_book, print_json
from .journal import existing_home
from .naming import check_known

if TYPE_CHECKING:
    from ..journal import Journal
    from ..model.book import Book
    from ..recall.again import Recheck
    from ..report.recheck_report import RecheckReport
    from ..screens.recheck import RecheckSeries
    from ..session import Told

_NEW_LEAVES: dict[str, RoleName] = {"better": "new-leaves-better", "as-before": "new-leaves-as-before"}
_PLANTS: dict[str, RoleName] = {"more": "more-plants", "no-more": "no-more-plants"}


@click.command()
@click.argument("number", type=int)
@click.option("--on", help="Day of the look (2026-05-14); today if not said.")
@click.option(
    "--now", type=click.Choice(["better", "same", "worse"]), help="Compared with the last look; asks nothing."
)
@click.option("--new-leaves", type=click.Choice(list(_NEW_LEAVES)), help="The leaves that opened since.")
@click.option("--plants", type=click.Choice(list(_PLANTS)), help="Do more plants have it now?")
@click.option("--seen", multiple=True, help="A finding seen, by its id (triage book find WORDS); may be repeated.")
@click.option("--absent", multiple=True, help="A finding looked for and not there; may be repeated.")
@click.option("--numbers", is_flag=True, help="Show probabilities beside the words.")
@home_option
@json_option
def recheck(
    number: int, on: str | None, now: str | None, new_leaves: str | None, plants: str | None, seen: tuple[str, ...],
    absent: tuple[str, ...], numbers: bool, home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """Look again: better, the same or worse? It weighs what was done, and says what is next.

    Without --now it asks, beside the plant; every answer is kept at once.

    Example: triage case recheck 3 --now better --new-leaves better --plants no-more
    """
    if as_json and now is None:
        raise UsageError("--json asks nothing, so it needs --now better, same or worse")
    folder = existing_home(home)
    book = open_own_book(folder)
    day = common.day(on)
    with open_home_journal(folder) as journal:
        if now is None:
            report = _ask(book, journal, number, day)
            if report is None:
                return
        else:
            report = _as_told(book, journal, number, day, _told(book, now, new_leaves, plants, seen, absent))
    if as_json:
        print_json(report)
        return
    from ..screens.recheck_answer import render_recheck

    render_recheck(report, common.console(), book, numbers=numbers)


def _as_told(book: Book, journal: Journal, number: int, day: str, told: Told) -> RecheckReport:
    from ..recall.looks import open_recheck
    from ..session import told_as_answer

    with journal.all_or_nothing():
        recheck_id = journal.begin_recheck(number, day)
        look = open_recheck(book, journal, number, day)
        look.session.tell(told)
        journal.record_answer(number, told_as_answer(told))
        return _keep(book, journal, recheck_id, look)


def _told(
    book: Book, now: str, new_leaves: str | None, plants: str | None, seen: tuple[str, ...], absent: tuple[str, ...]
) -> Told:
    from ..followup.roles import finding_of
    from ..session import Told

    roles: list[RoleName] = [now]  # type: ignore[list-item]
    roles += [_NEW_LEAVES[new_leaves]] if new_leaves else []
    roles += [_PLANTS[plants]] if plants else []
    for name in (*seen, *absent):
        check_known(name, book.findings, "finding")
    said = [finding_of(book, role) for role in roles]
    return Told(kind="finding", seen=(*said, *seen), absent=absent)


def _ask(book: Book, journal: Journal, number: int, day: str) -> RecheckReport | None:
    from ..screens import later_words as words

    recheck_id = journal.begin_recheck(number, day)
    try:
        series = _series(book, journal, number, day)
    except KeyboardInterrupt:
        click.echo(f"\n{words.STOPPED.format(number=number)}", err=True)
        sys.exit(130)
    if series.ended == "kept":
        click.echo(words.STOPPED.format(number=number))
        return None
    if len(series.session.told) == series.recheck.known:
        click.echo(words.UNSAID)
        return None
    return _keep(book, journal, recheck_id, series.recheck)


def _keep(book: Book, journal: Journal, recheck_id: int, look: Recheck) -> RecheckReport:
    """Keep a look, in English; the report is in the language that is read."""
    from ..recall.looks import keep_recheck, open_recheck

    if not book.language:
        return keep_recheck(journal, recheck_id, look)
    report = look.report()
    folder = existing_home(click.get_current_context().params["home"])
    with common.in_english(folder) as english:
        keep_recheck(journal, recheck_id, open_recheck(english, journal, look.look.earlier.number, look.look.on))
    return report


def _series(book: Book, journal: Journal, number: int, day: str) -> RecheckSeries:
    """Ask what was done, if nobody said, and how it is now."""
    from ..followup.done import Act
    from ..recall.looks import open_recheck
    from ..screens.recheck import RecheckSeries, ask_done, begin_recheck
    from ..session import told_as_answer

    def keep(act: Act) -> None:
        journal.record_action(number, act.what, act.on, treatment=act.treatment)

    out = common.console()
    look = open_recheck(book, journal, number, day)
    begin_recheck(look, _plant_of(book, journal, number), out)
    earlier = look.look.earlier
    if not earlier.acts:
        with suppress(EOFError):
            ask_done(book, earlier.offered, earlier.told.on, day, out, common.ask, keep)
        look = open_recheck(book, journal, number, day)
    series = RecheckSeries(
        look, out, common.ask, record=lambda told: journal.record_answer(number, told_as_answer(told)),
        forget=lambda: journal.undo_last_answer(number),
    )  # fmt: skip
    series.run()
    return series


def _plant_of(book: Book, journal: Journal, number: int) -> str:
    from ..screens import wording

    stored = journal.load_case(number)
    return wording.crop_inside(book.crops, stored.crop, stored.plant or wording.A_PLANT)
