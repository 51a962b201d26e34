"""Readings: added once, never changed; a correction is a new row that stands in for the old one."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence

from triage.errors import UsageError
from triage.model.quantity import Reading

from .records import Fate, StoredReading
from .values import check_day, reading_to_row, row_to_reading

_COLUMNS = (
    *("system", "at", "quantity", "value", "unit", "bound", "step", "low", "high"),
    *("day", "time", "kit", "point", "note", "derived"),
)
_INSERT = f"INSERT INTO readings ({', '.join(_COLUMNS)}) SELECT {', '.join(':' + name for name in _COLUMNS)}"
#: The same measurement typed twice, or a file imported twice. One that was withdrawn may be added again; one that was
#: replaced may not, or a second import would bring the mistake back.
_SAME = ("system", "quantity", "point", "day", "time", "value", "bound", "unit", "kit")
_UNLESS_THERE = f"""
    WHERE NOT EXISTS (
        SELECT 1 FROM readings AS r LEFT JOIN reading_corrections AS c ON c.reading_id = r.id
        WHERE {" AND ".join(f"r.{name} = :{name}" for name in _SAME)} AND (c.id IS NULL OR c.by_id IS NOT NULL))"""
_STANDING = "NOT EXISTS (SELECT 1 FROM reading_corrections AS c WHERE c.reading_id = r.id)"
#: Steps from one (quantity, point) to the next along the index, so it takes as long for a year of readings as for ten.
_LATEST = f"""
    WITH RECURSIVE places (quantity, point) AS (
        SELECT * FROM (
            SELECT quantity, point FROM readings WHERE system = :system ORDER BY quantity, point LIMIT 1)
        UNION ALL
        SELECT r.quantity, r.point FROM places JOIN readings AS r ON r.id = coalesce(
            (SELECT id FROM readings WHERE system = :system AND quantity = places.quantity AND point > places.point
                ORDER BY point LIMIT 1),
            (SELECT id FROM readings WHERE system = :system AND quantity > places.quantity
                ORDER BY quantity, point LIMIT 1)))
    SELECT readings.* FROM places JOIN readings ON readings.id = (
        SELECT id FROM readings AS r INDEXED BY readings_by_quantity
        WHERE system = :system AND r.quantity = places.quantity AND r.point = places.point AND {_STANDING}
        ORDER BY day DESC, time DESC, id DESC LIMIT 1)
    ORDER BY readings.quantity, readings.point"""
#: More readings than this of one quantity at one point, since the day that is asked for, were logged by a meter.
LOGGED_FROM = 500
_COUNTED = """
    SELECT quantity, point, count(*) AS count FROM readings INDEXED BY readings_by_quantity
    WHERE system = ? AND day >= ? GROUP BY quantity, point ORDER BY quantity, point"""
_STANDING_OF = f"""
    SELECT r.* FROM readings AS r INDEXED BY readings_by_quantity
    WHERE system = :system AND quantity = :quantity AND point = :point AND day >= :since AND {_STANDING}"""
#: Everything up to the last row is found in the index alone.
_LAST_OF_DAYS = f"""
    SELECT readings.* FROM (
        SELECT DISTINCT day FROM readings INDEXED BY readings_by_quantity
        WHERE system = :system AND quantity = :quantity AND point = :point AND day >= :since) AS own
    JOIN readings ON readings.id = (
        SELECT id FROM readings AS r INDEXED BY readings_by_quantity
        WHERE system = :system AND quantity = :quantity AND point = :point AND r.day = own.day AND {_STANDING}
        ORDER BY time DESC, value DESC, id DESC LIMIT 1)"""
_HISTORY = """
    SELECT r.*, c.id AS correction_id, c.by_id, c.why FROM readings AS r
    LEFT JOIN reading_corrections AS c ON c.reading_id = r.id
    WHERE r.system = ? ORDER BY r.day, r.time, r.quantity, r.point, r.id"""


def add_readings(sql: sqlite3.Connection, readings: Sequence[Reading], system: str, at: str) -> int:
    """Add what is not there yet; how many were added. One reading that cannot be kept refuses them all."""
    rows = [{**reading_to_row(reading), "system": system, "at": at} for reading in readings]
    before = sql.total_changes
    sql.executemany(_INSERT + _UNLESS_THERE, rows)
    return sql.total_changes - before


def list_readings(sql: sqlite3.Connection, system: str, since: str | None, quantity: str | None) -> tuple[Reading, ...]:
    """The readings that stand, by day, time, quantity, point and number."""
    conditions = ["r.system = :system", _STANDING]
    if since is not None:
        conditions.append("r.day >= :since")
        check_day(since)
    if quantity is not None:
        conditions.append("r.quantity = :quantity")
    query = f"SELECT r.* FROM readings AS r WHERE {' AND '.join(conditions)}"
    values = {"system": system, "since": since, "quantity": quantity}
    rows = sql.execute(query + " ORDER BY r.day, r.time, r.quantity, r.point, r.id", values)
    return tuple(row_to_reading(dict(row)) for row in rows)


def readings_by_day(sql: sqlite3.Connection, system: str, since: str) -> tuple[Reading, ...]:
    """The same from a day on; of what a meter logs all day long only the last one of each day.

    Such a thing is one quantity at one point with more than ``LOGGED_FROM`` readings in that time.
    """
    found = sql.execute(_COUNTED, (system, check_day(since))).fetchall()
    logged = [row for row in found if row["count"] > LOGGED_FROM]
    if not logged:
        return list_readings(sql, system, since, None)
    rows = _of_places(sql, _STANDING_OF, system, since, [row for row in found if row["count"] <= LOGGED_FROM])
    rows += _of_places(sql, _LAST_OF_DAYS, system, since, logged)
    rows.sort(key=lambda row: (row["day"], row["time"], row["quantity"], row["point"], row["id"]))
    return tuple(row_to_reading(dict(row)) for row in rows)


def _of_places(
    sql: sqlite3.Connection, query: str, system: str, since: str, places: Sequence[sqlite3.Row]
) -> list[sqlite3.Row]:
    """The readings of some quantities at some points."""
    values = {"system": system, "since": since}
    rows = []
    for place in places:
        rows += sql.execute(query, {**values, "quantity": place["quantity"], "point": place["point"]}).fetchall()
    return rows


def latest_readings(sql: sqlite3.Connection, system: str) -> tuple[Reading, ...]:
    """The latest standing reading of each quantity at each point, by quantity and point."""
    return tuple(row_to_reading(dict(row)) for row in sql.execute(_LATEST, {"system": system}))


def reading_history(sql: sqlite3.Connection, system: str) -> Iterator[StoredReading]:
    """Every reading ever added, with its number and what became of it."""
    for row in sql.execute(_HISTORY, (system,)):
        yield StoredReading(
            id=row["id"],
            reading=row_to_reading(dict(row)),
            at=row["at"],
            fate=_fate(row),
            replaced_by=row["by_id"],
            why=row["why"] or "",
        )


def _fate(row: sqlite3.Row) -> Fate:
    if row["correction_id"] is None:
        return ""
    return "withdrawn" if row["by_id"] is None else "replaced"


def replace_reading(sql: sqlite3.Connection, reading_id: int, reading: Reading, why: str, at: str) -> int:
    """Let ``reading`` stand in for an earlier one; the number of the new row."""
    row = {**reading_to_row(reading), "system": _find_standing(sql, reading_id), "at": at}
    by_id = int(sql.execute(_INSERT, row).lastrowid or 0)
    _record_correction(sql, reading_id, by_id, why, at)
    return by_id


def withdraw_reading(sql: sqlite3.Connection, reading_id: int, why: str, at: str) -> None:
    """Let a reading no longer count."""
    _find_standing(sql, reading_id)
    _record_correction(sql, reading_id, None, why, at)


def _record_correction(sql: sqlite3.Connection, reading_id: int, by_id: int | None, why: str, at: str) -> None:
    row = (reading_id, by_id, at, why)
    sql.execute("INSERT INTO reading_corrections (reading_id, by_id, at, why) VALUES (?, ?, ?, ?)", row)


def _find_standing(sql: sqlite3.Connection, reading_id: int) -> str:
    query = f"SELECT r.system, {_STANDING} AS stands FROM readings AS r WHERE r.id = ?"
    row = sql.execute(query, (reading_id,)).fetchone()
    if row is None:
        raise UsageError(f"there is no reading number {reading_id}")
    if not row["stands"]:
        raise UsageError(f"reading number {reading_id} was corrected already: correct the one that stands now")
    return str(row["system"])
