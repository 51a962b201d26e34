"""What was done about a case; a correction is a new row that stands in for the old one, or takes it back."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from triage.errors import UsageError

from .cases import check_known, convert_row
from .records import CorrectedAction, StoredAction
from .values import check_day

_FIELDS = 'a.id, a.what, a.day AS "on", a.note, a.at, a.treatment'
_STANDING = "NOT EXISTS (SELECT 1 FROM action_corrections AS c WHERE c.action_id = a.id)"
_HISTORY = f"""
    SELECT {_FIELDS}, c.by_id AS replaced_by, coalesce(c.why, '') AS why,
        CASE WHEN c.id IS NULL THEN '' WHEN c.by_id IS NULL THEN 'withdrawn' ELSE 'replaced' END AS fate
    FROM actions AS a LEFT JOIN action_corrections AS c ON c.action_id = a.id
    WHERE a.case_id = ? ORDER BY a.day, a.id"""


def record_action(
    sql: sqlite3.Connection, case_id: int, what: str, on: str, note: str, at: str, treatment: str = ""
) -> int:
    """Keep what was done about the case; the number of the row."""
    check_known(sql, case_id)
    if not what.strip():
        raise UsageError("say what was done")
    row = (case_id, at, what, check_day(on), note, treatment)
    columns = "case_id, at, what, day, note, treatment"
    cursor = sql.execute(f"INSERT INTO actions ({columns}) VALUES (?, ?, ?, ?, ?, ?)", row)
    return int(cursor.lastrowid or 0)


def list_actions(sql: sqlite3.Connection, case_id: int) -> tuple[StoredAction, ...]:
    """What was done about the case and stands, by day."""
    check_known(sql, case_id)
    query = f"SELECT {_FIELDS} FROM actions AS a WHERE a.case_id = ? AND {_STANDING} ORDER BY a.day, a.id"
    return tuple(convert_row(row, StoredAction) for row in sql.execute(query, (case_id,)))


def action_history(sql: sqlite3.Connection, case_id: int) -> Iterator[CorrectedAction]:
    """Everything that was ever recorded as done, and what became of the entry."""
    check_known(sql, case_id)
    for row in sql.execute(_HISTORY, (case_id,)):
        yield convert_row(row, CorrectedAction)


def replace_action(sql: sqlite3.Connection, action_id: int, what: str, on: str, note: str, why: str, at: str) -> int:
    """Let another entry stand in for an earlier one; the number of the new row."""
    case_id, treatment = _find_standing(sql, action_id)
    by_id = record_action(sql, case_id, what, on, note, at, treatment)
    _record_correction(sql, action_id, by_id, why, at)
    return by_id


def withdraw_action(sql: sqlite3.Connection, action_id: int, why: str, at: str) -> None:
    """Let an entry no longer count: it was not done after all."""
    _find_standing(sql, action_id)
    _record_correction(sql, action_id, None, why, at)


def _record_correction(sql: sqlite3.Connection, action_id: int, by_id: int | None, why: str, at: str) -> None:
    row = (action_id, by_id, at, why)
    sql.execute("INSERT INTO action_corrections (action_id, by_id, at, why) VALUES (?, ?, ?, ?)", row)


def _find_standing(sql: sqlite3.Connection, action_id: int) -> tuple[int, str]:
    query = f"SELECT a.case_id, a.treatment, {_STANDING} AS stands FROM actions AS a WHERE a.id = ?"
    row = sql.execute(query, (action_id,)).fetchone()
    if row is None:
        raise UsageError(f"there is no action number {action_id}")
    if not row["stands"]:
        raise UsageError(f"action number {action_id} was corrected already: correct the one that stands now")
    return int(row["case_id"]), str(row["treatment"])
