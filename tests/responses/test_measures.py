"""The measures behind the safety rules."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from triage.model.record import Sourced
from triage.model.substance import FilterEffect
from triage.responses.exposure import reckon_exposure
from triage.responses.filtering import filter_data
from triage.responses.measures import Measured, as_facts, measure
from triage.responses.setting import Assumptions, Plan, Water
from triage.responses.toxicity import Lookup


def _measure(stuff: Any, plan: Plan, water: Water, assumed: Assumptions) -> Measured:
    lookup = Lookup(substance=stuff, water=water, assumed=assumed)
    return measure(lookup, plan, reckon_exposure(stuff, plan, water.volume_l, assumed))


def _values(measured: Measured) -> dict[str, float]:
    return {name: known.low for name, known in measured.exposures.items() if known.low == known.high}


def test_a_spray_is_measured_as_sprayed_and_spilled(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(50, "Oreochromis niloticus"), kit.row(4, "Daphnia magna", group="crustacean"))
    values = _values(_measure(stuff, kit.plan(), kit.water(animals=(kit.tilapia, kit.shrimp)), assumed))
    assert values == pytest.approx(
        {
            "fish-quotient-sprayed": 2.5 / 50,
            "fish-quotient-spilled": 10 / 50,
            "fish-lowest-mg-l": 50,
            "crustacean-quotient-sprayed": 2.5 * 5 / 4,
            "crustacean-quotient-spilled": 10 * 5 / 4,
            "crustacean-lowest-mg-l": 4,
        }
    )


def test_crustaceans_are_left_out_only_where_none_are_kept(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(50))
    kept = _measure(stuff, kit.plan(), kit.water(animals=()), assumed)
    assert "crustacean-quotient-spilled" in kept.missing
    none = _measure(stuff, kit.plan(), kit.water(), assumed)
    assert not any(name.startswith("crustacean") for name in {*none.exposures, *none.missing})


def test_without_a_volume_the_quotients_are_missing_and_the_bands_are_not(
    kit: SimpleNamespace, assumed: Assumptions
) -> None:
    measured = _measure(kit.substance(kit.row(50)), kit.plan(), kit.water(None), assumed)
    assert {"fish-quotient-sprayed", "fish-quotient-spilled"} <= measured.missing
    assert _values(measured) == {"fish-lowest-mg-l": 50}


def test_repeats_bring_in_the_values_for_long_exposure(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(50, "Oreochromis niloticus"), kit.row(5, "Oreochromis niloticus", test="NOEC"))
    once = _values(_measure(stuff, kit.plan(), kit.water(), assumed))
    twice = _values(_measure(stuff, kit.plan(times=2), kit.water(), assumed))
    assert "fish-lasting-quotient-sprayed" not in once
    assert twice["fish-lasting-quotient-sprayed"] == pytest.approx(5.0 / 5)


def test_what_is_dosed_has_no_margin_but_a_tenfold_mistake(kit: SimpleNamespace, assumed: Assumptions) -> None:
    plan = Plan(amount=kit.plan(None, "10 g").amount, times=3, every_days=1.0, way="dosed")
    values = _values(_measure(kit.substance(kit.row(200)), plan, kit.water(), assumed))
    assert values == pytest.approx({"fish-quotient-dosed": 30 / 200, "fish-quotient-overdosed": 100 / 200})
    harmless = _values(_measure(kit.substance(kit.row(200, bound=">")), plan, kit.water(), assumed))
    assert harmless == pytest.approx({"fish-tested-share-dosed": 30 / 200})


def test_a_base_is_measured_by_one_days_dose(kit: SimpleNamespace, assumed: Assumptions) -> None:
    base = kit.substance(
        kit.row(80), traits=["raises-ph"],
        alkalinity_per_g=Sourced(value=0.5, unit="g CaCO3 per g", source="stoichiometry"),
    )  # fmt: skip
    plan = Plan(amount=kit.plan(None, "10 g").amount, times=3, every_days=1.0, way="dosed")
    here = kit.water(readings=(kit.reading("alkalinity", 50, 40, 60),))
    assert _values(_measure(base, plan, here, assumed)) == pytest.approx(
        {
            "fish-quotient-dosed": 10 / 80,
            "ph-shift-share-dosed": 5 / 40,
            "ph-shift-share-overdosed": 50 / 40,
        }
    )


def test_what_is_not_measured_is_assumed_on_the_dark_side(kit: SimpleNamespace, assumed: Assumptions) -> None:
    def share(name: str, water: Water, **others: Any) -> float:
        stuff = kit.substance(kit.row(50), **others)
        return _values(_measure(stuff, kit.plan(), water, assumed))[name]

    acid = {"traits": ["lowers-ph"]}
    known = {**acid, "alkalinity_per_g": Sourced(value=-0.5, unit="g CaCO3 per g", source="stoichiometry")}
    hard = kit.water(readings=(kit.reading("alkalinity", 100),))
    assert share("ph-shift-share-spilled", hard, **known) == pytest.approx(0.05)
    assert share("ph-shift-share-spilled", kit.water(), **known) == pytest.approx(0.5)
    assert share("ph-shift-share-spilled", hard, **acid) > share("ph-shift-share-spilled", hard, **known)

    eaten = {"oxygen_demand": Sourced(value=1.0, unit="g O2 per g", source="stoichiometry")}
    rich = kit.water(oxygen_mg_l=8.0)
    assert share("oxygen-drawn-share-spilled", rich, **eaten) == pytest.approx(10 / 8)
    assert share("oxygen-drawn-share-spilled", kit.water(), **eaten) == pytest.approx(10 / 4)
    low = kit.water(oxygen_mg_l=8.0, readings=(kit.reading("oxygen", 5, 4.5, 5.5),))
    assert share("oxygen-drawn-share-spilled", low, **eaten) == pytest.approx(10 / 4.5)
    assert share("oxygen-drawn-share-spilled", rich, traits=["oxygen-eater"]) == pytest.approx(30 / 8)


def test_traits_bring_their_levels(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(50), traits=["film", "salt", "chlorine"])
    values = _values(_measure(stuff, kit.plan(), kit.water(), assumed))
    for name in ("film", "salt-rise", "chlorine"):
        assert values[f"{name}-sprayed-mg-l"] == pytest.approx(2.5)
        assert values[f"{name}-spilled-mg-l"] == pytest.approx(10)


def _effect(effect: str, at: float | None = None, read: str = "seen") -> FilterEffect:
    return FilterEffect(effect=effect, at=at, source="our-judgement", read=read)  # type: ignore[arg-type]


def test_the_lowest_harmful_level_counts_for_the_filter(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(50), filter=[_effect("stopped", 100), _effect("slowed", 20), _effect("none-seen", 5)])
    values = _values(_measure(stuff, kit.plan(), kit.water(), assumed))
    assert values["filter-quotient-spilled"] == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("effects", "expected"),
    [
        ([], "none"), ([("unknown", None, "seen")], "none"), ([("none-seen", None, "seen")], "none-seen"),
        ([("none-seen", 15.0, "memory")], "none"), ([("slowed", 1.0, "seen")], "harmed"),
        ([("slowed", 1.0, "memory")], "none"), ([("slowed", None, "memory")], "level-unknown"),
        ([("slowed", None, "seen"), ("none-seen", None, "seen")], "level-unknown"),
    ],
)  # fmt: skip
def test_what_is_known_of_the_filter(
    kit: SimpleNamespace, effects: list[tuple[str, float | None, str]], expected: str
) -> None:
    assert filter_data(kit.substance(filter=[_effect(*effect) for effect in effects])) == expected


def test_the_rules_are_told_the_water_and_the_state_of_knowledge(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(50, read="memory"), traits=["film"])
    lookup = Lookup(substance=stuff, water=kit.water(readings=(kit.reading("ph", 7),)), assumed=assumed)
    plan = kit.plan(cover="covered")
    facts = as_facts(lookup, plan, measure(lookup, plan, reckon_exposure(stuff, plan, 1000, assumed)))
    assert facts.traits == {"film"}
    assert facts.animals == (kit.tilapia,)
    assert facts.system == {
        "cover": "covered", "way": "sprayed", "filter-data": "none", "fish-data": "recalled", "animals": "told",
        "volume": "told",
    }  # fmt: skip
    assert [reading.quantity for reading in facts.readings] == ["ph"]
