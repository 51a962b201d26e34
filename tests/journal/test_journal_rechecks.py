"""Later looks, what was done, and what it turned out to be: everything kept, corrections beside it."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from triage.errors import JournalError, UsageError
from triage.journal import Answer, Journal, check_journal, open_journal
from triage.model.case import System


def clock() -> str:
    return "2026-05-14T10:00:00"


def words(text: str) -> Answer:
    return Answer(kind="words", payload=f'{{"text":"{text}"}}')


@pytest.fixture
def advised(journal: Journal) -> Journal:
    """Case 1 with two answers and its advice."""
    case_id = journal.begin_case("2026-05-04", "basil", System())
    journal.record_answer(case_id, words("pale"))
    journal.record_answer(case_id, words("green veins"))
    journal.finish_case(case_id, "{}", "0.1", "f00d", summary="Iron shortage")
    return journal


def texts(answers: tuple[Answer, ...]) -> list[str]:
    return [answer.payload[9:-2] for answer in answers]


def test_answers_of_each_look_stay_apart(advised: Journal) -> None:
    first = advised.begin_recheck(1, "2026-05-14")
    advised.record_answer(1, words("same"))
    advised.finish_recheck(first, "same", "{}", "0.1", "f00d")
    second = advised.begin_recheck(1, "2026-05-24")
    advised.record_answer(1, words("better"))
    advised.record_answer(1, words("greener"))
    assert texts(advised.load_case(1).answers) == ["pale", "green veins"]
    assert advised.load_case(1).answered == 2
    looks = advised.case_rechecks(1)
    assert [texts(look.answers) for look in looks] == [["same"], ["better", "greener"]]
    assert [(look.id, look.verdict, look.report is None) for look in looks] == [
        (first, "same", False),
        (second, "", True),
    ]
    assert [line.id for line in advised.unfinished_cases()] == []
    assert [line.state for line in advised.list_cases()] == ["finished"]


def test_going_back_stops_at_the_look(advised: Journal) -> None:
    advised.begin_recheck(1, "2026-05-14")
    advised.record_answer(1, words("worse"))
    assert advised.undo_last_answer(1) is not None
    assert advised.undo_last_answer(1) is None
    assert texts(advised.load_case(1).answers) == ["pale", "green veins"]
    assert advised.case_rechecks(1)[0].answers == ()


def test_a_look_goes_on_the_same_day_and_begins_anew_on_another(advised: Journal) -> None:
    first = advised.begin_recheck(1, "2026-05-14")
    advised.record_answer(1, words("same"))
    assert advised.begin_recheck(1, "2026-05-14") == first
    second = advised.begin_recheck(1, "2026-05-15")
    assert second != first
    with pytest.raises(UsageError, match="no unfinished recheck"):
        advised.finish_recheck(first, "same", "{}", "0.1", "f00d")
    advised.finish_recheck(second, "same", "{}", "0.1", "f00d")
    with pytest.raises(UsageError, match="takes no more answers"):
        advised.record_answer(1, words("late"))


def test_a_recheck_needs_advice_and_a_later_day(journal: Journal, advised: Journal) -> None:
    open_case = journal.begin_case("2026-05-04", "chard", System())
    with pytest.raises(UsageError, match="no advice to look back on"):
        journal.begin_recheck(open_case, "2026-05-14")
    with pytest.raises(UsageError, match="a recheck comes later"):
        advised.begin_recheck(1, "2026-05-03")
    with pytest.raises(UsageError, match="no case 9"):
        advised.begin_recheck(9, "2026-05-14")
    with pytest.raises(UsageError, match="not JSON"):
        advised.finish_recheck(advised.begin_recheck(1, "2026-05-14"), "same", "{", "0.1", "f00d")


def test_two_windows_at_one_recheck(home: Path, advised: Journal) -> None:
    advised.begin_recheck(1, "2026-05-14")
    advised.record_answer(1, words("same"))
    with open_journal(home, now=clock) as other:
        other.begin_recheck(1, "2026-05-14")
        other.record_answer(1, words("worse"))
    with pytest.raises(JournalError, match="another window"):
        advised.record_answer(1, words("better"))
    assert check_journal(home) == []


def test_what_was_done_can_be_put_right(advised: Journal) -> None:
    wrong = advised.record_action(1, "iron, 200 g", "2026-05-05", treatment="iron-chelate-dtpa")
    twice = advised.record_action(1, "iron, 20 g", "2026-05-05")
    right = advised.correct_action(wrong, "iron, 20 g", "2026-05-06", why="a nought too many")
    advised.withdraw_action(twice, "typed twice")
    (action,) = advised.case_actions(1)
    assert (action.id, action.what, action.on, action.treatment) == (
        *(right, "iron, 20 g"),
        *("2026-05-06", "iron-chelate-dtpa"),
    )
    assert [(entry.fate, entry.replaced_by, entry.why) for entry in advised.action_history(1)] == [
        ("replaced", right, "a nought too many"),
        ("withdrawn", None, "typed twice"),
        ("", None, ""),
    ]
    with pytest.raises(UsageError, match="corrected already"):
        advised.withdraw_action(wrong)
    with pytest.raises(UsageError, match="no action number 99"):
        advised.correct_action(99, "x", "2026-05-06")


def test_what_it_turned_out_to_be_can_be_put_right(advised: Journal) -> None:
    advised.record_outcome(1, ["iron-deficiency"], "new leaves green", "2026-05-14")
    assert advised.outcomes()[1].causes == ("iron-deficiency",)
    advised.record_outcome(1, ["iron-deficiency", "pythium-root-rot"], "roots brown", "2026-05-20")
    assert advised.outcomes()[1].causes == ("iron-deficiency", "pythium-root-rot")
    advised.record_outcome(1, [], "a laboratory found nothing", "2026-05-21")
    assert advised.outcomes()[1].causes == ()
    advised.record_outcome(1, None, "mixed up the samples", "2026-05-22")
    assert advised.outcomes() == {}


def test_the_check_sees_a_recheck_out_of_place(home: Path, advised: Journal) -> None:
    with sqlite3.connect(home / "journal.sqlite3") as sql:
        sql.execute("INSERT INTO rechecks (case_id, at, day, after) VALUES (1, '', '2026-05-14', 99)")
        sql.execute("INSERT INTO outcomes (case_id, at, day, causes, how) VALUES (1, '', '2026-05-14', '7', '')")
    sql.close()
    found = "\n".join(check_journal(home))
    assert "rechecks 1: it stands behind answers" in found
    assert "outcomes 1: " in found


def test_the_last_finished_look_of_each_case(journal: Journal) -> None:
    numbers = []
    for _ in range(3):
        number = journal.begin_case("2026-05-04", "basil", System())
        journal.finish_case(number, "{}", "0.1.0", "f00d")
        numbers.append(number)
    for number, days in ((numbers[0], ("2026-05-10", "2026-05-20")), (numbers[1], ("2026-05-12",))):
        for on in days:
            journal.finish_recheck(journal.begin_recheck(number, on), "better", "{}", "0.1.0", "f00d")
    journal.begin_recheck(numbers[2], "2026-05-13")  # never finished
    assert journal.last_looks("2026-05-31") == {numbers[0]: "2026-05-20", numbers[1]: "2026-05-12"}
    assert journal.last_looks("2026-05-11") == {numbers[0]: "2026-05-10"}
