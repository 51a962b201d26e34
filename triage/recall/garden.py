"""What a garden's journal adds to the book: its proven cases, and looks at other plants of these days."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

import msgspec

from ..followup.own_cases import OwnRate, as_favoured, own_rates
from ..followup.recovery import day_after
from ..followup.returning import list_returning
from ..followup.standing import Standing
from ..followup.watching import list_plots, list_watch
from ..model.book import Book
from ..model.case import System
from ..model.garden import Here, OtherLook
from ..ranking.alike import close_look
from ..report.garden_report import GardenReport, OwnCases, RateLine
from .again import AdvisedSuspect
from .cases import standing_of

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


def _kept(journal: Journal, number: int) -> KeptLook:
    stored = journal.case_report(number)
    return msgspec.json.decode(stored.report, type=KeptLook) if stored else KeptLook()


def _look(book: Book, journal: Journal, line: CaseLine) -> OtherLook:
    kept = _kept(journal, line.id)
    taken = [s.cause for s in kept.suspects if s.probability >= _TAKEN_FOR and s.cause in book.causes]
    return OtherLook(
        number=line.id, on=line.on, crop=line.crop, plant=line.plant, seen=frozenset(kept.seen),
        absent=frozenset(kept.absent), passes_on=any(book.causes[cause].spreads is not None for cause in taken),
    )  # fmt: skip


def garden_on(book: Book, journal: Journal, on: str) -> GardenReport:
    """The garden as one, as it was known on a day."""
    lines = [line for line in journal.list_cases(states=("finished", "closed")) if line.on <= on]
    looks = journal.last_looks(on)
    since = day_after(on, -max(book.margins[name].value for name in ("watch-after-closed", "same-trouble-within")))
    recent = [line for line in reversed(lines) if max(line.on, looks.get(line.id, "")) >= since]
    cases = [standing_of(book, journal, line, journal.case_outcome(line.id), until=on) for line in recent]
    crops = (journal.load_system() or System()).crops
    plots = list_plots(journal.beds(), journal.plants(), crops, cases, on)
    return GardenReport(
        on=on, watch=list_watch(book, cases, plots, on), own_cases=_own_cases(book, journal, on),
        returning=list_returning(book, _past(journal, lines, looks, on)),
    )  # fmt: skip


def _past(journal: Journal, lines: Sequence[CaseLine], looks: Mapping[int, str], on: str) -> list[Standing]:
    """Every case with what it was: a report is read only where nobody said what the case turned out to be."""
    outcomes, places = journal.outcomes(), journal.places()
    found = []
    for line in lines:
        known = outcomes.get(line.id)
        proven = known.causes if known is not None and known.on <= on else None
        suspects = {s.cause: s.probability for s in _kept(journal, line.id).suspects} if proven is None else {}
        place = places.get(line.id)
        found.append(
            Standing(
                number=line.id, state=line.state, crop=line.crop, bed=place.bed if place else "", on=line.on,
                last_look=looks.get(line.id, line.on), suspects=suspects, proven=proven,
            )
        )  # fmt: skip
    return found


def _own_cases(book: Book, journal: Journal, on: str) -> OwnCases:
    proven, turned_on = proven_cases(journal, on), learns(journal)
    rates = [rate for rate in own_rates(book, proven) if rate.proven]
    return OwnCases(
        on=turned_on, cases=len(proven), nothing_of_the_book=sum(not causes for causes in proven),
        weight=book.margins["own-cases-weight"].value, most=book.margins["own-cases-most"].value,
        rates=tuple(_rate_line(book, rate, turned_on) for rate in sorted(rates, key=lambda r: (-r.proven, r.cause))),
    )  # fmt: skip


def _rate_line(book: Book, rate: OwnRate, turned_on: bool) -> RateLine:
    return RateLine(
        cause=rate.cause, name=book.causes[rate.cause].name, proven=rate.proven, book=rate.book, here=rate.here,
        times=rate.factor if turned_on else 1.0, bounded=rate.bounded,
    )  # fmt: skip
