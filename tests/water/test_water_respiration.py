"""How fast oxygen is used up, and how long it lasts."""

from __future__ import annotations

import math

import pytest

from triage.water.respiration import fish_mg_h, hours_left, system_mg_h


def test_unfed_fish_at_the_temperature_of_the_measurement() -> None:
    """fu2005: 175.4 mg/kg/h unfed at 27.5 degrees."""
    assert fish_mg_h(1, 0, 27.5) == pytest.approx(175.4)
    assert fish_mg_h(12, 0, 27.5) == pytest.approx(12 * 175.4)


def test_each_per_cent_of_their_mass_in_feed_adds_the_same() -> None:
    """fu2005: 47.3 mg/kg/h for each per cent: 10 g for a kilo, 100 g for ten kilos."""
    assert fish_mg_h(1, 10, 27.5) == pytest.approx(175.4 + 47.3)
    assert fish_mg_h(10, 100, 27.5) == pytest.approx(10 * (175.4 + 47.3))
    assert fish_mg_h(0.5, 10, 27.5) == pytest.approx(0.5 * (175.4 + 2 * 47.3))


def test_ten_degrees_double_it() -> None:
    """sea-cage-oxygen."""
    assert fish_mg_h(3, 20, 27.5) == pytest.approx(2 * fish_mg_h(3, 20, 17.5))


def test_no_fish_use_nothing() -> None:
    assert fish_mg_h(0, 100, 20) == 0.0


def test_fish_and_bacteria_reach_from_unfed_fish_to_the_larger_of_two() -> None:
    """boyd-feed-oxygen: 1.25 g for each g of feed, spread over 24 hours."""
    little = system_mg_h(10, 50, 20)
    assert little.low == pytest.approx(fish_mg_h(10, 0, 20))
    assert little.high == pytest.approx(max(fish_mg_h(10, 50, 20), 50 * 1250 / 24)) == pytest.approx(2604.17, abs=0.01)
    warm = system_mg_h(10, 20, 30)
    assert warm.high == fish_mg_h(10, 20, 30)
    assert warm.high > 20 * 1250 / 24


def test_hours_left_to_a_level() -> None:
    assert hours_left(8, 4, 1000, 2000) == pytest.approx(2.0)
    assert hours_left(4.5, 4, 1000, 1) == pytest.approx(500.0)
    assert hours_left(4, 4, 1000, 2000) == hours_left(3, 4, 1000, 2000) == 0.0
    assert hours_left(8, 4, 1000, 0) == math.inf
    assert hours_left(8, 4, 1000, 0.5) == pytest.approx(8000.0)
