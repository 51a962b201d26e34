"""Cases in a list: each as it stands now, and which of them are wanted."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import msgspec

from ..followup.standing import Standing, leading
from ..model.book import Book
from .cases import list_standing

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


def list_wanted(book: Book, journal: Journal, wanted: Wanted) -> CaseList:
    """The cases that are wanted, the latest first look first."""
    standing = {case.number: case for case in list_standing(book, journal)}
    every = [_listed(line, standing.get(line.id)) for line in journal.list_cases()]
    return CaseList(cases=tuple(case for case in every if all(_fits(case, wanted))), of=len(every))


def _listed(line: CaseLine, standing: Standing | None) -> ListedCase:
    stands = standing or Standing(number=line.id, state=line.state, on=line.on, last_look=line.on, plant=line.plant)
    return ListedCase(
        id=line.id, on=line.on, crop=line.crop, plant=stands.plant, bed=stands.bed, state=line.state,
        begun=line.begun, answered=line.answered, summary=line.summary, outcome=line.outcome,
        last_look=stands.last_look, verdict=stands.verdict, causes=leading(stands), proven=stands.proven is not None,
    )  # fmt: skip


def _fits(case: ListedCase, wanted: Wanted) -> Iterator[bool]:
    open_ = case.state in _OPEN
    yield not wanted.state or (open_ if wanted.state == "open" else case.state == wanted.state)
    yield wanted.crop in ("", case.crop)
    yield not wanted.bed or wanted.bed.casefold() == case.bed.casefold()
    yield not wanted.cause or wanted.cause in case.causes
    yield case.on >= wanted.since
