"""What would make a spray acceptable, and whether it already is."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from triage.model.rule import Grade
from triage.report.spray_report import SprayReport
from triage.responses.setting import Plan
from triage.spraying import Asked, Judge, report_on
from triage.spraying.better import suits


@pytest.fixture
def report(judge: Judge) -> Any:
    def run(words: str, **told: Any) -> SprayReport:
        return report_on(judge, Asked(words=words, **told))

    return run


@pytest.mark.parametrize(
    ("grade", "cover", "fine"),
    [
        ("ok", "none", True), ("keep-off-water", "none", False), ("keep-off-water", "covered", True),
        ("keep-off-water", "moved", True), ("away-from-system", "covered", False), ("away-from-system", "moved", True),
        ("never", "moved", False), ("unknown", "moved", False), ("keep-off-water", "returned", False),
        ("keep-off-water", "neighbour", False),
    ],
)  # fmt: skip
def test_a_plan_is_fine_if_it_is_as_careful_as_its_grade(grade: Grade, cover: str, fine: bool) -> None:
    assert suits(grade, Plan(cover=cover)) is fine


def test_what_goes_into_the_water_must_be_fine_there() -> None:
    assert suits("ok", Plan(way="dosed"))
    assert not suits("keep-off-water", Plan(way="dosed", cover="moved"))


def test_an_open_bed_asks_for_a_cover(report: Any) -> None:
    found = report("soap", strength="1%", amount="1L", cover="none")
    assert not found.acceptable
    assert [(way.cover, way.amount, way.grade) for way in found.better] == [("covered", "1 L", "keep-off-water")]


def test_less_in_place_or_all_of_it_elsewhere(report: Any) -> None:
    found = report("hydrogen peroxide", strength="3%", amount="1L", cover="none")
    assert {(way.cover, way.grade) for way in found.better} == {("moved", "away-from-system")}


def test_what_is_fine_needs_no_better(report: Any) -> None:
    found = report("soap", strength="1%", amount="1L", cover="covered")
    assert found.acceptable
    assert found.better == ()


def test_saying_what_was_unsaid_is_a_way(report: Any) -> None:
    found = report("soap", cover="covered")
    assert found.better[0].strength.startswith("10 g/L")
    assert found.better[0].grade == "keep-off-water"


@pytest.mark.parametrize("words", ["permethrin", "copper sulphate", "pyrethroid", "abamectin", "wonderglow"])
def test_nothing_helps_what_is_refused_at_any_dose(report: Any, words: str) -> None:
    assert report(words, strength="0.1%", amount="1L").better == ()


def test_a_smaller_dose_at_a_time(judge: Judge, report: Any) -> None:
    found = report("potassium hydroxide", amount="100 g")
    assert found.grade != "ok"
    (way,) = found.better[:1]
    again = report_on(judge, Asked(words="potassium hydroxide", amount=way.amount))
    assert again.grade == way.grade == "ok"


def test_every_way_is_as_good_as_it_says(judge: Judge) -> None:
    """Asked again in its own words, each way gets the grade it was shown with, and suits it."""
    tried = 0
    for name in sorted(judge.book.substances):
        asked = Asked(words=name, strength="1%", amount="1L", cover="none")
        for way in report_on(judge, asked).better:
            told = {"strength": way.strength or None, "amount": way.amount, "cover": way.cover}
            again = report_on(judge, msgspec.structs.replace(asked, **told))
            assert again.grade == way.grade, (name, way)
            assert again.acceptable, (name, way)
            tried += 1
    assert tried > 40
