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


@click.command()
@click.option("--on", help="As seen on this day (2026-05-14); today if not said.")
@click.option("--days", type=click.IntRange(0, 366), default=3, show_default=True, help="How far to look ahead.")
@click.option("--calendar", type=click.Path(path_type=Path), help="Write it as a calendar file (.ics) too.")
@click.option("--replace", is_flag=True, help="Write over a file of that name.")
@home_option
@json_option
def today(on: str | None, days: int, calendar: Path | None, replace: bool, home: str | None, as_json: bool) -> None:
    """What is due: harvest waits, next steps, looks, tests of the water; the most urgent first.

    Example: triage today --days 14 --calendar garden.ics
    """
    folder = home_folder(home)
    report = due_in(open_own_book(folder), folder, common.day(on), days)
    if calendar is not None:
        from ..report.calendar import render_calendar
        from .files import new_file

        with new_file(calendar, replace=replace) as file:
            file.write(render_calendar(report).decode())
    if as_json:
        print_json(report)
        return
    from ..screens.today import render_due

    render_due(report, common.console())
    if calendar is not None:
        click.echo(f"Calendar written to {calendar}")


def due_in(book: Book, folder: Path, day: str, ahead: int) -> DueReport:
    """What is due in a home on a day."""
    from ..followup.due import list_due
    from ..recall.cases import list_standing

    if not common.has_journal(folder):
        return list_due(book, (), (), on=day, ahead_days=ahead)
    with open_home_journal(folder, read_only=True) as journal:
        cases = list_standing(book, journal, until=day)
        readings = common.recent_readings(journal, day)
    return list_due(book, cases, [r for r in readings if r.on <= day], on=day, ahead_days=ahead)
