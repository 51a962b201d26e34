"""The real question series answered by simulated growers, and what is wrong with a question that was put.

A grower knows a published case and tells it when asked (``tells``), or looks and can tell nothing (``blind``), or sees
none of what is asked for (``denies``). Each starts with one finding ticked, or with the first fact in words.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

import msgspec
from accuracy_cases import DAY, Vignette, bare_case, case_of, words_of
from accuracy_series import reply

from triage.model.finding import Finding
from triage.model.outcome import NextQuestion
from triage.ranking.evidence import Evidence
from triage.ranking.question import can_ask
from triage.reasoning import Engines, closed
from triage.report.case_report import QuestionLine
from triage.screens.grower import WrittenGrower
from triage.screens.series import Series
from triage.screens.style import build_console
from triage.session import Session, Told

STARTS = ("finding", "words")
GROWERS = ("tells", "blind", "denies")
#: What a person needs more than eyes, hands and nose for, and what needs only eyes.
TOOLS, EYES = ("lens", "test-kit", "laboratory"), ("glance",)


@dataclass
class Watched:
    """What was seen of one series: questions in their order, and whatever should not have been put."""

    id: str
    start: str
    grower: str
    asked: list[str] = field(default_factory=list)
    places: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    ended: str = ""

    @property
    def returns(self) -> int:
        """How often the grower is sent back to a place looked at before, and left."""
        left = [place for place, after in zip(self.places, self.places[1:], strict=False) if place != after]
        turns = [self.places[0], *(b for a, b in zip(self.places, self.places[1:], strict=False) if a != b)]
        return len(turns) - len(set(turns)) if left else 0


class WatchedSeries(Series):
    """A series that notes every question before it is put."""

    def __init__(self, session: Session, ask: Callable[[str], str], knows: Evidence, seen: Watched) -> None:
        console = build_console(width=80, file=io.StringIO(), colour=False)
        super().__init__(session, console, ask, record=lambda told: None, forget=lambda: None)
        self.knows, self.seen = knows, seen

    def show(self, shown: QuestionLine) -> None:
        note(self.seen, self.session, self.step, shown, self.knows)

    def title(self, ask: str, look: str = "") -> None:
        self.seen.asked.append(self.step.id)


def run_watched(vignette: Vignette, engines: Engines, start: str, grower: str) -> Watched:
    """One series from its first question to its end."""
    book = engines.book
    knows = closed(case_of(vignette, book, "coded"), book)[0]
    first = tuple(vignette["coded"]["seen"][:1]) if start == "finding" else ()
    words = () if first else words_of(vignette)[:1]
    bare = bare_case(vignette, book)
    session = Session(book, on=DAY, system=bare.system, readings=bare.readings, engines=engines)
    if first:
        session.tell(Told(kind="finding", seen=first))
    seen = Watched(vignette["id"], start, grower)
    person = Person(msgspec.structs.replace(knows, words=words), grower)
    would = {"tells": Evidence.of_case(knows), "blind": Evidence(), "denies": Evidence(absent=frozenset(book.findings))}
    person.series = series = WatchedSeries(session, person.ask, would[grower], seen)
    series.run()
    seen.ended = series.ended
    return seen


class Person(WrittenGrower):
    """A grower of one of the kinds."""

    def __init__(self, case: Any, kind: str) -> None:
        super().__init__(case)
        self.kind = kind

    def choice(self, shown: QuestionLine) -> str:
        if self.kind == "tells":
            return super().choice(shown)
        return "t" if self.kind == "blind" else "0"


def note(seen: Watched, session: Session, step: NextQuestion, shown: QuestionLine, knows: Evidence) -> None:
    """Note a question, and what is wrong with it."""
    book, case = session.book, session.case
    question = book.questions[shown.id]
    known = follows(case.seen, case.absent, book.findings)
    if shown.id in seen.asked:
        seen.faults.append(f"{shown.id}: asked twice")
    again = [option.id for option in shown.options if option.id in known]
    told = case.seen.intersection(question.options) if question.pick == "one" else ()
    if again or told:
        seen.faults.append(f"{shown.id}: answered already ({', '.join(sorted({*again, *told}))})")
    aside = [option.id for option in shown.options if option.id in case.set_aside]
    if aside:
        seen.faults.append(f"{shown.id}: another answer was given ({', '.join(aside)})")
    if question.effort in TOOLS and step.bits and (eyes := by_eye(session, knows)):
        seen.faults.append(f"{shown.id}: {question.effort}, though a glance would decide ({eyes})")
    seen.asked.append(shown.id)
    seen.places.append(question.place)


def follows(seen: Iterable[str], absent: Iterable[str], findings: Mapping[str, Finding]) -> set[str]:
    """What is known once what is seen, and what is absent, is: a plain walk, apart from the engine's own."""
    known_seen, known_absent = set(seen), set(absent)
    size = -1
    while size != len(known_seen) + len(known_absent):
        size = len(known_seen) + len(known_absent)
        for id_, finding in findings.items():
            if id_ in known_seen:
                known_seen |= set(finding.implies)
                known_absent |= set(finding.excludes)
            if known_absent & set(finding.implies) or known_seen & set(finding.excludes):
                known_absent |= {id_} - known_seen
    return known_seen | known_absent


def by_eye(session: Session, knows: Evidence) -> str:
    """A question of one glance whose answer by this grower would have settled the case; '' if there is none."""
    book, case = session.book, session.case
    evidence = Evidence.of_case(closed(case, book)[0])
    crop = book.crops.get(case.crop)
    for id_, question in book.questions.items():
        if question.effort in EYES and can_ask(question, evidence, case.asked, crop):
            told = reply(session, id_, knows)
            if told.kind == "cant-tell":
                continue
            session.tell(told)
            ended = session.standing().why_none
            session.undo()
            if ended == "settled":
                return id_
    return ""
