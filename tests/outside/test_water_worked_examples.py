"""Every published worked example that a function covers: shared/water/worked_examples.csv, `seen` rows only."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from triage.book.records import build_record
from triage.book.strict_yaml import parse_yaml
from triage.model.quantity import Quantity
from triage.water import ammonia, carbonate, iron, molar, nitrite, nitrogen, oxygen, salts
from triage.water.units import from_own_unit, to_own_unit

ROOT = Path(__file__).parents[2]
Given = dict[str, str]
Found = dict[str, float]


def load_rows() -> list[dict[str, str]]:
    with (ROOT / "shared" / "water" / "worked_examples.csv").open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["verified"] == "seen"]


def load_quantities() -> dict[str, Quantity]:
    document = parse_yaml((ROOT / "knowledge" / "readings.yaml").read_text(encoding="utf-8"), "readings.yaml")
    made = [build_record(Quantity, entry, document, (n,), "readings.yaml") for n, entry in enumerate(document.data)]
    assert not document.faults
    return {quantity.quantity: quantity for quantity in made}


QUANTITIES = load_quantities()
ROWS = {row["id"]: row for row in load_rows()}
#: No function of ours covers these: how to dilute a sample.
NOT_COVERED = {"W36"}


def number(text: str) -> float:
    """The number in an expected value, which may carry words."""
    found = re.search(r"-?\d+(?:\.\d+)?", text)
    assert found, text
    return float(found[0])


def pairs(text: str) -> dict[str, str]:
    return dict(part.split("=", 1) for part in text.split(";") if "=" in part)


def toxic(given: Given) -> Found:
    tan, ph, t = (float(given[key]) for key in ("TAN_mg_L", "pH", "temp_C"))
    toxic_mg_l = ammonia.unionised_ammonia(tan, ph, t)
    return {"fraction": ammonia.unionised_fraction(ph, t), "UIA": toxic_mg_l, "ionized": tan - toxic_mg_l}


def acute(given: Given) -> Found:
    salmonids = given["salmonids"] == "present"
    return {"CMC": ammonia.acute_limit(float(given["pH"]), float(given["temp_C"]), salmonids=salmonids)}


def chronic(given: Given) -> Found:
    limit = ammonia.chronic_limit(float(given["pH"]), float(given["temp_C"]))
    # the source multiplies its rounded limit
    return {"CCC": limit, "highest_4day": 2.5 * round(limit, 1)}


def stock(given: Given) -> Found:
    biomass = float(given["tank_m3"]) * float(given["density_kg_m3"])
    return {"biomass": biomass, "feed": nitrogen.ration(biomass, float(given["feed_pct"]))}


def titration(given: Given) -> Found:
    acid, strength, sample = (float(given[key]) for key in ("acid_mL", "acid_eq_L", "sample_mL"))
    return {"alk": carbonate.alkalinity_from_titration(acid, strength, sample)}


def from_calcium(given: Given) -> Found:
    hardness = carbonate.hardness(float(given["Ca_mg_L"]), 0)
    return {"CaCO3": hardness, "dGH": from_own_unit(QUANTITIES["hardness"], hardness, "dGH")}


def salted(given: Given) -> Found:
    chloride = nitrite.chloride_needed(float(given["nitrite_mg_L"]), float(given["ratio"]))
    found = {"chloride": chloride}
    if "salt_Cl_fraction" in given:
        found["salt"] = nitrite.salt_for_chloride(chloride, float(given["salt_Cl_fraction"]))
    return found


def from_caco3(given: Given) -> Found:
    caco3 = float(given["CaCO3_mg_L"])
    meq = from_own_unit(QUANTITIES["alkalinity"], caco3, "meq/L")
    return {
        "alk": meq,
        "meq_L": meq,
        "dH": from_own_unit(QUANTITIES["alkalinity"], caco3, "dKH"),
        "CaO_mg_L": caco3 * molar.molar_mass("CaO") / molar.molar_mass("CaCO3"),
    }


def saturated(given: Given) -> Found:
    pressure_atm, salinity = float(given["pressure_atm"]), float(given["salinity"])
    return {"DO_sat": oxygen.saturation(float(given["temp_C"]), salinity_g_kg=salinity, pressure_atm=pressure_atm)}


def base_for(given: Given) -> Found:
    alkalinity = float(given["alk_as_CaCO3_g"])
    return {base: alkalinity / molar.alkalinity_per_gram(base) for base in ("NaHCO3", "NaOH")}


def crop_yield(given: Given) -> Found:
    ec, threshold, slope = (float(given[key]) for key in ("ECe_dS_m", "threshold", "slope"))
    return {"yield": salts.yield_percent(ec, threshold, slope)}


WORK: dict[str, Callable[[Given], Found]] = {
    "W01": toxic,
    "W03": toxic,
    "W04": acute,
    "W05": chronic,
    "W07": lambda g: {"area": nitrogen.plant_area(float(g["feed_g_d"]), float(g["ratio_g_m2_d"]))},
    "W09": lambda g: {
        "ammonia": nitrogen.tan_from_biomass(*(float(g[k]) for k in ("fish", "mean_g", "rate_mg_per_100g_d")))
    },
    "W11": stock,
    "W12": lambda g: {"TAN": nitrogen.tan_from_feed(float(g["feed_g_d"]), float(g["protein"]))},
    "W14": titration,
    "W15": lambda g: {"GH": carbonate.hardness(float(g["Ca_mg_L"]), float(g["Mg_mg_L"]))},
    "W17": from_calcium,
    "W20": salted,
    "W22": salted,
    "W23": lambda g: {"dKH_rise": molar.alkalinity_rise_dkh("NaHCO3", float(g["NaHCO3_g"]), float(g["volume_L"]))},
    "W25": lambda g: {"Ca": carbonate.calcium_if_all_calcium(float(g["hardness_mg_L"]))},
    "W27": from_caco3,
    "W28": from_caco3,
    "W30": lambda g: {"CaCO3": to_own_unit(QUANTITIES["alkalinity"], float(g["dKH"]), "dKH")},
    "W31": lambda g: {"acidity_ratio": carbonate.acidity_ratio(float(g["pH_from"]), float(g["pH_to"]))},
    "W32": lambda g: {"pH_change": carbonate.ph_change_from_carbon_dioxide(float(g["CO2_ratio"]))},
    "W34": saturated,
    "W37": lambda g: {"feed": nitrogen.ration(float(g["fish_g"]), number(g["rate_pct"]))},
    "W38": lambda g: {"nitrite": to_own_unit(QUANTITIES["nitrite"], float(g["nitrite_N_mg_L"]), "mg/L N")},
    "W39": lambda g: {"rise": iron.iron_rise(float(g["product_g"]), 7, float(g["volume_L"]))},
    "W41": base_for,
    "W42": base_for,
    "W43": crop_yield,
    "W44": crop_yield,
}


def test_no_seen_example_is_left_out() -> None:
    assert set(ROWS) == set(WORK) | NOT_COVERED


@pytest.mark.parametrize("id_", [id_ for id_ in WORK if ROWS[id_]["agrees"].startswith("yes")])
def test_example_is_reproduced(id_: str) -> None:
    row = ROWS[id_]
    found, expected = WORK[id_](pairs(row["inputs"])), pairs(row["expected"])
    assert expected
    for name, text in expected.items():
        assert found[name] == pytest.approx(number(text), abs=float(row["tolerance"]) + 1e-9), name


def test_there_are_three_wrong_examples() -> None:
    assert [id_ for id_, row in ROWS.items() if row["agrees"] == "NO"] == ["W38", "W39", "W42"]


@pytest.mark.parametrize(("id_", "name"), [("W38", "nitrite"), ("W39", "rise"), ("W42", "NaOH")])
def test_wrong_example_is_not_reproduced(id_: str, name: str) -> None:
    row = ROWS[id_]
    found = WORK[id_](pairs(row["inputs"]))[name]
    assert abs(found - number(pairs(row["expected"])[name])) > float(row["tolerance"])
    assert found == pytest.approx(number(row["recomputed"]), rel=0.003)


def test_grade_changes_the_iron_dose() -> None:
    # W39: 1.1 at 11 % iron
    assert iron.iron_rise(10, 11, 1000) == pytest.approx(1.1)
