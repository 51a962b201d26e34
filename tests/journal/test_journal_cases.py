"""Cases: begun, answered, taken back, finished, acted on, closed; nothing is ever changed in place."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from triage.errors import JournalError, UsageError
from triage.journal import JOURNAL_FILE, Answer, Journal, open_journal
from triage.model.case import System

SYSTEM = System(volume_l=1000.0, animals=("tilapia",))
DAY = "2026-05-04"


def clock() -> str:
    return "2026-05-04T10:00:00"


def begin(journal: Journal, crop: str = "basil", on: str = DAY) -> int:
    return journal.begin_case(on, crop, SYSTEM)


def seen(finding: str) -> Answer:
    return Answer(question="where", kind="finding", payload=f'{{"seen":["{finding}"]}}', at="10:00")


def finish(journal: Journal, case_id: int, summary: str = "Iron shortage") -> None:
    journal.finish_case(case_id, '{"suspects":[]}', "0.1", "f00d", summary=summary)


def test_answers_come_back_in_order(journal: Journal) -> None:
    case_id = begin(journal)
    given = [seen("webbing"), Answer(kind="words", payload='{"words":"tiny dots"}', at="10:01"), seen("stippling")]
    assert [journal.record_answer(case_id, answer) for answer in given] == [1, 2, 3]
    case = journal.load_case(case_id)
    assert list(case.answers) == given
    assert (case.on, case.crop, case.system, case.state, case.answered) == (DAY, "basil", SYSTEM, "unfinished", 3)


def test_the_journal_times_what_has_no_time(journal: Journal) -> None:
    case_id = begin(journal)
    journal.record_answer(case_id, Answer(question="webs", kind="cant-tell"))
    assert journal.load_case(case_id).answers[0].at.startswith("2026-05-04T10:")


def test_going_back_is_a_row_and_nothing_is_lost(journal: Journal) -> None:
    case_id = begin(journal)
    journal.record_answer(case_id, seen("webbing"))
    journal.record_answer(case_id, seen("holes"))
    assert journal.undo_last_answer(case_id) == seen("holes")
    journal.record_answer(case_id, seen("stippling"))
    assert journal.load_case(case_id).answers == (seen("webbing"), seen("stippling"))
    assert journal.load_case(case_id).answered == 2
    assert [answer.kind for answer in journal.answer_history(case_id)] == ["finding", "finding", "back", "finding"]


def test_going_back_to_the_start_and_no_further(journal: Journal) -> None:
    case_id = begin(journal)
    journal.record_answer(case_id, seen("webbing"))
    assert journal.record_answer(case_id, Answer(kind="back")) == 2
    assert journal.load_case(case_id).answers == ()
    assert journal.undo_last_answer(case_id) is None
    assert journal.record_answer(case_id, seen("holes")) == 3


def test_the_crop_answered_last_counts(journal: Journal) -> None:
    case_id = begin(journal, crop="")
    journal.record_answer(case_id, Answer(kind="crop", payload='{"crop":"chard"}'))
    journal.record_answer(case_id, Answer(kind="crop", payload='{"crop":"cucumber"}'))
    assert journal.load_case(case_id).crop == "cucumber"
    journal.undo_last_answer(case_id)
    assert journal.list_cases(crop="chard")[0].id == case_id


@pytest.mark.parametrize(
    "answer",
    [
        Answer(kind="finding", payload="{seen"),
        Answer(kind="words", payload=""),
        Answer(kind="words", payload="NaN"),
        Answer(kind="words", payload="[" * 100_000),
        Answer(kind="crop", payload='{"crop":["basil"]}'),
        Answer(kind="guess"),  # type: ignore[arg-type]
        Answer(kind="words", payload='"half a \ud83c letter"'),
    ],
    ids=["cut-short", "empty", "nan", "deep", "two-crops", "unknown-kind", "broken-letter"],
)
def test_an_answer_that_could_not_be_replayed_is_refused(journal: Journal, answer: Answer) -> None:
    case_id = begin(journal)
    with pytest.raises(UsageError):
        journal.record_answer(case_id, answer)
    assert journal.load_case(case_id).answers == ()


def test_an_unfinished_series_is_offered_again(home: Path) -> None:
    with open_journal(home, now=clock) as journal:
        first, second, third, fourth = (begin(journal) for _ in range(4))
        journal.record_answer(second, seen("webbing"))
        finish(journal, first)
        journal.abandon_case(third)
        journal.close_case(fourth, "better by itself")
    with open_journal(home, now=clock) as journal:
        offered = journal.unfinished_cases()
        assert [(line.id, line.answered) for line in offered] == [(second, 1)]
        journal.record_answer(second, seen("stippling"))
        assert journal.load_case(second).answers == (seen("webbing"), seen("stippling"))


def test_a_finished_case_keeps_its_report_and_takes_no_more_answers(journal: Journal) -> None:
    case_id = begin(journal)
    assert journal.case_report(case_id) is None
    finish(journal, case_id)
    report = journal.case_report(case_id)
    assert report is not None
    assert (report.report, report.book_version, report.book_hash) == ('{"suspects":[]}', "0.1", "f00d")
    for refused in (
        lambda: journal.record_answer(case_id, seen("webbing")),
        lambda: journal.undo_last_answer(case_id),
        lambda: finish(journal, case_id),
        lambda: journal.abandon_case(case_id),
    ):
        with pytest.raises(UsageError, match=f"case {case_id} is finished"):
            refused()


def test_a_report_must_be_json(journal: Journal) -> None:
    case_id = begin(journal)
    with pytest.raises(UsageError, match="not JSON"):
        journal.finish_case(case_id, "iron", "0.1", "f00d")
    assert journal.load_case(case_id).state == "unfinished"


def test_what_was_done_by_day(journal: Journal) -> None:
    case_id = begin(journal)
    finish(journal, case_id)
    journal.record_action(case_id, "rinse-leaves", "2026-05-09", "again")
    journal.record_action(case_id, "iron-chelate-dtpa", "2026-05-05", "20 g")
    actions = [(action.what, action.on, action.note) for action in journal.case_actions(case_id)]
    assert actions == [("iron-chelate-dtpa", "2026-05-05", "20 g"), ("rinse-leaves", "2026-05-09", "again")]
    with pytest.raises(UsageError, match="what was done"):
        journal.record_action(case_id, " ", DAY)
    with pytest.raises(UsageError, match="not a day"):
        journal.record_action(case_id, "rinse-leaves", "tomorrow")


def test_closing_again_corrects_and_keeps_both(journal: Journal) -> None:
    case_id = begin(journal)
    finish(journal, case_id)
    journal.close_case(case_id, "cured", "new leaves green")
    journal.close_case(case_id, "came back")
    line = journal.load_case(case_id)
    assert (line.state, line.outcome) == ("closed", "came back")
    assert [closing.outcome for closing in journal.case_closings(case_id)] == ["cured", "came back"]
    with pytest.raises(UsageError, match="how the case ended"):
        journal.close_case(case_id, "")


def test_lists_the_latest_day_first_and_filters(journal: Journal) -> None:
    old, new, chard = begin(journal, on="2026-04-01"), begin(journal), begin(journal, crop="chard")
    finish(journal, old, "Aphids")
    assert [line.id for line in journal.list_cases()] == [chard, new, old]
    assert [line.id for line in journal.list_cases(limit=2)] == [chard, new]
    assert [line.id for line in journal.list_cases(crop="chard")] == [chard]
    finished = journal.list_cases(states=["finished", "closed"])
    assert [(line.id, line.summary) for line in finished] == [(old, "Aphids")]


@pytest.mark.parametrize("number", [0, -1, 7, 2**63, -(2**70)])
def test_a_case_that_is_not_there(journal: Journal, number: int) -> None:
    with pytest.raises(UsageError, match="there is none yet"):
        journal.load_case(number)
    begin(journal)
    for ask in (
        journal.load_case,
        journal.case_report,
        journal.case_actions,
        journal.case_closings,
        journal.answer_history,
        journal.abandon_case,
        journal.undo_last_answer,
        lambda number: journal.record_answer(number, seen("webbing")),
        lambda number: journal.record_action(number, "rinse", DAY),
        lambda number: journal.close_case(number, "cured"),
    ):
        with pytest.raises(UsageError, match="the newest is 1"):
            ask(number)


def test_nothing_can_be_changed_or_deleted_in_place(journal: Journal, home: Path) -> None:
    journal.save_system(SYSTEM)
    case_id = begin(journal)
    journal.record_answer(case_id, seen("webbing"))
    finish(journal, case_id)
    journal.record_action(case_id, "rinse", DAY)
    journal.close_case(case_id, "cured")
    with sqlite3.connect(home / JOURNAL_FILE) as sql:
        for table in ("systems", "cases", "answers", "reports", "actions", "closings"):
            for change in (f"DELETE FROM {table}", f"UPDATE {table} SET at = ''"):
                with pytest.raises(sqlite3.IntegrityError, match="append-only"):
                    sql.execute(change)
    sql.close()


def test_all_or_nothing(journal: Journal) -> None:
    kept = begin(journal)
    journal.record_answer(kept, seen("webbing"))

    def break_off() -> None:
        with journal.all_or_nothing():
            begin(journal)
            journal.record_answer(kept, seen("holes"))
            raise RuntimeError

    with pytest.raises(RuntimeError):
        break_off()
    assert [line.id for line in journal.list_cases()] == [kept]
    assert journal.record_answer(kept, seen("stippling")) == 2
    with journal.all_or_nothing():
        with pytest.raises(UsageError):
            journal.record_action(kept, "rinse", "no day")
        journal.record_action(kept, "rinse", DAY)
    assert len(journal.case_actions(kept)) == 1


def test_somebody_elses_error_passes_through_as_it_is(journal: Journal) -> None:
    with pytest.raises(OverflowError), journal.all_or_nothing():
        raise OverflowError


def test_a_case_answered_in_two_windows(home: Path) -> None:
    with open_journal(home, now=clock) as here, open_journal(home, now=clock) as there:
        case_id = begin(here)
        there.load_case(case_id)
        here.record_answer(case_id, seen("webbing"))
        for _ in range(2):
            with pytest.raises(JournalError, match="another window"):
                there.record_answer(case_id, seen("holes"))
        there.load_case(case_id)
        there.record_answer(case_id, seen("stippling"))
        assert here.load_case(case_id).answers == (seen("webbing"), seen("stippling"))


NASTY = ["'; DROP TABLE cases; --", 'basil"', "a\x00b", "\x1b[2J", "%s?:name", "𝒳\u202e"]


@pytest.mark.parametrize("name", NASTY)
def test_names_are_only_names(journal: Journal, name: str) -> None:
    system = System(name=name, animals=(name,), shelf=(name,))
    journal.save_system(system)
    assert journal.load_system(name) == system
    case_id = journal.begin_case(DAY, name, system, plant=name)
    journal.record_answer(case_id, Answer(question=name, kind="cant-tell"))
    journal.finish_case(case_id, '"x"', name, name, summary=name)
    journal.record_action(case_id, "x" + name, DAY, name)
    journal.close_case(case_id, "x" + name, name)
    line = journal.list_cases(crop=name)[0]
    assert (line.crop, line.plant, line.summary, line.outcome) == (name, name, name, "x" + name)
    assert journal.load_case(case_id).answers[0].question == name
    assert journal.check() == []


def test_nothing_is_kept_beyond_what_was_typed(journal: Journal, home: Path) -> None:
    journal.save_system(SYSTEM)
    begin(journal)
    lines: list[str] = []
    journal.export_lines(lines.append)
    assert str(home.parent) not in "".join(lines)
    assert home.stat().st_mode & 0o077 == 0


def test_an_interrupted_answer_leaves_the_journal_usable(home: Path) -> None:
    interrupted = False

    def clock_with_ctrl_c() -> str:
        if interrupted:
            raise KeyboardInterrupt
        return clock()

    with open_journal(home, now=clock_with_ctrl_c) as journal:
        case_id = begin(journal)
        journal.record_answer(case_id, seen("webbing"))
        interrupted = True
        with pytest.raises(KeyboardInterrupt):
            journal.record_answer(case_id, seen("holes"))
        interrupted = False
        assert journal.record_answer(case_id, seen("stippling")) == 2
        assert journal.load_case(case_id).answers == (seen("webbing"), seen("stippling"))


def test_the_cases_of_a_day(home: Path) -> None:
    """Open on that day, or something was done about them since; what was given up is given up."""
    day = "2026-05-04"
    with open_journal(home, now=lambda: f"{day}T10:00:00") as journal:
        numbers = [journal.begin_case(f"2026-05-0{n}", "basil", System()) for n in (4, 4, 4, 6)]
        journal.abandon_case(numbers[2])
        day = "2026-05-08"
        journal.close_case(numbers[0], "well again")
        journal.record_action(numbers[0], "iron", "2026-05-06")

        def of(on: str, acted_after: str) -> list[int]:
            return [line.id for line in journal.cases_on(on, acted_after=acted_after)]

        assert of("2026-05-03", "2026-01-01") == []
        assert of("2026-05-05", "2026-01-01") == numbers[:2]
        assert of("2026-05-07", "2026-05-07") == [numbers[0], numbers[1], numbers[3]]  # closed a day later
        assert of("2026-05-08", "2026-05-06") == [numbers[1], numbers[3]]
        assert of("2026-05-08", "2026-05-05") == [numbers[0], numbers[1], numbers[3]]
        assert journal.count_cases() == 4


def test_what_one_case_turned_out_to_be(journal: Journal) -> None:
    number = journal.begin_case("2026-05-04", "basil", System())
    assert journal.case_outcome(number) is None
    journal.record_outcome(number, ["aphids"], "lens", "2026-05-05")
    journal.record_outcome(number, [], "laboratory", "2026-05-06")
    found = journal.case_outcome(number)
    assert found is not None
    assert (found.causes, found.how) == ((), "laboratory")
    journal.record_outcome(number, None, "", "2026-05-07")
    assert journal.case_outcome(number) is None
    assert [said.causes for said in journal.outcome_history(number)] == [("aphids",), (), None]
    for ask in (journal.case_outcome, journal.outcome_history):
        with pytest.raises(UsageError, match="no case 9"):
            ask(9)


def test_cases_from_a_day_on(journal: Journal) -> None:
    for day in ("2026-05-04", "2026-05-06", "2026-05-05"):
        journal.begin_case(day, "basil", System())
    assert [line.on for line in journal.list_cases(since="2026-05-05")] == ["2026-05-06", "2026-05-05"]
