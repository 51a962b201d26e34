"""What a garden's journal adds to the book: its proven cases, and looks at other plants of these days."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from ..followup.own_cases import as_favoured, own_rates
from ..followup.recovery import day_after
from ..model.book import Book
from ..model.garden import Here, OtherLook
from ..ranking.alike import close_look
from .again import AdvisedSuspect

if TYPE_CHECKING:
    from ..journal import CaseLine, Journal

#: The setting that says whether proven cases here move the odds; '' is on.
OWN_CASES = "own-rates"
#: A suspect this likely is what a look was taken for.
_TAKEN_FOR = 0.5


class KeptLook(msgspec.Struct, frozen=True):
    """The parts of a kept report that speak of other plants."""

    suspects: tuple[AdvisedSuspect, ...] = ()
    seen: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()


def learns(journal: Journal) -> bool:
    """Whether proven cases of this garden move the odds."""
    return journal.setting(OWN_CASES) != "off"


def proven_cases(journal: Journal, on: str, *, without: int | None = None) -> tuple[tuple[str, ...], ...]:
    """What the cases turned out to be, as far as it was known on a day, by case."""
    known = journal.outcomes()
    return tuple(known[id_].causes for id_ in sorted(known) if id_ != without and known[id_].on <= on)


def book_here(book: Book, journal: Journal, on: str, *, without: int | None = None) -> Book:
    """The book with what this garden knew on a day; ``without`` is the case that is being looked at itself."""
    proven = proven_cases(journal, on, without=without) if learns(journal) else ()
    favoured = as_favoured(book, own_rates(book, proven)) if proven else ()
    return msgspec.structs.replace(book, here=Here(favoured=favoured, looks=_looks(book, journal, on, without)))


def _looks(book: Book, journal: Journal, on: str, without: int | None) -> tuple[OtherLook, ...]:
    """First looks at other plants within the days that count as the same time, the earliest first."""
    since = day_after(on, -book.margins["alike-within-days"].value)
    lines = journal.list_cases(states=("finished", "closed"), since=since)
    return tuple(
        close_look(_look(book, journal, line), book.findings)
        for line in sorted(lines, key=lambda line: (line.on, line.id))
        if line.on <= on and line.id != without
    )


def _look(book: Book, journal: Journal, line: CaseLine) -> OtherLook:
    stored = journal.case_report(line.id)
    kept = msgspec.json.decode(stored.report, type=KeptLook) if stored else KeptLook()
    taken = [s.cause for s in kept.suspects if s.probability >= _TAKEN_FOR and s.cause in book.causes]
    return OtherLook(
        number=line.id, on=line.on, crop=line.crop, plant=line.plant, seen=frozenset(kept.seen),
        absent=frozenset(kept.absent), passes_on=any(book.causes[cause].spreads is not None for cause in taken),
    )  # fmt: skip
