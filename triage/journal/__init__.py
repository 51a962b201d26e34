"""The grower's journal and the only door to sqlite3: systems, readings, cases, every answer, advice, what was done.

Nothing is kept beyond what was typed, the times it was typed, and the book that answered.
"""

from .journal import JOURNAL_FILE, Journal, check_journal, open_journal
from .records import (
    Answer,
    AnswerKind,
    CaseLine,
    CaseState,
    Closing,
    StoredAction,
    StoredCase,
    StoredReading,
    StoredReport,
)
from .values import decode_reading, encode_reading

__all__ = [
    "JOURNAL_FILE",
    "Answer",
    "AnswerKind",
    "CaseLine",
    "CaseState",
    "Closing",
    "Journal",
    "StoredAction",
    "StoredCase",
    "StoredReading",
    "StoredReport",
    "check_journal",
    "decode_reading",
    "encode_reading",
    "open_journal",
]
