"""The whole journal as JSON Lines and back, row by row, so that the copy exports to the very same lines.

The first line names the format and the version of the tables, the last one counts the rows (a file cut short is
noticed). Every other line is one row: its table, then its columns. Tables come by name, rows by number.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator
from typing import Any

import msgspec

from triage.errors import UsageError

from . import schema
from .checks import find_damage
from .migrate import apply_migrations, find_version

FORMAT = "triage-journal/1"
#: A row may come before the one it belongs to; that all of them belong is seen to at the end.
_DEFER = "PRAGMA defer_foreign_keys = ON"


def list_tables(sql: sqlite3.Connection) -> tuple[str, ...]:
    """The tables that hold entries, by name."""
    query = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%' AND name <> 'migrations'"
    return tuple(row[0] for row in sql.execute(query + " ORDER BY name"))


def export_rows(sql: sqlite3.Connection, write: Callable[[str], object]) -> int:
    """Hand every line, with its line end, to ``write``; how many rows."""
    write(_line({"format": FORMAT, "version": find_version(sql)}))
    count = 0
    for table in list_tables(sql):
        for row in sql.execute(f"SELECT * FROM {table} ORDER BY id"):
            write(_line({"table": table, **dict(row)}))
            count += 1
    write(_line({"rows": count}))
    return count


def import_rows(sql: sqlite3.Connection, lines: Iterable[str], now: Callable[[], str]) -> int:
    """Fill an empty journal from exported lines, also those of an earlier version; how many rows.

    UsageError, naming the line, for anything that is not a whole export; then nothing may be kept.
    """
    if any(sql.execute(f"SELECT 1 FROM {table}").fetchone() for table in list_tables(sql)):
        raise UsageError("the journal already has entries: import into an empty one (another --home)")
    staged = sqlite3.connect(":memory:", isolation_level=None)
    staged.row_factory = sqlite3.Row
    staged.execute("PRAGMA foreign_keys = ON")
    try:
        count = _stage(staged, lines, now)
        apply_migrations(staged, schema.MIGRATIONS, now)
        for damage in find_damage(staged):
            raise UsageError(f"these entries cannot be kept: {damage}")
        sql.execute(_DEFER)
        for table in list_tables(staged):
            for row in staged.execute(f"SELECT * FROM {table} ORDER BY id"):
                _insert(sql, table, dict(row))
    finally:
        staged.close()
    return count


def _stage(staged: sqlite3.Connection, lines: Iterable[str], now: Callable[[], str]) -> int:
    """Fill a journal of the version the lines were written by."""
    numbered = _decode(lines)
    _, first = next(numbered, (1, {}))
    apply_migrations(staged, schema.MIGRATIONS[: _read_version(first)], now)
    staged.execute("BEGIN")
    staged.execute(_DEFER)
    count = _take_all(staged, numbered)
    for row in staged.execute("PRAGMA foreign_key_check"):
        raise UsageError(f"{row['table']} {row['rowid']} belongs to an entry of {row['parent']} that is not there")
    staged.execute("COMMIT")
    return count


def _take_all(staged: sqlite3.Connection, numbered: Iterator[tuple[int, dict[str, Any]]]) -> int:
    known = {table: _columns(staged, table) for table in list_tables(staged)}
    for number, line in numbered:
        if "rows" in line:
            _check_end(number, line, numbered)
            return number - 2
        _take(staged, known, number, line)
    raise UsageError("the export was cut short: its last line is missing")


def _decode(lines: Iterable[str]) -> Iterator[tuple[int, dict[str, Any]]]:
    number = 1
    try:
        for number, line in enumerate(lines, 1):
            yield number, msgspec.json.decode(line, type=dict[str, Any])
    except (msgspec.MsgspecError, RecursionError, UnicodeError) as error:
        raise UsageError(f"line {number}: not a line of an exported journal: {error}") from error


def _read_version(first: dict[str, Any]) -> int:
    version = first.get("version")
    if first.get("format") != FORMAT or type(version) is not int or version < 1:
        raise UsageError(f"line 1: not an exported journal (format {FORMAT})")
    newest = len(schema.MIGRATIONS)
    if version > newest:
        raise UsageError(
            f"line 1: exported by a later version of this program ({version}, this one reads up to {newest})"
        )
    return version


def _take(staged: sqlite3.Connection, known: dict[str, set[str]], number: int, line: dict[str, Any]) -> None:
    table = line.pop("table", "")
    if not isinstance(table, str) or line.keys() != known.get(table):
        raise UsageError(f"line {number}: not an entry of this journal")
    try:
        _insert(staged, table, line)
    except (sqlite3.IntegrityError, sqlite3.ProgrammingError, OverflowError) as error:
        raise UsageError(f"line {number}: this entry cannot be kept: {error}") from error


def _check_end(number: int, line: dict[str, Any], rest: Iterator[tuple[int, dict[str, Any]]]) -> None:
    if line != {"rows": number - 2}:
        raise UsageError(f"line {number}: {line['rows']} entries were exported, and {number - 2} are here")
    if next(rest, None) is not None:
        raise UsageError(f"line {number + 1}: something follows the end of the export")


def _insert(sql: sqlite3.Connection, table: str, row: dict[str, Any]) -> None:
    """``table`` and the columns are names of our own tables, checked before."""
    marks = ", ".join("?" * len(row))
    sql.execute(f"INSERT INTO {table} ({', '.join(row)}) VALUES ({marks})", tuple(row.values()))


def _columns(sql: sqlite3.Connection, table: str) -> set[str]:
    return {row["name"] for row in sql.execute(f"PRAGMA table_info({table})")}


def _line(entry: dict[str, Any]) -> str:
    return msgspec.json.encode(entry).decode() + "\n"
