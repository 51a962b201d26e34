"""Answers of a case: one row each, the moment it is given; going back is a row too."""

from __future__ import annotations

import sqlite3

import msgspec

from triage.errors import JournalError, UsageError

from .records import ANSWER_KINDS, Answer
from .values import check_json


class _CropPayload(msgspec.Struct):
    crop: str = ""


def crop_of(payload: str) -> str:
    """The crop that an answer of kind 'crop' names; '' if it names none."""
    return msgspec.json.decode(payload, type=_CropPayload).crop


def check_answer(answer: Answer) -> None:
    """UsageError if the answer could not be replayed."""
    if answer.kind not in ANSWER_KINDS:
        raise UsageError(f"'{answer.kind}' is no kind of answer: {', '.join(ANSWER_KINDS)}")
    check_json(answer.payload)
    if answer.kind == "crop":
        try:
            crop_of(answer.payload)
        except msgspec.MsgspecError as error:
            raise UsageError(f'a crop is answered as {{"crop": ID}}: {error}') from error


def count_answers(sql: sqlite3.Connection, case_id: int) -> int:
    """How many rows the case has, undone ones and the going back included."""
    row = sql.execute("SELECT coalesce(max(seq), 0) FROM answers WHERE case_id = ?", (case_id,)).fetchone()
    return int(row[0])


def check_alone(sql: sqlite3.Connection, case_id: int, known: int | None) -> None:
    """JournalError if somebody else answered this case since we last looked (``known`` rows then)."""
    if known is not None and count_answers(sql, case_id) != known:
        raise JournalError(
            f"case {case_id} is being answered in another window too: finish there, or open it again here"
        )


def add_answer(sql: sqlite3.Connection, case_id: int, answer: Answer, at: str, undoes: int | None = None) -> int:
    """Add one row; its place in the case."""
    seq = count_answers(sql, case_id) + 1
    row = (case_id, seq, answer.at or at, answer.question, answer.kind, answer.payload, undoes)
    columns = "case_id, seq, at, question, kind, payload, undoes"
    sql.execute(f"INSERT INTO answers ({columns}) VALUES (?, ?, ?, ?, ?, ?, ?)", row)
    return seq


def undo_last(sql: sqlite3.Connection, case_id: int, at: str, after: int = 0) -> Answer | None:
    """Take back the last answer that stands, of those after the first ``after``; None if there is none."""
    standing = _standing_rows(sql, case_id, after)
    if not standing:
        return None
    row = standing[-1]
    add_answer(sql, case_id, Answer(question=row["question"], kind="back"), at, undoes=row["seq"])
    return _to_answer(row)


def standing_answers(
    sql: sqlite3.Connection, case_id: int, after: int = 0, last: int | None = None
) -> tuple[Answer, ...]:
    """What stands after every going back, in the order it was given, of the answers behind ``after`` up to ``last``."""
    return tuple(_to_answer(row) for row in _standing_rows(sql, case_id, after, last))


def answer_history(sql: sqlite3.Connection, case_id: int) -> tuple[Answer, ...]:
    """Every row, undone answers and the going back included."""
    rows = sql.execute("SELECT * FROM answers WHERE case_id = ? ORDER BY seq", (case_id,))
    return tuple(_to_answer(row) for row in rows)


def _standing_rows(sql: sqlite3.Connection, case_id: int, after: int = 0, last: int | None = None) -> list[sqlite3.Row]:
    query = "SELECT * FROM answers WHERE case_id = ? AND seq > ? AND seq <= coalesce(?, seq) ORDER BY seq"
    rows = sql.execute(query, (case_id, after, last)).fetchall()
    undone = {row["undoes"] for row in rows}
    return [row for row in rows if row["undoes"] is None and row["seq"] not in undone]


def _to_answer(row: sqlite3.Row) -> Answer:
    fields = {name: row[name] for name in Answer.__struct_fields__}
    return msgspec.convert(fields, Answer)
