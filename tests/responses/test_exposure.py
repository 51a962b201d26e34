"""How much reaches the water."""

from __future__ import annotations

from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.record import Sourced
from triage.model.substance import AsSold
from triage.responses.amounts import Strength
from triage.responses.exposure import active_g_l, counted_as, left_over, reckon_exposure
from triage.responses.setting import Assumptions


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


def test_values_for_a_product_alone_are_counted_as_product(kit: SimpleNamespace) -> None:
    product = kit.row(280, basis="product")
    assert counted_as(kit.substance(product)) == "product"
    assert counted_as(kit.substance(product, kit.row(3))) == "active"
    assert counted_as(kit.substance(product, as_sold=[_sold(1, "%")])) == "active"


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
