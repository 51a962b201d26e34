"""Every entry that the journal holds of one case."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

if TYPE_CHECKING:
    from ..journal import Journal

FORMAT = "triage-case-history/1"


class Entry(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One entry and when it was made.

    ``kind``: begun | answer | back | report | action | recheck | photo | outcome | closing. ``id`` is its number among
    its like, where it can be named to set it right. ``stands``: whether it still counts. ``what`` is in the grower's
    words, or an id, or (answers) JSON.
    """

    at: str
    kind: str
    what: str = ""
    id: int | None = None
    on: str = ""
    question: str = ""
    stands: bool = True
    by: int | None = None
    why: str = ""
    book: str = ""
    causes: tuple[str, ...] | None = None
    sha256: str = ""
    state: str = ""


class CaseHistory(msgspec.Struct, frozen=True, kw_only=True):
    """All entries of a case, by time."""

    format: str = FORMAT
    case: int
    entries: tuple[Entry, ...]


def case_history(journal: Journal, number: int) -> CaseHistory:
    """Everything kept of a case. Errors: UsageError if there is no such case."""
    case = journal.load_case(number)
    entries = [
        Entry(at=case.begun, kind="begun", on=case.on, what=case.crop),
        *_answers(journal, number),
        *_later(journal, number),
        *_kept(journal, number),
    ]
    return CaseHistory(case=number, entries=tuple(sorted(entries, key=lambda entry: entry.at)))


def _answers(journal: Journal, number: int) -> list[Entry]:
    """Each answer; going back takes the last one that stood."""
    found: list[Entry] = []
    standing: list[int] = []
    for answer in journal.answer_history(number):
        if answer.kind == "back":
            if standing:
                last = standing.pop()
                found[last] = msgspec.structs.replace(found[last], stands=False)
        else:
            standing.append(len(found))
        kind = "back" if answer.kind == "back" else "answer"
        found.append(Entry(at=answer.at, kind=kind, question=answer.question, what=answer.payload, state=answer.kind))
    return found


def _later(journal: Journal, number: int) -> list[Entry]:
    report = journal.case_report(number)
    found = [] if report is None else [_report(report.at, report.summary, report.book_version, report.book_hash)]
    for look in journal.case_rechecks(number):
        at = look.report.at if look.report else look.at
        book = f"{look.report.book_version} {look.report.book_hash[:8]}" if look.report else ""
        found.append(Entry(at=at, kind="recheck", id=look.id, on=look.on, what=look.verdict, book=book))
    for act in journal.action_history(number):
        stands = not act.fate
        found.append(
            Entry(at=act.at, kind="action", id=act.id, on=act.on, what=act.what, stands=stands, by=act.replaced_by,
                  why=act.why)
        )  # fmt: skip
    return found


def _report(at: str, summary: str, version: str, hash_: str) -> Entry:
    return Entry(at=at, kind="report", what=summary, book=f"{version} {hash_[:8]}")


def _kept(journal: Journal, number: int) -> list[Entry]:
    from ..journal import photo_state

    found = [
        Entry(at=photo.at, kind="photo", id=photo.id, on=photo.on, what=photo.path, why=photo.note, sha256=photo.sha256,
              state=photo_state(photo))
        for photo in journal.case_photos(number)
    ]  # fmt: skip
    said = journal.outcome_history(number)
    for place, each in enumerate(said, start=1):
        stands = place == len(said)
        found.append(Entry(at=each.at, kind="outcome", on=each.on, why=each.how, causes=each.causes, stands=stands))
    closings = journal.case_closings(number)
    for place, closing in enumerate(closings, start=1):
        stands = place == len(closings)
        found.append(Entry(at=closing.at, kind="closing", what=closing.outcome, why=closing.note, stands=stands))
    return found
