"""A base or an acid in daily steps: each as large as fish bear and no larger, in every water it may be."""

from __future__ import annotations

import itertools

import pytest

from triage.model.interval import Interval
from triage.water.basing import MOST_DAYS, Buffer, DayStep, change_for_ph, corners, plan_days
from triage.water.carbonate_system import ph_closed, total_carbon_mmol

WATER = Buffer.of(6.6, 40.0, 25.0)
LYE, CARBONATE, BICARBONATE = 0.0, 0.5, 1.0


def _plan(change: float, carbon_per_eq: float = LYE, *waters: Buffer, most: float | None = None) -> list[DayStep]:
    return plan_days(waters or [WATER], change, carbon_per_eq=carbon_per_eq, ph_per_day=0.3, most_per_day=most)


def test_a_buffer_has_the_ph_it_was_made_of() -> None:
    assert WATER.ph == pytest.approx(6.6, abs=1e-6)
    assert (WATER.alkalinity, WATER.temperature_c) == (40.0, 25.0)
    changed = WATER.with_alkalinity(-15.0)
    assert changed == Buffer(25.0, WATER.carbon_dioxide, 25.0)
    assert changed.ph < WATER.ph


def test_nothing_added_moves_nothing() -> None:
    assert WATER.ph_at_once(0.0, LYE) == pytest.approx(6.6, abs=1e-6)
    assert _plan(0.0) == []
    assert _plan(1e-10) == []


def test_what_comes_at_once_is_the_closed_system_with_the_carbon_of_the_base() -> None:
    """Five mg/L CaCO3 are 0.1 meq/L; a bicarbonate brings as much carbon, a carbonate half, lye none (Stumm and
    Morgan's closed system, from memory)."""
    carbon = total_carbon_mmol(WATER.ph, 40.0, 25.0)
    for per_eq in (LYE, CARBONATE, BICARBONATE):
        expected = ph_closed(45.0, carbon + 5.0 / 50.0435 * per_eq, 25.0)
        assert WATER.ph_at_once(5.0, per_eq) == pytest.approx(expected, abs=1e-4)
    assert WATER.ph_at_once(-5.0, BICARBONATE) == pytest.approx(ph_closed(35.0, carbon, 25.0), abs=1e-4)  # acid: none


@pytest.mark.parametrize(
    ("change", "carbon_per_eq"), [(60.0, LYE), (60.0, CARBONATE), (160.0, BICARBONATE), (-25.0, LYE)]
)
def test_each_step_but_the_last_goes_as_far_as_it_may_and_no_further(change: float, carbon_per_eq: float) -> None:
    steps = _plan(change, carbon_per_eq)
    assert len(steps) > 1
    for step in steps:
        farthest = max(abs(step.ph_at_once - step.ph_before), abs(step.ph_next_day - step.ph_before))
        assert farthest <= 0.3 + 1e-6
        assert step is steps[-1] or farthest == pytest.approx(0.3, abs=1e-6)
    assert sum(step.change for step in steps) == pytest.approx(change)
    assert steps[-1].alkalinity == pytest.approx(40.0 + change)


def test_the_days_follow_each_other() -> None:
    steps = _plan(60.0, CARBONATE)
    assert [step.day for step in steps] == list(range(1, len(steps) + 1))
    assert steps[0].ph_before == pytest.approx(6.6, abs=1e-6)
    for before, after in itertools.pairwise(steps):
        assert after.ph_before == before.ph_next_day
        assert after.alkalinity == pytest.approx(before.alkalinity + after.change)
    assert steps[0].alkalinity == pytest.approx(40.0 + steps[0].change)
    assert steps[0].ph_at_once == WATER.ph_at_once(steps[0].change, CARBONATE)
    assert steps[0].ph_next_day == WATER.with_alkalinity(steps[0].change).ph


def test_a_small_change_takes_one_day() -> None:
    (up,) = _plan(2.0, BICARBONATE)
    assert (up.day, up.change, up.alkalinity) == (1, 2.0, 42.0)
    (down,) = _plan(-1.0)
    assert (down.change, down.alkalinity) == (-1.0, 39.0)


def test_a_limit_for_other_reasons_makes_steps_smaller_and_never_larger() -> None:
    assert [step.change for step in _plan(7.0, BICARBONATE, most=2.0)] == pytest.approx([2.0, 2.0, 2.0, 1.0])
    assert [step.change for step in _plan(-2.0, most=0.5)] == pytest.approx([-0.5] * 4)
    assert _plan(60.0, most=1000.0) == _plan(60.0)


def test_a_dose_without_end_stops() -> None:
    steps = _plan(60.0, most=0.5)
    assert len(steps) == MOST_DAYS == 90
    assert steps[-1].alkalinity == pytest.approx(85.0)
    assert sum(step.change for step in _plan(45.0, most=0.5)) == pytest.approx(45.0)


def test_every_water_that_is_possible_bears_each_step() -> None:
    soft = Buffer.of(6.6, 10.0, 25.0)
    alone, together = _plan(20.0, LYE, soft), _plan(20.0, LYE, WATER, soft)
    assert [step.change for step in together] == pytest.approx([step.change for step in alone])
    assert together[0].ph_before == pytest.approx(6.6, abs=1e-6)
    assert together[0].alkalinity == pytest.approx(40.0 + together[0].change)  # told as they go in the first


def test_hard_water_bears_more_than_a_thousand_at_once() -> None:
    """The search for the largest step doubles until it is too far, and stops where nothing real is any more."""
    hard = Buffer.of(8.3, 3000.0, 25.0)
    (step,) = _plan(1500.0, BICARBONATE, hard)
    assert step.change == 1500.0


def test_the_change_for_a_ph_is_that_of_the_settled_water() -> None:
    for ph in (5.9, 6.6, 7.4):
        assert WATER.with_alkalinity(change_for_ph(WATER, ph)).ph == pytest.approx(ph, abs=1e-6)
    assert change_for_ph(WATER, 6.6) == pytest.approx(0.0, abs=1e-6)


def test_corners_are_the_middle_then_every_end_each_once() -> None:
    found = corners(Interval(6.4, 6.8), Interval(40.0, 60.0), 20.0)
    assert found == [Buffer.of(p, a, 20.0) for p, a in ((6.6, 50), (6.4, 40), (6.4, 60), (6.8, 40), (6.8, 60))]
    assert corners(Interval.exactly(6.6), Interval.exactly(50.0), 20.0) == [Buffer.of(6.6, 50.0, 20.0)]
    assert corners(Interval.exactly(5.0), Interval(0.0, 1.0), 20.0)[1].alkalinity == 0.1  # none at all has no pH
