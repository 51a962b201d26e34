"""Published worked examples through triage dose --json; ids are rows of shared/water/worked_examples.csv."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from triage.cli import triage


def dose(home: Path, *words: str) -> dict[str, Any]:
    result = CliRunner().invoke(triage, ["dose", *words, "--json", "--home", str(home)])
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.stdout)
    assert found["format"] == "triage-dose/1"
    return found


@pytest.mark.parametrize(
    ("words", "grams", "within"),
    [
        # W23, forum-raising-kh: 6 g of sodium bicarbonate in 50 L raise KH by 4 degrees
        (("kh", "--from", "1dKH", "--to", "5dKH", "--volume", "50L", "--with", "sodium bicarbonate"), 6, 0.1),
        # W41, filter-maker-alkalinity: 12 g of sodium bicarbonate bring 7.14 g of alkalinity
        (("alkalinity", "--from", "1", "--to", "8.14", "--volume", "1000L", "--with", "sodium bicarbonate"), 12, 0.05),
        # W39, retailer-chelated-iron: 10 g of a 7 % chelate in 1000 L make 0.7 mg/L, not the printed 0.5
        (("iron", "--from", "0", "--to", "0.7", "--volume", "1000L", "--with", "dtpa", "--grade", "7%"), 10, 0.05),
        # the same grams of an 11 % product make 1.1
        (("iron", "--from", "0", "--to", "1.1", "--volume", "1000L", "--with", "dtpa", "--grade", "11%"), 10, 0.05),
        # hydroponics-shop-chelates: EDTA with 13.2 % iron
        (("iron", "--from", "0", "--to", "1", "--volume", "1000L", "--with", "edta", "ph=5.8"), 7.58, 0.01),
        # W20, farm-notes-nitrite: nitrite 3 at a ratio of 6 asks for 18 mg/L of chloride, 18 / 0.607 g of salt
        (("nitrite-chloride-ratio", "--to", "6", "nitrite=3mg/L NO2", "chloride=0", "--volume", "1000L", "--with",
          "salt-against-nitrite"), 18 / 0.607, 0.1),
        # W22, hobby-salt-2010: nitrite 0.1 at a ratio of 30: 3 mg/L of chloride, 5 g of a salt with 60 % of chloride
        (("nitrite-chloride-ratio", "--to", "30", "nitrite=0.1mg/L NO2", "chloride=0", "--volume", "1000L", "--with",
          "salt-against-nitrite", "--grade", "98.9%"), 5, 0.05),
    ],
)  # fmt: skip
def test_grams(tmp_path: Path, words: tuple[str, ...], grams: float, within: float) -> None:
    (option,) = dose(tmp_path, *words)["options"]
    assert option["grams"] == pytest.approx(grams, abs=within)


def test_the_wrong_iron_dose_does_not_come_out(tmp_path: Path) -> None:
    # W39 as printed: 10 g for 0.5 mg/L
    words = ("iron", "--from", "0", "--to", "0.5", "--volume", "1000L", "--with", "dtpa", "--grade", "7%")
    (option,) = dose(tmp_path, *words)["options"]
    assert option["grams"] == pytest.approx(7.14, abs=0.01)


def test_salt_brings_sodium_above_the_crop_limit(tmp_path: Path) -> None:
    # srac462 asks for 100 mg/L of chloride; as salt it brings 65 of sodium, above the 50 of osu-hla6722
    words = ("chloride", "--from", "0", "--to", "100", "--volume", "1000L", "--with", "salt-against-nitrite",
             "--animals", "tilapia", "sodium=0")  # fmt: skip
    (option,) = dose(tmp_path, *words)["options"]
    sodium = next(effect for effect in option["effects"] if effect["quantity"] == "sodium")
    assert sodium["after"] == pytest.approx(65, abs=0.5)
    assert "sodium-high" in [said["id"] for said in option["says"]]


def test_ph_and_carbon_dioxide(tmp_path: Path) -> None:
    # W32, jesper2000: ten times the alkalinity at the same carbon dioxide is one pH up
    words = ("ph", "--to", "7.4", "ph=6.4", "alkalinity=20", "temperature=25", "--volume", "1000L", "--with",
             "potassium bicarbonate")  # fmt: skip
    (option,) = dose(tmp_path, *words)["options"]
    assert option["change"] == pytest.approx(180, rel=0.01)
