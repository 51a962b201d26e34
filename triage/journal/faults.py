"""From what SQLite and the system report to one line a person can act on."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import msgspec

from triage.errors import JournalError, UsageError

from .values import BROKEN_TEXT

_KEPT = "what was kept before is still there"
#: By primary result code, https://www.sqlite.org/rescode.html
_MESSAGES: dict[int, str] = {
    sqlite3.SQLITE_BUSY: "the journal is in use by another program: let that finish, then try again",
    sqlite3.SQLITE_LOCKED: "the journal is in use by another program: let that finish, then try again",
    sqlite3.SQLITE_FULL: f"the disk is full and the last entry was not kept ({_KEPT}): free some space, then try again",
    sqlite3.SQLITE_IOERR: f"the disk is full or failing, and nothing new was kept ({_KEPT}): look at the disk",
    sqlite3.SQLITE_READONLY: "the journal cannot be written to: allow writing there, or choose another --home",
    sqlite3.SQLITE_PERM: "the journal cannot be written to: allow writing there, or choose another --home",
    sqlite3.SQLITE_AUTH: "the journal cannot be written to: allow writing there, or choose another --home",
    sqlite3.SQLITE_CANTOPEN: "the journal cannot be opened: see that the folder is there and may be written to, "
    "or choose another --home",
}
_DAMAGED = "the journal is damaged and was left as it is: copy it to a safe place, then restore a backup"
#: Errors of ours, not of the file: they must not be dressed up as a damaged journal.
_OUR_OWN = (sqlite3.ProgrammingError, sqlite3.InterfaceError, sqlite3.IntegrityError)


def explain_error(error: sqlite3.Error, path: Path) -> JournalError:
    """The journal error that says what happened to the file at ``path`` and what to do.

    >>> locked = sqlite3.OperationalError("database is locked")
    >>> locked.sqlite_errorcode = sqlite3.SQLITE_BUSY
    >>> print(explain_error(locked, Path("j.sqlite3")))
    the journal is in use by another program: let that finish, then try again (j.sqlite3: database is locked)
    """
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_ERROR) & 0xFF
    return JournalError(one_line(f"{_MESSAGES.get(code, _DAMAGED)} ({path}: {error})"))


@contextmanager
def explained(path: Path) -> Iterator[None]:
    """Turn errors of the file at ``path`` into a JournalError, and text or numbers it cannot hold into a UsageError."""
    try:
        yield
    except _OUR_OWN:
        raise
    except sqlite3.Error as error:
        raise explain_error(error, path) from error
    except msgspec.MsgspecError as error:
        raise JournalError(one_line(f"{_DAMAGED} ({path}: an entry cannot be read: {error})")) from error
    except (IndexError, KeyError) as error:  # a column that is no longer there
        raise JournalError(one_line(f"{_DAMAGED} ({path}: an entry cannot be read)")) from error
    except UnicodeDecodeError as error:  # a name or a message read from the file
        raise JournalError(one_line(f"{_DAMAGED} ({path}: a text cannot be read)")) from error
    except UnicodeEncodeError as error:
        raise UsageError(BROKEN_TEXT) from error
    except OverflowError as error:
        raise UsageError("a number is too large to be kept") from error


@contextmanager
def explained_folder(home: Path) -> Iterator[None]:
    """Turn errors of the folder ``home`` into a JournalError."""
    try:
        yield
    except OSError as error:
        reason = error.strerror or str(error)
        raise JournalError(one_line(f"the folder {home} cannot be used: {reason}; choose another --home")) from error
    except ValueError as error:  # a null character in the path
        raise JournalError(one_line(f"the folder {home!r} cannot be used: {error}")) from error


def one_line(text: str) -> str:
    """The text without signs that could move a terminal or break a line."""
    return "".join(sign if sign.isprintable() else "?" for sign in text)
