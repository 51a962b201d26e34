"""Bring a file to this version of the journal, one whole migration at a time."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Sequence
from pathlib import Path

from triage.errors import JournalError

from .schema import APPLICATION_ID, Migration

_MIGRATIONS_TABLE = (
    "CREATE TABLE IF NOT EXISTS migrations (id INTEGER PRIMARY KEY, name TEXT NOT NULL, at TEXT NOT NULL)"
)


def find_version(sql: sqlite3.Connection) -> int:
    """How many migrations the file has seen; 0 for a new file."""
    return int(sql.execute("PRAGMA user_version").fetchone()[0])


def check_version(sql: sqlite3.Connection, path: Path, newest: int) -> int:
    """The version of the file at ``path``; JournalError if it is no journal or later than ``newest``."""
    version = find_version(sql)
    ours = sql.execute("PRAGMA application_id").fetchone()[0] == APPLICATION_ID
    if not ours and (version or sql.execute("SELECT 1 FROM sqlite_master").fetchone()):
        raise JournalError(f"{path} is a database, but not a journal of this program: choose another --home")
    if version > newest:
        raise JournalError(
            f"{path} was written by a later version of this program (format {version}, this one reads up to {newest}): "
            "use the later version, or choose another --home"
        )
    return version


def apply_migrations(sql: sqlite3.Connection, migrations: Sequence[Migration], now: Callable[[], str]) -> None:
    """Run the migrations the file has not seen, each in one transaction; a failing one leaves the file as it was."""
    while find_version(sql) < len(migrations):
        try:
            sql.execute("BEGIN IMMEDIATE")
            version = find_version(sql)  # another process may have been faster
            if version < len(migrations):
                _apply(sql, migrations[version], version + 1, now())
            sql.execute("COMMIT")
        except BaseException:
            if sql.in_transaction:
                sql.execute("ROLLBACK")
            raise


def _apply(sql: sqlite3.Connection, migration: Migration, version: int, at: str) -> None:
    sql.execute(_MIGRATIONS_TABLE)
    for statement in migration.statements:
        sql.execute(statement)
    sql.execute("INSERT INTO migrations (id, name, at) VALUES (?, ?, ?)", (version, migration.name, at))
    sql.execute(f"PRAGMA user_version = {version:d}")
    if sql.execute("PRAGMA foreign_key_check").fetchone():
        raise JournalError(
            f"the step '{migration.name}' to a newer journal would tear entries apart: nothing was changed"
        )
