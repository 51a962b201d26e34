"""Cases from the first question to how they ended. What state a case is in follows from its rows."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from typing import Any

import msgspec

from triage.errors import UsageError
from triage.model.case import System

from .answers import crop_of, standing_answers
from .records import CaseLine, CaseState, Closing, StoredCase, StoredReport
from .systems import decode_system, encode_system
from .values import check_day, check_json

_UNFINISHED = " AND ".join(
    f"NOT EXISTS (SELECT 1 FROM {table} WHERE case_id = c.id)" for table in ("reports", "abandoned", "closings")
)
_LINE = """
    SELECT c.id, c.at, c.day, c.crop, c.plant, c.system,
        (SELECT count(*) - 2 * count(undoes) FROM answers WHERE case_id = c.id
            AND seq <= coalesce((SELECT min(after) FROM rechecks WHERE case_id = c.id), seq)) AS answered,
        (SELECT payload FROM answers AS a WHERE case_id = c.id AND kind = 'crop'
            AND NOT EXISTS (SELECT 1 FROM answers WHERE case_id = a.case_id AND undoes = a.seq)
            ORDER BY seq DESC LIMIT 1) AS crop_answer,
        (SELECT summary FROM reports WHERE case_id = c.id ORDER BY id DESC LIMIT 1) AS summary,
        (SELECT 1 FROM abandoned WHERE case_id = c.id) AS abandoned,
        (SELECT outcome FROM closings WHERE case_id = c.id ORDER BY id DESC LIMIT 1) AS outcome
    FROM cases AS c"""

#: Given up is given up; what was closed later was open on the day.
_ON = f"""{_LINE}
    WHERE c.day <= :on AND NOT EXISTS (SELECT 1 FROM abandoned WHERE case_id = c.id) AND (
        NOT EXISTS (SELECT 1 FROM closings WHERE case_id = c.id AND substr(at, 1, 10) <= :on)
        OR c.id IN (SELECT case_id FROM actions WHERE day > :acted_after))
    ORDER BY c.id"""


def begin_case(sql: sqlite3.Connection, on: str, crop: str, system: System, plant: str, at: str) -> int:
    """Open a case; its number."""
    row = (at, check_day(on), crop, plant, encode_system(system))
    cursor = sql.execute("INSERT INTO cases (at, day, crop, plant, system) VALUES (?, ?, ?, ?, ?)", row)
    return int(cursor.lastrowid or 0)


def find_line(sql: sqlite3.Connection, case_id: int) -> CaseLine:
    """The case in one line; UsageError if there is no such case."""
    return _to_line(_find_row(sql, case_id))


def check_known(sql: sqlite3.Connection, case_id: int) -> None:
    """UsageError if there is no such case."""
    possible = case_id if abs(case_id) < 2**63 else 0
    if sql.execute("SELECT 1 FROM cases WHERE id = ?", (possible,)).fetchone() is None:
        _find_row(sql, case_id)


def load_case(sql: sqlite3.Connection, case_id: int) -> StoredCase:
    """The case with the answers that stand; UsageError if there is no such case."""
    row = _find_row(sql, case_id)
    line = msgspec.structs.asdict(_to_line(row))
    last = first_recheck_after(sql, case_id)
    return StoredCase(**line, system=decode_system(row["system"]), answers=standing_answers(sql, case_id, last=last))


def list_lines(sql: sqlite3.Connection, since: str = "") -> Iterator[CaseLine]:
    """Every case first looked at on the day ``since`` or later, the latest day first."""
    for row in sql.execute(_LINE + " WHERE c.day >= ? ORDER BY c.day DESC, c.id DESC", (since,)):
        yield _to_line(row)


def lines_on(sql: sqlite3.Connection, on: str, acted_after: str) -> Iterator[CaseLine]:
    """The cases, by number, that were open on a day, and those that something was done about after another."""
    for row in sql.execute(_ON, {"on": on, "acted_after": acted_after}):
        yield _to_line(row)


def count_cases(sql: sqlite3.Connection) -> int:
    """How many cases there are in all."""
    return int(sql.execute("SELECT count(*) FROM cases").fetchone()[0])


def unfinished_lines(sql: sqlite3.Connection) -> tuple[CaseLine, ...]:
    """The cases without a report that nobody gave up or closed, the one begun last first."""
    return tuple(_to_line(row) for row in sql.execute(f"{_LINE} WHERE {_UNFINISHED} ORDER BY c.id DESC"))


def first_recheck_after(sql: sqlite3.Connection, case_id: int) -> int | None:
    """How many answers the first look has, where there was another look; else None."""
    row = sql.execute("SELECT min(after) FROM rechecks WHERE case_id = ?", (case_id,)).fetchone()
    return None if row[0] is None else int(row[0])


def check_unfinished(sql: sqlite3.Connection, case_id: int) -> None:
    """UsageError if there is no such case or it takes no more answers."""
    state = find_line(sql, case_id).state
    if state != "unfinished":
        raise UsageError(f"case {case_id} is {state} and takes no more answers: begin a new one")


def finish_case(sql: sqlite3.Connection, case_id: int, report: StoredReport) -> None:
    """Keep the report; the case takes no more answers."""
    check_unfinished(sql, case_id)
    row = (case_id, report.at, report.book_version, report.book_hash, report.summary, check_json(report.report))
    columns = "case_id, at, book_version, book_hash, summary, report"
    sql.execute(f"INSERT INTO reports ({columns}) VALUES (?, ?, ?, ?, ?, ?)", row)


def case_report(sql: sqlite3.Connection, case_id: int) -> StoredReport | None:
    """The latest report of the case; None if it was never finished."""
    check_known(sql, case_id)
    row = sql.execute("SELECT * FROM reports WHERE case_id = ? ORDER BY id DESC LIMIT 1", (case_id,)).fetchone()
    return convert_row(row, StoredReport) if row else None


def abandon_case(sql: sqlite3.Connection, case_id: int, at: str) -> None:
    """Give up an unfinished case: it is kept, and not offered again."""
    check_unfinished(sql, case_id)
    sql.execute("INSERT INTO abandoned (case_id, at) VALUES (?, ?)", (case_id, at))


def close_case(sql: sqlite3.Connection, case_id: int, outcome: str, note: str, at: str) -> None:
    """Keep how the case ended; closing again corrects it."""
    check_known(sql, case_id)
    if not outcome.strip():
        raise UsageError("say how the case ended")
    sql.execute("INSERT INTO closings (case_id, at, outcome, note) VALUES (?, ?, ?, ?)", (case_id, at, outcome, note))


def list_closings(sql: sqlite3.Connection, case_id: int) -> tuple[Closing, ...]:
    """How the case ended; the last one holds."""
    check_known(sql, case_id)
    rows = sql.execute("SELECT outcome, note, at FROM closings WHERE case_id = ? ORDER BY id", (case_id,))
    return tuple(convert_row(row, Closing) for row in rows)


def _find_row(sql: sqlite3.Connection, case_id: int) -> sqlite3.Row:
    possible = case_id if abs(case_id) < 2**63 else 0
    row: sqlite3.Row | None = sql.execute(_LINE + " WHERE c.id = ?", (possible,)).fetchone()
    if row is None:
        newest = sql.execute("SELECT max(id) FROM cases").fetchone()[0]
        raise UsageError(
            f"there is no case {case_id}: " + (f"the newest is {newest}" if newest else "there is none yet")
        )
    return row


def _to_line(row: sqlite3.Row) -> CaseLine:
    return CaseLine(
        id=row["id"],
        on=row["day"],
        crop=row["crop"] if row["crop_answer"] is None else crop_of(row["crop_answer"]),
        plant=row["plant"],
        state=_state(row),
        begun=row["at"],
        answered=row["answered"],
        summary=row["summary"] or "",
        outcome=row["outcome"] or "",
    )


def _state(row: sqlite3.Row) -> CaseState:
    if row["outcome"] is not None:
        return "closed"
    if row["abandoned"] is not None:
        return "abandoned"
    return "unfinished" if row["summary"] is None else "finished"


def convert_row(row: sqlite3.Row, into: type[Any]) -> Any:
    """The row as a record with columns of the same names."""
    return msgspec.convert({name: row[name] for name in into.__struct_fields__}, into)
