"""A garden's journal → how its cases stand, and what is due."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from triage.journal import CasePlace, Journal, open_journal
from triage.model.book import Book
from triage.model.case import System
from triage.model.garden import Bed
from triage.recall.cases import list_standing
from triage.recall.due import due_on
from triage.water.readings import parse_assignment

POND = System(volume_l=1000.0, animals=("tilapia",))
FIRST = '{"suspects":[{"cause":"iron-deficiency","probability":0.8}],"seen":["yellow-between-veins","gone-since"]}'
AGAIN = (
    '{"suspects":[{"cause":"pythium-root-rot","probability":0.7}],"not_again":[{"treatment":"iron-chelate-dtpa"}],'
    '"next_look":"2026-05-25","now":{"alarms":[{"say":"Chlorine."}],"seen":["wilting"]}}'
)


class Clock:
    """The time that entries carry."""

    day = "2026-05-04"

    def now(self) -> str:
        return f"{self.day}T10:00:00.000+01:00"


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def journal(tmp_path: Path, clock: Clock) -> Iterator[Journal]:
    """A basil of 4 May, dosed on the 5th, looked at again on the 18th."""
    with open_journal(tmp_path, now=clock.now) as journal:
        journal.save_system(POND)
        case = journal.begin_case("2026-05-04", "basil", POND)
        journal.finish_case(case, FIRST, "1", "x")
        journal.place_case(case, CasePlace(bed="1", plant="by the door"))
        journal.record_action(case, "iron", "2026-05-05", treatment="iron-chelate-dtpa")
        journal.record_action(case, "sang to it", "2026-05-06")
        clock.day = "2026-05-18"
        look = journal.begin_recheck(case, "2026-05-18")
        journal.finish_recheck(look, "same", AGAIN, "1", "x")
        yield journal


def test_a_case_stands_as_its_last_look_left_it(book: Book, journal: Journal) -> None:
    (case,) = list_standing(book, journal)
    assert (case.state, case.verdict, case.last_look, case.next_look) == (
        "finished",
        "same",
        "2026-05-18",
        "2026-05-25",
    )
    assert (case.bed, case.plant, case.crop) == ("1", "by the door", "basil")
    assert case.first == "pythium-root-rot"
    assert case.seen == {"yellow-between-veins", "wilting"}
    assert [done.treatment for done in case.done] == ["iron-chelate-dtpa"]
    assert case.neighbours_on == ""
    assert case.not_again == {"iron-chelate-dtpa"}
    assert case.alarms == ("Chlorine.",)


def test_a_look_that_found_no_further_plant_is_a_round_of_the_neighbours(book: Book, journal: Journal) -> None:
    nothing_found = AGAIN.replace('"seen":[', '"seen":["no-more-plants-since",')
    assert nothing_found != AGAIN
    journal.finish_recheck(journal.begin_recheck(1, "2026-05-21"), "same", nothing_found, "1", "x")
    journal.finish_recheck(journal.begin_recheck(1, "2026-05-24"), "same", AGAIN, "1", "x")
    (then,), (now,) = (list_standing(book, journal, until=day) for day in ("2026-05-20", "2026-05-24"))
    assert (then.neighbours_on, now.neighbours_on) == ("", "2026-05-21")


def test_a_case_stood_otherwise_on_an_earlier_day(book: Book, journal: Journal) -> None:
    (case,) = list_standing(book, journal, until="2026-05-04")
    assert (case.verdict, case.first, case.done, case.next_look) == ("", "iron-deficiency", (), "")
    assert list_standing(book, journal, until="2026-05-03") == ()


def test_a_case_closed_later_was_open_then(book: Book, journal: Journal, clock: Clock) -> None:
    clock.day = "2026-06-01"
    journal.close_case(1, "well again")
    journal.record_outcome(1, ["iron-deficiency"], "it greened", "2026-06-01")
    (then,), (now,) = (list_standing(book, journal, until=day) for day in ("2026-05-31", "2026-06-01"))
    assert (then.state, then.proven) == ("finished", None)
    assert (now.state, now.proven, now.first) == ("closed", ("iron-deficiency",), "iron-deficiency")
    assert [line for line in due_on(book, journal, "2026-06-01").due if line.kind == "look"] == []


def test_what_was_given_up_does_not_stand(book: Book, journal: Journal) -> None:
    journal.abandon_case(journal.begin_case("2026-05-18", "chard", POND))
    assert len(list_standing(book, journal)) == 1


def test_what_is_due_follows_from_the_journal(book: Book, journal: Journal) -> None:
    kinds = {(line.kind, line.due) for line in due_on(book, journal, "2026-05-20", ahead_days=7).coming}
    assert ("look", "2026-05-25") in kinds
    due = due_on(book, journal, "2026-05-20").due
    assert [line.say for line in due if line.kind == "alarm"] == ["Chlorine."]
    assert [line.quantity for line in due if line.kind == "retest"] == ["iron"]


def test_deadly_water_comes_first(book: Book, journal: Journal) -> None:
    """Two milligrams of ammonia nitrogen at pH 8.6 and 28 degrees."""
    journal.add_readings(
        [parse_assignment(text, book.quantities, on="2026-05-20") for text in ("ph=8.6", "tan=4", "temperature=28")]
    )
    report = due_on(book, journal, "2026-05-20")
    assert report.due[0].kind == "alarm"
    assert report.due[0].command == "triage water show"
    old = due_on(book, journal, "2026-05-24")
    assert [line for line in old.due if line.kind == "alarm"] == []


def test_open_outbreaks_are_watched_in_other_beds(book: Book, journal: Journal, clock: Clock) -> None:
    for bed in (Bed(name="1", crops=("basil",)), Bed(name="2", crops=("strawberry",))):
        journal.save_bed(bed)
    mites = '{"suspects":[{"cause":"two-spotted-spider-mite","probability":0.9}]}'
    case = journal.begin_case("2026-05-18", "cucumber", POND)
    journal.finish_case(case, mites, "1", "x")
    journal.place_case(case, CasePlace(bed="3"))

    def watched(on: str) -> set[str]:
        report = due_on(book, journal, on, ahead_days=30)
        lines = [line for line in (*report.due, *report.coming) if line.kind == "watch"]
        return {line.bed for line in lines if line.cause == "two-spotted-spider-mite"}

    assert watched("2026-05-19") == {"1", "2"}
    clock.day = "2026-05-21"
    journal.close_case(case, "gone")
    assert watched("2026-05-22") == set()


def test_an_old_test_is_still_the_last_one(book: Book, journal: Journal) -> None:
    journal.add_readings([parse_assignment("ec=1.1", book.quantities, on="2025-09-01")])
    ec = next(line for line in due_on(book, journal, "2026-05-20").due if line.quantity == "ec")
    assert ec.last == "2025-09-01"


def test_a_dose_that_was_split_goes_on_the_next_day(book: Book, journal: Journal) -> None:
    advised = (
        '{"responses":[{"treatment":"iron-chelate-eddha","dose":{"what":"Fe-EDDHA","grams":32.5,"days":2}},'
        '{"treatment":"iron-chelate-edta","dose":{"what":"Fe-EDTA","grams":10,"days":1}}]}'
    )
    case = journal.begin_case("2026-05-19", "chard", POND)
    journal.finish_case(case, advised, "1", "x")
    journal.record_action(case, "iron", "2026-05-19", treatment="iron-chelate-eddha")
    journal.record_action(case, "iron", "2026-05-19", treatment="iron-chelate-edta")
    (step,) = (line for line in due_on(book, journal, "2026-05-20").due if line.kind == "step" and line.case == case)
    assert "16.2 g of Fe-EDDHA, round 2 of 2" in step.say
