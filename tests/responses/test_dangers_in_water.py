"""Measures of the water itself: ammonia that comes of it, oxygen, pH, and what a slip of the scales would do."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import pytest

from triage.model.record import Sourced
from triage.responses.exposure import reckon_exposure
from triage.responses.measures import Levels, Measured, as_facts, measure, oxygen_held
from triage.responses.setting import Assumptions, Plan, Water
from triage.responses.toxicity import Lookup

SHARE = Sourced(value=0.2, unit="g N per g", source="molar-mass")
UREA = {"traits": ["ammonia-releasing"], "element_share": SHARE}


def _measure(stuff: Any, plan: Plan, water: Water, assumed: Assumptions) -> Measured:
    lookup = Lookup(substance=stuff, water=water, assumed=assumed)
    return measure(lookup, plan, reckon_exposure(stuff, plan, water.volume_l, assumed))


def _high(measured: Measured, name: str) -> float:
    return measured.exposures[name].high


def _dose(kit: SimpleNamespace, text: str = "10 g", times: int = 1) -> Plan:
    return Plan(amount=kit.plan(None, text).amount, times=times, every_days=1.0, way="dosed")


@pytest.mark.parametrize(
    ("readings", "expected"),
    [
        ([], 2.0 / 0.27),  # nothing measured: the limit of the margins, and no ammonia yet
        ([("ammonia-acute-limit", 4.0, 3.2, 5.0)], 2.0 / 3.2),
        ([("ammonia-acute-limit", 0.5, 0.4, 0.6), ("tan", 1.0, 0.8, 1.2)], 3.2 / 0.4),
        ([("ammonia-acute-limit", 4.0, 0.0, 5.0)], 2.0 / 0.27),
        ([("ammonia-acute-limit", 4.0, 4.0, 4.0), ("tan", 8.0, 8.0, math.inf)], 0.5),
    ],
)
def test_ammonia_that_comes_of_it_adds_to_what_is_there(
    kit: SimpleNamespace, assumed: Assumptions, readings: list[tuple[Any, ...]], expected: float
) -> None:
    """Ten milligrams a litre with a fifth of nitrogen bring 2 mg/L of ammonia nitrogen."""
    water = kit.water(readings=tuple(kit.reading(*one) for one in readings))
    measured = _measure(kit.substance(**UREA), kit.plan(), water, assumed)
    assert _high(measured, "ammonia-limit-share-spilled") == pytest.approx(expected)


def test_of_a_dose_the_ammonia_of_one_day_counts_and_ten_times_it(kit: SimpleNamespace, assumed: Assumptions) -> None:
    water = kit.water(readings=(kit.reading("ammonia-acute-limit", 4), kit.reading("tan", 1)))
    measured = _measure(kit.substance(**UREA), _dose(kit, times=3), water, assumed)
    assert _high(measured, "ammonia-limit-share-dosed") == pytest.approx(3 / 4)
    assert _high(measured, "ammonia-limit-share-overdosed") == pytest.approx(21 / 4)


def test_without_litres_ph_and_oxygen_are_missing_too(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(traits=["raises-ph", "oxygen-eater"])
    sprayed = _measure(stuff, kit.plan(), kit.water(None), assumed)
    assert {"ph-shift-share-spilled", "oxygen-drawn-share-spilled", "fish-quotient-spilled"} <= sprayed.missing
    dosed = _measure(stuff, _dose(kit), kit.water(None), assumed)
    assert {"ph-shift-share-dosed", "ph-shift-share-overdosed", "oxygen-drawn-share-dosed"} <= dosed.missing


def test_without_litres_the_ammonia_is_missing(kit: SimpleNamespace, assumed: Assumptions) -> None:
    sprayed = _measure(kit.substance(**UREA), kit.plan(), kit.water(None), assumed)
    assert {"ammonia-limit-share-sprayed", "ammonia-limit-share-spilled"} <= sprayed.missing
    dosed = _measure(kit.substance(**UREA), _dose(kit), kit.water(None), assumed)
    assert {"ammonia-limit-share-dosed", "ammonia-limit-share-overdosed", "fish-quotient-dosed"} <= dosed.missing


def test_a_trait_without_a_share_of_nitrogen_makes_no_ammonia(kit: SimpleNamespace, assumed: Assumptions) -> None:
    for told in ({"traits": ["ammonia-releasing"]}, {"element_share": SHARE}):
        measured = _measure(kit.substance(kit.row(9), **told), kit.plan(), kit.water(), assumed)
        assert not any("ammonia" in name for name in {*measured.exposures, *measured.missing})


def test_what_passes_in_a_day_is_measured_by_a_days_dose_and_what_stays_by_the_sum(
    kit: SimpleNamespace, assumed: Assumptions
) -> None:
    stuff = kit.substance(
        kit.row(900), traits=["salt", "lowers-ph"],
        oxygen_demand=Sourced(value=0.5, unit="g/g", source="stoichiometry"),
        alkalinity_per_g=Sourced(value=-0.4, unit="g/g", source="stoichiometry"),
    )  # fmt: skip
    water = kit.water(oxygen_mg_l=8.0, readings=(kit.reading("alkalinity", 40),))
    measured = _measure(stuff, _dose(kit, times=3), water, assumed)
    assert _high(measured, "salt-rise-dosed-mg-l") == pytest.approx(30)
    assert _high(measured, "oxygen-drawn-share-dosed") == pytest.approx(5 / 8)
    assert _high(measured, "ph-shift-share-dosed") == pytest.approx(4 / 40)
    assert _high(measured, "ph-shift-share-overdosed") == pytest.approx(40 / 40)
    assert _high(measured, "fish-quotient-dosed") == pytest.approx(10 / 900)  # it harms by moving pH
    assert "fish-quotient-overdosed" not in measured.exposures


def test_what_moves_no_ph_has_no_measure_of_it(kit: SimpleNamespace, assumed: Assumptions) -> None:
    measured = _measure(kit.substance(kit.row(900)), _dose(kit), kit.water(), assumed)
    assert set(measured.exposures) == {"fish-quotient-dosed", "fish-quotient-overdosed"}
    assert measured.missing == frozenset()


def test_a_dose_without_any_value_is_missing(kit: SimpleNamespace, assumed: Assumptions) -> None:
    measured = _measure(kit.substance(), _dose(kit), kit.water(), assumed)
    assert measured.missing == {"fish-quotient-dosed"}
    assert measured.chosen == {"fish": None}
    assert measured.data == {"fish": "none"}


def test_the_values_shown_have_margins_only_for_sprays(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(50), kit.row(4, "Daphnia magna", group="crustacean"))
    both = kit.water(animals=(kit.tilapia, kit.shrimp))
    sprayed = _measure(stuff, kit.plan(), both, assumed).chosen
    dosed = _measure(stuff, _dose(kit), both, assumed).chosen
    assert {kind: one.effective_mg_l for kind, one in sprayed.items() if one} == {"fish": 10, "crustacean": 0.8}
    assert {kind: one.effective_mg_l for kind, one in dosed.items() if one} == {"fish": 50, "crustacean": 4}


def test_the_lasting_quotient_needs_repeats_a_value_and_litres(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(50), kit.row(5, test="NOEC"))
    assert "fish-lasting-quotient-sprayed" in _measure(stuff, kit.plan(times=2), kit.water(None), assumed).missing
    bare = _measure(kit.substance(kit.row(50)), kit.plan(times=2), kit.water(), assumed)
    assert not any("lasting" in name for name in {*bare.exposures, *bare.missing})


@pytest.mark.parametrize(
    ("reading", "told", "held"),
    [
        (None, 8.0, 8.0), (None, None, 4.0), (None, 0.0, 4.0), ((6.0, 5.5, 6.5), 8.0, 5.5),
        ((0.5, 0.0, 1.0), 8.0, 8.0), ((0.5, 0.0, 1.0), None, 4.0), ((0.6, 0.5, 1.0), 8.0, 0.5), (None, 0.9, 0.9),
    ],
)  # fmt: skip
def test_the_oxygen_held_is_the_low_end_of_what_is_known(
    kit: SimpleNamespace, assumed: Assumptions, reading: tuple[float, ...] | None, told: float | None, held: float
) -> None:
    readings = () if reading is None else (kit.reading("oxygen", *reading),)
    water = kit.water(oxygen_mg_l=told, readings=readings)
    assert oxygen_held(Lookup(substance=kit.substance(), water=water, assumed=assumed)) == held


@pytest.mark.parametrize(("low", "share"), [(0.5, 4 / 0.5), (0.0, 4 / 10), (80.0, 4 / 80)])
def test_the_buffer_is_the_low_end_of_the_alkalinity(
    kit: SimpleNamespace, assumed: Assumptions, low: float, share: float
) -> None:
    acid = kit.substance(alkalinity_per_g=Sourced(value=-0.4, unit="g/g", source="stoichiometry"))
    water = kit.water(readings=(kit.reading("alkalinity", 90, low, 90),))
    assert _high(_measure(acid, kit.plan(), water, assumed), "ph-shift-share-spilled") == pytest.approx(share)


def test_levels_by_what_happened(kit: SimpleNamespace, assumed: Assumptions) -> None:
    sprayed = reckon_exposure(kit.substance(), kit.plan(), 1000, assumed)
    assert Levels.of(sprayed, kit.plan()) == Levels(
        by_event={"sprayed": pytest.approx(2.5), "spilled": pytest.approx(10)}, single_mg_l=pytest.approx(10)
    )
    dosed = reckon_exposure(kit.substance(), _dose(kit, times=2), 1000, assumed)
    assert Levels.of(dosed, _dose(kit, times=2)) == Levels(by_event={"dosed": 20.0}, single_mg_l=10.0)


def test_the_rules_are_told_what_nobody_said(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(50), kit.row(4, "Daphnia magna", group="crustacean", read="memory"))
    water = kit.water(None, animals=())
    lookup = Lookup(substance=stuff, water=water, assumed=assumed)
    facts = as_facts(lookup, _dose(kit), measure(lookup, _dose(kit), reckon_exposure(stuff, _dose(kit), None, assumed)))
    assert facts.substance == "Stuff"
    assert facts.system == {
        "cover": "none", "way": "dosed", "filter-data": "none", "fish-data": "read", "crustacean-data": "recalled",
        "animals": "not-told", "volume": "not-told",
    }  # fmt: skip
    assert facts.missing == {"fish-quotient-dosed", "crustacean-quotient-dosed"}
    assert facts.animals == ()
