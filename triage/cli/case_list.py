"""`triage case list`: every case, or those of a bed, a crop, a cause."""

from __future__ import annotations

import click

from . import common
from .common import home_folder, home_option, json_option, open_home_journal, open_own_book, print_json
from .naming import cause_id, crop_id

#: So many of the latest cases are listed for people where nobody says how many.
SHOWN = 50


@click.command("list")
@click.option("--open", "state", flag_value="open", help="Only those that are not closed.")
@click.option("--closed", "state", flag_value="closed", help="Only those that are closed.")
@click.option("--crop", help="Only this crop: an id or a name.")
@click.option("--bed", default="", help="Only this bed.")
@click.option("--cause", help="Only what was this, or is taken for it: an id or a name.")
@click.option("--since", help="Only those first looked at on this day (2026-05-04) or later.")
@click.option("--last", type=click.IntRange(1), help="At most so many of the latest; 50, or all with --json.")
@click.option("--all", "every", is_flag=True, help="All of them, however many.")
@home_option
@json_option
def list_cases(
    state: str | None, crop: str | None, bed: str, cause: str | None, since: str | None, last: int | None,
    every: bool, home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """Every case, newest first, with what it is taken for now; or only some of them.

    Example: triage case list --open --crop cucumber --cause "spider mites" --since 2026-05-01
    """
    from ..recall.listing import CaseList, Wanted, list_wanted

    folder = home_folder(home)
    book = open_own_book(folder)
    wanted = Wanted(
        state=state or "", crop=crop_id(book, crop), bed=bed.strip(), cause=cause_id(book, cause),
        since=common.day(since) if since else "",
    )  # fmt: skip
    limit = None if every else last or (None if as_json else SHOWN)
    found = CaseList(cases=(), of=0)
    if common.has_journal(folder):
        with open_home_journal(folder, read_only=True) as journal:
            found = list_wanted(book, journal, wanted, limit=limit)
    if as_json:
        print_json(found)
        return
    from ..screens.cases import render_cases
    from ..screens.garden_words import LATEST

    render_cases(found.cases, common.console(), book, of=found.of)
    if limit is not None and len(found.cases) == limit < found.of:
        click.echo(LATEST.format(limit, found.of))
