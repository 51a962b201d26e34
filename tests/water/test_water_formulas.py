"""The table of formulas: feed, stock, top-up and what follows from them, in the units they are shown in."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from triage.model.quantity import Quantity, Reading
from triage.water.derive import derive_values
from triage.water.formulas import formulas, share_of

Book = Mapping[str, Quantity]


def _derived(
    volume_l: float | None = 1000.0, least: float | None = None, **told: float
) -> dict[str, tuple[float, float]]:
    names = {name.replace("_", "-"): value for name, value in told.items()}
    readings = [Reading(quantity=name, value=value, low=value, high=value) for name, value in names.items()]
    found = derive_values(readings, salmonids=False, volume_l=volume_l, least_oxygen_mg_l=least)
    return {value.name: (value.low, value.high) for value in found}


@pytest.mark.parametrize(("poured", "left"), [(100, 0.1), (10, 0.01), (1000, 1.0), (2500, 1.0), (0, 0.0)])
def test_chlorine_of_the_tap_is_thinned_by_the_system(poured: float, left: float) -> None:
    """More than the system holds is no more than all of it."""
    found = _derived(top_up_chlorine=1.0, top_up_per_day=poured)
    assert found["chlorine_after_top_up_mg_l"] == pytest.approx((left, left))


def test_ammonia_of_a_days_feed_lies_between_two_sources() -> None:
    """100 g of 32 % protein: 2.944 g N (ksu2021: 9.2 % of the protein), and what a consultancy reckons."""
    low, high = _derived(feed=100.0, feed_protein=32.0)["ammonia_given_off_g"]
    assert low == pytest.approx(2.944, abs=0.001)
    assert low < high < 100 * 0.32 * 0.16  # never more nitrogen than protein holds, 16 % of it


def test_plants_for_a_days_feed() -> None:
    """60 to 100 g of feed for each square metre of rafts (rakocy2007)."""
    assert _derived(feed=600.0)["plant_area_m2"] == pytest.approx((6.0, 10.0))


def test_stock_density_and_a_days_ration() -> None:
    """Twenty kilograms in 800 L are 25 kg/m3; one to two per cent of them are 200 to 400 g a day (fao589)."""
    found = _derived(800.0, stock=20.0)
    assert found["stocking_density_kg_m3"] == pytest.approx((25.0, 25.0))
    assert found["usual_ration_g"] == pytest.approx((200.0, 400.0))
    assert "stocking_density_kg_m3" not in _derived(None, stock=20.0)


def test_ammonia_of_a_stock_is_that_of_one_fish_times_the_stock() -> None:
    one, ten = (_derived(stock=kilograms)["ammonia_from_stock_g"][0] for kilograms in (1.0, 10.0))
    assert ten == pytest.approx(10 * one)
    assert 0.05 < one < 1.0  # grams a day of a kilogram of fish, not milligrams and not a meal


def test_hours_of_oxygen_are_fewer_with_the_higher_use() -> None:
    found = _derived(stock=10.0, feed=100.0, temperature=25.0, oxygen=7.0, least=3.0)
    low, high = found["oxygen_hours_left"]
    assert 0 < low < high
    double = _derived(2000.0, stock=10.0, feed=100.0, temperature=25.0, oxygen=7.0, least=3.0)["oxygen_hours_left"]
    assert double == pytest.approx((2 * low, 2 * high))
    most = found["oxygen_hours_at_most"]
    assert most[0] > low
    assert "oxygen_hours_left" not in _derived(stock=10.0, feed=100.0, temperature=25.0, oxygen=7.0)


def test_a_share_of_nothing_is_without_end_unless_there_is_nothing() -> None:
    assert share_of(3.0, 2.0) == 1.5
    assert share_of(0.001, 0.0) == share_of(1.0, -1.0) == float("inf")
    assert share_of(0.0, 0.0) == share_of(-1.0, 0.0) == 0.0


def test_every_formula_names_what_the_book_knows(quantities: Book) -> None:
    known = {*quantities, "volume", "least-oxygen"}
    for formula in formulas(salmonids=True):
        assert set(formula.needs) <= known, formula.name
        assert formula.quantity in quantities, formula.name
        assert quantities[formula.quantity].unit == formula.unit, formula.name
