"""Units of the book against published factors (shared/water/unit_conversions.csv) and against molar masses."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from triage.book.records import build_record
from triage.book.strict_yaml import parse_yaml
from triage.model.quantity import Quantity
from triage.water.carbonate import CACO3_PER_DKH, CACO3_PER_MEQ, calcium_if_all_calcium, hardness
from triage.water.molar import form_factor, molar_mass
from triage.water.units import to_own_unit

ROOT = Path(__file__).parents[2]


def seen() -> dict[tuple[str, str], float]:
    with (ROOT / "shared" / "water" / "unit_conversions.csv").open(encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["verified"] == "seen"]
    return {(row["from_unit"], row["to_unit"]): float(row["factor"]) for row in rows}


def load_quantities() -> dict[str, Quantity]:
    document = parse_yaml((ROOT / "knowledge" / "readings.yaml").read_text(encoding="utf-8"), "readings.yaml")
    made = [build_record(Quantity, entry, document, (n,), "readings.yaml") for n, entry in enumerate(document.data)]
    assert not document.faults
    return {quantity.quantity: quantity for quantity in made}


SEEN, QUANTITIES = seen(), load_quantities()


def one(quantity: str, unit: str) -> float:
    return to_own_unit(QUANTITIES[quantity], 1.0, unit)


def test_published_factors() -> None:
    assert one("alkalinity", "dKH") == SEEN["dKH or dGH", "mg/L CaCO3"] == CACO3_PER_DKH
    assert one("hardness", "dGH") == SEEN["dKH or dGH", "mg/L CaCO3"]
    assert one("alkalinity", "mg/L HCO3") == SEEN["mg/L HCO3", "mg/L CaCO3"]
    assert 1 / one("alkalinity", "mg/L HCO3") == pytest.approx(SEEN["mg/L CaCO3", "mg/L HCO3"], abs=0.001)
    assert one("hardness", "°fH") == SEEN["degree French fH", "mg/L CaCO3"]
    assert one("hardness", "°eH") == SEEN["degree English eH (grain/imp gal)", "mg/L CaCO3"]
    assert one("calcium", "mg/L CaCO3") == pytest.approx(SEEN["mg/L CaCO3 (calcium hardness)", "mg/L Ca"], abs=0.001)


def test_published_degrees_as_metal() -> None:
    dgh = one("hardness", "dGH")
    assert calcium_if_all_calcium(dgh) == pytest.approx(SEEN["dGH", "mg/L Ca (if all Ca)"], abs=0.002)
    assert hardness(0, SEEN["dGH", "mg/L Mg (if all Mg)"]) == pytest.approx(dgh, abs=0.005)


@pytest.mark.parametrize(
    ("quantity", "unit", "of", "as_form"),
    [
        ("tan", "mg/L NH3", "NH3", "N"),
        ("tan", "mg/L NH4", "NH4", "N"),
        ("ammonia", "mg/L NH3", "NH3", "N"),
        ("nitrite", "mg/L N", "N", "NO2"),
        ("nitrate", "mg/L N", "N", "NO3"),
        ("phosphate", "mg/L P", "P", "PO4"),
        ("sulfate", "mg/L S", "S", "SO4"),
        ("chloride", "mg/L NaCl", "NaCl", "Cl"),
        ("calcium", "mg/L CaCO3", "CaCO3", "Ca"),
        ("magnesium", "mg/L CaCO3", "CaCO3", "Mg"),
    ],
)
def test_forms_follow_from_molar_masses(quantity: str, unit: str, of: str, as_form: str) -> None:
    assert one(quantity, unit) == pytest.approx(form_factor(of, as_form), rel=2e-4)


def test_equivalents_follow_from_molar_masses() -> None:
    assert pytest.approx(molar_mass("CaCO3") / 2, abs=0.01) == CACO3_PER_MEQ == one("alkalinity", "meq/L")
    assert one("potassium", "mg/L K2O") == pytest.approx(2 * molar_mass("K") / molar_mass("K2O"), abs=1e-4)


def test_wrong_nitrite_factor_is_not_used() -> None:
    # hobby-nitrite-levels multiplies by 3.36, which is 2.3 % too much
    assert one("nitrite", "mg/L N") < 3.30


def test_temperature() -> None:
    assert to_own_unit(QUANTITIES["temperature"], 212, "°F") == pytest.approx(100)
    assert to_own_unit(QUANTITIES["temperature"], 32, "°F") == pytest.approx(0, abs=1e-9)
