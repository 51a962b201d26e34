"""How a case stands: what it is taken for now, what was done, and when to look again."""

from __future__ import annotations

import msgspec

from ..model.book import Book
from .done import Done
from .recovery import day_after, look_again_days

#: A cause this likely, or the first, decides when to look again.
LEADS_FROM = 0.5


class Standing(msgspec.Struct, frozen=True, kw_only=True):
    """A case as its last look left it.

    ``state``: unfinished | finished | closed. ``suspects`` are probabilities, the likeliest first; ``seen`` the
    findings of all looks; ``amounts`` how much of what is given at a time, of doses that are split; ``alarms`` what the
    last look could not let wait; ``proven`` what it turned out to be (None: nobody said). ``next_look`` is '' where the
    last look named no day. ``neighbours_on`` is the last day on which a later look said whether more plants have it.
    """

    number: int
    state: str
    crop: str = ""
    plant: str = ""
    bed: str = ""
    on: str
    last_look: str
    verdict: str = ""
    suspects: dict[str, float] = {}
    seen: frozenset[str] = frozenset()
    alarms: tuple[str, ...] = ()
    done: tuple[Done, ...] = ()
    amounts: dict[str, str] = {}
    neighbours_on: str = ""
    not_again: frozenset[str] = frozenset()
    next_look: str = ""
    proven: tuple[str, ...] | None = None

    @property
    def first(self) -> str:
        """What it is taken for: what it was proven to be, else the likeliest cause; '' if there is none."""
        return next(iter(self.proven or ()), "") or next(iter(self.suspects), "")


def leading(standing: Standing) -> tuple[str, ...]:
    """The causes that a case is taken for, the likeliest first."""
    if standing.proven is not None:
        return standing.proven
    return tuple(cause for n, (cause, chance) in enumerate(standing.suspects.items()) if chance >= LEADS_FROM or n == 0)


def look_again_on(book: Book, standing: Standing) -> str:
    """The day of the next look: as the last look said, else as the leading causes say, the soonest."""
    if standing.next_look:
        return standing.next_look
    causes = [book.causes[cause] for cause in leading(standing) if cause in book.causes]
    days = min((look_again_days(book, cause) for cause in causes), default=look_again_days(book, None))
    return day_after(standing.last_look, days)
