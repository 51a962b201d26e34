"""What is put into the water on purpose: bases, acids, nutrients, salt, chlorine; by level, pH and the tenfold."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from triage.model.outcome import HarmVerdict
from triage.model.rule import Grade
from triage.spraying import Asked, Judge

RANK: dict[Grade, int] = {"ok": 0, "keep-off-water": 1, "away-from-system": 2, "unknown": 3, "never": 3}
ALL = (
    "Ca(OH)2", "KOH", "NaOH", "K2CO3", "potassium bicarbonate", "sodium bicarbonate", "CaCO3", "hydrochloric acid",
    "sulfuric acid", "nitric acid", "phosphoric acid", "citric acid", "vinegar", "MgSO4", "K2SO4", "CaCl2",
    "gypsum", "MnSO4", "ZnSO4", "borax", "sodium molybdate", "KH2PO4", "Fe-EDTA", "Fe-DTPA", "Fe-EDDHA",
    "ferrous sulfate", "salt", "bleach", "thiosulfate", "urea", "potassium nitrate", "seaweed extract", "molasses",
    "copper sulphate",
)  # fmt: skip


@pytest.fixture(scope="module")
def pool(make_judge: Callable[..., Judge]) -> Judge:
    return make_judge(1000, ("tilapia",), oxygen=8, alkalinity=80, ph=6.9, temperature=25, hardness=100)


@pytest.fixture
def grade(pool: Judge) -> Any:
    def run(words: str, amount: str) -> Grade:
        return pool.judge(Asked(words=words, amount=amount, into_water=True)).verdict.grade

    return run


def _harm(judge: Judge, words: str, amount: str, harm: str) -> HarmVerdict:
    verdict = judge.judge(Asked(words=words, amount=amount, into_water=True)).verdict
    return next(one for one in verdict.harms if one.harm == harm)


@pytest.mark.parametrize("words", ALL)
def test_every_amendment_is_known_and_more_of_it_never_milder(pool: Judge, grade: Any, words: str) -> None:
    assert pool.judge(Asked(words=words, amount="1 g", into_water=True)).all_judged
    grades = [RANK[grade(words, amount)] for amount in ("0.1 g", "1 g", "10 g", "100 g", "1 kg")]
    assert grades == sorted(grades)


@pytest.mark.parametrize(
    ("words", "fine", "too_much"),
    [
        ("KOH", "5 g", "100 g"), ("Ca(OH)2", "1 g", "100 g"), ("potassium bicarbonate", "10 g", "1 kg"),
        ("sulfuric acid", "5 g", "100 g"), ("Epsom salt", "100 g", "100 kg"), ("Fe-DTPA", "20 g", "2 kg"),
        ("borax", "3 g", "1 kg"), ("thiosulphate", "7 g", "1 kg"), ("MnSO4", "1 g", "100 g"),
        ("potassium nitrate", "100 g", "100 kg"),
    ],
)  # fmt: skip
def test_a_usual_dose_is_fine_and_a_slip_is_not(grade: Any, words: str, fine: str, too_much: str) -> None:
    assert grade(words, fine) == "ok"
    assert grade(words, too_much) != "ok"


@pytest.mark.parametrize("words", ["bleach", "copper sulphate", "ferrous sulfate", "zinc sulphate"])
def test_grams_of_these_are_never_fine(grade: Any, words: str) -> None:
    assert grade(words, "10 g") == "never"


def test_the_same_acid_is_worse_in_water_with_little_alkalinity(make_judge: Callable[..., Judge]) -> None:
    soft, hard = (make_judge(1000, ("tilapia",), alkalinity=value, ph=6.9) for value in (15, 150))
    assert _harm(soft, "sulfuric acid", "5 g", "water").grade == "never"
    assert _harm(hard, "sulfuric acid", "5 g", "water").grade == "ok"


def test_unmeasured_alkalinity_is_nearly_none(make_judge: Callable[..., Judge]) -> None:
    blind = make_judge(1000, ("tilapia",))
    answer = blind.judge(Asked(words="KOH", amount="5 g", into_water=True)).verdict
    assert answer.grade == "never"
    assert "Alkalinity was not measured: reckoned with 10 mg/L." in answer.why


def test_manganese_by_hand(pool: Judge) -> None:
    """1 g of MnSO4.H2O in 1,000 L is 0.325 mg/L of manganese; brown trout young are held back at 4.67 in soft water and
    5.16 at a hardness of 100 (5.59 at 150; stubblefield1997): 0.063; tenfold 0.63, below 1."""
    fish = _harm(pool, "MnSO4", "1 g", "fish")
    share = pool.book.substances["manganese-sulfate"].element_share
    assert share is not None
    between = 4.67 + (5.59 - 4.67) * (100 - 30) / (150 - 30)
    assert fish.quotient_as_sprayed == pytest.approx(1 * share.value / between, rel=0.01)
    assert fish.grade == "ok"


def test_salt_for_the_whole_system_is_too_much_for_crops(grade: Any) -> None:
    """247 mg/L of salt is 150 of chloride, the month's limit for life in water (bc-limits)."""
    assert grade("salt", "100 g") in ("ok", "keep-off-water", "away-from-system")
    assert RANK[grade("salt", "3 kg")] >= RANK["away-from-system"]


def test_chlorine_from_a_splash(pool: Judge) -> None:
    """1 mL of 5 % bleach holds 50 mg of chlorine: 0.05 mg/L in 1,000 L, and 0.02 is poisonous (wef-dechlor)."""
    asked = Asked(words="bleach", strength="5%", amount="1 mL", cover="drench")
    water = next(one for one in pool.judge(asked).verdict.harms if one.harm == "water")
    assert water.grade == "never"
