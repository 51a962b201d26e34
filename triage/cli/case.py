"""`triage case list|show|did|close`."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click
import msgspec

from ..errors import UsageError
from ..screens import garden_words as words
from . import common
from .case_list import list_cases
from .common import home_folder, home_option, json_option, open_home_journal, print_json
from .later import LATER

if TYPE_CHECKING:
    from ..recall.kept import KeptCase


@click.group()
def case() -> None:
    """Look at saved cases; say what was done and how it ended.

    Example: triage case list
    """


@case.command()
@click.argument("number", type=int)
@click.option("--numbers", is_flag=True, help="Show probabilities beside the words.")
@click.option("--full", is_flag=True, help="Show every suspect, step, caution and reading.")
@click.option("--why", is_flag=True, help="Show what fired for the first suspect, with the sources.")
@home_option
@json_option
def show(number: int, numbers: bool, full: bool, why: bool, home: str | None, as_json: bool) -> None:
    """One case: what was told, what was advised, what was done.

    Example: triage case show 3 --full
    """
    from ..recall.kept import load_kept

    folder = home_folder(home)
    _must_exist(folder)
    with open_home_journal(folder, read_only=True) as journal:
        kept = load_kept(journal, number)
    if as_json:
        print_json(_as_data(kept))
        return
    from ..screens.cases import render_case

    if kept.report is not None:
        report = msgspec.structs.replace(kept.report, report=common.retold(folder, kept.report.report))
        kept = kept._replace(report=report)
    render_case(kept, common.console(), common.open_own_book(folder), numbers=numbers, full=full, why=why)


def _as_data(kept: KeptCase) -> dict[str, object]:
    """The case for programs: the first report whole, later looks in a line each."""
    return {
        "format": "triage-stored-case/1", "case": kept.case,
        "report": json.loads(kept.report.report) if kept.report else None, "actions": kept.actions,
        "closings": kept.closings, "place": kept.place, "outcome": kept.outcome,
        "looks": [
            {"id": look.id, "on": look.on, "verdict": look.verdict, "finished": look.report is not None}
            for look in kept.looks
        ],
        "photos": [{"photo": each.photo, "state": each.state} for each in kept.photos],
    }  # fmt: skip


@case.command()
@click.argument("number", type=int)
@click.argument("what", nargs=-1, required=True)
@click.option("--on", help="Day it was done; today if not said.")
@home_option
@json_option
def did(number: int, what: tuple[str, ...], on: str | None, home: str | None, as_json: bool) -> None:
    """Record what was done about a case.

    Example: triage case did 3 iron chelate, 20 g
    """
    from ..intake import clean_text

    folder = home_folder(home)
    _must_exist(folder)
    said = clean_text(" ".join(what))
    with open_home_journal(folder) as journal:
        action = journal.record_action(number, said, common.day(on))
    if as_json:
        print_json({"format": "triage-action/1", "action": action, "case": number, "what": said})
    else:
        common.speak_here()
        click.echo(words.DID_KEPT.format(number=number, what=said))


@case.command()
@click.argument("number", type=int)
@click.option("--outcome", required=True, help="How it ended, in your words: well again, lost, something else.")
@click.option("--note", default="", help="Anything worth keeping.")
@home_option
@json_option
def close(number: int, outcome: str, note: str, home: str | None, as_json: bool) -> None:
    """Close a case and say how it ended; a later close corrects an earlier one.

    Example: triage case close 3 --outcome "well again"
    """
    from ..intake import clean_text

    folder = home_folder(home)
    _must_exist(folder)
    with open_home_journal(folder) as journal:
        journal.close_case(number, clean_text(outcome), clean_text(note))
    if as_json:
        print_json({"format": "triage-closing/1", "case": number, "outcome": clean_text(outcome)})
    else:
        common.speak_here()
        click.echo(words.CLOSED_KEPT.format(number=number, outcome=clean_text(outcome)))


def _must_exist(folder: object) -> None:
    from pathlib import Path

    if not common.has_journal(Path(str(folder))):
        raise UsageError(f"no cases are kept in {folder} (begin one: triage plant)")


for later in (list_cases, *LATER):
    case.add_command(later)
