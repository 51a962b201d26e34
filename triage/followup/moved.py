"""How a later look moved the causes, in lines of a report."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..model.book import Book
from ..report.case_report import Report
from ..report.recheck_report import DoneLine, MovedLine, SecondLine
from .done import Done
from .judge import Attempt
from .recovery import day_after

#: Causes that were and are less likely than this are not worth a line.
_WORTH_A_LINE = 0.05
#: A second cause is named from this probability on; a treated one is out below it.
_NAMED_FROM = 0.10
_STILL_LIKELY = 0.50


def done_lines(
    book: Book, done: Sequence[Done], attempts: Sequence[Attempt], chances: Mapping[str, float]
) -> tuple[DoneLine, ...]:
    """Each remedy against the likeliest cause it works against; those against none of the book are left out."""
    lines = []
    for each in done:
        against = [a for a in attempts if a.done.treatment == each.treatment]
        if against:
            lines.append(_done_line(book, max(against, key=lambda a: (chances.get(a.cause, 0.0), a.rank, a.cause))))
    return tuple(lines)


def _done_line(book: Book, attempt: Attempt) -> DoneLine:
    return DoneLine(
        treatment=attempt.done.treatment, name=book.treatments[attempt.done.treatment].name, days=attempt.done.days,
        times=attempt.done.times, whole=attempt.done.whole, against=attempt.cause, works=attempt.works,
        better_by=day_after(attempt.done.last, attempt.expected), waited=attempt.waited, hindered=attempt.hindered,
    )  # fmt: skip


def moved_lines(book: Book, before: Mapping[str, float], now: Mapping[str, float]) -> tuple[MovedLine, ...]:
    """The causes that were or are worth a line, the likeliest now first."""
    worth = [id_ for id_ in {**now, **before} if max(before.get(id_, 0), now.get(id_, 0)) >= _WORTH_A_LINE]
    order = sorted(worth, key=lambda id_: (-round(now.get(id_, 0.0), 9), -round(before.get(id_, 0.0), 9), id_))
    return tuple(
        MovedLine(cause=id_, name=book.causes[id_].name, before=before.get(id_, 0.0), now=now.get(id_, 0.0))
        for id_ in order
        if id_ in book.causes
    )


def find_second(what: Report, lines: Sequence[DoneLine], attempts: Sequence[Attempt]) -> SecondLine | None:
    """The likeliest cause that nothing was done about; None where nothing was done, or none is likely enough."""
    treated = {attempt.cause for attempt in attempts if attempt.works != "little"}
    open_ = [
        s for s in what.suspects if s.cause not in treated and s.probability >= _NAMED_FROM and s.kind != "harmless"
    ]
    if not lines or not open_:
        return None
    likely = any(s.probability >= _STILL_LIKELY for s in what.suspects if s.cause in {line.against for line in lines})
    first = open_[0]
    return SecondLine(
        cause=first.cause, name=first.name, probability=first.probability, instead=not likely, settle=first.settle
    )
