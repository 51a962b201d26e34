"""Cases in a list: each as it stands now, and which of them are wanted."""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING

import msgspec

from ..followup.standing import Standing, leading
from ..model.book import Book
from .cases import standing_of

if TYPE_CHECKING:
    from ..journal import CaseLine, Journal

FORMAT = "triage-cases/1"
#: The states of a case that is not over.
_OPEN = ("unfinished", "finished")


class Wanted(msgspec.Struct, frozen=True, kw_only=True):
    """Which cases are wanted; what is not said does not matter.

    ``state``: open | closed. ``cause``: what it was proven to be, or is taken for as long as nobody said. ``since`` is
    the first day of the first look.
    """

    state: str = ""
    crop: str = ""
    bed: str = ""
    cause: str = ""
    since: str = ""


class ListedCase(msgspec.Struct, frozen=True, kw_only=True):
    """A case in a list. ``causes`` is what it is taken for, the likeliest first; ``proven`` whether that is settled."""

    id: int
    on: str
    crop: str
    plant: str
    bed: str
    state: str
    begun: str
    answered: int
    summary: str
    outcome: str
    last_look: str
    verdict: str
    causes: tuple[str, ...]
    proven: bool


class CaseList(msgspec.Struct, frozen=True, kw_only=True):
    """What `case list` gives; ``of`` is how many cases there are in all."""

    format: str = FORMAT
    cases: tuple[ListedCase, ...]
    of: int


def list_wanted(book: Book, journal: Journal, wanted: Wanted, *, limit: int | None = None) -> CaseList:
    """The cases that are wanted, the latest first look first, at most ``limit``; they are looked up only as far."""
    every = wanted == Wanted()
    lines = journal.list_cases(limit=limit) if every else journal.list_cases(since=wanted.since)
    found = (_stands(book, journal, line) for line in lines if _line_fits(line, wanted))
    cases = tuple(islice((case for case in found if _fits(case, wanted)), limit))
    return CaseList(cases=cases, of=journal.count_cases())


def _stands(book: Book, journal: Journal, line: CaseLine) -> ListedCase:
    given_up = line.state == "abandoned"
    return _listed(line, None if given_up else standing_of(book, journal, line, journal.case_outcome(line.id)))


def _listed(line: CaseLine, standing: Standing | None) -> ListedCase:
    stands = standing or Standing(number=line.id, state=line.state, on=line.on, last_look=line.on, plant=line.plant)
    return ListedCase(
        id=line.id, on=line.on, crop=line.crop, plant=stands.plant, bed=stands.bed, state=line.state,
        begun=line.begun, answered=line.answered, summary=line.summary, outcome=line.outcome,
        last_look=stands.last_look, verdict=stands.verdict, causes=leading(stands), proven=stands.proven is not None,
    )  # fmt: skip


def _line_fits(line: CaseLine, wanted: Wanted) -> bool:
    """What can be told without looking the case up."""
    state = ("open" if line.state in _OPEN else line.state) if wanted.state else ""
    return wanted.state == state and wanted.crop in ("", line.crop)


def _fits(case: ListedCase, wanted: Wanted) -> bool:
    here = not wanted.bed or wanted.bed.casefold() == case.bed.casefold()
    return here and (not wanted.cause or wanted.cause in case.causes)
