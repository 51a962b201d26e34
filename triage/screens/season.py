"""Plays a written season through the real sessions, series and journal."""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

import msgspec

from ..book.casefile import CaseInput
from ..book.season import Event, Written
from ..drift import Told as DriftTold
from ..drift import explain_drift
from ..errors import KnowledgeError
from ..intake import build_case
from ..model.book import Book
from ..model.case import System
from ..model.garden import Bed
from ..recall.due import due_on
from ..recall.looks import keep_look, keep_recheck, open_look, open_recheck
from ..recall.readings import readings_until
from ..report.case_report import Report
from ..report.drift_report import DriftReport
from ..report.due_report import DueReport
from ..report.recheck_report import RecheckReport
from ..report.spray_report import SprayReport
from ..session import Told, told_as_answer
from ..spraying import Asked, answer_spray
from ..water.readings import parse_assignment
from .grower import WrittenGrower
from .recheck import RecheckSeries
from .series import Series
from .style import build_console

if TYPE_CHECKING:
    from ..journal import Journal


#: How far ahead what is due is asked for.
_AHEAD = 14


class Clock:
    """The time of a day that is played: it begins at eight, and every entry takes a second."""

    def __init__(self) -> None:
        self._day, self._seconds = "2000-01-01", 0

    def begin(self, day: str) -> None:
        """Go to a day, if it is not there already."""
        if day != self._day:
            self._day, self._seconds = day, 0

    def now(self) -> str:
        """The time of the next entry."""
        self._seconds += 1
        minutes, second = divmod(self._seconds, 60)
        hour, minute = divmod(8 * 60 + minutes, 60)
        return f"{self._day}T{hour:02}:{minute:02}:{second:02}.000+00:00"


class Happened(msgspec.Struct, frozen=True, kw_only=True):
    """An event, and what the program said to it. ``asked`` counts the questions of a look."""

    event: Event
    number: int | None = None
    asked: int = 0
    report: Report | None = None
    recheck: RecheckReport | None = None
    drift: DriftReport | None = None
    spray: SprayReport | None = None
    due: DueReport | None = None


