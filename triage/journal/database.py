"""One SQLite file opened safely: write-ahead log, whole transactions, errors a person can act on.

Answers are kept with ``synchronous = FULL``: once a call returns, its entry survives a killed process and a power cut
(https://www.sqlite.org/pragma.html#pragma_synchronous).
"""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from triage.errors import JournalError

from .faults import explained, explained_folder
from .migrate import apply_migrations, check_version
from .schema import Migration

#: What SQLite answers when it may not make the files by which programs share a journal.
_NOT_SHARED = (sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_READONLY)


class Database:
    """An open journal file; every access is inside ``read()`` or ``write()``."""

    def __init__(self, sql: sqlite3.Connection, path: Path, *, read_only: bool = False) -> None:
        self.path = path
        self._sql = sql
        self._read_only = read_only

    @contextmanager
    def read(self) -> Iterator[sqlite3.Connection]:
        """One consistent view of the file."""
        with explained(self.path), self._transaction("BEGIN") as sql:
            yield sql

    @contextmanager
    def write(self) -> Iterator[sqlite3.Connection]:
        """One transaction: all of it is kept, or nothing. Inside another one it becomes part of that."""
        with explained(self.path), self.together() as sql:
            yield sql

    @contextmanager
    def together(self) -> Iterator[sqlite3.Connection]:
        """``write()`` around somebody else's code, whose own errors pass as they are."""
        if self._read_only:
            raise JournalError(f"the journal was opened for reading only ({self.path})")
        with self._transaction("BEGIN IMMEDIATE") as sql:
            yield sql

    @contextmanager
    def _transaction(self, begin: str) -> Iterator[sqlite3.Connection]:
        inside = self._sql.in_transaction
        try:
            self._run("SAVEPOINT step" if inside else begin)
            yield self._sql
            self._run("RELEASE step" if inside else "COMMIT")
        except BaseException:
            self._roll_back(inside)
            raise

    def _run(self, statement: str) -> None:
        with explained(self.path):
            self._sql.execute(statement)

    def _roll_back(self, inside: bool) -> None:
        with suppress(sqlite3.Error):  # the first error is the one to tell
            if inside:
                self._sql.execute("ROLLBACK TO step")
                self._sql.execute("RELEASE step")
            elif self._sql.in_transaction:
                self._sql.execute("ROLLBACK")

    def backup_to(self, target: sqlite3.Connection) -> None:
        """Copy everything, the write-ahead log included, into ``target``."""
        with explained(self.path):
            self._sql.backup(target)

    def close(self) -> None:
        with explained(self.path):
            self._sql.close()


def open_database(
    path: Path, migrations: Sequence[Migration], now: Callable[[], str], *, read_only: bool = False, wait_s: float = 5.0
) -> Database:
    """Open (or begin) the file at ``path`` at the newest version.

    ``wait_s`` is how long another writer is waited for. Reading only creates and changes nothing: a file that is not
    there reads as an empty one, and one of an earlier version is brought up to date in memory. Raises JournalError.
    """
    with explained_folder(path.parent):
        if path.is_dir():
            raise JournalError(f"the journal cannot be opened: {path} is a folder; choose another --home")
    open_file = _open_to_read if read_only else _open_to_write
    with explained(path):
        sql = open_file(path, len(migrations), wait_s)
        try:
            apply_migrations(sql, migrations, now)
            sql.execute(f"PRAGMA query_only = {read_only:d}")
        except BaseException:
            sql.close()
            raise
    return Database(sql, path, read_only=read_only)


def _connect(address: str, wait_s: float, *, uri: bool = False) -> sqlite3.Connection:
    sql = sqlite3.connect(address, timeout=wait_s, isolation_level=None, uri=uri)
    sql.row_factory = sqlite3.Row
    try:
        for setting in ("foreign_keys = ON", "trusted_schema = OFF", "synchronous = FULL"):  # the last reads the file
            sql.execute(f"PRAGMA {setting}")
    except BaseException:
        sql.close()
        raise
    return sql


def _open_to_write(path: Path, newest: int, wait_s: float) -> sqlite3.Connection:
    with explained_folder(path.parent):
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    sql = _connect(str(path), wait_s)
    try:
        version = check_version(sql, path, newest)
        _use_write_ahead_log(sql, wait_s)
        _try_to_write(sql, version)
    except BaseException:
        sql.close()
        raise
    return sql


def _try_to_write(sql: sqlite3.Connection, version: int) -> None:
    """A file that cannot be written to should say so before the first question; nothing is changed."""
    sql.execute("BEGIN IMMEDIATE")
    sql.execute(f"PRAGMA user_version = {version:d}")
    sql.execute("ROLLBACK")


def _use_write_ahead_log(sql: sqlite3.Connection, wait_s: float) -> None:
    """SQLite does not wait when two programs switch a new file at once, so we do."""
    give_up = time.monotonic() + wait_s
    while sql.execute("PRAGMA journal_mode").fetchone()[0] != "wal":
        try:
            sql.execute("PRAGMA journal_mode = WAL")
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode & 0xFF != sqlite3.SQLITE_BUSY or time.monotonic() > give_up:
                raise
            time.sleep(0.01)


def _open_to_read(path: Path, newest: int, wait_s: float) -> sqlite3.Connection:
    with explained_folder(path.parent):
        there = _is_there(path)
    if not there:
        return _connect(":memory:", wait_s)
    sql = _connect_read_only(path, wait_s)
    try:
        version = check_version(sql, path, newest)
        return sql if version == newest else _copy_to_memory(sql, wait_s)
    except BaseException:
        sql.close()
        raise


def _is_there(path: Path) -> bool:
    try:
        return path.name in os.listdir(path.parent)
    except FileNotFoundError:
        return False


def _connect_read_only(path: Path, wait_s: float) -> sqlite3.Connection:
    """Where nothing may be written SQLite cannot share the file; it is then read as it stands, if no log is pending."""
    address = Path(os.path.abspath(path)).as_uri() + "?mode=ro"
    try:
        return _connect(address, wait_s, uri=True)
    except sqlite3.OperationalError as error:
        log = path.with_name(path.name + "-wal")
        if error.sqlite_errorcode & 0xFF not in _NOT_SHARED or (log.exists() and log.stat().st_size):
            raise
    return _connect(address + "&immutable=1", wait_s, uri=True)


def _copy_to_memory(sql: sqlite3.Connection, wait_s: float) -> sqlite3.Connection:
    memory = _connect(":memory:", wait_s)
    sql.backup(memory)
    sql.close()
    return memory
