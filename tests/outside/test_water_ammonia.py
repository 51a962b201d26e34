"""Ammonia against published tables: shared/water/unionised_ammonia.csv and ammonia_limits_epa2013.csv."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from triage.water.ammonia import (
    acute_limit_epa2013,
    chronic_limit_epa2013,
    unionised_fraction,
    unionised_fraction_emerson1975,
)

SHARED = Path(__file__).parents[2] / "shared" / "water"


def seen(name: str) -> list[dict[str, str]]:
    with (SHARED / name).open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["verified"] == "seen"]


FRACTIONS = seen("unionised_ammonia.csv")
LIMITS = seen("ammonia_limits_epa2013.csv")


def of_use(use: str) -> list[dict[str, str]]:
    found = [row for row in FRACTIONS if row["use"] == use]
    assert found
    return found


def ours(row: dict[str, str]) -> float:
    return unionised_fraction(float(row["ph"]), float(row["temperature_c"]))


def two_figures(value: float) -> float:
    return float(f"{value:.1e}")


def name(row: dict[str, str]) -> str:
    return f"{row.get('limit', '')}pH{row['ph']}-{row['temperature_c']}C"


@pytest.mark.parametrize("row", of_use("check"), ids=name)
def test_emerson_rows_to_one_last_digit(row: dict[str, str]) -> None:
    # vet-aquatic-fund, credited to Emerson et al. 1975; four decimals printed
    assert ours(row) == pytest.approx(float(row["fraction"]), abs=1.0e-4)


def test_there_are_enough_emerson_rows() -> None:
    assert len(of_use("check")) >= 75


@pytest.mark.parametrize("row", of_use("older-constant"), ids=name)
def test_trussell_rows_within_three_percent(row: dict[str, str]) -> None:
    # kit-maker-ammonia-table: an older constant, printed as per cent
    assert ours(row) == pytest.approx(float(row["fraction"]), rel=0.03)


@pytest.mark.parametrize("row", of_use("misprint"), ids=name)
def test_misprints_are_not_reproduced(row: dict[str, str]) -> None:
    assert abs(ours(row) - float(row["fraction"])) > 1.2e-4


def test_the_32_degree_column_fits_32_65_degrees() -> None:
    column = [row for row in of_use("misprint") if row["temperature_c"] == "32"]
    for row in column:
        shifted = unionised_fraction(float(row["ph"]), 32.65)
        assert shifted == pytest.approx(float(row["fraction"]), abs=2.5e-4)


@pytest.mark.parametrize("row", of_use("superseded"), ids=name)
def test_superseded_table_lies_far_above(row: dict[str, str]) -> None:
    # spotte1970: 12 to 28 % above Emerson
    assert 1.10 < float(row["fraction"]) / ours(row) < 1.30


@pytest.mark.parametrize("row", of_use("sea-water"), ids=name)
def test_salt_lowers_the_share(row: dict[str, str]) -> None:
    assert float(row["fraction"]) < ours(row)


def test_misprinted_constant_is_not_ours() -> None:
    # one manual prints 2727.92 for 2729.92: 1.5 % more toxic ammonia
    wrong = 1 / (10 ** (0.09018 + 2727.92 / (24 + 273.15) - 8.0) + 1)
    assert wrong / unionised_fraction_emerson1975(8.0, 24) == pytest.approx(1.015, abs=0.002)


@pytest.mark.parametrize("row", LIMITS, ids=name)
def test_epa_limits_to_two_figures(row: dict[str, str]) -> None:
    # odeq-pkg-tests (an adopted state table) and the anchors of epa2013
    ph, temperature_c = float(row["ph"]), float(row["temperature_c"])
    if row["limit"] == "chronic":
        limit = chronic_limit_epa2013(ph, temperature_c)
    else:
        limit = acute_limit_epa2013(ph, temperature_c, salmonids=row["limit"] == "acute-salmonids")
    assert two_figures(limit) == float(row["tan_mg_l"])


def test_every_limit_has_rows() -> None:
    assert {row["limit"] for row in LIMITS} == {"acute", "acute-salmonids", "chronic"}
    assert all(math.isfinite(float(row["tan_mg_l"])) for row in LIMITS)
