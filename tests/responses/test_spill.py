"""How much water to change after a spill."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.interval import Interval
from triage.responses.setting import Assumptions
from triage.responses.spill import SpillMath, change_for, days_until, reckon_changes, times_to_change


def _reckon(assumed: Assumptions, event: str = "spilled", volume_l: float = 1000.0, **levels: float) -> SpillMath:
    exposures = {name.replace("_", "-"): Interval(value / 2, value) for name, value in levels.items()}
    found = reckon_changes(exposures, event, volume_l, assumed)
    assert found is not None
    return found


@given(factor=st.floats(1.0001, 1e4), each=st.floats(0.05, 0.9))
def test_as_many_changes_as_it_takes_and_not_one_more(factor: float, each: float) -> None:
    times = times_to_change(factor, each)
    assert (1 - each) ** times * factor <= 1 + 1e-6
    assert (1 - each) ** (times - 1) * factor > 1 - 1e-6


def test_what_is_low_enough_needs_no_change() -> None:
    assert change_for(1.0, 1000, 0.5) is None
    assert change_for(0.2, 1000, 0.5) is None
    assert change_for(0.0, 1000, 0.5) is None
    assert change_for(1 + 1e-12, 1000, 0.5) is None
    just = change_for(1.01, 1000, 0.5)
    assert just is not None
    assert just.times == 1


def test_a_change_says_how_far_over_how_much_at_once_and_how_often() -> None:
    change = change_for(5.0, 800, 0.25)
    assert change is not None
    assert (change.factor, change.each, change.times) == (5.0, 0.25, 6)  # 0.75^5 = 0.237, 0.75^6 = 0.178
    assert change.share == pytest.approx(0.8)
    assert change.litres == pytest.approx(1200)


def test_half_lives_bring_it_down_by_themselves() -> None:
    assert days_until(2, 7.0) == pytest.approx(7.0)
    assert days_until(1.5, 10.0) == pytest.approx(5.85, abs=0.01)
    assert days_until(1.0, 7.0) == days_until(0.5, 7.0) == 0.0


def test_the_measure_furthest_over_its_aim_decides(assumed: Assumptions) -> None:
    found = _reckon(assumed, fish_quotient_spilled=2.0, filter_quotient_spilled=8.0, crustacean_quotient_spilled=4.0)
    danger, rest = assumed.margin("quotient-out-of-danger"), assumed.margin("quotient-at-rest")
    assert found.danger.decides == found.rest.decides == "filter-quotient-spilled"
    assert found.danger.factor == pytest.approx(8.0 / danger)
    assert found.rest.factor == pytest.approx(8.0 / rest)
    assert found.rest.change is not None
    assert found.rest.change.each == assumed.margin("most-water-at-once")
    assert found.rest.change.factor == found.rest.factor
    assert rest < danger


@pytest.mark.parametrize(
    ("name", "first", "last"),
    [
        ("fish-quotient-spilled", "quotient-out-of-danger", "quotient-at-rest"),
        ("crustacean-quotient-spilled", "quotient-out-of-danger", "quotient-at-rest"),
        ("filter-quotient-spilled", "quotient-out-of-danger", "quotient-at-rest"),
        ("ammonia-limit-share-spilled", "quotient-out-of-danger", "quotient-at-rest"),
        ("oxygen-drawn-share-spilled", "oxygen-share-at-rest", "oxygen-share-at-rest"),
        ("ph-shift-share-spilled", "buffer-share-at-rest", "buffer-share-at-rest"),
        ("chlorine-spilled-mg-l", "chlorine-at-rest", "chlorine-at-rest"),
    ],
)
def test_each_measure_has_its_aims(assumed: Assumptions, name: str, first: str, last: str) -> None:
    found = _reckon(assumed, **{name: 3.0})
    assert (found.danger.decides, found.danger.factor) == (name, pytest.approx(3.0 / assumed.margin(first)))
    assert (found.rest.decides, found.rest.factor) == (name, pytest.approx(3.0 / assumed.margin(last)))


def test_out_of_danger_may_be_reached_before_rest(assumed: Assumptions) -> None:
    level = math.sqrt(assumed.margin("quotient-out-of-danger") * assumed.margin("quotient-at-rest"))
    found = _reckon(assumed, fish_quotient_spilled=level)
    assert found.danger.change is None
    assert found.rest.change is not None


def test_only_what_the_event_brought_counts(assumed: Assumptions) -> None:
    found = _reckon(assumed, "dosed", fish_quotient_dosed=3.0, fish_quotient_spilled=50.0)
    assert found.danger.decides == "fish-quotient-dosed"
    assert reckon_changes({"fish-quotient-spilled": Interval(1, 1)}, "dosed", 1000, assumed) is None


def test_without_measures_or_litres_nothing_is_reckoned(assumed: Assumptions) -> None:
    assert reckon_changes({}, "spilled", 1000, assumed) is None
    assert reckon_changes({"fish-quotient-spilled": Interval(1, 1)}, "spilled", None, assumed) is None


def test_equal_measures_are_told_apart_by_name(assumed: Assumptions) -> None:
    one = _reckon(assumed, fish_quotient_spilled=4.0, crustacean_quotient_spilled=4.0)
    other = _reckon(assumed, crustacean_quotient_spilled=4.0, fish_quotient_spilled=4.0)
    assert one == other
    assert one.danger.decides == "fish-quotient-spilled"


def test_more_litres_more_to_change(assumed: Assumptions) -> None:
    small = _reckon(assumed, volume_l=500.0, fish_quotient_spilled=9.0).rest.change
    large = _reckon(assumed, volume_l=1000.0, fish_quotient_spilled=9.0).rest.change
    assert small is not None
    assert large is not None
    assert large.litres == pytest.approx(2 * small.litres)
    assert small.litres == pytest.approx(small.times * small.each * 500)
