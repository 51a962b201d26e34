"""`triage case report`: a case on a page, to hand over to an adviser."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from ..errors import UsageError
from . import common
from .common import home_option, json_option, open_home_journal
from .files import new_file
from .journal import existing_home

if TYPE_CHECKING:
    from ..model.book import Book
    from ..report.case_sheet import CaseSheet

Form = Literal["md", "html", "json"]
#: Which form a file's name asks for.
_BY_NAME: dict[str, Form] = {".md": "md", ".html": "html", ".htm": "html", ".json": "json"}


@click.command()
@click.argument("number", type=int)
@click.option(
    "--format", "form", type=click.Choice(["md", "html", "json"]),
    help="Markdown, one HTML page, or JSON; as the file's name says, else Markdown.",
)  # fmt: skip
@click.option("--out", type=click.Path(path_type=Path), help="Write it into this file, or into this folder.")
@click.option("--replace", is_flag=True, help="Write over a file of that name.")
@click.option("--share", is_flag=True, help="Leave out names (system, bed, plant), notes and your own words.")
@home_option
@json_option
def report(
    number: int, form: Form | None, out: Path | None, replace: bool, share: bool, home: str | None, as_json: bool
) -> None:
    """A case on a page for an adviser: what was seen and measured, why, what was advised and done, how it ended.

    The page is complete in itself: charts and pictures are drawn into it, and it loads nothing.

    Example: triage case report 3 --format html --out case-3.html --share
    """
    from ..recall.sheet import build_sheet

    chosen = _form(form, out, as_json)
    folder = existing_home(home)
    book = common.open_book_in(folder, "")  # what was advised was kept in English, so the page is English
    with open_home_journal(folder, read_only=True) as journal:
        sheet = build_sheet(book, journal, number, shared=share)
    text = _rendered(sheet, chosen, book)
    if out is None:
        click.echo(text, nl=False)
        return
    target = out / f"case-{number}.{chosen}" if out.is_dir() else out
    with new_file(target, replace=replace) as file:
        file.write(text)
    click.echo(str(target), err=True)


def _form(form: Form | None, out: Path | None, as_json: bool) -> Form:
    """The form asked for: by --json, by --format, or by the name of the file."""
    if as_json and form not in (None, "json"):
        raise UsageError(f"--json and --format {form} ask for two forms")
    if as_json:
        return "json"
    return form or (_BY_NAME.get(out.suffix.lower(), "md") if out else "md")


def _rendered(sheet: CaseSheet, form: Form, book: Book) -> str:
    if form == "json":
        return common.encode_report(sheet) + "\n"
    from ..screens.sheet import render_sheet

    return render_sheet(sheet, form, book)
