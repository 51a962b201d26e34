"""The conductor: takes what a grower tells, runs the engines in order, gives one report.

Screens, files, the demo and any other surface drive the same Session; none of them reasons.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Literal

import msgspec

from .errors import UsageError
from .model.book import Book
from .model.case import Case, System
from .model.outcome import AlarmRaised, Heard, NextQuestion
from .model.quantity import Reading
from .reasoning import Engines, Standing, closed
from .report.build import build_question, build_report
from .report.case_report import QuestionLine, Report

if TYPE_CHECKING:
    from .journal import Answer

ToldKind = Literal["crop", "words", "finding", "cant-tell", "reading"]


class Told(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One thing told: a crop, words, the answer to a question, a reading, or that one cannot tell."""

    kind: ToldKind
    question: str = ""
    crop: str = ""
    text: str = ""
    seen: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()
    unsure: tuple[str, ...] = ()
    set_aside: tuple[str, ...] = ()
    reading: Reading | None = None


class Session:
    """One look at one plant: everything told so far, and what follows from it."""

    def __init__(
        self, book: Book, *, on: str, system: System | None = None, readings: Iterable[Reading] = (),
        engines: Engines | None = None,
    ) -> None:  # fmt: skip
        """``on`` is the ISO date of the look; ``readings`` are those recorded before it."""
        self.book = book
        self.on = on
        self.system = system or System()
        self.readings = tuple(readings)
        self.engines = engines or Engines(book)
        self.told: list[Told] = []

    # -- telling -------------------------------------------------------------------------------------------------

    def tell(self, told: Told) -> None:
        """Take one thing told; a later one wins over an earlier one about the same finding."""
        self.told.append(told)

    def undo(self) -> Told | None:
        """Take the last thing told back; None if nothing was told."""
        return self.told.pop() if self.told else None

    def answer(self, question_id: str, chosen: Sequence[str], *, unsure: Sequence[str] = ()) -> Told:
        """Take the answer to a question of the book; see ``answered``."""
        told = self.answered(question_id, chosen, unsure=unsure)
        self.tell(told)
        return told

    def answered(
        self, question_id: str, chosen: Sequence[str], *, unsure: Sequence[str] = (), offered: Sequence[str] = ()
    ) -> Told:
        """The answer to a question of the book: the options chosen, and those the grower is not sure of.

        Nothing chosen and nothing unsure means: none of these. ``offered`` are the options that were shown (all, if
        not said); nothing is said of the others. Errors: UsageError for an option that was not there.
        """
        question = self.book.questions[question_id]
        shown = offered or question.options
        strange = [option for option in (*chosen, *unsure) if option not in shown]
        if strange:
            raise UsageError(f"'{strange[0]}' is no answer to '{question_id}' (allowed: {', '.join(shown)})")
        rest = tuple(option for option in shown if option not in chosen and option not in unsure)
        one = question.pick == "one" and bool(chosen or unsure)
        return Told(
            kind="finding", question=question_id, seen=tuple(chosen), unsure=tuple(unsure),
            set_aside=rest if one else (), absent=() if one else rest,
        )  # fmt: skip

    @property
    def case(self) -> Case:
        """Everything told so far as one case; later answers win, and answers win over words."""
        states: dict[str, str] = {}
        for told in self.told:
            for heard in self.understood(told.text)[0] if told.kind == "words" else ():
                states.setdefault(heard.finding, heard.state)
        for told in self.told:
            for state in ("seen", "absent", "unsure", "set_aside"):
                states.update((finding, state) for finding in getattr(told, state) if _may_set(states, finding, state))

        def having(state: str) -> frozenset[str]:
            return frozenset(finding for finding, known in states.items() if known == state)

        return Case(
            on=self.on, system=self.system, crop=next((t.crop for t in reversed(self.told) if t.kind == "crop"), ""),
            words=tuple(t.text for t in self.told if t.kind == "words" and t.text), readings=self._all_readings(),
            seen=having("seen"), absent=having("absent"), unsure=having("unsure"), set_aside=having("set_aside"),
            asked=frozenset(t.question for t in self.told if t.question),
        )  # fmt: skip

    def _all_readings(self) -> tuple[Reading, ...]:
        spoken = [reading for t in self.told if t.kind == "words" for reading in self.spoken(t.text)]
        return (*self.readings, *spoken, *(t.reading for t in self.told if t.reading is not None))

    def understood(self, text: str) -> tuple[tuple[Heard, ...], tuple[str, ...]]:
        """What the reader makes of some words: findings heard, and what it did not understand."""
        return self.engines.hearing.read(text)

    def spoken(self, text: str) -> tuple[Reading, ...]:
        """Readings that stand in some words."""
        return self.engines.hearing.spoken(text, self.on)

    # -- asking --------------------------------------------------------------------------------------------------

    def question_line(self, question: NextQuestion) -> QuestionLine:
        """A question as it is put to a person: only the options that nobody has spoken of yet, with the reason."""
        line = build_question(self.book, question)
        assert line is not None  # there is a question to build
        full, _ = closed(self.case, self.book)
        known = full.seen | full.absent
        return msgspec.structs.replace(line, options=tuple(o for o in line.options if o.id not in known))

    def alarms(self) -> tuple[AlarmRaised, ...]:
        """What cannot wait, after everything told so far."""
        return self.engines.alarms(self.case)

    def next_question(self) -> NextQuestion | None:
        """The question most worth its effort now; None when it is settled or nothing is worth asking."""
        return self.standing().question

    def standing(self) -> Standing:
        """The next question or why there is none, and how likely every cause is before its answer."""
        return self.engines.standing(self.case, here=self._here())

    def _here(self) -> str:
        """Where the grower is looking already: the place of the last question answered."""
        last = next((t.question for t in reversed(self.told) if t.question in self.book.questions), "")
        return self.book.questions[last].place if last else ""

    # -- the answer ----------------------------------------------------------------------------------------------

    def look(self, *, with_question: bool = True, with_responses: bool = True) -> Report:
        """One pass through all engines."""
        heard, unread = self.engines.hearing.read_all(self.case.words)
        look = self.engines.look(
            self.case, heard, unread, here=self._here(), with_question=with_question, with_responses=with_responses
        )
        return build_report(self.book, look)


