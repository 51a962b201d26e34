"""`triage water import`: many readings from a table, each refused row named with its reason."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from ..errors import UsageError
from . import common
from .common import home_folder, home_option, json_option, open_home_journal, open_own_book, print_json

if TYPE_CHECKING:
    from ..journal import Journal
    from ..water.table import Table


@click.command("import")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--decimal", type=click.Choice(["point", "comma"]), help="How decimals are written: 7.2 or 7,2.")
@click.option("--dates", type=click.Choice(["ymd", "dmy", "mdy"]), help="Order of day, month and year.")
@click.option("--delimiter", type=click.Choice(["comma", "semicolon", "tab"]), help="What parts the columns.")
@click.option("--on", help="Day of all readings, where no column tells it.")
@click.option("--kit", default="", help="What gave the numbers, where no column tells it: card, drops, strip, meter.")
@click.option("--point", default="", help="Where the water was taken, where no column tells it.")
@click.option("--preview", is_flag=True, help="Show what would be recorded; record nothing.")
@home_option
@json_option
@click.pass_context
def import_(
    ctx: click.Context, file: Path, decimal: str | None, dates: str | None, delimiter: str | None, on: str | None,
    kit: str, point: str, preview: bool, home: str | None, as_json: bool,
) -> None:  # fmt: skip
    """Record the readings of a CSV table; a row that cannot be read is named and left out, the others are kept.

    The first line heads the columns: date, pH, nitrate (mg/L NO3), kh (dKH) ... The same file twice adds nothing.

    Example: triage water import readings.csv --dates dmy --decimal comma --preview
    """
    from ..screens.water_table import render_table
    from ..water.table import Asked, read_table

    folder = home_folder(home)
    book = open_own_book(folder)
    marks = {"comma": ",", "semicolon": ";", "tab": "\t"}
    asked = Asked(
        decimal=decimal, dates=dates, delimiter=marks[delimiter] if delimiter else "",  # type: ignore[arg-type]
        on=common.day(on) if on else "", kit=kit, point=point, today=common.today(),
    )  # fmt: skip
    table = read_table(_read(file), book.quantities, asked)
    added, table = (0, table) if preview else _record(folder, table)
    if as_json:
        print_json({"format": "triage-readings/1", "preview": preview, "added": added,
                    "known": 0 if preview else len(table.readings) - added, "readings": table.readings,
                    "refused": table.refused, "columns": table.columns})  # fmt: skip
    else:
        render_table(table, common.console(), book.quantities, added=None if preview else added)
    if table.refused:
        ctx.exit(1)


def _read(file: Path) -> str:
    try:
        return file.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise UsageError(f"{file} cannot be read ({error.strerror})") from None
    except UnicodeDecodeError:
        raise UsageError(f"{file} is not UTF-8 text (save the table as CSV, UTF-8)") from None


def _record(folder: Path, table: Table) -> tuple[int, Table]:
    """Keep every row; where the journal refuses one, that row alone is left out."""
    with open_home_journal(folder) as journal:
        try:
            return journal.add_readings(table.readings), table
        except UsageError:
            return _record_rows(journal, table)


def _record_rows(journal: Journal, table: Table) -> tuple[int, Table]:
    import msgspec

    from ..water.table import Refused

    added, kept, refused = 0, [], list(table.refused)
    for row in table.rows:
        try:
            added += journal.add_readings(row.readings)
            kept.append(row)
        except UsageError as error:
            refused.append(Refused(line=row.line, why=(str(error),), text=""))
    refused.sort(key=lambda row: row.line)
    return added, msgspec.structs.replace(table, rows=tuple(kept), refused=tuple(refused))
