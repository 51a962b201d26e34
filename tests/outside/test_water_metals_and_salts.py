"""Copper, nitrite, nitrification, salt and iron against published tables."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from triage.water.iron import held_share
from triage.water.metals import (
    DISSOLVED_SHARE,
    copper_acute_limit_bc2006,
    copper_acute_limit_cfr132,
    copper_acute_limit_wac,
    copper_chronic_limit_wac,
    copper_guideline_ccme,
)
from triage.water.nitrite import limit_bc
from triage.water.nitrogen import nitrification_rate
from triage.water.salts import ec_at_yield_loss, yield_percent

SHARED = Path(__file__).parents[2] / "shared" / "water"


def seen(name: str) -> list[dict[str, str]]:
    with (SHARED / name).open(encoding="utf-8", newline="") as file:
        found = [row for row in csv.DictReader(file) if row["verified"] == "seen"]
    assert found
    return found


@pytest.mark.parametrize("row", seen("copper_limits.csv"), ids=lambda r: f"{r['term']}-{r['hardness_mg_l_caco3']}")
def test_copper_of_the_older_state_form(row: dict[str, str]) -> None:
    limit = {"acute": copper_acute_limit_wac, "chronic": copper_chronic_limit_wac}[row["term"]]
    assert round(limit(float(row["hardness_mg_l_caco3"]), dissolved=False), 4) == float(row["copper_ug_l"])


def test_copper_limits_disagree_as_published() -> None:
    # at a hardness of 100: federal strictest of the curves, Canada far below both (README of the sources: 21 %, 2.4)
    assert copper_acute_limit_cfr132(100) / copper_acute_limit_wac(100) == pytest.approx(0.79, abs=0.005)
    assert copper_guideline_ccme(100) < copper_acute_limit_bc2006(100) < copper_acute_limit_cfr132(100)
    assert copper_acute_limit_cfr132(100) == pytest.approx(
        DISSOLVED_SHARE * copper_acute_limit_cfr132(100, dissolved=False)
    )


@pytest.mark.parametrize("row", seen("nitrification_by_ph.csv"), ids=lambda row: row["ph"])
def test_nitrification_rate(row: dict[str, str]) -> None:
    assert nitrification_rate(float(row["ph"])) == pytest.approx(float(row["relative_rate"]))


@pytest.mark.parametrize("row", seen("nitrite_limits_bc.csv"), ids=lambda r: f"{r['term']}-{r['chloride_low_mg_l']}")
def test_nitrite_limit_by_chloride(row: dict[str, str]) -> None:
    inside = float(row["chloride_low_mg_l"]) + 0.5
    assert limit_bc(inside, short_term=row["term"] == "short") == float(row["nitrite_n_mg_l"])


def test_unread_chloride_steps_take_the_stricter_neighbour() -> None:
    assert limit_bc(3, short_term=True) == limit_bc(1, short_term=True)
    assert limit_bc(9, short_term=False) == limit_bc(7, short_term=False)


@pytest.mark.parametrize("row", seen("crop_yield_loss.csv"), ids=lambda r: f"{r['crop']}-{r['loss_percent']}")
def test_yield_loss(row: dict[str, str]) -> None:
    threshold, slope = float(row["threshold_ds_m"]), float(row["slope_percent"])
    ec = ec_at_yield_loss(float(row["loss_percent"]), threshold, slope)
    assert ec == pytest.approx(float(row["ec_ds_m"]), abs=0.06)
    assert yield_percent(ec, threshold, slope) == pytest.approx(100 - float(row["loss_percent"]))


CEILINGS = [
    row for row in seen("iron_chelates.csv")
    if row["high"] and row["unit"] == "pH" and row["property"] != "protected range"
]  # fmt: skip
FORMS = {"unchelated Fe": "none", "Fe-EDTA": "EDTA", "Fe-DTPA": "DTPA", "Fe-EDDHA": "EDDHA"}


@pytest.mark.parametrize("row", CEILINGS, ids=lambda row: f"{row['form']}-{row['source']}")
def test_no_source_is_contradicted_below_its_ceiling(row: dict[str, str]) -> None:
    # a form that a source calls stable up to a pH may hold all of its iron there
    assert held_share(FORMS[row["form"]], float(row["high"])).high == 1.0


@pytest.mark.parametrize(("form", "ph"), [("EDTA", 6.0), ("DTPA", 7.0), ("EDDHA", 8.5)])
def test_all_sources_agree_below_the_lowest_ceiling(form: str, ph: float) -> None:
    assert held_share(form, ph).low == 1.0
    assert held_share(form, ph + 0.1).low == 0.0


def test_iron_recovered_from_peat() -> None:
    # albano2012: at pH 6.7 13 % of plain iron, all of that on DTPA was found again; EDTA held there too
    rows = {row["form"]: float(row["high"]) / 100 for row in seen("iron_chelates.csv") if row["unit"] == "%"}
    assert held_share("none", 6.7).high < rows["FeSO4"] + 0.2
    assert held_share("DTPA", 6.7).low == 1.0 <= rows["Fe-DTPA"]
    assert held_share("EDTA", 6.7).high == 1.0 <= rows["Fe-EDTA"]
