"""Later looks at a case. Their answers stand in the case's own list, behind those of the looks before."""

from __future__ import annotations

import sqlite3

from triage.errors import UsageError

from .answers import count_answers, standing_answers
from .cases import check_known, check_unfinished, convert_row, find_line
from .records import StoredRecheck, StoredReport
from .values import check_day, check_json

_OPEN = """
    SELECT r.* FROM rechecks AS r WHERE r.case_id = ? AND r.id = (SELECT max(id) FROM rechecks WHERE case_id = ?)
        AND NOT EXISTS (SELECT 1 FROM recheck_reports WHERE recheck_id = r.id)"""


def begin_recheck(sql: sqlite3.Connection, case_id: int, on: str, at: str) -> int:
    """Open another look, or go on with one that was begun on that day; its number.

    One that was begun on another day and never finished is left as it is.
    """
    line = find_line(sql, case_id)
    if line.state not in ("finished", "closed"):
        raise UsageError(f"case {case_id} is {line.state}: there is no advice to look back on yet")
    if check_day(on) < line.on:
        raise UsageError(f"case {case_id} was first looked at on {line.on}: a recheck comes later")
    begun = find_open(sql, case_id)
    if begun is not None and begun["day"] == on:
        return int(begun["id"])
    row = (case_id, at, on, count_answers(sql, case_id))
    cursor = sql.execute("INSERT INTO rechecks (case_id, at, day, after) VALUES (?, ?, ?, ?)", row)
    return int(cursor.lastrowid or 0)


def find_open(sql: sqlite3.Connection, case_id: int) -> sqlite3.Row | None:
    """The look that takes answers now; None if there is none."""
    row: sqlite3.Row | None = sql.execute(_OPEN, (case_id, case_id)).fetchone()
    return row


def check_takes_answers(sql: sqlite3.Connection, case_id: int) -> None:
    """UsageError if there is no such case, or neither it nor a recheck of it is unfinished."""
    if find_line(sql, case_id).state == "unfinished" or find_open(sql, case_id) is None:
        check_unfinished(sql, case_id)


def finish_recheck(sql: sqlite3.Connection, recheck_id: int, verdict: str, report: StoredReport) -> None:
    """Keep what the look gave; it takes no more answers."""
    found = sql.execute("SELECT case_id FROM rechecks WHERE id = ?", (recheck_id,)).fetchone()
    begun = find_open(sql, found["case_id"]) if found else None
    if begun is None or begun["id"] != recheck_id:
        raise UsageError(f"there is no unfinished recheck number {recheck_id}")
    row = (
        *(recheck_id, report.at, verdict, report.book_version, report.book_hash, report.summary),
        check_json(report.report),
    )
    columns = "recheck_id, at, verdict, book_version, book_hash, summary, report"
    sql.execute(f"INSERT INTO recheck_reports ({columns}) VALUES (?, ?, ?, ?, ?, ?, ?)", row)


def list_rechecks(sql: sqlite3.Connection, case_id: int) -> tuple[StoredRecheck, ...]:
    """Every later look at the case, the first one first."""
    check_known(sql, case_id)
    rows = sql.execute("SELECT * FROM rechecks WHERE case_id = ? ORDER BY id", (case_id,)).fetchall()
    ends: list[int | None] = [int(row["after"]) for row in rows[1:]]
    return tuple(_load(sql, row, last) for row, last in zip(rows, [*ends, None], strict=False))


def last_looks(sql: sqlite3.Connection, until: str) -> dict[int, str]:
    """The day of the last finished later look at each case, up to a day, by the number of the case."""
    query = """SELECT r.case_id, max(r.day) AS day FROM rechecks AS r JOIN recheck_reports AS p ON p.recheck_id = r.id
        WHERE r.day <= ? GROUP BY r.case_id"""
    return {row["case_id"]: row["day"] for row in sql.execute(query, (until,))}


def _load(sql: sqlite3.Connection, row: sqlite3.Row, last: int | None) -> StoredRecheck:
    found = sql.execute("SELECT * FROM recheck_reports WHERE recheck_id = ?", (row["id"],)).fetchone()
    return StoredRecheck(
        id=row["id"],
        case_id=row["case_id"],
        on=row["day"],
        at=row["at"],
        answers=standing_answers(sql, row["case_id"], row["after"], last),
        verdict=found["verdict"] if found else "",
        report=convert_row(found, StoredReport) if found else None,
    )
