"""The conductor: what is told, taken back, answered, and what one look gives."""

from __future__ import annotations

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from triage.errors import UsageError
from triage.model.book import Book
from triage.model.case import Case, System
from triage.reasoning import Engines, closed
from triage.session import Session, Told, answer_as_told, session_from_case, told_as_answer
from triage.water.readings import make_reading

DAY = "2026-05-04"


@pytest.fixture(scope="module")
def engines(book: Book) -> Engines:
    return Engines(book)


@pytest.fixture
def session(book: Book, engines: Engines) -> Session:
    return Session(book, on=DAY, system=System(volume_l=1000, animals=("tilapia",)), engines=engines)


def one_of(book: Book) -> str:
    """A question with one answer and at least three options."""
    return next(q.question for q in book.questions.values() if q.pick == "one" and len(q.options) >= 3)


def any_of(book: Book) -> str:
    return next(q.question for q in book.questions.values() if q.pick == "any" and len(q.options) >= 3)


def test_a_pick_one_answer_is_one_piece_of_evidence(session: Session, book: Book) -> None:
    question = book.questions[one_of(book)]
    session.answer(question.question, [question.options[0]])
    case = session.case
    assert case.seen == {question.options[0]}
    assert case.set_aside == set(question.options[1:])
    assert not case.absent


def test_none_of_these_makes_every_option_absent(session: Session, book: Book) -> None:
    question = book.questions[any_of(book)]
    session.answer(question.question, [])
    assert session.case.absent == set(question.options)


def test_a_tick_list_records_each_option(session: Session, book: Book) -> None:
    question = book.questions[any_of(book)]
    session.answer(question.question, [question.options[0]], unsure=[question.options[1]])
    case = session.case
    assert case.seen == {question.options[0]}
    assert case.unsure == {question.options[1]}
    assert case.absent == set(question.options[2:])


def test_an_option_the_question_does_not_have_is_refused(session: Session, book: Book) -> None:
    with pytest.raises(UsageError, match="is no answer to"):
        session.answer(one_of(book), ["webbing-that-is-not-there"])


def test_going_back_takes_the_last_answer_back(session: Session, book: Book) -> None:
    question = book.questions[any_of(book)]
    session.answer(question.question, [question.options[0]])
    session.undo()
    assert not session.case.seen
    assert session.undo() is None


def test_an_answer_wins_over_words_and_a_later_answer_over_an_earlier_one(session: Session) -> None:
    session.tell(Told(kind="finding", absent=("webbing",)))
    session.tell(Told(kind="words", question="words", text="webbing under the leaf"))
    assert "webbing" in session.case.absent
    session.tell(Told(kind="finding", seen=("webbing",)))
    assert "webbing" in session.case.seen


def test_words_bring_findings_and_readings(session: Session) -> None:
    session.tell(Told(kind="words", question="words", text="webbing under the leaf, pH 7.4"))
    assert "webbing" in session.case.seen
    assert [reading.quantity for reading in session.case.readings] == ["ph"]


def test_told_things_survive_the_journal(session: Session, book: Book) -> None:
    reading = make_reading("iron", "<= 0.1", book.quantities, unit="mg/L", on=DAY)
    for told in (
        Told(kind="crop", question="crop", crop="basil"), Told(kind="words", question="words", text="yellow"),
        Told(kind="finding", question="q", seen=("a",), absent=("b",), unsure=("c",), set_aside=("d",)),
        Told(kind="cant-tell", question="q"), Told(kind="reading", reading=reading),
    ):  # fmt: skip
        assert answer_as_told(told_as_answer(told)) == told


def test_a_written_case_becomes_the_same_case(book: Book, engines: Engines) -> None:
    case = Case(on=DAY, crop="basil", seen=frozenset({"webbing"}), absent=frozenset({"honeydew"}))
    again = session_from_case(book, case, engines).case
    assert (again.crop, again.seen, again.absent) == (case.crop, case.seen, case.absent)


def test_the_next_question_is_never_one_already_answered(session: Session) -> None:
    session.tell(Told(kind="finding", seen=("yellow-between-veins",)))
    asked: set[str] = set()
    while (question := session.next_question()) is not None and len(asked) < 12:
        assert question.id not in asked
        asked.add(question.id)
        session.tell(Told(kind="cant-tell", question=question.id))
    assert asked


def test_stale_readings_weigh_less(book: Book, engines: Engines) -> None:
    def odds(on: str) -> float:
        readings = (make_reading("iron", "<= 0.1", book.quantities, unit="mg/L", on=on),)
        case = Case(on="2026-05-04", crop="basil", seen=frozenset({"yellow-between-veins"}), readings=readings)
        report = session_from_case(book, case, engines).look(with_responses=False)
        return next((s.probability for s in report.suspects if s.cause == "iron-deficiency"), 0.0)

    fresh, stale, none = odds("2026-05-03"), odds("2026-04-10"), odds("2025-01-01")
    assert fresh > stale > none


def test_a_contradiction_is_said_and_nothing_is_overridden(book: Book) -> None:
    finding = next(f for f in book.findings.values() if f.implies)
    case = Case(on=DAY, seen=frozenset({finding.finding}), absent=frozenset({finding.implies[0]}))
    full, says = closed(case, book)
    assert finding.implies[0] in full.absent
    assert len(says) == 1


FINDINGS = [
    "webbing",
    "pale-stippling",
    "moving-dots-underneath",
    "yellow-between-veins",
    "newest-leaves-first",
    "plant-stunted",
]


@settings(max_examples=25)
@given(order=st.permutations(FINDINGS))
def test_the_order_of_answers_does_not_matter(book: Book, engines: Engines, order: list[str]) -> None:
    def report(names: list[str]) -> bytes:
        session = Session(book, on=DAY, engines=engines)
        for name in names:
            session.tell(Told(kind="finding", seen=(name,)))
        return msgspec.json.encode(session.look())

    assert report(order) == report(FINDINGS)


def test_probabilities_are_probabilities(book: Book, engines: Engines) -> None:
    case = Case(on=DAY, crop="tomato", seen=frozenset({"wilting", "stem-brown-inside"}))
    report = session_from_case(book, case, engines).look()
    assert all(0 <= suspect.probability <= 1 for suspect in report.suspects)
    assert 0 <= report.none_in_book <= 1
    values = [suspect.probability for suspect in report.suspects]
    assert values == sorted(values, reverse=True)
