"""What can go wrong, said once: every error a person may see descends from TriageError."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec


class TriageError(Exception):
    """Base of every error meant for people; its text is one clear line."""


class UsageError(TriageError):
    """Wrong use or unreadable input: what, where, and what is allowed (exit 2)."""


class Fault(msgspec.Struct, frozen=True, order=True):
    """One thing wrong in a knowledge file or a case file."""

    path: str
    line: int
    severity: str  # "error" | "warning"
    code: str
    message: str

    def __str__(self) -> str:
        return f"{self.path}:{self.line}: {self.severity} {self.code} {self.message}"


class KnowledgeError(TriageError):
    """The book, or a case file, has faults; all of them are carried along."""

    def __init__(self, faults: list[Fault]) -> None:
        self.faults = sorted(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


class JournalError(TriageError):
    """The journal file is locked, full, read-only, damaged, or of a later version."""


def nearest(word: str, allowed: Iterable[str]) -> str:
    """The nearest allowed word, ready to end a message; nothing when none is near.

    >>> nearest("webing", ["webbing", "wilting"]), nearest("webing", ["basil"])
    (", nearest: 'webbing'", '')
    """
    import difflib

    found = difflib.get_close_matches(word, sorted(allowed), n=1, cutoff=0.6)
    return f", nearest: '{found[0]}'" if found else ""
