"""Worked cases whose every number can be followed by hand from the sources beside it.

Shares: none 0.25 (cerruto2009), covered 0.01 and moved 0.002 (our judgement). Another fish than the one kept: a fifth
of its value counts (our judgement, see margins). Levels of concern 0.05, 0.1 and 0.5.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from triage.book.load import load_folders
from triage.model.outcome import Verdict
from triage.model.quantity import Reading
from triage.model.record import Sourced
from triage.model.substance import Substance, Toxicity
from triage.responses.amounts import parse_amount, parse_strength
from triage.responses.grade import Guard, grade_substance
from triage.responses.setting import Assumptions, Plan, Water
from triage.rules.run import RuleRunner

KNOWLEDGE = Path(__file__).parents[2] / "knowledge"


@pytest.fixture(scope="module")
def entries() -> dict[str, dict[str, Any]]:
    return load_folders([KNOWLEDGE]).entries


@pytest.fixture(scope="module")
def guard(entries: dict[str, dict[str, Any]]) -> Guard:
    rules = {id_: rule for id_, rule in entries["rules"].items() if rule.grade is not None}
    return RuleRunner(rules).run_guard


@pytest.fixture(scope="module")
def grade(entries: dict[str, dict[str, Any]], guard: Guard) -> Any:
    assumed = Assumptions(shares=entries["cover_shares"], margins=entries["margins"])

    def run(stuff: Substance, plan: Plan, volume_l: float, **water: Any) -> Verdict:
        return grade_substance(
            stuff, plan, Water(volume_l=volume_l, animals=(entries["animals"]["tilapia"],), **water), assumed, guard
        )

    return run


def _plan(strength: str | None, amount: str, **others: Any) -> Plan:
    return Plan(strength=parse_strength(strength) if strength else None, amount=parse_amount(amount), **others)


def _harm(verdict: Verdict, name: str) -> Any:
    return next(harm for harm in verdict.harms if harm.harm == name)


def _row(organism: str, value: float, source: str, **others: Any) -> Toxicity:
    return Toxicity(
        organism=organism, group="fish", test="LC50", value=value, source=source,
        **{"hours": 96.0, "read": "seen", **others},
    )  # fmt: skip


SOAP = Substance(
    substance="soap", name="Soap", what="", traits=["surfactant", "oxygen-eater"], sources=[], status="draft",
    toxicity=[
        _row("Mugil cephalus (mullet)", 580, "estuarine-soaps"),
        _row("Oncorhynchus mykiss", 18, "memory-epa-opp", read="memory"),
    ],
    # potassium oleate: C18H33O2K + 25.25 O2, 808 / 320.6 g per g
    oxygen_demand=Sourced(value=2.52, unit="g O2 per g", source="stoichiometry", read="computed"),
)  # fmt: skip


@pytest.mark.parametrize(
    ("cover", "sprayed_mg_l", "quotient", "expected"),
    [
        ("none", 2.5, 2.5 / 3.6, "never"),  # 10 g x 0.25 / 1,000 L, over 18 / 5
        ("covered", 0.1, 0.1 / 3.6, "keep-off-water"),
        ("moved", 0.02, 0.02 / 3.6, "keep-off-water"),
    ],
)
def test_a_litre_of_one_per_cent_soap_over_a_cubic_metre(
    grade: Any, cover: str, sprayed_mg_l: float, quotient: float, expected: str
) -> None:
    verdict = grade(SOAP, _plan("1%", "1L", cover=cover), 1000, oxygen_mg_l=8.3)
    fish = _harm(verdict, "fish")
    assert verdict.exposure.as_sprayed_mg_l == pytest.approx(sprayed_mg_l)
    assert fish.quotient_as_sprayed == pytest.approx(quotient)
    assert fish.quotient_spilled == pytest.approx(10 / 3.6)
    assert (fish.value_mg_l, fish.source, fish.verified) == (18, "memory-epa-opp", "memory")
    assert (fish.grade, verdict.grade) == (expected, expected)


def test_a_litre_of_alcohol_spilled_into_warm_water(grade: Any) -> None:
    """70 % by volume, 0.785 g/mL, 2.40 g O2 per g (C3H8O + 4.5 O2, 144 / 60.1): 1,320 g of oxygen are wanted, 300 L at
    28 °C hold 7.8 mg/L, in all 2.3 g. The lethal level (echa-ipa) says nothing of that."""
    alcohol = Substance(
        substance="alcohol", name="Alcohol", what="", traits=["oxygen-eater"], sources=[], status="draft",
        toxicity=[_row("freshwater fish", 9640, "echa-ipa", high=10000.0)],
        density=Sourced(value=0.785, unit="g/mL", source="from-memory", read="memory"),
        oxygen_demand=Sourced(value=2.40, unit="g O2 per g", source="stoichiometry", read="computed"),
    )  # fmt: skip
    verdict = grade(alcohol, _plan("70% vol", "1L", cover="moved"), 300, oxygen_mg_l=7.8)
    assert verdict.exposure.spilled_mg_l == pytest.approx(549_500 / 300)
    assert _harm(verdict, "fish").quotient_spilled == pytest.approx(549_500 / 300 / (9640 / 5))
    assert _harm(verdict, "fish").grade == "keep-off-water"
    share = 549.5 * 2.40 / (300 * 7.8 / 1000)
    assert share == pytest.approx(563.6, abs=0.1)
    assert _harm(verdict, "water").grade == verdict.grade == "never"
    assert any("564 times the oxygen" in why for why in _harm(verdict, "water").why)


COPPER = Substance(
    substance="bluestone", name="Copper sulphate", what="", traits=["meant-for-water", "metal"], sources=[],
    status="draft", depends_on=["alkalinity"],
    toxicity=[
        _row("Ictalurus punctatus", 0.05, "straus-catfish-cu", basis="metal", conditions={"alkalinity": 16.0}),
        _row("Ictalurus punctatus", 0.98, "straus-catfish-cu", basis="metal", conditions={"alkalinity": 240.0}),
    ],
    # CuSO4.5H2O: 63.55 / 249.69
    element_share=Sourced(value=0.2545, unit="g per g", source="molar-mass", read="computed"),
)  # fmt: skip


@pytest.mark.parametrize(
    ("alkalinity", "copper_mg_l"),
    [
        (20, 0.05 + 0.93 * 4 / 224),  # between the two tested waters, on a straight line
        (200, 0.05 + 0.93 * 184 / 224),
        (10, 0.05),
        (300, 0.98),
    ],
)
def test_ten_grams_of_copper_sulphate_in_soft_and_hard_water(grade: Any, alkalinity: float, copper_mg_l: float) -> None:
    here = (Reading(quantity="alkalinity", value=alkalinity, low=alkalinity, high=alkalinity),)
    verdict = grade(COPPER, _plan(None, "10 g", way="dosed"), 1000, readings=here)
    fish = _harm(verdict, "fish")
    assert fish.value_mg_l == pytest.approx(copper_mg_l / 0.2545)
    assert fish.quotient_as_sprayed == pytest.approx(10 * 0.2545 / copper_mg_l)
    assert fish.grade == "never"


@pytest.mark.parametrize(
    ("alkalinity", "expected"),
    [(20, "away-from-system"), (200, "ok")],  # 0.01 mg/L of copper, tenfold 0.1: over 0.0666 and over 0.814
)
def test_a_trace_of_copper_depends_on_the_water(grade: Any, alkalinity: float, expected: str) -> None:
    here = (Reading(quantity="alkalinity", value=alkalinity, low=alkalinity, high=alkalinity),)
    verdict = grade(COPPER, _plan(None, f"{10 / 0.2545:.2f} mg", way="dosed"), 1000, readings=here)
    assert _harm(verdict, "fish").grade == expected


def test_peroxide_by_the_cup(grade: Any) -> None:
    """250 mL of 3 %: 7.5 g. In 1,000 L all of it is 7.5 mg/L, over a fifth of 16.4 mg/L (echa-h2o2)."""
    peroxide = Substance(
        substance="peroxide", name="Peroxide", what="", traits=["oxidiser"], sources=[], status="draft",
        toxicity=[_row("fish, lowest of several", 16.4, "echa-h2o2")],
    )  # fmt: skip
    verdict = grade(peroxide, _plan("3%", "250 mL", cover="none"), 1000)
    fish = _harm(verdict, "fish")
    assert (verdict.exposure.as_sprayed_mg_l, verdict.exposure.spilled_mg_l) == (
        pytest.approx(1.875),
        pytest.approx(7.5),
    )
    assert fish.quotient_as_sprayed == pytest.approx(1.875 * 5 / 16.4)
    assert fish.grade == "never"  # 0.57 as sprayed
    assert _harm(grade(peroxide, _plan("3%", "250 mL", cover="covered"), 1000), "fish").grade == "keep-off-water"
