"""`triage water export` and `triage case export`: readings and cases for spreadsheets and other programs."""

from __future__ import annotations

from pathlib import Path

import click

from ..errors import UsageError
from . import common
from .common import home_option, json_option, open_home_journal
from .files import new_file
from .journal import existing_home

_PATH = click.Path(path_type=Path)


@click.command("export")
@click.argument("quantities", nargs=-1)
@click.option("--since", help="From this day on (2026-05-03).")
@click.option("--until", help="Up to this day.")
@click.option("--latest", is_flag=True, help="Only the latest of each quantity at each point.")
@click.option("--csv", "as_csv", is_flag=True, help="A table, one reading a line (this is so if nothing is said).")
@click.option("--out", type=_PATH, help="Write it into this file.")
@click.option("--replace", is_flag=True, help="Write over a file of that name.")
@home_option
@json_option
def export_readings(
    quantities: tuple[str, ...], since: str | None, until: str | None, latest: bool, as_csv: bool, out: Path | None,
    replace: bool, home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """The readings as a table (CSV) or as JSON. QUANTITIES: only these. triage water import reads the table again.

    Example: triage water export ph nitrate --since 2026-05-01 --out water.csv
    """
    from ..recall.tables import WantedReadings, readings_table
    from ..report.tables import readings_csv
    from ..water.readings import find_quantity

    _one_form(as_csv, as_json)
    folder = existing_home(home)
    book = common.open_book_in(folder, "")
    named = [find_quantity(name, book.quantities) for name in quantities]
    wanted = WantedReadings(
        quantities=tuple(quantity.same_as or quantity.quantity for quantity in named), latest=latest,
        since=common.day(since) if since else "", until=common.day(until) if until else "",
    )  # fmt: skip
    with open_home_journal(folder, read_only=True) as journal:
        table = readings_table(book, journal, wanted)
    _write(common.encode_report(table) + "\n" if as_json else readings_csv(table.readings), out, replace)


@click.command("export")
@click.option("--csv", "as_csv", is_flag=True, help="A table, one case a line (this is so if nothing is said).")
@click.option("--out", type=_PATH, help="Write it into this file.")
@click.option("--replace", is_flag=True, help="Write over a file of that name.")
@click.option("--share", is_flag=True, help="Leave out names (bed, plant) and your own words.")
@home_option
@json_option
def export_cases(as_csv: bool, out: Path | None, replace: bool, share: bool, home: str | None, as_json: bool) -> None:
    """Every case as it stands, as a table (CSV) or as JSON; one case with everything: triage case report N --json.

    Example: triage case export --out cases.csv --share
    """
    from ..recall.tables import cases_table
    from ..report.tables import cases_csv

    _one_form(as_csv, as_json)
    folder = existing_home(home)
    book = common.open_book_in(folder, "")
    with open_home_journal(folder, read_only=True) as journal:
        table = cases_table(book, journal, shared=share)
    _write(common.encode_report(table) + "\n" if as_json else cases_csv(table.cases), out, replace)


def _one_form(as_csv: bool, as_json: bool) -> None:
    if as_csv and as_json:
        raise UsageError("--csv and --json ask for two forms")


def _write(text: str, out: Path | None, replace: bool) -> None:
    if out is None:
        click.echo(text, nl=False)
        return
    with new_file(out, replace=replace) as file:
        file.write(text)
    click.echo(str(out), err=True)
