"""Carbon dioxide, acid constants and hardness against published tables and against PyCO2SYS in fresh water."""

from __future__ import annotations

import csv
from pathlib import Path

import PyCO2SYS as pyco2
import pytest

from triage.water.carbonate import (
    CACO3_PER_MEQ,
    carbon_dioxide,
    carbon_dioxide_miller1997,
    carbon_dioxide_usgs,
    pka1,
)

SHARED = Path(__file__).parents[2] / "shared" / "water"


def seen(name: str) -> list[dict[str, str]]:
    with (SHARED / name).open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["verified"] == "seen"]


FACTORS = seen("co2_factor.csv")


def of_use(use: str) -> list[dict[str, str]]:
    found = [row for row in FACTORS if row["use"] == use]
    assert found
    return found


def ours(row: dict[str, str]) -> float:
    return carbon_dioxide(float(row["ph"]), 1.0, float(row["temperature_c"]))


def name(row: dict[str, str]) -> str:
    return f"pH{row.get('ph', '')}-{row['temperature_c']}C"


@pytest.mark.parametrize("row", of_use("check"), ids=name)
def test_factors(row: dict[str, str]) -> None:
    # half a per cent, or one digit in the last of three places; no constant is printed for 5 degrees: one per cent
    rel = 0.01 if row["temperature_c"] == "5" else 0.005
    assert ours(row) == pytest.approx(float(row["corrected"]), rel=rel, abs=0.0011)


@pytest.mark.parametrize("row", of_use("misprint"), ids=name)
def test_slips_of_the_reprint_are_not_reproduced(row: dict[str, str]) -> None:
    assert ours(row) == pytest.approx(float(row["corrected"]), rel=0.03, abs=0.001)
    assert ours(row) != pytest.approx(float(row["printed"]), rel=0.5)


@pytest.mark.parametrize("row", of_use("column-off"), ids=name)
def test_ten_degree_column_implies_another_constant(row: dict[str, str]) -> None:
    assert ours(row) == pytest.approx(float(row["corrected"]), rel=0.03, abs=0.001)


def test_ten_degree_column_is_low_as_a_whole() -> None:
    column = [row for row in of_use("column-off") if float(row["ph"]) < 7]
    assert all(0.97 < float(row["corrected"]) / ours(row) < 0.985 for row in column)


@pytest.mark.parametrize("row", of_use("beyond-pka-table"), ids=name)
def test_beyond_the_printed_constants(row: dict[str, str]) -> None:
    assert ours(row) == pytest.approx(float(row["corrected"]), rel=0.03, abs=0.001)


@pytest.mark.parametrize("row", seen("co2_pka.csv"), ids=name)
def test_constants(row: dict[str, str]) -> None:
    # exact at the printed temperatures of sears2002, within the 0.006 by which barr2006 departs from a smooth curve
    within = 1e-9 if row["source"] == "sears2002" else 0.006
    assert pka1(float(row["temperature_c"])) == pytest.approx(float(row["pka"]), abs=within)


def test_chart_form_reads_18_percent_low() -> None:
    # miller1997 against sears2002 at the pKa of the chart (6.37 at 22 degrees)
    chart = carbon_dioxide_miller1997(7.0, 4)
    assert 1 - chart / carbon_dioxide(7.0, 4 * 17.85, 22) == pytest.approx(0.18, abs=0.01)


def test_usgs_form_agrees_at_25_degrees() -> None:
    # 1.60 HCO3 10^(6-pH); HCO3 = 1.22 times alkalinity (alk-conversions)
    assert carbon_dioxide_usgs(7.0, 100 * 1.22) == pytest.approx(carbon_dioxide(7.0, 100, 25), rel=0.02)


@pytest.mark.parametrize("ph", [6.0, 6.4, 6.8, 7.2, 7.6, 8.0])
@pytest.mark.parametrize("temperature_c", [5, 15, 20, 25, 30])
@pytest.mark.parametrize("alkalinity", [20, 70, 200])
def test_against_pyco2sys_in_fresh_water(ph: float, temperature_c: float, alkalinity: float) -> None:
    # fresh-water constants of Millero 1979 (option 8); micromoles per kg taken as per litre
    result = pyco2.sys(
        par1=alkalinity / CACO3_PER_MEQ * 1000, par1_type=1, par2=ph, par2_type=3, salinity=0,
        temperature=temperature_c, opt_k_carbonic=8, opt_pH_scale=4,
    )  # fmt: skip
    theirs = float(result["aqueous_CO2"]) * 44.009e-3
    assert carbon_dioxide(ph, alkalinity, temperature_c) == pytest.approx(theirs, rel=0.04)