class SeasonPlayer:
    """Plays events into a journal, whose time is ``clock``. ``numbers`` are the cases by the words they go by."""

    def __init__(self, book: Book, journal: Journal, clock: Clock) -> None:
        self.book, self.journal, self.clock = book, journal, clock
        self.numbers: dict[str, int] = {}
        self.quiet = build_console(width=80, file=io.StringIO(), colour=False)

    def play(self, season: Iterable[Written]) -> Iterator[Happened]:
        """Each event in turn, as soon as it was played. Errors: KnowledgeError for what the book does not know."""
        for written in season:
            self.clock.begin(written.event.day)
            yield self._event(written)

    def _event(self, written: Written) -> Happened:
        event = written.event
        self._prepare(written)
        said: dict[str, Any] = {}
        if event.look is not None:
            said |= self._look(written, event.look)
        if event.did:
            self.journal.record_action(self._number(written), event.did, event.day, treatment=self._treatment(written))
        if event.again is not None:
            said |= self._again(written, event.again)
        self._end(written)
        return Happened(event=event, number=self.numbers.get(event.case), **said, **self._asked(written))

    def _prepare(self, written: Written) -> None:
        """The system, its beds, and what was measured."""
        event = written.event
        if event.system is not None:
            case = build_case(written.case(CaseInput(system=event.system)), self.book, today=event.day)
            self.journal.save_system(case.system)
        for bed in event.beds:
            self._must_know(written, "beds", bed.crops, self.book.crops)
            self.journal.save_bed(Bed(name=bed.name, kind=bed.kind, crops=tuple(bed.crops), beside=tuple(bed.beside)))
        readings = [
            parse_assignment(text, self.book.quantities, on=event.day, kit=event.kit, point=event.point)
            for text in event.readings
        ]
        self.journal.add_readings(readings)

    def _end(self, written: Written) -> None:
        """What it turned out to be, and how it ended."""
        event = written.event
        if event.proved is not None:
            self._must_know(written, "proved", event.proved, self.book.causes)
            self.journal.record_outcome(self._number(written), event.proved, event.how, event.day)
        if event.closed:
            self.journal.close_case(self._number(written), event.closed)

    # -- looks -----------------------------------------------------------------------------------------------------

    def _look(self, written: Written, look: CaseInput) -> dict[str, Any]:
        """The real series, answered as written; kept as the series of a grower is kept."""
        from ..journal import CasePlace

        event, system = written.event, self._system()
        case = build_case(written.case(look, "look"), self.book, today=event.day, saved=system)
        number = self.journal.begin_case(event.day, "", system, plant=look.plant)
        self.numbers[event.case] = number
        self.journal.place_case(number, CasePlace(bed=event.bed, plant=look.plant))
        session = open_look(self.book, self.journal, event.day)
        grower = WrittenGrower(case)
        series = Series(session, self.quiet, grower.ask, record=self._record(number), forget=_never)
        grower.series = series
        report = series.run()
        keep_look(self.journal, session, number, report)
        return {"report": report, "asked": _count(session.told)}

    def _again(self, written: Written, again: CaseInput) -> dict[str, Any]:
        number, day = self._number(written), written.event.day
        case = build_case(written.case(again, "again"), self.book, today=day, saved=self._system())
        recheck_id = self.journal.begin_recheck(number, day)
        look = open_recheck(self.book, self.journal, number, day)
        for text in case.words:  # what struck the grower before anything was asked
            told = Told(kind="words", text=text)
            look.session.tell(told)
            self._record(number)(told)
        grower = WrittenGrower(case)
        series = RecheckSeries(look, self.quiet, grower.ask, record=self._record(number), forget=_never)
        grower.series = series
        series.run()
        asked = _count(look.session.told[look.known :])
        return {"recheck": keep_recheck(self.journal, recheck_id, look), "asked": asked}

    def _record(self, number: int) -> Any:
        return lambda told: self.journal.record_answer(number, told_as_answer(told))

    # -- questions about the water, a spray, the day ---------------------------------------------------------------

    def _asked(self, written: Written) -> dict[str, Any]:
        event = written.event
        said: dict[str, Any] = {}
        system, readings = self._system(), readings_until(self.journal, event.day)
        if event.why is not None:
            self._must_know(written, "why", (*event.why.seen, *event.why.absent), self.book.findings)
            told = DriftTold(seen=frozenset(event.why.seen), absent=frozenset(event.why.absent))
            said["drift"] = explain_drift(self.book, event.why.quantity, system, readings, on=event.day, told=told)
        if event.spray is not None:
            typed = {name: value for name, value in msgspec.structs.asdict(event.spray).items() if value}
            said["spray"] = answer_spray(self.book, Asked(**typed), system, readings, on=event.day)
        if event.due:
            said["due"] = due_on(self.book, self.journal, event.day, ahead_days=_AHEAD)
        return said

    # -- what is there ---------------------------------------------------------------------------------------------

    def _system(self) -> System:
        return self.journal.load_system() or System()

    def _number(self, written: Written) -> int:
        self._must_know(written, "case", [written.event.case], self.numbers)
        return self.numbers[written.event.case]

    def _treatment(self, written: Written) -> str:
        named = written.event.treatment
        self._must_know(written, "treatment", [named] if named else [], self.book.treatments)
        return named

    def _must_know(self, written: Written, key: str, names: Iterable[str], known: Iterable[str]) -> None:
        faults = [written.fault(key, f"nothing has the id '{name}'") for name in names if name not in known]
        if faults:
            raise KnowledgeError(faults)


def _count(told: Iterable[Told]) -> int:
    """The questions that were answered."""
    return len({one.question for one in told if one.question})


def _never() -> None:
    """A written grower takes nothing back."""
