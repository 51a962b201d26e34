"""What was told at each look, and what the later ones gave, as a sheet tells it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import TYPE_CHECKING

import msgspec

from ..model.book import Book
from ..model.outcome import Heard
from ..report.case_report import BookMark, Report
from ..report.case_sheet import FindingLine, LaterLine, MovedTo, SaidLine
from ..report.own_words import Own
from ..report.recheck_report import RecheckReport
from ..session import Told, answer_as_told
from .sheet_advice import alarm_lines, kept_report

if TYPE_CHECKING:
    from ..journal import Answer, Journal, StoredCase, StoredRecheck, StoredReport


def first_said(book: Book, stored: StoredCase, report: StoredReport | None) -> SaidLine:
    """What was told at the first look; of one never finished, what was answered so far."""
    told = [answer_as_told(answer) for answer in stored.answers]
    if report is None:
        return _answered(book, told)
    kept = kept_report(report)
    heard = kept.read_words if isinstance(kept, Report) else ()
    return SaidLine(
        seen=_lines(book, kept.seen, heard), absent=_lines(book, kept.absent, heard),
        unsure=_lines(book, kept.unsure, heard), words=_words(told),
        unread=tuple(Own(words) for words in kept.unread_words) if isinstance(kept, Report) else (),
    )  # fmt: skip


def _answered(book: Book, told: Sequence[Told]) -> SaidLine:
    """What was answered, the last answer about a finding winning."""
    states = {id_: state for t in told for state in ("seen", "absent", "unsure") for id_ in getattr(t, state)}

    def having(state: str) -> tuple[FindingLine, ...]:
        return _lines(book, sorted(id_ for id_, known in states.items() if known == state))

    return SaidLine(
        seen=having("seen"), absent=having("absent"), unsure=having("unsure"), words=_words(told), unread=()
    )


def _words(told: Sequence[Told]) -> tuple[Own, ...]:
    return tuple(Own(each.text) for each in told if each.kind == "words" and each.text)


def _lines(book: Book, ids: Collection[str], heard: Sequence[Heard] = ()) -> tuple[FindingLine, ...]:
    """Findings by the place where one looks for them; those the book no longer knows by their id."""
    order = {id_: place for place, id_ in enumerate(book.findings)}
    known = sorted(ids, key=lambda id_: (order.get(id_, len(order)), id_))
    return tuple(_line(book, id_, [item.words for item in heard if item.finding == id_]) for id_ in known)


def _line(book: Book, id_: str, words: Sequence[str]) -> FindingLine:
    own = tuple(Own(text) for text in dict.fromkeys(words))
    finding = book.findings.get(id_)
    if finding is None:
        return FindingLine(id=id_, name=id_.replace("-", " "), term="", place="", words=own)
    return FindingLine(id=id_, name=finding.name, term=finding.term, place=finding.place, words=own)


class ShortSecond(msgspec.Struct, frozen=True):
    name: str = ""


class ShortRecheck(msgspec.Struct, frozen=True):
    """What every shape of a kept recheck has."""

    second: ShortSecond | None = None
    next_look: str = ""


def later_lines(book: Book, journal: Journal, number: int) -> Iterator[LaterLine]:
    """Every later look, the first one first."""
    for look in journal.case_rechecks(number):
        report = _kept_recheck(look.report) if look.report else None
        mark = BookMark(version=look.report.book_version, hash=look.report.book_hash) if look.report else None
        yield _later(book, look, report, mark)


def _kept_recheck(stored: StoredReport) -> RecheckReport | ShortRecheck:
    try:
        return msgspec.json.decode(stored.report, type=RecheckReport)
    except msgspec.ValidationError:
        return msgspec.json.decode(stored.report, type=ShortRecheck)


def _later(
    book: Book, look: StoredRecheck, report: RecheckReport | ShortRecheck | None, mark: BookMark | None
) -> LaterLine:
    line = LaterLine(
        on=look.on, finished=look.report is not None, verdict=look.verdict, book=mark,
        said=_answered(book, _told(look.answers)), alarms=(), moved=(),
        second=report.second.name if report and report.second else "", not_again=(), retest=(), not_understood=(),
        advised=(), next_look=report.next_look if report else "",
    )  # fmt: skip
    return _whole(book, line, report) if isinstance(report, RecheckReport) else line


def _told(answers: Sequence[Answer]) -> list[Told]:
    return [answer_as_told(answer) for answer in answers]


def _whole(book: Book, line: LaterLine, report: RecheckReport) -> LaterLine:
    return msgspec.structs.replace(
        line, alarms=alarm_lines(report.now.alarms),
        moved=tuple(MovedTo(name=m.name, before=m.before, now=m.now) for m in report.moved),
        not_again=tuple((item.name, item.why) for item in report.not_again),
        retest=tuple(book.quantities[id_].name for id_ in report.retest if id_ in book.quantities),
        not_understood=tuple(Own(what) for what in report.not_understood),
        advised=tuple(response.name for response in report.now.responses),
    )  # fmt: skip
