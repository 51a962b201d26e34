"""Oxygen at saturation against published tables and against the gsw library."""

from __future__ import annotations

import csv
from pathlib import Path

import gsw
import pytest

from triage.water.oxygen import (
    MMHG_PER_ATM,
    pressure_at_altitude_atm,
    pressure_at_altitude_mmhg_wdnr,
    pressure_factor,
    saturation,
    saturation_benson_krause1984,
)

SHARED = Path(__file__).parents[2] / "shared" / "water"


def seen(name: str) -> list[dict[str, str]]:
    with (SHARED / name).open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["verified"] == "seen"]


ROWS = seen("oxygen_saturation.csv")


def of_table(table: str) -> list[dict[str, str]]:
    found = [row for row in ROWS if row["table"] == table]
    assert found
    return found


def ours(row: dict[str, str]) -> float:
    if row["altitude_m"] not in ("", "0"):
        pressure_atm = pressure_at_altitude_atm(float(row["altitude_m"]))
    else:
        pressure_atm = float(row["pressure_mmhg"] or MMHG_PER_ATM) / MMHG_PER_ATM
    return saturation(float(row["temperature_c"]), salinity_g_kg=float(row["salinity_g_kg"]), pressure_atm=pressure_atm)


def name(row: dict[str, str]) -> str:
    return f"{row['temperature_c']}C-{row['pressure_mmhg']}mmHg-{row['altitude_m']}m"


@pytest.mark.parametrize("row", of_table("standard"), ids=name)
def test_en25814(row: dict[str, str]) -> None:
    assert ours(row) == pytest.approx(float(row["oxygen_mg_l"]), abs=0.06)


def test_en25814_within_rounding_but_for_two() -> None:
    def beyond(row: dict[str, str]) -> bool:
        decimals = len(row["oxygen_mg_l"].partition(".")[2])
        return abs(ours(row) - float(row["oxygen_mg_l"])) > 0.5 * 10**-decimals + 1e-9

    assert sum(beyond(row) for row in of_table("standard")) <= 2


@pytest.mark.parametrize("row", of_table("by-altitude"), ids=name)
def test_altitude_table(row: dict[str, str]) -> None:
    assert round(abs(ours(row) - float(row["oxygen_mg_l"])), 2) <= 0.08


@pytest.mark.parametrize("row", of_table("by-pressure"), ids=name)
def test_older_pressure_table(row: dict[str, str]) -> None:
    assert ours(row) == pytest.approx(float(row["oxygen_mg_l"]), abs=0.17)


def test_older_pressure_table_mostly_within_a_tenth() -> None:
    off = [row for row in of_table("by-pressure") if abs(ours(row) - float(row["oxygen_mg_l"])) > 0.1]
    assert len(off) <= 21


@pytest.mark.parametrize("row", of_table("sea"), ids=name)
def test_sea_table_is_low_and_not_matched(row: dict[str, str]) -> None:
    assert 0.970 < float(row["oxygen_mg_l"]) / ours(row) < 0.995


@pytest.mark.parametrize("row", seen("oxygen_salinity.csv"), ids=lambda row: f"{row['temperature_c']}C")
def test_printed_salt_coefficient_understates_the_first_gram(row: dict[str, str]) -> None:
    temperature_c = float(row["temperature_c"])
    drop = saturation_benson_krause1984(temperature_c) - saturation_benson_krause1984(temperature_c, 1.0)
    assert 1.09 < drop / float(row["drop_mg_l_per_g_kg"]) < 1.18


@pytest.mark.parametrize("row", seen("oxygen_altitude_factor.csv"), ids=lambda row: f"{row['pressure_mmhg']}mmHg")
def test_altitude_factors(row: dict[str, str]) -> None:
    pressure_atm = float(row["pressure_mmhg"]) / MMHG_PER_ATM
    assert pressure_factor(20, pressure_atm) == pytest.approx(float(row["factor"]), abs=0.013)
    assert pressure_at_altitude_atm(float(row["altitude_ft"]) * 0.3048) == pytest.approx(pressure_atm, abs=0.006)


def test_quick_rule_for_low_places() -> None:
    # wdnr-bod: 26 mm of mercury for each 1000 ft; good to 3 mm up to there
    standard = pressure_at_altitude_atm(304.8) * MMHG_PER_ATM
    assert pressure_at_altitude_mmhg_wdnr(1000) == pytest.approx(standard, abs=3)


@pytest.mark.parametrize("temperature_c", [0, 5, 10, 15, 20, 25, 30, 35])
@pytest.mark.parametrize("salinity_g_kg", [0, 1, 5, 20, 35])
def test_against_gsw(temperature_c: float, salinity_g_kg: float) -> None:
    # gsw.O2sol_SP_pt: Garcia and Gordon 1992, fitted to the data of Benson and Krause; micromoles per kg
    micromoles = float(gsw.O2sol_SP_pt(salinity_g_kg, temperature_c))
    density = float(gsw.rho_t_exact(salinity_g_kg * 35.16504 / 35, temperature_c, 0)) / 1000
    assert saturation_benson_krause1984(temperature_c, salinity_g_kg) == pytest.approx(
        micromoles * 31.9988e-3 * density, rel=0.004
    )
