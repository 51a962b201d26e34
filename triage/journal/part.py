"""What every part of an open journal stands on: the file and the clock."""

from __future__ import annotations

from collections.abc import Callable

from .database import Database


class Part:
    """A part of an open journal. Every call is one transaction: when it returns, its entry is on the disk."""

    def __init__(self, database: Database, now: Callable[[], str]) -> None:
        self._database = database
        self._now = now
