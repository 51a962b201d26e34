"""The grams of the water additions against published recipes, bag contents and molar masses."""

from __future__ import annotations

import functools

import pytest

from triage.book.load import load_folders
from triage.book.places import built_in_knowledge
from triage.model.treatment import DoseOf
from triage.water.molar import molar_mass

#: treatment, formula of the product, formula units of what is counted, and the formula of that.
BY_MOLAR_MASS = [
    ("potassium-sulphate-dose", "K2SO4", 2, "K"),
    ("potassium-nitrate-dose", "KNO3", 1, "NO3"),
    ("calcium-chloride-dose", "CaCl2H4O2", 1, "Ca"),
    ("gypsum-dose", "CaSO6H4", 1, "Ca"),
    ("magnesium-sulphate-dose", "MgSO11H14", 1, "Mg"),
    ("potassium-phosphate-dose", "KH2PO4", 1, "PO4"),
    ("manganese-sulphate-dose", "MnSO5H2", 1, "Mn"),
    ("zinc-sulphate-dose", "ZnSO11H14", 1, "Zn"),
    ("borax-dose", "H3BO3", 1, "B"),
    ("copper-trace-dose", "CuSO9H10", 1, "Cu"),
    ("salt-against-nitrite", "NaCl", 1, "Cl"),
    ("calcium-chloride-against-nitrite", "CaCl2H4O2", 2, "Cl"),
]
#: treatment, formula of the base, acid it takes up (mol per mol); alkalinity counts as CaCO3, two equivalents a mole.
BASES = [
    ("raise-ph-potassium-carbonate", "K2CO3", 2),
    ("raise-ph-potassium-bicarbonate", "KHCO3", 1),
    ("raise-ph-potassium-hydroxide", "KOH", 1),
    ("raise-ph-calcium-hydroxide", "Ca(OH)2", 2),
    ("raise-ph-sodium-bicarbonate", "NaHCO3", 1),
]
#: Content of iron (hydroponics-shop-chelates; the 6 % of Fe-EDDHA is recalled, chelate-general) and the lowest
#: published ceiling (fertiliser-maker-chelates).
CHELATES = [
    ("iron-chelate-edta", 0.132, 6.0),
    ("iron-chelate-dtpa", 0.07, 7.0),
    ("iron-chelate-eddha", 0.06, 8.5),
]


@functools.cache
def doses() -> dict[str, DoseOf]:
    treatments = load_folders([built_in_knowledge()]).entries["treatments"]
    return {id_: entry.dose for id_, entry in treatments.items() if entry.dose is not None}


def grams(treatment: str) -> float:
    return doses()[treatment].grams_per_unit_per_1000_l.value


@pytest.mark.parametrize(("treatment", "product", "count", "part"), BY_MOLAR_MASS)
def test_grams_follow_from_molar_masses(treatment: str, product: str, count: int, part: str) -> None:
    """Source: molar-mass (1 mg/L in 1,000 L is one gram)."""
    assert grams(treatment) == pytest.approx(molar_mass(product) / (count * molar_mass(part)), rel=1e-3)


def test_grams_of_molybdate() -> None:
    """Source: standard atomic weight of molybdenum, 95.95 (from memory)."""
    water_and_sodium = molar_mass("Na2O6H4")
    assert grams("molybdate-dose") == pytest.approx((water_and_sodium + 95.95) / 95.95, rel=1e-3)


@pytest.mark.parametrize(("treatment", "base", "equivalents"), BASES)
def test_grams_of_bases_follow_from_molar_masses(treatment: str, base: str, equivalents: int) -> None:
    """Source: molar-mass."""
    assert grams(treatment) == pytest.approx(molar_mass(base) / equivalents / (molar_mass("CaCO3") / 2), rel=1e-3)


def test_baking_soda_recipe() -> None:
    """Source: forum-raising-kh, 6 g in 50 litres raise carbonate hardness by 4 degrees; 17.848 mg/L a degree."""
    assert grams("raise-ph-sodium-bicarbonate") * 4 * 17.848 * 50 / 1000 == pytest.approx(6, abs=0.05)


def test_salt_for_three_milligrams_of_chloride() -> None:
    """Source: hobby-salt-2010, 3 mg/L of chloride are 5 mg/L of salt (0.60 chloride)."""
    assert grams("salt-against-nitrite") * 3 == pytest.approx(5, abs=0.1)


def test_chloride_of_the_shield() -> None:
    """Source: srac462, 100 mg/L of chloride as insurance; osu-hla6722, less than 50 mg/L of sodium for crops."""
    assert doses()["calcium-chloride-against-nitrite"].to == 100
    sodium = doses()["salt-against-nitrite"].to * molar_mass("Na") / molar_mass("Cl")
    assert sodium < 50


@pytest.mark.parametrize(("treatment", "content", "ceiling"), CHELATES)
def test_chelates(treatment: str, content: float, ceiling: float) -> None:
    dose = doses()[treatment]
    assert dose.grams_per_unit_per_1000_l.value == pytest.approx(1 / content, rel=1e-3)
    assert dose.ph_at_most == ceiling
    assert dose.to == 2  # uvi


def test_every_counted_addition_is_checked_here() -> None:
    checked = {row[0] for row in (*BY_MOLAR_MASS, *BASES, *CHELATES)} | {"molybdate-dose"}
    assert set(doses()) == checked
