"""Nitrogen of feed and fish, and what it does to alkalinity."""

from __future__ import annotations

import math

import pytest

from triage.water import nitrogen


def test_ammonia_of_feed_grows_with_feed_and_protein() -> None:
    """ksu2021: 16 % nitrogen × 80 % × 80 % × 90 %."""
    assert nitrogen.tan_from_feed_ksu2021(100, 0.4) == pytest.approx(100 * 0.4 * 0.16 * 0.8 * 0.8 * 0.9, rel=0.002)
    assert nitrogen.tan_from_feed_consultancy(100, 0.4) == pytest.approx(4.096)
    ratio = nitrogen.tan_from_feed_consultancy(7, 0.3) / nitrogen.tan_from_feed_ksu2021(7, 0.3)
    assert ratio == pytest.approx(1.11, abs=0.005)


def test_ammonia_of_a_mass_of_fish() -> None:
    """fisheries-blog: 25 mg for 100 g of fish a day, unless another rate is told."""
    assert nitrogen.tan_from_biomass(4, 50) == pytest.approx(0.05)
    assert nitrogen.tan_from_biomass(4, 50, 50) == pytest.approx(0.1)
    assert nitrogen.tan_from_biomass(8, 50) == nitrogen.tan_from_biomass(4, 100) == pytest.approx(0.1)


def test_ration_and_plant_area() -> None:
    """rakocy2007: 60 to 100 g of feed for each square metre of raft and day."""
    assert nitrogen.ration(20, 2.5) == pytest.approx(0.5)
    assert nitrogen.plant_area(600, 60) == pytest.approx(10)
    assert nitrogen.plant_area(600, 100) == pytest.approx(6)


def test_alkalinity_used_and_to_be_added() -> None:
    """filter-maker-alkalinity: 7.14 g of alkalinity for a gram of nitrogen."""
    assert nitrogen.alkalinity_consumed(2.5) == pytest.approx(17.85)
    assert nitrogen.alkalinity_to_add(10, 50, 75) == pytest.approx(71.4 + 75 - 50)
    assert nitrogen.alkalinity_to_add(10, 146.4, 75) == pytest.approx(0.0)
    assert nitrogen.alkalinity_to_add(10, 200, 75) == 0.0
    assert nitrogen.alkalinity_to_add(0.2, 76, 75) == pytest.approx(0.428)


def test_days_of_buffer() -> None:
    assert nitrogen.buffer_days(71.4, 2.0) == pytest.approx(5.0)
    assert nitrogen.buffer_days(71.4, 2.0, 71.4) == nitrogen.buffer_days(50, 2.0, 71.4) == 0.0
    assert nitrogen.buffer_days(71.4, 0.5, 35.7) == pytest.approx(10.0)
    assert nitrogen.buffer_days(50.5, 0.1, 50) == pytest.approx(0.7, abs=0.001)
    assert nitrogen.buffer_days(50, 0) == math.inf


@pytest.mark.parametrize(
    ("ph", "share"),
    [(5.0, 0.17), (6.2, 0.17), (6.4, 0.335), (6.6, 0.50), (7.0, 0.83), (7.1, 0.915), (7.2, 1.0), (8.5, 1.0)],
)
def test_speed_by_ph_goes_through_the_printed_points(ph: float, share: float) -> None:
    """weat-alk101, straight lines between its points, flat beyond them."""
    assert nitrogen.nitrification_rate(ph) == pytest.approx(share)


def test_speed_by_warmth() -> None:
    """nitrification-theta: 1.072 for each degree, one at twenty."""
    assert nitrogen.nitrification_rate_by_warmth(20) == 1.0
    assert nitrogen.nitrification_rate_by_warmth(21) == pytest.approx(1.072)
    assert nitrogen.nitrification_rate_by_warmth(18) == pytest.approx(1 / 1.072**2)
