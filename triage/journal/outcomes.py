"""What cases turned out to be. The last entry of a case holds."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence

import msgspec

from .cases import check_known
from .records import Outcome, OutcomeSaid
from .values import check_day

_LATEST = """
    SELECT * FROM outcomes AS o WHERE id = (SELECT max(id) FROM outcomes WHERE case_id = o.case_id) ORDER BY case_id"""


def record_outcome(
    sql: sqlite3.Connection, case_id: int, causes: Sequence[str] | None, how: str, on: str, at: str
) -> None:
    """Keep what the case turned out to be; no cause: nothing of the book; None: it is not known after all."""
    check_known(sql, case_id)
    row = (case_id, at, check_day(on), encode_causes(causes), how)
    sql.execute("INSERT INTO outcomes (case_id, at, day, causes, how) VALUES (?, ?, ?, ?, ?)", row)


def list_outcomes(sql: sqlite3.Connection) -> dict[int, Outcome]:
    """What each case turned out to be, as far as anybody said, by its number."""
    found = {}
    for row in sql.execute(_LATEST):
        causes = decode_causes(row["causes"])
        if causes is not None:
            found[row["case_id"]] = Outcome(causes=causes, how=row["how"], on=row["day"], at=row["at"])
    return found


def case_outcome(sql: sqlite3.Connection, case_id: int) -> Outcome | None:
    """What the case turned out to be, as last said; None if it is not known."""
    check_known(sql, case_id)
    row = sql.execute("SELECT * FROM outcomes WHERE case_id = ? ORDER BY id DESC LIMIT 1", (case_id,)).fetchone()
    causes = decode_causes(row["causes"]) if row else None
    return None if causes is None else Outcome(causes=causes, how=row["how"], on=row["day"], at=row["at"])


def outcome_history(sql: sqlite3.Connection, case_id: int) -> tuple[OutcomeSaid, ...]:
    """Every entry of what the case turned out to be; the last one holds."""
    check_known(sql, case_id)
    rows = sql.execute("SELECT causes, how, day, at FROM outcomes WHERE case_id = ? ORDER BY id", (case_id,))
    return tuple(OutcomeSaid(causes=decode_causes(c), how=how, on=day, at=at) for c, how, day, at in rows)


def encode_causes(causes: Sequence[str] | None) -> str:
    return msgspec.json.encode(None if causes is None else tuple(dict.fromkeys(causes))).decode()


def decode_causes(text: str) -> tuple[str, ...] | None:
    """Errors: msgspec.MsgspecError if it is not a list of ids (a damaged file)."""
    return msgspec.json.decode(text, type=tuple[str, ...] | None)
