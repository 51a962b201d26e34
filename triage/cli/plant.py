"""`triage plant`: the question series beside the plant, or the same from a file."""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ..errors import UsageError
from ..report.case_report import Report
from ..session import Session, told_as_answer
from . import common
from .common import home_folder, home_option, json_option, open_home_journal, open_own_book, plain_option, print_json
from .written import Desk

if TYPE_CHECKING:
    from ..journal import CasePlace, Journal
    from ..screens.series import Series
    from .many import Count


@click.command()
@click.option(
    "--from", "case_file", type=click.Path(path_type=Path), help="A CASE.yaml, or a folder of them: nothing is asked."
)
@click.option("--on", help="Day of the look (2026-05-04); today if not said.")
@click.option("--numbers", is_flag=True, help="Show probabilities beside the words.")
@click.option("--full", is_flag=True, help="Show every suspect, step, caution and reading.")
@click.option("--why", is_flag=True, help="Show what fired for the first suspect, with the sources.")
@click.option("--exit-on-alarm", is_flag=True, help="Exit with 1 if there is an alarm.")
@click.option("--new", is_flag=True, help="Begin anew; leave an unfinished series alone.")
@click.option("--bed", default="", help="The bed you stand at, as you call it.")
@click.option("--plant", "name", default="", help="The plant or row you look at, as you call it.")
@click.option("--keep", is_flag=True, help="With --from and one file: keep it as a case, as the questions do.")
@click.option("--out", type=click.Path(path_type=Path), help="With a folder: JSON Lines into this file; resumes there.")
@click.option("--jobs", type=click.IntRange(1, 64), help="With a folder: how many processes.")
@plain_option
@home_option
@json_option
def plant(
    case_file: Path | None, on: str | None, numbers: bool, full: bool, why: bool, exit_on_alarm: bool, new: bool,
    bed: str, name: str, keep: bool, out: Path | None, jobs: int | None, home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """Answer a few questions beside a plant: likely causes, the deciding check, what the fish survive.

    Example: triage plant --from demo/iron.yaml
    """
    folder = home_folder(home)
    if case_file is None and as_json:
        raise UsageError("--json asks nothing, so it needs --from CASE.yaml")
    if keep and (case_file is None or case_file.is_dir()):
        raise UsageError("--keep goes with --from and one CASE.yaml")
    if (bed or name) and case_file is not None and not keep:
        raise UsageError("a case from a file is not kept, so it has no --bed and --plant: add --keep to keep it")
    if (out is not None or jobs is not None) and not (case_file is not None and case_file.is_dir()):
        raise UsageError("--out and --jobs go with --from and a folder of cases")
    if case_file is not None and case_file.is_dir():
        count = _from_folder(case_file, on, folder, as_json=as_json, jobs=jobs, out=out)
        sys.exit(1 if count.bad or (exit_on_alarm and count.alarms) else 0)
    if case_file is not None:
        session = Desk(folder, on).open(case_file)
        report = session.look()
        if as_json:
            print_json(report)
        else:
            show_report(report, folder, numbers=numbers, full=full, why=why, more=not keep)
        if keep:
            _say_saved(_keep(folder, session, report, (bed, name)), full or why, aside=as_json)
    else:
        report = _ask(folder, on, (bed, name), numbers=numbers, full=full, why=why, new=new)
    if exit_on_alarm and report.alarms:
        sys.exit(1)


def _from_folder(
    cases: Path, on: str | None, home: Path, *, as_json: bool, jobs: int | None, out: Path | None
) -> Count:
    """Every case of a folder, a line each; what came of it goes to standard error."""
    from ..screens.many import say_count, show_looked
    from .many import Looked, look_at_folder

    page = common.page()

    def show(looked: Looked) -> None:
        show_looked(page, looked.case, bytes(looked.report or b""), looked.faults)

    count = look_at_folder(cases, home, on, jobs=jobs, out=out, show=None if as_json or out else show)
    click.echo(say_count(count.looked, count.bad, count.alarms, count.before), err=True)
    return count


def show_report(
    report: Report, folder: Path, *, numbers: bool, full: bool, why: bool, heard: bool = True, more: bool = False
) -> None:
    """Print a report for people; ``more`` says how to see more of it."""
    from ..report.names import Names
    from ..screens import wording
    from ..screens.answer import render_answer
    from ..screens.style import line

    out = common.page()
    book = open_own_book(folder)
    render_answer(report, out, Names(book), numbers=numbers, full=full, heard=heard)
    if why:
        from ..screens.why import render_why

        render_why(report, out, book)
    if more and not full and not why:
        out.print()
        line(out, wording.MORE, indent=0)


def _ask(
    folder: Path, on: str | None, where: tuple[str, str], *, numbers: bool, full: bool, why: bool, new: bool
) -> Report:
    """The series and its answer; ``where`` is the bed and the plant, as far as they were said."""
    from ..recall.looks import keep_look, open_look

    with open_home_journal(folder) as journal:
        session = open_look(open_own_book(folder), journal, common.day(on))
        number, report = _talk(journal, session, where, new=new)
        if number is None:
            return report
        keep_look(journal, session, number, _in_english(folder, journal, session, report))
    show_report(report, folder, numbers=numbers, full=full, why=why, heard=False)
    _say_saved(number, full or why)
    return report


def _keep(folder: Path, session: Session, report: Report, where: tuple[str, str]) -> int:
    """Keep a written case as if it had been told in the series; its number. Errors: UsageError, JournalError."""
    from ..recall.looks import keep_written

    with open_home_journal(folder) as journal, journal.all_or_nothing():
        in_english = partial(_in_english, folder, journal, session, report)
        return keep_written(journal, session, _place(where), in_english)


def _in_english(folder: Path, journal: Journal, session: Session, report: Report) -> Report:
    """The same answer as the journal keeps it."""
    if not session.book.language:
        return report
    from ..recall.looks import open_look

    with common.in_english(folder) as book:
        again = open_look(book, journal, session.on)
        again.system, again.told = session.system, session.told
        return again.look(with_question=report.next_question is not None)


def _talk(journal: Journal, session: Session, where: tuple[str, str], *, new: bool) -> tuple[int | None, Report]:
    """Put the questions; the number of the case, if it is to be answered now, and the report.

    Every answer is in the journal before the next question is put.
    """
    from ..screens import wording
    from ..screens.resume import offer_to_resume

    try:
        number = None if new else offer_to_resume(journal, session, common.console(), common.ask)
        if number is None:
            number = journal.begin_case(session.on, "", session.system)
        if any(where):
            journal.place_case(number, _place(where))
        series = _series(journal, session, number)
        report = series.run()
        if session.told and series.ended != "kept" and _ask_needed(journal, session):
            report = series.report()
    except KeyboardInterrupt:
        click.echo(f"\n{wording.STOPPED}", err=True)
        sys.exit(130)
    if not session.told:
        journal.abandon_case(number)
        click.echo(wording.NOTHING_WAS_TOLD)
    return (number if session.told and series.ended != "kept" else None), report


def _place(where: tuple[str, str]) -> CasePlace:
    from ..intake import clean_text
    from ..journal import CasePlace

    return CasePlace(bed=clean_text(where[0]), plant=clean_text(where[1]))


def _ask_needed(journal: Journal, session: Session) -> bool:
    """Ask for volume and animals where nobody ever said them; whether something was said."""
    from ..screens import setup_words as words
    from ..screens.setup import NEEDED, ask_system
    from ..screens.style import line

    missing = [part for part in NEEDED if not getattr(session.system, part)]
    if not missing:
        return False
    out = common.console()
    out.print()
    line(out, words.NEEDED, indent=0)
    before = session.system
    session.system = ask_system(before, session.book, out, common.ask, journal.save_system, missing)
    return session.system != before


def _say_saved(number: int, all_shown: bool, *, aside: bool = False) -> None:
    """``aside``: on standard error, where a program reads the answer."""
    from ..screens import wording
    from ..screens.style import line

    said = (wording.SAVED if all_shown else wording.SAVED_MORE).format(number=number)
    if aside:
        click.echo(said, err=True)
        return
    out = common.console()
    out.print()
    line(out, said, indent=0)


def _series(journal: Journal, session: Session, number: int) -> Series:
    from ..screens.series import Series

    return Series(
        session, common.console(), common.ask,
        record=lambda told: journal.record_answer(number, told_as_answer(told)),
        forget=lambda: journal.undo_last_answer(number),
    )  # fmt: skip
