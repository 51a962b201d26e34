"""The grower's journal and the only door to sqlite3: systems, readings, cases, every answer, advice, what was done.

Nothing is kept beyond what was typed, the times it was typed, and the book that answered.
"""

from .garden import photo_state
from .journal import JOURNAL_FILE, Journal, check_journal, open_journal
from .records import (
    Answer,
    AnswerKind,
    CaseLine,
    CasePlace,
    CaseState,
    Closing,
    CorrectedAction,
    Outcome,
    OutcomeSaid,
    Photo,
    StoredAction,
    StoredCase,
    StoredReading,
    StoredRecheck,
    StoredReport,
)
from .values import decode_reading, encode_reading

__all__ = [
    "JOURNAL_FILE",
    "Answer",
    "AnswerKind",
    "CaseLine",
    "CasePlace",
    "CaseState",
    "Closing",
    "CorrectedAction",
    "Journal",
    "Outcome",
    "OutcomeSaid",
    "Photo",
    "StoredAction",
    "StoredCase",
    "StoredReading",
    "StoredRecheck",
    "StoredReport",
    "check_journal",
    "decode_reading",
    "encode_reading",
    "open_journal",
    "photo_state",
]
