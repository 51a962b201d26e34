"""How words become a use: a strength or a cover means a spray; what is not said is filled in carefully, and said."""

from __future__ import annotations

from typing import Any

import pytest

from triage.errors import UsageError
from triage.spraying import Asked, Judge
from triage.spraying.judge import Judged
from triage.spraying.planning import Planned


@pytest.fixture
def plan(judge: Judge) -> Any:
    def run(words: str, **told: Any) -> Planned:
        (judged,) = _judged(judge, Asked(words=words, **told))
        return judged.planned

    return run


def _judged(judge: Judge, asked: Asked) -> tuple[Judged, ...]:
    return judge.judge(asked).all_judged


def test_everything_said_leaves_nothing_to_assume(plan: Any) -> None:
    planned = plan("soap", strength="1%", amount="1L", cover="covered")
    assert planned.others == ()
    assert planned.assumed == ()
    assert (planned.plan.way, planned.plan.cover) == ("sprayed", "covered")


@pytest.mark.parametrize("words", ["potassium bicarbonate", "Epsom salt", "monopotassium phosphate", "zinc sulphate"])
@pytest.mark.parametrize("told", [{"strength": "1%", "amount": "1L"}, {"cover": "covered", "amount": "1L"}])
def test_a_strength_or_a_cover_means_a_spray(plan: Any, words: str, told: dict[str, str]) -> None:
    assert plan(words, **told).plan.way == "sprayed"


@pytest.mark.parametrize("words", ["potassium bicarbonate", "Epsom salt"])
def test_mild_salts_on_the_leaf_are_not_refused(judge: Judge, words: str) -> None:
    verdict = judge.judge(Asked(words=words, strength="1%", amount="1L", cover="covered")).verdict
    assert verdict.grade in ("keep-off-water", "away-from-system")


def test_grams_of_what_is_meant_for_the_water_are_a_dose(plan: Any) -> None:
    planned = plan("potassium bicarbonate", amount="10 g")
    assert (planned.plan.way, planned.others, planned.assumed) == ("dosed", (), ())


def test_nothing_said_of_it_counts_as_dose_and_as_spray(judge: Judge, plan: Any) -> None:
    planned = plan("potassium bicarbonate")
    assert planned.plan.way == "dosed"
    assert planned.plan.amount is not None
    assert [other.plan.way for other in planned.others] == ["sprayed"]
    assert any("usual dose" in line for line in planned.assumed)
    (judged,) = _judged(judge, Asked(words="potassium bicarbonate"))
    assert judged.verdict.grade == "away-from-system"  # its values for fish are recalled, so no leaf spray over water


def test_the_usual_is_shown_and_stronger_counts(plan: Any) -> None:
    planned = plan("soap", cover="covered")
    assert planned.plan.strength.value == 10
    assert planned.plan.amount.litres == 1
    (other,) = planned.others
    assert (other.plan.strength.value, other.plan.amount.litres) == (30, 5)
    assert "30 g/L" in other.says
    assert "5 L" in other.says
    assert len(planned.assumed) == 2


def test_undiluted_is_the_most_it_may_be(plan: Any) -> None:
    """Three times 70 % alcohol is more than there is in the bottle; pure ethanol at 96 % is 757 g/L."""
    (other,) = plan("ethanol", amount="1L", cover="none").others
    assert other.plan.strength.value == pytest.approx(960 * 0.789)


def test_a_weight_is_all_of_what_was_weighed(judge: Judge, plan: Any) -> None:
    """Ten grams of crystals are ten grams, however strong a spray of them would be."""
    planned = plan("copper sulphate", amount="10 g", cover="drench")
    assert planned.plan.strength is None
    (judged,) = _judged(judge, Asked(words="copper sulphate", amount="10 g", cover="drench"))
    assert judged.verdict.exposure.spilled_mg_l == pytest.approx(10)


def test_what_is_not_meant_for_the_water_is_no_dose(plan: Any) -> None:
    planned = plan("soap", strength="1%", amount="1L", into_water=True)
    assert (planned.plan.way, planned.plan.cover) == ("sprayed", "drench")


def test_something_dry_without_a_spray_is_a_handful(plan: Any) -> None:
    planned = plan("metaldehyde", cover="none")
    assert planned.plan.amount.grams == 100
    assert planned.others[0].plan.amount.grams == 1000


@pytest.mark.parametrize("cover", ["neighbour", "perimeter"])
def test_what_others_spray_is_a_knapsack(plan: Any, cover: str) -> None:
    assert plan("permethrin", cover=cover).plan.amount.litres == 15


def test_repeats_without_an_interval_are_a_day_apart(plan: Any) -> None:
    planned = plan("soap", strength="1%", amount="1L", cover="covered", times=3)
    assert planned.plan.every_days == 1
    assert any("--every" in line for line in planned.assumed)
    assert plan("soap", strength="1%", amount="1L", cover="covered", times=3, every="1 week").plan.every_days == 7


@pytest.mark.parametrize("told", [{"strength": "much"}, {"amount": "a cup"}, {"every": "often", "times": 2}])
def test_what_cannot_be_read_is_refused(judge: Judge, told: dict[str, Any]) -> None:
    with pytest.raises(UsageError):
        judge.judge(Asked(words="soap", **told))


def test_a_large_dose_is_said_in_plain_figures(make_judge: Any) -> None:
    (judged,) = _judged(make_judge(600_000.0), Asked(words="potassium bicarbonate"))
    assert judged.planned.plan.amount is not None
    grams = judged.planned.plan.amount.grams
    assert grams is not None
    assert grams > 1000
    assert f"{round(grams, -1):.0f} g of" in " ".join(judged.planned.assumed)
