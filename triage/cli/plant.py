"""`triage plant`: the question series beside the plant, or the same from a file."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ..errors import UsageError
from ..report.case_report import Report
from ..session import Session, answer_as_told, session_from_case, told_as_answer
from . import common
from .common import home_folder, home_option, json_option, open_home_journal, open_own_book, print_json

if TYPE_CHECKING:
    from ..journal import Journal


@click.command()
@click.option("--from", "case_file", type=click.Path(path_type=Path), help="A CASE.yaml: no questions are asked.")
@click.option("--on", help="Day of the look (2026-05-04); today if not said.")
@click.option("--numbers", is_flag=True, help="Show probabilities beside the words.")
@click.option("--why", is_flag=True, help="Show the rules that fired, with their sources.")
@click.option("--exit-on-alarm", is_flag=True, help="Exit with 1 if there is an alarm.")
@click.option("--new", is_flag=True, help="Begin anew; leave an unfinished series alone.")
@home_option
@json_option
def plant(
    case_file: Path | None, on: str | None, numbers: bool, why: bool, exit_on_alarm: bool, new: bool,
    home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """Answer a few questions beside a plant: likely causes, the deciding check, what the fish survive.

    Example: triage plant --from demo/iron.yaml
    """
    folder = home_folder(home)
    if case_file is None and as_json:
        raise UsageError("--json asks nothing, so it needs --from CASE.yaml")
    if case_file is not None:
        report = _from_file(case_file, on, folder)
        if as_json:
            print_json(report)
        else:
            show_report(report, folder, numbers=numbers, why=why)
    else:
        report = _ask(folder, on, numbers=numbers, why=why, new=new)
    if exit_on_alarm and report.alarms:
        sys.exit(1)


def _from_file(path: Path, on: str | None, folder: Path) -> Report:
    from ..book.casefile import load_case
    from ..intake import build_case

    book = open_own_book(folder)
    file = load_case(path)
    saved, readings = common.load_saved(folder) if file.case.system is None else (None, ())
    case = build_case(file, book, today=common.day(on), saved=saved)
    session = session_from_case(book, case)
    session.readings = (*readings, *session.readings)
    return session.look()


def show_report(report: Report, folder: Path, *, numbers: bool, why: bool) -> None:
    """Print a report for people."""
    from ..report.build import names_of
    from ..screens.answer import render_answer
    from ..screens.why import render_why

    out = common.console()
    book = open_own_book(folder)
    render_answer(report, out, names_of(book), numbers=numbers)
    if why:
        render_why(report, out, book.sources)


def _ask(folder: Path, on: str | None, *, numbers: bool, why: bool, new: bool) -> Report:
    book = open_own_book(folder)
    with open_home_journal(folder) as journal:
        session = Session(
            book, on=common.day(on), system=journal.load_system(), readings=common.recent_readings(journal)
        )
        number = _resume(journal, session) if not new else None
        if number is None:
            number = journal.begin_case(session.on, "", session.system)
        report = _series(journal, session, number, numbers)
        if not session.told:
            journal.abandon_case(number)
            return report
        summary = report.suspects[0].name if report.suspects else ""
        journal.finish_case(number, common.encode_report(report), book.version, book.hash, summary=summary)
    show_report(report, folder, numbers=numbers, why=why)
    from ..screens import wording

    click.echo(f"\n{wording.SAVED.format(number=number)}")
    return report


def _series(journal: Journal, session: Session, number: int, numbers: bool) -> Report:
    from ..screens.series import Series

    series = Series(
        session, common.console(), common.ask,
        record=lambda told: journal.record_answer(number, told_as_answer(told)),
        forget=lambda: journal.undo_last_answer(number), numbers=numbers,
    )  # fmt: skip
    return series.run()


def _resume(journal: Journal, session: Session) -> int | None:
    """Offer the latest unfinished series again; its number if it is taken up."""
    left = journal.unfinished_cases()
    if not left:
        return None
    last = left[-1]
    typed = common.ask(f"A series of {last.on} stopped after {last.answered} answers. Go on with it? (y/n) ")
    if not typed.strip().lower().startswith("y"):
        journal.abandon_case(last.id)
        return None
    for answer in journal.load_case(last.id).answers:
        session.tell(answer_as_told(answer))
    return last.id