def _may_set(states: dict[str, str], finding: str, state: str) -> bool:
    """An option set aside says nothing, so it never overrides what was said of the finding before."""
    return state != "set_aside" or finding not in states


def told_as_answer(told: Told) -> Answer:
    """What the journal keeps of one thing told."""
    from .journal import Answer

    return Answer(question=told.question, kind=told.kind, payload=msgspec.json.encode(told).decode())


def answer_as_told(answer: Answer) -> Told:
    """The thing told that the journal kept. Errors: msgspec.ValidationError if it is not one of ours."""
    return msgspec.json.decode(answer.payload, type=Told)


def as_told(case: Case, *, without: frozenset[str] = frozenset()) -> Told:
    """The findings of a case as one thing told."""

    def kept(findings: frozenset[str]) -> tuple[str, ...]:
        return tuple(sorted(findings - without))

    return Told(
        kind="finding", seen=kept(case.seen), absent=kept(case.absent), unsure=kept(case.unsure),
        set_aside=kept(case.set_aside),
    )  # fmt: skip


def still_known(told: Told, book: Book) -> Told:
    """The same without findings and crops that a later book does not have."""

    def known(findings: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(finding for finding in findings if finding in book.findings)

    return msgspec.structs.replace(
        told, seen=known(told.seen), absent=known(told.absent), unsure=known(told.unsure),
        set_aside=known(told.set_aside), crop=told.crop if told.crop in book.crops else "",
    )  # fmt: skip


def session_from_case(book: Book, case: Case, engines: Engines | None = None) -> Session:
    """A session in which everything of a written case has been told."""
    session = Session(book, on=case.on, system=case.system, readings=case.readings, engines=engines)
    if case.crop:
        session.tell(Told(kind="crop", question="crop", crop=case.crop))
    for text in case.words:
        session.tell(Told(kind="words", question="words", text=text))
    session.tell(as_told(case))
    return session
