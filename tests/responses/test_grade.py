"""Grades by the safety rules of the book: single cases."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from triage.model.facts import Graded, GuardFacts
from triage.model.outcome import HarmVerdict, Verdict
from triage.model.record import Sourced
from triage.model.rule import Grade
from triage.model.substance import FilterEffect
from triage.responses.amounts import Amount
from triage.responses.grade import Guard, grade_substance
from triage.responses.setting import Assumptions, Plan

TILAPIA, TROUT = "Oreochromis niloticus", "Oncorhynchus mykiss"


def _harm(verdict: Verdict, name: str) -> HarmVerdict:
    return next(harm for harm in verdict.harms if harm.harm == name)


def _tested(**others: Any) -> dict[str, Any]:
    """What leaves the filter out of the question."""
    row = FilterEffect(effect="none-seen", source="our-judgement", read="seen")
    return {"filter": [row], **others}


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (5, "never"),  # 2.5 mg/L as sprayed: 0.5
        (5.01, "away-from-system"),
        (25, "away-from-system"),  # 0.1
        (25.1, "keep-off-water"),
        (50, "keep-off-water"),  # 0.05
        (100, "keep-off-water"),  # 0.025, and 0.1 spilled
        (100.1, "ok"),
    ],
)
def test_the_levels_of_concern(kit: SimpleNamespace, grade: Any, value: float, expected: Grade) -> None:
    stuff = kit.substance(kit.row(value, TILAPIA), **_tested())
    verdict = grade(stuff, kit.plan(), kit.water())
    assert verdict.grade == expected
    assert _harm(verdict, "fish").quotient_as_sprayed == pytest.approx(2.5 / value)
    assert _harm(verdict, "fish").quotient_spilled == pytest.approx(10 / value)


@pytest.mark.parametrize(
    ("value", "cover", "expected"),
    [
        (10, "covered", "keep-off-water"),  # spilled 1
        (2, "covered", "away-from-system"),  # spilled 5
        (2, "moved", "away-from-system"),
        (1.01, "moved", "away-from-system"),
    ],
)
def test_the_limits_of_a_spill(kit: SimpleNamespace, grade: Any, value: float, cover: str, expected: Grade) -> None:
    stuff = kit.substance(kit.row(value, TILAPIA), **_tested())
    assert grade(stuff, kit.plan(cover=cover), kit.water()).grade == expected


def test_a_hundredth_too_much_is_never(kit: SimpleNamespace, grade: Any) -> None:
    stuff = kit.substance(kit.row(2, TILAPIA), **_tested())
    verdict = grade(stuff, kit.plan("10%", cover="moved"), kit.water())
    assert (verdict.grade, _harm(verdict, "fish").quotient_spilled) == ("never", pytest.approx(50))


@pytest.mark.parametrize(("value", "best"), [(0.0999, "never"), (0.1, "away-from-system"), (0.999, "away-from-system")])
def test_bands_hold_at_any_dose(kit: SimpleNamespace, grade: Any, value: float, best: Grade) -> None:
    stuff = kit.substance(kit.row(1000, TILAPIA), kit.row(value, TROUT), **_tested())
    verdict = grade(stuff, kit.plan("1 mg/L", "1 mL", cover="moved"), kit.water(50_000))
    assert verdict.grade == best
    assert "toxic" in _harm(verdict, "fish").why[0]


def test_nothing_known_of_an_animal_is_unknown(kit: SimpleNamespace, grade: Any) -> None:
    stuff = kit.substance(kit.row(1000, TILAPIA), **_tested())
    assert grade(stuff, kit.plan(), kit.water()).grade == "ok"
    both = grade(stuff, kit.plan(), kit.water(animals=(kit.tilapia, kit.shrimp)))
    assert both.grade == "unknown"
    assert _harm(both, "crustaceans").value_mg_l is None
    assert _harm(both, "fish").grade == "ok"


def test_recalled_values_alone_let_nothing_stay_in_place(kit: SimpleNamespace, grade: Any) -> None:
    stuff = kit.substance(kit.row(1000, TILAPIA, read="memory"), **_tested())
    verdict = grade(stuff, kit.plan(), kit.water())
    assert verdict.grade == "away-from-system"
    assert _harm(verdict, "fish").verified == "memory"


def test_the_strictest_harm_decides_and_says_why(kit: SimpleNamespace, grade: Any) -> None:
    stuff = kit.substance(
        kit.row(1000, TILAPIA), traits=["film"],
        **_tested(oxygen_demand=Sourced(value=2.0, unit="g O2 per g", source="stoichiometry")),
    )  # fmt: skip
    verdict = grade(stuff, kit.plan(), kit.water(oxygen_mg_l=8.0))
    assert _harm(verdict, "fish").grade == "ok"
    assert verdict.grade == _harm(verdict, "water").grade == "away-from-system"
    assert verdict.why[0] == "As planned, bacteria that eat it would draw 0.625 times the oxygen this water holds."
    assert {firing.rule for firing in verdict.firings} >= {"oxygen-sprayed-away", "film-on-water"}


def test_ok_has_a_reason_too(kit: SimpleNamespace, grade: Any) -> None:
    verdict = grade(kit.substance(kit.row(1000, TILAPIA), **_tested()), kit.plan(), kit.water())
    assert _harm(verdict, "fish").why == (
        "0.0025 of the level that counts as planned, 0.01 with all of it in the water; "
        f"that level comes from 1000 mg/L for {TILAPIA}.",
    )
    assert _harm(verdict, "people").why == ("No safety rule asks for more care.",)


@pytest.mark.parametrize(
    ("trait", "least"),
    [
        ("banned-for-food", "never"), ("antibiotic", "never"), ("persistent", "away-from-system"),
        ("metal", "away-from-system"), ("stops-filter", "away-from-system"), ("not-for-water", "keep-off-water"),
        ("endocrine-or-anaesthetic", "away-from-system"), ("oxidiser", "keep-off-water"), ("film", "keep-off-water"),
        ("surfactant", "keep-off-water"), ("clouds-water", "keep-off-water"), ("slows-filter", "keep-off-water"),
        ("ammonia-releasing", "keep-off-water"), ("burns-people", "ok"), ("dust", "ok"),
    ],
)  # fmt: skip
def test_traits_ask_for_care(kit: SimpleNamespace, grade: Any, trait: str, least: Grade) -> None:
    stuff = kit.substance(kit.row(1e6, TILAPIA), traits=[trait], **_tested())
    verdict = grade(stuff, kit.plan("0.1%", "10 mL"), kit.water())
    assert verdict.grade == least
    assert any(
        harm.why != ("No safety rule asks for more care.",) for harm in verdict.harms if harm.harm != "fish"
    ) or (least != "ok")


def test_a_dose_is_graded_by_itself_and_its_tenfold(kit: SimpleNamespace, grade: Any) -> None:
    def of(grams: float, *, times: int = 1) -> Grade:
        plan = Plan(amount=Amount(grams=grams), times=times, every_days=1.0, way="dosed")
        return grade(kit.substance(kit.row(200), traits=["meant-for-water"]), plan, kit.water()).grade

    assert of(100) == "never"  # 0.5
    assert of(20) == "away-from-system"  # 0.1, tenfold 1
    assert of(19.9) == "ok"
    assert of(10, times=4) == "ok"  # 0.2 in all, each step safe


def test_acid_into_soft_water_is_refused(kit: SimpleNamespace, grade: Any) -> None:
    acid = kit.substance(
        kit.row(138), traits=["meant-for-water", "lowers-ph"],
        alkalinity_per_g=Sourced(value=-0.511, unit="g CaCO3 per g", source="stoichiometry"),
    )  # fmt: skip
    plan = Plan(amount=Amount(grams=6), way="dosed")
    hard = kit.water(readings=(kit.reading("alkalinity", 60),))
    assert grade(acid, plan, hard).grade == "ok"
    assert grade(acid, plan, kit.water(readings=(kit.reading("alkalinity", 20),))).grade == "never"
    assert grade(acid, plan, kit.water()).grade == "never"


def test_a_rule_can_only_make_it_stricter(kit: SimpleNamespace, assumed: Assumptions, guard: Guard) -> None:
    def lenient(facts: GuardFacts) -> tuple[Graded, ...]:
        return (*guard(facts), Graded(rule="mild", harm="fish", grade="ok", because="it is natural"))

    stuff = kit.substance(kit.row(0.01, TROUT))
    assert grade_substance(stuff, kit.plan(), kit.water(), assumed, lenient).grade == "never"
