"""What the journal gives back: answers, cases, reports, actions, readings with their number."""

from __future__ import annotations

from typing import Literal, get_args

import msgspec

from triage.model.case import System
from triage.model.quantity import Reading

AnswerKind = Literal["finding", "words", "reading", "crop", "cant-tell", "back"]
Fate = Literal["", "replaced", "withdrawn"]
CaseState = Literal["unfinished", "finished", "abandoned", "closed"]

ANSWER_KINDS: tuple[AnswerKind, ...] = get_args(AnswerKind)


class Answer(msgspec.Struct, frozen=True, kw_only=True):
    """One thing a grower answered.

    ``payload`` is JSON text: for a crop an object with ``crop`` (an id), else whatever the asker needs to replay it
    (JSON knows no infinite numbers: ``encode_reading`` writes a reading). ``question`` is '' for what was told
    unasked. ``at`` is filled in by the journal when it is ''.
    """

    question: str = ""
    kind: AnswerKind
    payload: str = "{}"
    at: str = ""


class CaseLine(msgspec.Struct, frozen=True, kw_only=True):
    """A case in one line. ``answered`` counts the answers that stand; ``outcome`` is the latest one given."""

    id: int
    on: str
    crop: str
    plant: str
    state: CaseState
    begun: str
    answered: int
    summary: str = ""
    outcome: str = ""


class StoredCase(CaseLine, frozen=True, kw_only=True):
    """A case with the system as it was that day and the answers that stand, in the order they were given."""

    system: System
    answers: tuple[Answer, ...]


class StoredReport(msgspec.Struct, frozen=True, kw_only=True):
    """What was advised, and from which book."""

    report: str  # JSON text, as it was handed in
    book_version: str
    book_hash: str
    summary: str
    at: str


class StoredAction(msgspec.Struct, frozen=True, kw_only=True):
    """What was done about a case, on which day; ``treatment`` is the id it was chosen by, if it was."""

    id: int
    what: str
    on: str
    note: str
    at: str
    treatment: str = ""


class CorrectedAction(StoredAction, frozen=True, kw_only=True):
    """An action with what became of it: '' (it stands), 'replaced' or 'withdrawn'."""

    fate: Fate = ""
    replaced_by: int | None = None
    why: str = ""


class CasePlace(msgspec.Struct, frozen=True, kw_only=True):
    """Where a case is: the names of a bed and of a plant in it; '' where nobody said."""

    bed: str = ""
    plant: str = ""


class Photo(msgspec.Struct, frozen=True, kw_only=True):
    """A photo that lies where the grower keeps it; its checksum tells whether it is still the same file."""

    id: int
    path: str
    sha256: str
    size: int
    on: str
    note: str
    at: str


class Outcome(msgspec.Struct, frozen=True, kw_only=True):
    """What a case turned out to be (cause ids; none: nothing of the book), and how one knows. The last one holds."""

    causes: tuple[str, ...]
    how: str
    on: str
    at: str


class OutcomeSaid(msgspec.Struct, frozen=True, kw_only=True):
    """One entry of what a case turned out to be; ``causes`` None: it is not known after all."""

    causes: tuple[str, ...] | None
    how: str
    on: str
    at: str


class StoredRecheck(msgspec.Struct, frozen=True, kw_only=True):
    """Another look at a case. Without a report it is unfinished; ``verdict`` is '' as long."""

    id: int
    case_id: int
    on: str
    at: str
    answers: tuple[Answer, ...]
    verdict: str = ""
    report: StoredReport | None = None


class Closing(msgspec.Struct, frozen=True, kw_only=True):
    """How a case ended; a later one corrects the ones before."""

    outcome: str
    note: str
    at: str


class StoredReading(msgspec.Struct, frozen=True, kw_only=True):
    """A reading with its number, and what became of it: '' (it stands), 'replaced' or 'withdrawn'."""

    id: int
    reading: Reading
    at: str
    fate: Fate = ""
    replaced_by: int | None = None
    why: str = ""
