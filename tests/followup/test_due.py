"""What is due, and in which order."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from triage.followup.done import Done
from triage.followup.due import list_due
from triage.followup.standing import Standing, leading, look_again_on
from triage.model.book import Book
from triage.model.outcome import AlarmRaised
from triage.model.quantity import Reading
from triage.report.due_report import DueLine, DueReport
from triage.report.garden_report import AtRisk, Near, WatchLine
from triage.water.readings import parse_assignment

MITES = Standing(
    number=1, state="finished", crop="cucumber", plant="by the wall", bed="2", on="2026-05-04", last_look="2026-05-04",
    suspects={"two-spotted-spider-mite": 0.9, "thrips": 0.3},
)  # fmt: skip
IRON = Standing(
    number=2, state="finished", crop="basil", on="2026-05-04", last_look="2026-05-04",
    suspects={"iron-deficiency": 0.8},
)  # fmt: skip


def since(standing: Standing, **changes: Any) -> Standing:
    return msgspec.structs.replace(standing, **changes)


def done(treatment: str, *days: str, times: int | None = 1, every: float | None = None) -> tuple[Done, ...]:
    return (Done(treatment=treatment, days=days, times=times, every_days=every),)


def of_kind(report: DueReport, kind: str) -> list[DueLine]:
    return [line for line in (*report.due, *report.coming) if line.kind == kind]


def all_tested(book: Book, on: str) -> tuple[Reading, ...]:
    """Everything that is to be tested, tested on a day."""
    values = {"ph": 6.8, "temperature": 22, "oxygen": 7, "ec": 1.0}
    regular = [id_ for id_, q in book.quantities.items() if q.test_every_days is not None and not q.same_as]
    return tuple(parse_assignment(f"{id_}={values.get(id_, 1)}", book.quantities, on=on) for id_ in regular)


def test_the_next_look_is_due_as_the_cause_says(book: Book) -> None:
    day = look_again_on(book, IRON)
    assert day == "2026-05-14"  # iron shortage: look again in ten days
    before, after = list_due(book, [IRON], (), on="2026-05-13"), list_due(book, [IRON], (), on="2026-05-15")
    assert [line.late for line in of_kind(before, "look")] == [-1]
    assert not [line for line in before.due if line.kind == "look"]
    (late,) = (line for line in after.due if line.kind == "look")
    assert (late.late, late.command) == (1, "triage case recheck 2")
    assert late.say == "Look again at basil for iron shortage."


def test_the_last_look_may_have_named_a_day(book: Book) -> None:
    assert look_again_on(book, since(IRON, next_look="2026-05-20")) == "2026-05-20"


def test_what_it_was_proven_to_be_leads(book: Book) -> None:
    assert leading(since(IRON, proven=("nitrogen-deficiency",))) == ("nitrogen-deficiency",)
    assert leading(since(IRON, proven=())) == ()
    assert leading(MITES) == ("two-spotted-spider-mite",)
    assert look_again_on(book, since(IRON, proven=())) == "2026-05-11"


def test_the_most_urgent_comes_first(book: Book) -> None:
    """Alarm, harvest wait, next step, looks (first at what spreads), tests, what was begun."""
    sprayed = since(MITES, done=done("spinosad-spray", "2026-05-12", times=2, every=3))
    begun = Standing(number=3, state="unfinished", crop="chard", on="2026-05-01", last_look="2026-05-01")
    alarm = AlarmRaised(id="a", say="The fish gasp.", do=(), because=())
    report = list_due(book, [IRON, sprayed, begun], (), on="2026-05-16", alarms=[alarm])
    kinds = [line.kind for line in report.due]
    assert list(dict.fromkeys(kinds)) == ["alarm", "wait", "step", "look", "test", "series"]
    assert [line.case for line in report.due if line.kind == "look"] == [1, 2]
    assert report.due[0].say == "The fish gasp."


def test_an_alarm_stands_for_three_days_and_is_said_once(book: Book) -> None:
    loud = since(IRON, alarms=("Ammonia is deadly.",))
    same = AlarmRaised(id="a", say="Ammonia is deadly.", do=(), because=())
    assert len(of_kind(list_due(book, [loud], (), on="2026-05-07"), "alarm")) == 1
    assert len(of_kind(list_due(book, [loud], (), on="2026-05-07", alarms=[same]), "alarm")) == 1
    assert not of_kind(list_due(book, [loud], (), on="2026-05-08"), "alarm")


def test_the_next_round_comes_until_all_were_done(book: Book) -> None:
    def steps(*days: str, **changes: Any) -> list[DueLine]:
        case = since(MITES, done=done("rinse-leaves", *days, times=3, every=3), **changes)
        return of_kind(list_due(book, [case], (), on="2026-05-09"), "step")

    (second,) = steps("2026-05-05")
    assert (second.due, second.late) == ("2026-05-08", 1)
    assert "round 2 of 3 (last on 2026-05-05)" in second.say
    assert second.say.startswith("Cucumber (by the wall, bed 2): ")
    assert second.command == "triage case did 1 rinse-leaves"
    assert len(steps("2026-05-05", "2026-05-08")) == 1
    assert steps("2026-05-02", "2026-05-05", "2026-05-08") == []
    assert steps("2026-05-05", not_again=frozenset({"rinse-leaves"})) == []
    assert steps("2026-05-05", state="closed") == []


def test_what_goes_on_as_long_as_needed_ends_when_it_is_better(book: Book) -> None:
    dosed = done("iron-chelate-dtpa", "2026-05-05", times=None, every=21)
    report = list_due(book, [since(IRON, done=dosed)], (), on="2026-05-26")
    (step,) = of_kind(report, "step")
    assert step.due == "2026-05-26"
    assert "round 2 (last" in step.say
    better = since(IRON, done=dosed, verdict="better")
    assert of_kind(list_due(book, [better], (), on="2026-05-26"), "step") == []


def test_what_was_changed_is_to_be_tested(book: Book) -> None:
    case = since(IRON, done=done("iron-chelate-dtpa", "2026-05-05"))
    iron = parse_assignment("iron=1.8", book.quantities, on="2026-05-07")
    (line,) = of_kind(list_due(book, [case], (), on="2026-05-07"), "retest")
    assert (line.quantity, line.due, line.late) == ("iron", "2026-05-06", 1)
    assert of_kind(list_due(book, [case], (iron,), on="2026-05-08"), "retest") == []


@pytest.mark.parametrize(
    ("on", "said"),
    [
        ("2026-05-12", "Do not harvest before 2026-05-15"),
        ("2026-05-15", "May be harvested again"),
        ("2026-05-17", "May be harvested again"),
        ("2026-05-18", ""),
    ],
)
def test_a_harvest_wait_is_said_until_it_is_over(book: Book, on: str, said: str) -> None:
    """Spinosad: three days here."""
    for state in ("finished", "closed"):
        case = since(MITES, state=state, done=done("spinosad-spray", "2026-05-12"))
        lines = of_kind(list_due(book, [case], (), on=on), "wait")
        assert [line.say[: len(said)] for line in lines] == ([said] if said else [])


def test_where_only_the_label_knows_the_wait_it_says_so(book: Book) -> None:
    case = since(MITES, done=done("bifenazate-spray", "2026-05-12"))
    (line,) = of_kind(list_due(book, [case], (), on="2026-05-13"), "wait")
    assert line.say.startswith("Before you pick, read on the label how long to wait")


def test_tests_come_round(book: Book) -> None:
    known = all_tested(book, "2026-05-04")
    assert of_kind(list_due(book, [], known, on="2026-05-04", ahead_days=0), "test") == []
    week = of_kind(list_due(book, [], known, on="2026-05-11", ahead_days=0), "test")
    assert "ph" in {line.quantity for line in week}
    assert all(line.last == "2026-05-04" and line.late == 0 for line in week)
    month = of_kind(list_due(book, [], known, on="2026-05-11", ahead_days=30), "test")
    assert {line.quantity for line in month} == {reading.quantity for reading in known}


def test_top_up_water_is_no_test_of_the_system(book: Book) -> None:
    tap = parse_assignment("ph=7.8", book.quantities, on="2026-05-04", point="top-up")
    ph = next(line for line in of_kind(list_due(book, [], (tap,), on="2026-05-05"), "test") if line.quantity == "ph")
    assert ph.last == ""
    assert ph.say == "Test pH (never tested)."


def watched(bed: str, near: Near, due: str) -> WatchLine:
    return WatchLine(
        bed=bed, near=near, cause="two-spotted-spider-mite", name="Spider mites", case=1, from_bed="2",
        from_plant="by the wall", since="2026-05-04", over=False, speed="fast", how="", signs=(), every_days=3, due=due,
        late=0, crops=tuple(AtRisk(crop=crop, name=crop.capitalize(), prone="") for crop in ("basil", "chard")),
    )  # fmt: skip


def test_neighbours_of_what_spreads_are_looked_over_every_few_days(book: Book) -> None:
    watch = [watched("1", "beside", "2026-05-04"), watched("2", "same", "2026-05-04")]
    (now,) = of_kind(list_due(book, [MITES], (), on="2026-05-10", watch=watch), "watch")
    assert now.say == "Look over basil and chard in bed 1 for spider mites (case 1: bed 2)."
    assert (now.due, now.late, now.bed, now.cause) == ("2026-05-10", 0, "1", "two-spotted-spider-mite")
    (next_,) = of_kind(list_due(book, [MITES], (), on="2026-05-11", watch=watch), "watch")
    assert next_.due == "2026-05-13"  # the round that was left out is not late
    (first,) = of_kind(list_due(book, [MITES], (), on="2026-05-03", watch=watch), "watch")
    assert first.due == "2026-05-04"


def test_the_order_of_cases_and_readings_changes_nothing(book: Book) -> None:
    cases = [IRON, since(MITES, done=done("spinosad-spray", "2026-05-12", times=2, every=3))]
    known = all_tested(book, "2026-05-04")
    one = list_due(book, cases, known, on="2026-05-16", ahead_days=20)
    assert list_due(book, cases[::-1], known[::-1], on="2026-05-16", ahead_days=20) == one


def test_what_comes_is_ordered_by_its_day(book: Book) -> None:
    report = list_due(book, [IRON, MITES], all_tested(book, "2026-05-04"), on="2026-05-05", ahead_days=30)
    days = [line.due for line in report.coming]
    assert days == sorted(days)
    assert all("2026-05-05" < day <= "2026-06-04" for day in days)


def test_a_split_dose_says_how_much(book: Book) -> None:
    case = since(
        IRON, done=done("iron-chelate-eddha", "2026-05-05", times=2, every=1.0),
        amounts={"iron-chelate-eddha": "16.3 g of Fe-EDDHA"},
    )  # fmt: skip
    (step,) = of_kind(list_due(book, [case], (), on="2026-05-06"), "step")
    assert "Iron chelate Fe-EDDHA, 16.3 g of Fe-EDDHA, round 2 of 2 (last on 2026-05-05)." in step.say
