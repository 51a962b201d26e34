"""Causes that come back over the seasons."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..model.book import Book
from ..report.garden_report import Outbreak, ReturnLine
from .recovery import days_between
from .standing import LEADS_FROM, Standing

_MONTHS = 12
#: The same time of the year: begun in months that lie no further apart than this.
_APART = 1


def list_returning(book: Book, cases: Sequence[Standing]) -> tuple[ReturnLine, ...]:
    """Causes with more than one outbreak, the one that came most often first."""
    known: dict[str, list[Standing]] = {}
    for case in sorted(cases, key=lambda case: (case.on, case.number)):
        for cause in taken_for(book, case):
            known.setdefault(cause, []).append(case)
    lines = [_line(book, cause, outbreaks_of(book, of)) for cause, of in known.items()]
    again = [line for line in lines if len(line.outbreaks) > 1]
    return tuple(sorted(again, key=lambda line: (-len(line.outbreaks), line.outbreaks[0].first, line.cause)))


def taken_for(book: Book, case: Standing) -> tuple[str, ...]:
    """What a case was: what it was proven to be, else what is likely; harmless things are left out."""
    likely = tuple(cause for cause, chance in case.suspects.items() if chance >= LEADS_FROM)
    said = case.proven if case.proven is not None else likely
    return tuple(id_ for id_ in said if id_ in book.causes and book.causes[id_].kind != "harmless")


def outbreaks_of(book: Book, cases: Sequence[Standing]) -> tuple[Outbreak, ...]:
    """Cases of one cause, by day, in groups with a quiet time between them."""
    quiet = book.margins["same-trouble-within"].value
    groups: list[list[Standing]] = []
    last = ""
    for case in cases:
        if groups and days_between(last, case.on) <= quiet:
            groups[-1].append(case)
        else:
            groups.append([case])
        last = max(last, case.on, case.last_look)
    return tuple(_outbreak(group) for group in groups)


def _outbreak(group: Sequence[Standing]) -> Outbreak:
    return Outbreak(
        first=group[0].on, last=max(case.last_look for case in group), cases=tuple(case.number for case in group),
        proven=sum(case.proven is not None for case in group),
        crops=tuple(dict.fromkeys(case.crop for case in group if case.crop)),
        beds=tuple(dict.fromkeys(case.bed for case in group if case.bed)),
    )  # fmt: skip


def _line(book: Book, cause: str, outbreaks: tuple[Outbreak, ...]) -> ReturnLine:
    shared = set(outbreaks[0].beds).intersection(*(outbreak.beds for outbreak in outbreaks))
    return ReturnLine(
        cause=cause, name=book.causes[cause].name, outbreaks=outbreaks,
        same_season=same_season([outbreak.first for outbreak in outbreaks]), same_bed=min(shared, default=""),
    )  # fmt: skip


def same_season(days: Sequence[str]) -> bool:
    """Whether the days lie in different years, at about the same time of the year.

    >>> same_season(["2024-12-20", "2026-01-03"]), same_season(["2025-05-02", "2025-11-04"])
    (True, False)
    """
    months = sorted(int(day[5:7]) for day in days)
    years = {day[:4] for day in days}
    gaps = [later - earlier for earlier, later in pairwise([*months, months[0] + _MONTHS])]
    return len(years) == len(days) > 1 and _MONTHS - max(gaps) <= _APART
