"""An unfinished series is offered again, with what was told in it; saved cases are shown as they were."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from pathlib import Path

import msgspec
import pytest
from rich.console import Console

from triage.journal import CasePlace, Journal, open_journal
from triage.model.book import Book
from triage.model.case import System
from triage.reasoning import Engines
from triage.recall.kept import load_kept
from triage.recall.listing import Wanted, list_wanted
from triage.report.case_report import encode_json, report_as_data
from triage.screens import wording
from triage.screens.cases import render_case, render_cases
from triage.screens.resume import answered_again, offer_to_resume
from triage.screens.style import build_console
from triage.session import Session, Told, still_known, told_as_answer

TOLD = (
    Told(kind="finding", question="fish-now", seen=("fish-well",)),
    Told(kind="crop", question="crop", crop="basil"),
    Told(kind="cant-tell", question="readings"),
    Told(kind="words", question="words", text="webbing under the leaf"),
)


@pytest.fixture
def journal(tmp_path: Path) -> Iterator[Journal]:
    with open_journal(tmp_path, now=lambda: "2026-05-04T10:00:00+00:00") as journal:
        yield journal


def begun(journal: Journal, *told: Told, on: str = "2026-05-03") -> int:
    number = journal.begin_case(on, "", System())
    for one in told:
        journal.record_answer(number, told_as_answer(one))
    return number


@pytest.fixture
def out() -> io.StringIO:
    return io.StringIO()


@pytest.fixture
def console(out: io.StringIO) -> Console:
    return build_console(width=80, file=out, colour=False)


def offered(journal: Journal, session: Session, console: Console, *typed: str) -> int | None:
    lines = list(typed)

    def ask(prompt: str) -> str:
        if not lines:
            raise EOFError
        return lines.pop(0)

    return offer_to_resume(journal, session, console, ask)


@pytest.fixture
def session(book: Book, engines: Engines) -> Session:
    return Session(book, on="2026-05-04", engines=engines)


def states(journal: Journal) -> dict[int, str]:
    return {case.id: case.state for case in journal.list_cases()}


@pytest.mark.parametrize("typed", ["y", "", "YES"])
def test_taken_up_it_has_everything_that_was_told_as_of_its_day(
    journal: Journal, session: Session, console: Console, out: io.StringIO, typed: str
) -> None:
    number = begun(journal, *TOLD)
    assert offered(journal, session, console, typed) == number
    assert session.told == list(TOLD)
    assert session.on == "2026-05-03"
    assert "look at basil yesterday and stopped after 4 answers" in " ".join(out.getvalue().split())
    assert '- "webbing under the leaf"' in out.getvalue()


def test_the_one_begun_last_is_offered(journal: Journal, session: Session, console: Console) -> None:
    begun(journal, TOLD[0])
    last = begun(journal, TOLD[0], TOLD[1])
    assert offered(journal, session, console, "y") == last


def test_declined_it_is_given_up_and_kept(journal: Journal, session: Session, console: Console) -> None:
    number = begun(journal, *TOLD)
    assert offered(journal, session, console, "hm?", "n") is None
    assert states(journal) == {number: "abandoned"}
    assert len(journal.load_case(number).answers) == len(TOLD)
    assert session.told == []


def test_when_nobody_answers_it_stays_as_it_is(journal: Journal, session: Session, console: Console) -> None:
    number = begun(journal, *TOLD)
    assert offered(journal, session, console) is None
    assert states(journal) == {number: "unfinished"}


def test_one_in_which_nothing_was_told_is_not_offered(journal: Journal, session: Session, console: Console) -> None:
    number = begun(journal)
    assert offered(journal, session, console) is None
    assert states(journal) == {number: "abandoned"}


def test_what_was_taken_back_is_not_told_again(journal: Journal, session: Session, console: Console) -> None:
    number = begun(journal, *TOLD)
    journal.undo_last_answer(number)
    offered(journal, session, console, "y")
    assert session.told == list(TOLD[:-1])


def test_what_a_later_book_does_not_know_is_left_out(book: Book) -> None:
    told = Told(kind="finding", question="q", seen=("webbing", "gone"), absent=("gone",), unsure=("honeydew",))
    assert still_known(told, book) == msgspec.structs.replace(told, seen=("webbing",), absent=())
    assert still_known(Told(kind="crop", question="crop", crop="gone"), book).crop == ""


def finish(journal: Journal, session: Session, number: int, report: str = "") -> None:
    for one in TOLD:
        session.tell(one)
    if not report:
        report = encode_json(report_as_data(session.look()))
    journal.finish_case(number, report, "1", "abc", summary="Spider mites")


def show(journal: Journal, number: int, book: Book, console: Console, **how: bool) -> None:
    render_case(load_kept(journal, number), console, book, **how)


def test_a_saved_case_shows_what_was_told_advised_done_and_how_it_ended(
    journal: Journal, session: Session, book: Book, console: Console, out: io.StringIO
) -> None:
    number = begun(journal, *TOLD)
    finish(journal, session, number)
    journal.record_action(number, "rinsed", "2026-05-05")
    journal.close_case(number, "well again", "after a week")
    show(journal, number, book, console)
    text = " ".join(out.getvalue().split())
    assert f"Case {number}, 2026-05-03: basil (closed)" in text
    assert '- fish look as always - basil - "webbing under the leaf"' in text
    assert wording.DO in text
    assert "2026-05-05 rinsed" in text
    assert "well again. after a week." in text


def test_a_saved_case_shows_where_it_is_what_it_proved_to_be_its_later_looks_and_its_photos(
    journal: Journal, session: Session, book: Book, console: Console, out: io.StringIO, tmp_path: Path
) -> None:
    number = begun(journal, *TOLD)
    finish(journal, session, number)
    journal.place_case(number, CasePlace(bed="window", plant="row 2"))
    journal.record_outcome(number, ("two-spotted-spider-mite",), "seen by lens.", "2026-05-09")
    again = journal.begin_recheck(number, "2026-05-14")
    journal.finish_recheck(again, "better", "{}", "1", "abc")
    journal.begin_recheck(number, "2026-05-20")
    leaf, gone = tmp_path / "leaf.jpg", tmp_path / "gone.jpg"
    for file in (leaf, gone):
        file.write_bytes(b"picture")
        journal.add_photo(number, file, "2026-05-04", "underside" if file == leaf else "")
    gone.unlink()
    show(journal, number, book, console)
    text = " ".join(out.getvalue().split())
    assert f"Case {number}, 2026-05-03: basil (row 2, bed window) (answered) > Turned out to be: spider mites" in text
    assert "(seen by lens)." in text
    assert "Later looks - 2026-05-14 better - 2026-05-20 begun and not finished Photos" in text
    assert "leaf.jpg (underside): as it was" in text
    assert "gone.jpg: NOT THERE any more" in text


def test_none_of_these_is_said_again_with_its_question(book: Book) -> None:
    question = next(q for q in book.questions.values() if q.pick == "any")
    told = Told(kind="finding", question=question.question, absent=tuple(question.options))
    assert answered_again(told, book) == f"{question.ask} None of these"
    assert answered_again(Told(kind="crop", question="crop", crop="basil"), book) == "basil"


def test_a_saved_case_can_be_shown_whole_and_with_reasons(
    journal: Journal, session: Session, book: Book, console: Console, out: io.StringIO
) -> None:
    number = begun(journal, *TOLD)
    finish(journal, session, number)
    show(journal, number, book, console)
    short = len(out.getvalue())
    show(journal, number, book, console, full=True, why=True, numbers=True)
    whole = out.getvalue()[short:]
    assert len(whole) > short
    assert re.search(r"likely, \d+%", whole)
    assert wording.WHY.split("{}")[0] in whole


def test_advice_in_the_shape_of_an_older_version_is_shown_in_short(
    journal: Journal, session: Session, book: Book, console: Console, out: io.StringIO
) -> None:
    number = begun(journal, *TOLD)
    old = '{"suspects": [{"name": "Old rot", "probability": 0.9}], "alarms": [{"say": "Fish gasp."}]}'
    finish(journal, session, number, old)
    show(journal, number, book, console)
    assert wording.OLDER_ADVICE in out.getvalue()
    assert "! Fish gasp." in out.getvalue()
    assert "Old rot: very likely" in out.getvalue()


def test_an_unfinished_case_says_how_to_go_on(journal: Journal, book: Book, console: Console, out: io.StringIO) -> None:
    show(journal, begun(journal, TOLD[0]), book, console)
    assert "1 answer so far and no advice yet" in out.getvalue()


def test_the_list_has_one_line_a_case(
    journal: Journal, session: Session, book: Book, console: Console, out: io.StringIO
) -> None:
    render_cases((), console, book, of=0)
    assert wording.NO_CASES in out.getvalue()
    finish(journal, session, begun(journal, *TOLD))
    begun(journal, on="2026-05-04")
    found = list_wanted(book, journal, Wanted())
    render_cases(found.cases, console, book, of=found.of)
    lines = out.getvalue().splitlines()[1:]
    assert lines == ["  2  2026-05-04; a plant; not finished", "  1  2026-05-03; basil; spider mites; answered"]
