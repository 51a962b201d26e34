"""Is the file whole? SQLite's own checks, the tables as they should be, and every entry readable."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator

import msgspec

from triage.errors import UsageError
from triage.model.garden import Bed, Plant

from . import schema
from .answers import answer_history, check_answer
from .migrate import apply_migrations
from .outcomes import decode_causes
from .systems import decode_system
from .values import check_day, check_json, is_keepable, row_to_reading


def find_damage(sql: sqlite3.Connection) -> Iterator[str]:
    """One line for each thing that is wrong; sqlite3.DatabaseError if the file cannot even be read that far."""
    damage = [row[0] for row in sql.execute("PRAGMA integrity_check") if row[0] != "ok"]
    yield from damage
    if damage:
        return
    for row in sql.execute("PRAGMA foreign_key_check"):
        yield f"{row['table']} {row['rowid']}: belongs to an entry of {row['parent']} that is not there"
    changed = _find_changed(sql)
    yield from (f"the table, index or trigger {name} is {state}" for name, (_, state) in changed.items())
    if any(kind == "table" and state != "unknown" for kind, state in changed.values()):
        return  # entries cannot be looked for in tables that are not ours
    yield from _find_unreadable(sql, "SELECT * FROM systems", "systems", lambda row: decode_system(row["record"]))
    yield from _find_unreadable(sql, "SELECT * FROM readings", "readings", _check_reading)
    yield from _find_unreadable(sql, "SELECT * FROM reports", "reports", lambda row: check_json(row["report"]))
    yield from _find_unreadable(sql, "SELECT * FROM cases", "cases", lambda row: _check_case(sql, row))
    yield from _find_unreadable(sql, f"SELECT * FROM {_RECHECKS}", "rechecks", _check_recheck)
    for table, check in _OTHERS.items():
        yield from _find_unreadable(sql, f"SELECT * FROM {table}", table, check)


def _check_recheck(row: sqlite3.Row) -> None:
    check_day(row["day"])
    if row["after"] > row["answered"] or row["after"] < row["earlier"]:
        raise UsageError("it stands behind answers that are not there")


_RECHECKS = """(SELECT r.*, (SELECT count(*) FROM answers WHERE case_id = r.case_id) AS answered,
    coalesce((SELECT max(after) FROM rechecks WHERE case_id = r.case_id AND id < r.id), 0) AS earlier
    FROM rechecks AS r)"""
#: What else is written as JSON, or must be a day.
_OTHERS: dict[str, Callable[[sqlite3.Row], object]] = {
    "beds": lambda row: msgspec.json.decode(row["record"], type=Bed),
    "plants": lambda row: msgspec.json.decode(row["record"], type=Plant),
    "outcomes": lambda row: decode_causes(row["causes"]),
    "recheck_reports": lambda row: check_json(row["report"]),
    "actions": lambda row: check_day(row["day"]),
    "photos": lambda row: check_day(row["day"]),
}


def _find_changed(sql: sqlite3.Connection) -> dict[str, tuple[str, str]]:
    """Tables, indexes and triggers that are not as they should be: by name, what kind of thing and in which state."""
    fresh = sqlite3.connect(":memory:", isolation_level=None)
    try:
        apply_migrations(fresh, schema.MIGRATIONS, lambda: "")
        expected, found = _schema(fresh), _schema(sql)
    finally:
        fresh.close()
    changed = {}
    for name in sorted(expected.keys() | found.keys()):
        if expected.get(name) != found.get(name):
            state = "missing" if name not in found else "unknown" if name not in expected else "changed"
            changed[name] = ((expected.get(name) or found[name])[0], state)
    return changed


def _schema(sql: sqlite3.Connection) -> dict[str, tuple[str, str]]:
    rows = sql.execute("SELECT name, type, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite%'")
    return {name: (kind, text) for name, kind, text in rows}


def _find_unreadable(
    sql: sqlite3.Connection, query: str, table: str, check: Callable[[sqlite3.Row], object]
) -> Iterator[str]:
    for row in sql.execute(query):
        try:
            check(row)
        except (msgspec.MsgspecError, UsageError, TypeError) as error:
            yield f"{table} {row['id']}: {error}"


def _check_reading(row: sqlite3.Row) -> None:
    if not is_keepable(row_to_reading(dict(row))):
        raise UsageError("a number or a limit that cannot be")


def _check_case(sql: sqlite3.Connection, row: sqlite3.Row) -> None:
    decode_system(row["system"])
    places = [seq for (seq,) in sql.execute("SELECT seq FROM answers WHERE case_id = ? ORDER BY seq", (row["id"],))]
    if places != list(range(1, len(places) + 1)):
        raise UsageError("an answer is missing")
    for answer in answer_history(sql, row["id"]):
        check_answer(answer)
