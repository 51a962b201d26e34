"""How much reaches the water."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.record import Sourced
from triage.model.substance import AsSold
from triage.responses.amounts import Strength
from triage.responses.exposure import (
    active_g_l,
    counted_as,
    least_active,
    left_over,
    most_active,
    reckon_exposure,
    strongest_g_l,
)
from triage.responses.setting import Assumptions, Plan


def _sourced(value: float, unit: str) -> Sourced:
    return Sourced(value=value, unit=unit, source="our-judgement")


def _sold(active: float, unit: str) -> AsSold:
    return AsSold(form="bottle", active=active, unit=unit, source="our-judgement", read="practice")  # type: ignore[arg-type]


@pytest.mark.parametrize(("cover", "expected"), [("none", 2.5), ("covered", 0.1), ("moved", 0.02), ("drench", 10.0)])
def test_one_litre_of_one_per_cent_over_a_cubic_metre(
    kit: SimpleNamespace, assumed: Assumptions, cover: str, expected: float
) -> None:
    exposure = reckon_exposure(kit.substance(), kit.plan(cover=cover), 1000, assumed).exposure
    assert exposure.as_sprayed_mg_l == pytest.approx(expected)
    assert exposure.spilled_mg_l == pytest.approx(10.0)


def test_an_unknown_cover_lets_everything_through(kit: SimpleNamespace, assumed: Assumptions) -> None:
    assert reckon_exposure(kit.substance(), kit.plan(cover="umbrella"), 1000, assumed).exposure.as_sprayed_mg_l == 10


@pytest.mark.parametrize(
    ("volume", "strength", "amount", "said"),
    [
        (None, "1%", "1L", "how much water"),
        (1000, "1%", None, "how much is used"),
        (1000, "5 mL/L", "1L", "density"),
        (1000, None, "1L", "density"),
    ],
)
def test_what_is_unknown_is_not_reckoned_and_is_said(
    kit: SimpleNamespace, assumed: Assumptions, volume: float | None, strength: str | None, amount: str | None,
    said: str,
) -> None:  # fmt: skip
    found = reckon_exposure(kit.substance(), kit.plan(strength, amount), volume, assumed)
    assert found.exposure.as_sprayed_mg_l is None
    assert found.exposure.spilled_mg_l is None
    assert any(said in note for note in found.notes)


def test_a_liquid_is_turned_into_active_by_density_and_content(kit: SimpleNamespace) -> None:
    five = Strength(value=5, unit="mL/L")
    assert active_g_l(five, kit.substance(density=_sourced(0.92, "g/mL"))) == pytest.approx(4.6)
    assert active_g_l(five, kit.substance(as_sold=[_sold(480, "g/L")])) == pytest.approx(2.4)
    half = kit.substance(as_sold=[_sold(50, "%")], density=_sourced(1.1, "g/mL"))
    assert active_g_l(five, half) == pytest.approx(2.75)
    assert active_g_l(five, kit.substance(as_sold=[_sold(50, "%")])) is None


def test_per_cent_by_volume_needs_the_density(kit: SimpleNamespace) -> None:
    alcohol = kit.substance(density=_sourced(0.785, "g/mL"))
    assert active_g_l(Strength(value=70, unit="% vol"), alcohol) == pytest.approx(549.5)
    assert active_g_l(Strength(value=70, unit="%"), alcohol) == pytest.approx(700)
    assert active_g_l(Strength(value=70, unit="% vol"), kit.substance()) is None


def test_the_strongest_product_counts(kit: SimpleNamespace) -> None:
    two = kit.substance(as_sold=[_sold(3, "%"), _sold(35, "%")])
    assert active_g_l(Strength(value=10, unit="%", of="product"), two) == pytest.approx(35)


def test_without_a_strength_it_is_taken_undiluted(kit: SimpleNamespace, assumed: Assumptions) -> None:
    bleach = kit.substance(as_sold=[_sold(50, "g/L")])
    found = reckon_exposure(bleach, kit.plan(None, "100 mL"), 1000, assumed)
    assert found.exposure.spilled_mg_l == pytest.approx(5)
    assert any("undiluted" in note for note in found.notes)


def test_a_weight_is_the_product(kit: SimpleNamespace, assumed: Assumptions) -> None:
    found = reckon_exposure(kit.substance(as_sold=[_sold(25, "%")]), kit.plan(None, "10 g"), 1000, assumed)
    assert found.exposure.spilled_mg_l == pytest.approx(2.5)


@pytest.mark.parametrize(
    ("strength", "spilled"),
    [("20%", 2.0), ("300 g/L", 3.0), ("20% product", 1.0), ("100%", 10.0), ("5 mL/L", 5.0), ("2000 g/L", 10.0)],
)
def test_a_weight_of_some_strength(kit: SimpleNamespace, assumed: Assumptions, strength: str, spilled: float) -> None:
    """Ten grams over a cubic metre; a product holds half of active at most, and nothing is more than all of it."""
    sold = kit.substance(as_sold=[_sold(500, "g/kg"), _sold(10, "%")])
    found = reckon_exposure(sold, kit.plan(strength, "10 g"), 1000, assumed)
    assert found.exposure.spilled_mg_l == pytest.approx(spilled)
    assert found.single_mg_l == pytest.approx(spilled)


def test_how_much_active_it_is_sold_with(kit: SimpleNamespace) -> None:
    several = [_sold(480, "g/L"), _sold(25, "%"), _sold(300, "g/kg")]
    heavy = kit.substance(as_sold=several, density=_sourced(1.2, "g/mL"))
    assert most_active(heavy) == pytest.approx(0.4)  # 480 g in 1.2 kg
    assert least_active(heavy) == pytest.approx(0.25)
    assert strongest_g_l(heavy) == pytest.approx(480)  # the others: 300 and 360 g/L
    light = kit.substance(as_sold=several)
    assert most_active(light) == pytest.approx(0.48)  # a litre taken as a kilogram
    assert strongest_g_l(light) == pytest.approx(480)
    assert strongest_g_l(kit.substance(as_sold=several[1:], density=_sourced(1.2, "g/mL"))) == pytest.approx(360)
    dense = kit.substance(as_sold=[_sold(480, "g/L")], density=_sourced(1.6, "g/mL"))
    assert least_active(dense) == pytest.approx(0.3)


def test_no_product_holds_more_than_all_active(kit: SimpleNamespace) -> None:
    for sold in (_sold(1300, "g/L"), _sold(1100, "g/kg"), _sold(120, "%")):
        assert most_active(kit.substance(as_sold=[sold])) == 1.0
    assert most_active(kit.substance()) == 1.0
    assert least_active(kit.substance()) is None


def test_a_strength_of_the_product_counts_its_active(kit: SimpleNamespace) -> None:
    half = kit.substance(as_sold=[_sold(50, "%")], density=_sourced(0.8, "g/mL"))
    found = {unit: active_g_l(Strength(value=4, unit=unit, of="product"), half) for unit in ("%", "g/L", "% vol")}
    assert found == pytest.approx({"%": 20, "g/L": 2, "% vol": 16})
    assert active_g_l(Strength(value=4, unit="% vol", of="product"), kit.substance()) is None


def test_the_notes_say_what_was_taken_for_granted(kit: SimpleNamespace, assumed: Assumptions) -> None:
    def notes(stuff: Any, plan: Plan, volume: float | None = 1000) -> tuple[str, ...]:
        return reckon_exposure(stuff, plan, volume, assumed).notes

    oil = kit.substance(density=_sourced(0.9, "g/mL"))
    sold = kit.substance(as_sold=[_sold(25, "%")], half_life_days=_sourced(3, "days"))
    undiluted = "no strength was given: taken undiluted, at the strongest it is sold"
    all_active = "how much active the product holds is not known: taken as all active"
    adds_up = "how fast it breaks down is not known: repeated use adds up in full"
    no_amount, no_volume = "how much is used is not known", "how much water the system holds is not known"
    assert notes(oil, kit.plan()) == ()
    assert notes(oil, kit.plan(None, None), None) == (no_volume, no_amount)
    assert notes(oil, kit.plan(None, "1 L")) == (undiluted,)
    assert notes(oil, kit.plan(None, "10 g")) == ()
    assert notes(sold, kit.plan(None, "10 g")) == (undiluted,)
    assert notes(oil, kit.plan("2% product")) == (all_active,)
    assert notes(sold, kit.plan("2% product")) == ()
    assert notes(oil, kit.plan(times=2)) == (adds_up,)
    assert notes(sold, kit.plan(times=2)) == ()
    assert notes(kit.substance(), kit.plan("5 mL/L")) == (
        "the strength cannot be reckoned (the density or the content of the product is not known)",
    )


def test_what_is_dosed_arrives_wholly_and_adds_to_what_is_there(kit: SimpleNamespace, assumed: Assumptions) -> None:
    plan = Plan(amount=kit.plan(None, "10 g").amount, way="dosed", cover="moved", already_g=4.0)
    found = reckon_exposure(kit.substance(as_sold=[_sold(50, "%")]), plan, 1000, assumed)
    assert found.exposure.as_sprayed_mg_l == found.exposure.spilled_mg_l == pytest.approx(5 + 2)
    assert found.exposure.share_reaching_water == 1.0
    assert found.single_mg_l == pytest.approx(5)
    assert found.exposure.volume_l == 1000
    assert found.exposure.of == "active"


def test_of_somebody_elses_spray_only_what_comes_over_can_be_spilled(
    kit: SimpleNamespace, assumed: Assumptions
) -> None:
    share, worst = assumed.share("neighbour"), assumed.share_at_worst("neighbour")
    assert share < worst < 1
    found = reckon_exposure(kit.substance(), kit.plan(cover="neighbour", times=2), 1000, assumed).exposure
    assert found.as_sprayed_mg_l == pytest.approx(10 * share * 2)
    assert found.spilled_mg_l == pytest.approx(10 * (worst + share))
    assert found.share_reaching_water == share


def test_of_a_dose_all_can_be_spilled_whatever_covers_the_water(kit: SimpleNamespace, assumed: Assumptions) -> None:
    plan = Plan(amount=kit.plan(None, "10 g").amount, way="dosed", cover="neighbour")
    found = reckon_exposure(kit.substance(), plan, 1000, assumed).exposure
    assert found.as_sprayed_mg_l == found.spilled_mg_l == pytest.approx(10)


def test_a_system_without_water_is_not_reckoned(kit: SimpleNamespace, assumed: Assumptions) -> None:
    found = reckon_exposure(kit.substance(), kit.plan(), 0.0, assumed)
    assert found.exposure.as_sprayed_mg_l is found.exposure.spilled_mg_l is found.single_mg_l is None
    assert reckon_exposure(kit.substance(), kit.plan(), 0.5, assumed).single_mg_l == pytest.approx(20_000)


def test_values_for_a_product_alone_are_counted_as_product(kit: SimpleNamespace) -> None:
    product = kit.row(280, basis="product")
    assert counted_as(kit.substance(product)) == "product"
    assert counted_as(kit.substance(product, kit.row(3))) == "active"
    assert counted_as(kit.substance(product, as_sold=[_sold(1, "%")])) == "active"
    assert counted_as(kit.substance()) == "active"
    metal = kit.row(1, basis="metal")
    assert counted_as(kit.substance(metal)) == "metal"
    assert counted_as(kit.substance(metal, element_share=_sourced(0.25, "g per g"))) == "active"


def test_repeated_sprays_add_up_with_decay(kit: SimpleNamespace, assumed: Assumptions) -> None:
    fading = kit.substance(half_life_days=_sourced(7, "days"))
    plan = kit.plan(cover="none", times=3, every_days=7.0)
    found = reckon_exposure(fading, plan, 1000, assumed).exposure
    assert found.as_sprayed_mg_l == pytest.approx(2.5 * (1 + 0.5 + 0.25))
    assert found.spilled_mg_l == pytest.approx(10 + 2.5 * 0.75)
    lasting = reckon_exposure(kit.substance(), plan, 1000, assumed)
    assert lasting.exposure.as_sprayed_mg_l == pytest.approx(7.5)
    assert any("adds up in full" in note for note in lasting.notes)


@given(times=st.integers(1, 20), every=st.floats(0.1, 60), half=st.floats(0.01, 400))
def test_decay_only_takes_away(times: int, every: float, half: float) -> None:
    assert 0 <= left_over(times, every, half) <= left_over(times, every, None) == times - 1
    assert left_over(times + 1, every, half) >= left_over(times, every, half)
