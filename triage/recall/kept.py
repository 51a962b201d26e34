"""One case with everything that the journal keeps of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from ..journal import (
        CasePlace,
        Closing,
        Journal,
        Outcome,
        Photo,
        StoredAction,
        StoredCase,
        StoredRecheck,
        StoredReport,
    )


class KeptPhoto(NamedTuple):
    """A photo, and whether it is still the same file: same | changed | missing."""

    photo: Photo
    state: str


class KeptCase(NamedTuple):
    """A case from its first look to its end; None where nothing was advised, or nobody said what it was."""

    case: StoredCase
    report: StoredReport | None
    place: CasePlace
    actions: tuple[StoredAction, ...]
    looks: tuple[StoredRecheck, ...]
    photos: tuple[KeptPhoto, ...]
    outcome: Outcome | None
    closings: tuple[Closing, ...]


def load_kept(journal: Journal, number: int) -> KeptCase:
    """Everything kept of a case. Errors: UsageError if there is no such case."""
    return KeptCase(
        case=journal.load_case(number), report=journal.case_report(number), place=journal.case_place(number),
        actions=journal.case_actions(number), looks=journal.case_rechecks(number), photos=load_photos(journal, number),
        outcome=journal.case_outcome(number), closings=journal.case_closings(number),
    )  # fmt: skip


def load_photos(journal: Journal, number: int) -> tuple[KeptPhoto, ...]:
    """The photos of a case, by day."""
    from ..journal import photo_state

    return tuple(KeptPhoto(photo, photo_state(photo)) for photo in journal.case_photos(number))
