"""`triage journal backup|export|import|check`: the file that keeps everything, as a whole."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from ..errors import UsageError
from ..screens import garden_words as words
from . import common
from .common import home_folder, home_option, json_option, open_home_journal, print_json
from .files import new_file, text_lines

_PATH = click.Path(path_type=Path)


@click.group()
def journal() -> None:
    """Keep, move and check the file that holds your readings and cases.

    Example: triage journal check
    """


def existing_home(home: str | None) -> Path:
    """The home, which must hold a journal. Errors: UsageError."""
    folder = home_folder(home)
    if not common.has_journal(folder):
        raise UsageError(f"nothing is kept in {folder} yet (begin with: triage plant)")
    return folder


@journal.command()
@click.argument("target", type=_PATH)
@home_option
@json_option
def backup(target: Path, home: str | None, as_json: bool) -> None:
    """Copy the journal into a new file, or into a folder under the day's name; works while it is in use.

    Put it back by copying it to journal.sqlite3 in an empty home.

    Example: triage journal backup /media/stick
    """
    folder = existing_home(home)
    if target.is_dir():
        target = target / f"journal-{common.today()}.sqlite3"
    with open_home_journal(folder, read_only=True) as opened:
        opened.backup(target)
    if as_json:
        print_json({"format": "triage-journal-backup/1", "file": str(target)})
    else:
        common.speak_here()
        click.echo(words.COPIED.format(target))


@journal.command()
@click.argument("target", type=_PATH, required=False)
@click.option("--replace", is_flag=True, help="Write over a file of that name.")
@home_option
@json_option
def export(target: Path | None, replace: bool, home: str | None, as_json: bool) -> None:
    """Write everything as JSON Lines, one entry a line; to standard output if no file is named.

    Example: triage journal export garden.jsonl
    """
    folder = existing_home(home)
    if target is None and as_json:
        raise UsageError("--json says what was written, so it needs a file: triage journal export FILE --json")
    with open_home_journal(folder, read_only=True) as opened:
        if target is None:
            opened.export_lines(sys.stdout.write)
            return
        with new_file(target, replace=replace) as file:
            entries = opened.export_lines(file.write)
    if as_json:
        print_json({"format": "triage-journal-export/1", "file": str(target), "entries": entries})
    else:
        common.speak_here()
        click.echo(words.EXPORTED.format(entries=entries, file=target))


@journal.command("import")
@click.argument("source", type=_PATH)
@home_option
@json_option
def import_(source: Path, home: str | None, as_json: bool) -> None:
    """Fill an empty home from an exported file: all of it, or nothing.

    Example: triage journal import garden.jsonl --home new-folder
    """
    folder = home_folder(home)
    with text_lines(source) as lines, open_home_journal(folder) as opened:
        entries = opened.import_lines(lines)
    if as_json:
        print_json({"format": "triage-journal-import/1", "file": str(source), "entries": entries})
    else:
        common.speak_here()
        click.echo(words.IMPORTED.format(entries=entries, file=source))


@journal.command()
@home_option
@json_option
def check(home: str | None, as_json: bool) -> None:
    """Is the file whole? Changes nothing; exit 1 if something is wrong with it.

    Example: triage journal check
    """
    from ..journal import JOURNAL_FILE, check_journal

    folder = home_folder(home)
    damage = check_journal(folder)
    if as_json:
        print_json({"format": "triage-journal-check/1", "file": str(folder / JOURNAL_FILE), "damage": damage})
    elif not damage:
        common.speak_here()
        click.echo(words.WHOLE if common.has_journal(folder) else words.NOTHING_KEPT.format(folder))
    for line in [] if as_json else damage:
        click.echo(line)
    if damage:
        sys.exit(1)
