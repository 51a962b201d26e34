"""A saved case taken up again: what was told and advised and done → a later look, and the session that asks for it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import msgspec

from ..followup.done import Act
from ..followup.judge import LookSaid
from ..followup.roles import look_findings
from ..followup.second_look import Earlier, SecondLook
from ..model.book import Book
from ..model.case import Case, System
from ..model.quantity import Reading
from ..reasoning import Engines
from ..report.recheck_report import RecheckReport
from ..session import Session, Told, answer_as_told, as_told, still_known

if TYPE_CHECKING:
    from ..journal import Answer, Journal, StoredRecheck, StoredReport


class AdvisedSuspect(msgspec.Struct, frozen=True):
    """What every shape of a kept report says of a suspect."""

    cause: str
    probability: float


class AdvisedDose(msgspec.Struct, frozen=True):
    """How much, split over so many days."""

    days: int = 1
    what: str = ""
    grams: float = 0.0


class AdvisedResponse(msgspec.Struct, frozen=True):
    """What every shape of a kept report says of a response."""

    treatment: str
    name: str = ""
    dose: AdvisedDose | None = None
    harvest_wait_days: int | None = None


class Advised(msgspec.Struct, frozen=True):
    """The parts of a kept report that later looks need; whatever else it holds is passed over."""

    suspects: tuple[AdvisedSuspect, ...] = ()
    responses: tuple[AdvisedResponse, ...] = ()


class AdvisedAgain(msgspec.Struct, frozen=True):
    """The same of a kept recheck."""

    suspects: tuple[AdvisedSuspect, ...] = ()
    next_look: str = ""
    now: Advised = Advised()


def advised_first(report: StoredReport | None) -> Advised:
    """What was advised at the first look; nothing if there was none."""
    return msgspec.json.decode(report.report, type=Advised) if report else Advised()


def advised_again(look: StoredRecheck) -> AdvisedAgain:
    """What a finished later look gave."""
    return msgspec.json.decode(look.report.report, type=AdvisedAgain) if look.report else AdvisedAgain()


def tell_again(book: Book, session: Session, answers: Sequence[Answer]) -> None:
    """Tell a session what was answered, as far as the book still knows it."""
    for answer in answers:
        session.tell(still_known(answer_as_told(answer), book))


def told_before(book: Book, journal: Journal, number: int, engines: Engines) -> tuple[Case, tuple[LookSaid, ...]]:
    """The findings of every finished look as one case of the day of the first, and what was seen at the later ones."""
    stored = journal.load_case(number)
    session = Session(book, on=stored.on, system=stored.system, engines=engines)
    tell_again(book, session, stored.answers)
    if stored.crop in book.crops:
        session.told.insert(0, Told(kind="crop", crop=stored.crop))
    silent, looks = look_findings(book), []
    for look in journal.case_rechecks(number):
        if look.report is not None:
            later = Session(book, on=look.on, system=stored.system, engines=engines)
            tell_again(book, later, look.answers)
            looks.append(LookSaid(on=look.on, seen=later.case.seen))
            session.tell(as_told(later.case, without=silent))
    return session.case, tuple(looks)


def acts_of(journal: Journal, number: int, *, until: str | None = None) -> tuple[Act, ...]:
    """What was done about a case up to a day (so far, if not said)."""
    return tuple(
        Act(what=action.what, on=action.on, treatment=action.treatment)
        for action in journal.case_actions(number)
        if until is None or action.on <= until
    )


def dose_days(responses: Sequence[AdvisedResponse]) -> dict[str, int]:
    """Over how many days each dose is split, as it was advised first."""
    return {response.treatment: response.dose.days for response in reversed(responses) if response.dose}


def earlier_of(book: Book, journal: Journal, number: int, engines: Engines) -> Earlier:
    """Everything known of a case before another look. Errors: UsageError if there is no such case."""
    told, looks = told_before(book, journal, number, engines)
    first = advised_first(journal.case_report(number))
    again = [advised_again(look) for look in journal.case_rechecks(number) if look.report is not None]
    responses = [*first.responses, *(response for look in again for response in look.now.responses)]
    suspects = again[-1].suspects if again else first.suspects
    return Earlier(
        number=number, told=told, looks=looks,
        acts=acts_of(journal, number),
        suspects={suspect.cause: suspect.probability for suspect in suspects if suspect.cause in book.causes},
        offered=tuple(dict.fromkeys(response.treatment for response in responses)),
        dose_days=dose_days(responses),
    )  # fmt: skip


class Recheck:
    """A later look being taken: the session that asks, and the report it ends with.

    ``known`` counts what was told before this look. What was answered in one begun on the same day is told again.
    """

    def __init__(
        self, book: Book, journal: Journal, number: int, readings: Sequence[Reading], system: System | None, *, on: str
    ) -> None:
        """``readings`` are those recorded up to the day ``on``; ``system`` is the one of today."""
        self.look = SecondLook(book, earlier_of(book, journal, number, Engines(book)), readings, on=on)
        self.engines = Engines(self.look.book)
        begins = self.look.begins_with
        self.session = Session(
            self.look.book, on=on, system=system or begins.system, readings=self.look.readings, engines=self.engines
        )
        self.session.tell(Told(kind="crop", crop=begins.crop))
        self.session.tell(as_told(begins))
        self.known = len(self.session.told)
        begun = [look for look in journal.case_rechecks(number) if look.report is None and look.on == on]
        tell_again(self.look.book, self.session, begun[-1].answers if begun else ())

    def report(self) -> RecheckReport:
        """What the look gave, after everything told so far."""
        return self.look.report(self.session.case, self.engines)
