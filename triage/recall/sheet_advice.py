"""What the first look gave, as a sheet tells it: from the report that was kept that day, never reckoned anew."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

import msgspec

from ..model.book import Book
from ..model.outcome import AlarmRaised, Dose
from ..model.rule import Grade
from ..report.case_report import BookMark, Report, SupportLine, SuspectLine
from ..report.case_sheet import AdviceLine, AlarmLine, CauseLine, DrawnLine, ReasonLine, RemedyLine

if TYPE_CHECKING:
    from ..journal import StoredReport

#: Causes on a sheet: those at least this likely, the first in any case, and no more than so many.
LIKELY_ENOUGH, MOST_CAUSES = 0.05, 8
#: Reasons that tell less than this (in bits, either way) are left out.
CLEAR_BITS = 0.1


class ShortAlarm(msgspec.Struct, frozen=True):
    say: str = ""
    do: tuple[str, ...] = ()


class ShortCause(msgspec.Struct, frozen=True):
    cause: str
    probability: float
    name: str = ""


class ShortRemedy(msgspec.Struct, frozen=True):
    treatment: str
    grade: Grade = "unknown"
    name: str = ""
    dose: Dose | None = None


class ShortReport(msgspec.Struct, frozen=True):
    """What every shape of a kept report has."""

    seen: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()
    unsure: tuple[str, ...] = ()
    alarms: tuple[ShortAlarm, ...] = ()
    suspects: tuple[ShortCause, ...] = ()
    responses: tuple[ShortRemedy, ...] = ()


def kept_report(stored: StoredReport) -> Report | ShortReport:
    """The report as it was kept; in short where an older version kept it in another shape."""
    try:
        return msgspec.json.decode(stored.report, type=Report)
    except msgspec.ValidationError:
        return msgspec.json.decode(stored.report, type=ShortReport)


def advice_line(book: Book, stored: StoredReport | None) -> AdviceLine | None:
    """What was advised; None where the case was never finished."""
    if stored is None:
        return None
    mark = BookMark(version=stored.book_version, hash=stored.book_hash)
    report = kept_report(stored)
    if isinstance(report, ShortReport):
        return _short(report, stored.at[:10], mark)
    sources = {firing.rule: firing.sources for firing in report.firings}
    enough = [s for n, s in enumerate(report.suspects) if n == 0 or s.probability >= LIKELY_ENOUGH][:MOST_CAUSES]
    return AdviceLine(
        on=report.on, book=mark, whole=True, alarms=alarm_lines(report.alarms),
        causes=tuple(_cause(suspect, sources) for suspect in enough), none_in_book=report.none_in_book,
        unexplained=tuple(book.findings[id_].name for id_ in report.unexplained if id_ in book.findings),
        contradictions=report.contradictions,
        drawn=tuple(DrawnLine(say=c.because, sources=sources.get(c.rule, ())) for c in report.conclusions),
        from_journal=report.from_journal, remedies=_remedies(book, report),
        avoid=report.avoid,
        cautions=report.cautions,
    )  # fmt: skip


def alarm_lines(alarms: Iterable[AlarmRaised]) -> tuple[AlarmLine, ...]:
    """Alarms as a sheet tells them."""
    return tuple(AlarmLine(say=alarm.say, do=alarm.do) for alarm in alarms)


def _cause(suspect: SuspectLine, sources: Mapping[str, tuple[str, ...]]) -> CauseLine:
    return CauseLine(
        cause=suspect.cause, name=suspect.name, kind=suspect.kind, plain=suspect.plain,
        probability=suspect.probability, for_=_reasons(suspect.for_, sources),
        against=_reasons(suspect.against, sources), settle=suspect.settle, not_to_confuse=suspect.not_to_confuse,
        expect=suspect.expect, sources=suspect.sources,
    )  # fmt: skip


def _reasons(supports: Sequence[SupportLine], sources: Mapping[str, tuple[str, ...]]) -> tuple[ReasonLine, ...]:
    return tuple(
        ReasonLine(say=s.say, kind=s.kind, bits=s.support, sources=sources.get(s.what, ()) if s.kind == "rule" else ())
        for s in supports
        if abs(s.support) >= CLEAR_BITS
    )


def _remedies(book: Book, report: Report) -> tuple[RemedyLine, ...]:
    names = {suspect.cause: suspect.name for suspect in report.suspects}
    return tuple(
        RemedyLine(
            treatment=r.treatment, name=r.name, grade=r.grade,
            against=tuple(names.get(id_, id_.replace("-", " ")) for id_ in r.works_for),
            why=r.why, dose=r.dose, steps=r.steps, cautions=r.cautions,
            harvest_wait_days=r.harvest_wait_days, sources=r.sources,
        )
        for r in report.responses
    )  # fmt: skip


def _short(report: ShortReport, on: str, mark: BookMark) -> AdviceLine:
    """An older report: alarms, causes and remedies by name."""
    return AdviceLine(
        on=on, book=mark, whole=False, alarms=tuple(AlarmLine(say=a.say, do=a.do) for a in report.alarms),
        causes=tuple(
            CauseLine(
                cause=s.cause, name=s.name or s.cause.replace("-", " "), kind="", plain="", probability=s.probability,
                for_=(), against=(), settle=(), not_to_confuse=(), expect=(), sources=(),
            )
            for s in report.suspects[:MOST_CAUSES]
        ),
        none_in_book=None, unexplained=(), contradictions=(), drawn=(), from_journal=(),
        remedies=tuple(
            RemedyLine(
                treatment=r.treatment, name=r.name or r.treatment.replace("-", " "), against=(), grade=r.grade, why=(),
                dose=r.dose, steps=(), cautions=(), harvest_wait_days=None, sources=(),
            )
            for r in report.responses
        ),
        avoid=(), cautions=(),
    )  # fmt: skip
