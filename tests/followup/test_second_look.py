"""Better, the same or worse: what a later look says of what was done."""

from __future__ import annotations

from typing import Any

import pytest

from triage.followup.done import Act
from triage.followup.judge import LookSaid
from triage.report.recheck_report import RecheckReport

DOSED = Act(what="iron", on="2026-05-05", treatment="iron-chelate-dtpa")
RINSED = Act(what="rinsed", on="2026-05-05", treatment="rinse-leaves")


def now(report: RecheckReport, cause: str) -> float:
    return next((moved.now for moved in report.moved if moved.cause == cause), 0.0)


def test_better_after_the_right_remedy_speaks_for_the_cause(iron: Any) -> None:
    report = iron.look(
        "2026-05-18", "better", "new-leaves-better", acts=[DOSED], tested=[("iron=1.9mg/L", "2026-05-17")]
    )
    assert report.verdict == "better"
    assert now(report, "iron-deficiency") > iron.before()["iron-deficiency"]
    first = report.suspects[0]
    assert first.cause == "iron-deficiency"
    assert any("Better after “Iron chelate" in support.say for support in first.for_)
    assert report.second is None
    assert report.not_again == ()


def test_iron_that_is_there_now_does_not_speak_against_what_it_mended(iron: Any) -> None:
    tested = iron.look("2026-05-18", "better", acts=[DOSED], tested=[("iron=1.9mg/L", "2026-05-17")])
    untested = iron.look("2026-05-18", "better", acts=[DOSED])
    assert now(tested, "iron-deficiency") == pytest.approx(now(untested, "iron-deficiency"))
    assert untested.retest == ("iron",)
    assert tested.retest == ()


def test_no_better_after_its_time_speaks_against_the_cause(iron: Any) -> None:
    report = iron.look(
        "2026-05-18", "same", "new-leaves-as-before", acts=[DOSED], tested=[("iron=1.9mg/L", "2026-05-17")]
    )
    assert not report.too_early
    assert now(report, "iron-deficiency") < 0.5 < iron.before()["iron-deficiency"]
    assert [line.treatment for line in report.not_again] == ["iron-chelate-dtpa"]
    assert "iron-chelate-dtpa" not in {response.treatment for response in report.now.responses}
    assert "13 days later it is no better: not the same way again" in report.not_again[0].why


def test_before_its_time_nothing_is_judged(iron: Any) -> None:
    report = iron.look("2026-05-09", "same", acts=[DOSED])
    assert report.too_early
    assert report.better_by == report.next_look == "2026-05-15"
    assert now(report, "iron-deficiency") == pytest.approx(iron.before()["iron-deficiency"])
    assert report.not_again == ()
    assert report.second is None


def test_cold_makes_it_later(iron: Any) -> None:
    """At 12.85 degrees, half the warmth above 4.7 that there is at 21, it takes twice the ten days."""
    cold = iron.look("2026-05-18", "same", acts=[DOSED], tested=[("temperature=12.85", "2026-05-10")])
    assert cold.too_early
    assert cold.days_longer
    assert cold.better_by == "2026-05-25"


def test_what_was_not_done_often_enough_is_not_judged(mites: Any) -> None:
    once = mites.look("2026-05-30", "worse", "more-plants", acts=[RINSED])
    assert once.too_early
    assert not once.done[0].whole
    days = ("2026-05-05", "2026-05-08", "2026-05-11", "2026-05-14", "2026-05-17")
    often = mites.look(
        "2026-06-05", "worse", acts=[Act(what="rinsed", on=day, treatment="rinse-leaves") for day in days]
    )
    assert [line.treatment for line in often.not_again] == ["rinse-leaves"]


def test_a_remedy_that_could_not_work_here_is_no_word_against_the_cause(follow: Any) -> None:
    """Fe-DTPA lets go of its iron above pH 7."""
    seen = ["yellow-between-veins", "newest-leaves-first", "fine-veins-stay-green"]
    high = follow("basil", seen, "ph=7.8", "iron=0.1mg/L", "temperature=22")
    report = high.look(
        "2026-05-18", "same", acts=[DOSED], tested=[("iron=0.1mg/L", "2026-05-17"), ("ph=7.8", "2026-05-17")]
    )
    assert "pH 7" in report.done[0].hindered[0]
    assert report.done[0].works == "little"
    for suspect in report.suspects:
        assert not any("Iron chelate" in support.say for support in suspect.against)


def test_a_second_cause_is_named(iron: Any) -> None:
    """Brown, slimy roots that nobody had looked at; the iron is there and the plant is no better."""
    report = iron.look(
        "2026-05-18", "same", "new-leaves-as-before", acts=[DOSED], tested=[("iron=1.9mg/L", "2026-05-17")],
        seen=["roots-brown-slimy", "root-skin-slips-off", "wilting"],
    )  # fmt: skip
    assert report.second is not None
    assert report.second.cause == "pythium-root-rot"
    assert report.second.settle
    assert now(report, "pythium-root-rot") > 0.8 > iron.before().get("pythium-root-rot", 0.0)


def test_better_though_nothing_was_done(follow: Any) -> None:
    burnt = follow("basil", ["marks-where-drops-sat", "sprayed-plants", "came-overnight"])
    left = burnt.look("2026-05-14", "better", "no-more-plants")
    assert now(left, "spray-burn") >= burnt.before().get("spray-burn", 0.0)
    assert left.done == ()


def test_what_gets_worse_is_no_burn(follow: Any) -> None:
    burnt = follow("basil", ["papery-pale-patches", "strong-sun-suddenly"])
    before = burnt.before()["leaf-sunburn"]
    assert now(burnt.look("2026-05-14", "worse", "new-leaves-as-before"), "leaf-sunburn") < before


def test_each_remedy_is_judged_once(iron: Any) -> None:
    """The same again at a further look says no more than it did."""
    seen = frozenset({iron.book.roles["same"].finding})
    first = iron.look("2026-05-18", "same", acts=[DOSED])
    again = iron.look("2026-05-25", "same", acts=[DOSED], looks=[LookSaid(on="2026-05-18", seen=seen)])
    assert now(again, "iron-deficiency") == pytest.approx(now(first, "iron-deficiency"), rel=0.1)
    assert [line.treatment for line in again.not_again] == ["iron-chelate-dtpa"]


def test_a_remedy_that_failed_and_was_done_again_may_still_prove_right(iron: Any) -> None:
    failed = [LookSaid(on="2026-05-18", seen=frozenset({iron.book.roles["same"].finding}))]
    twice = [DOSED, Act(what="iron", on="2026-05-19", treatment="iron-chelate-dtpa")]
    before = iron.look("2026-06-01", "same", acts=[DOSED], looks=failed)
    better = iron.look("2026-06-01", "better", acts=twice, looks=failed)
    assert now(better, "iron-deficiency") > now(before, "iron-deficiency")


def test_words_that_name_no_remedy_are_said(iron: Any) -> None:
    report = iron.look("2026-05-18", "better", acts=[Act(what="gave it a good talking-to", on="2026-05-06")])
    assert report.not_understood == ("gave it a good talking-to",)
    assert report.done == ()


def test_nobody_said_how_it_is(iron: Any) -> None:
    report = iron.look("2026-05-18", acts=[DOSED])
    assert report.verdict == ""
    assert now(report, "iron-deficiency") == pytest.approx(iron.before()["iron-deficiency"])
