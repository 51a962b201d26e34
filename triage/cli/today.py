"""`triage today`: what is due."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from . import common
from .common import home_folder, home_option, json_option, open_home_journal, open_own_book, print_json

if TYPE_CHECKING:
    from ..model.book import Book
    from ..report.due_report import DueReport


#: How far a list looks ahead, and a calendar.
_AHEAD, _AHEAD_IN_CALENDAR = 3, 28


@click.command()
@click.option("--on", help="As seen on this day (2026-05-14); today if not said.")
@click.option(
    "--days",
    type=click.IntRange(0, 366),
    help=f"How far to look ahead: {_AHEAD} days if not said, {_AHEAD_IN_CALENDAR} in a calendar.",
)
@click.option("--calendar", type=click.Path(path_type=Path), help="Write it as a calendar file (.ics) too.")
@click.option("--replace", is_flag=True, help="Write over a file of that name.")
@home_option
@json_option
def today(
    on: str | None, days: int | None, calendar: Path | None, replace: bool, home: str | None, as_json: bool
) -> None:
    """What is due: harvest waits, next steps, looks, tests of the water; the most urgent first.

    Example: triage today --calendar garden.ics
    """
    folder = home_folder(home)
    book, day = open_own_book(folder), common.day(on)
    out = common.page()  # before anything is said: from here on in the language that is read
    ahead = days if days is not None else _AHEAD
    report = due_in(book, folder, day, ahead)
    if calendar is not None:
        later = report if days is not None else due_in(book, folder, day, _AHEAD_IN_CALENDAR)
        _write_calendar(later, calendar, replace=replace)
    if as_json:
        print_json(report)
        return
    from ..screens.today import render_due

    render_due(report, out)


def due_in(book: Book, folder: Path, day: str, ahead: int) -> DueReport:
    """What is due in a home on a day."""
    from ..followup.due import list_due

    if not common.has_journal(folder):
        return list_due(book, (), (), on=day, ahead_days=ahead)
    from ..recall.due import due_on

    with open_home_journal(folder, read_only=True) as journal:
        return due_on(book, journal, day, ahead_days=ahead)


def _write_calendar(report: DueReport, path: Path, *, replace: bool) -> None:
    from ..report.calendar import render_calendar
    from ..screens.later_words import CALENDAR_WRITTEN, NO_CALENDAR
    from .files import new_file

    events = len(report.due) + len(report.coming)
    if not events:
        click.echo(NO_CALENDAR, err=True)
        return
    with new_file(path, replace=replace) as file:
        file.write(render_calendar(report).decode())
    click.echo(CALENDAR_WRITTEN.format(file=path, last=report.coming[-1].due if report.coming else report.on), err=True)
