"""Published worked examples through triage dose --json; ids are rows of shared/water/worked_examples.csv."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from triage.cli import triage
from triage.errors import UsageError
from triage.water.molar import molar_mass


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


def test_ph_of_seven_and_of_five(tmp_path: Path) -> None:
    # W31, ksu2021: water of pH 5 is a hundred times as acid as water of pH 7, and no acid is advised for it
    found = dose(tmp_path, "ph", "--from", "7", "--to", "5", "kh=4dKH", "--volume", "1000L")
    assert found["acid_times"] == pytest.approx(100)
    assert all(option["refused"] for option in found["options"])


def test_lye_of_the_wrong_strength_does_not_come_out(tmp_path: Path) -> None:
    # W42, filter-maker-alkalinity prints 4 g of sodium hydroxide for 7.14 g of alkalinity; as molar masses have it,
    # and as for potassium hydroxide below, it takes 40 % more. No dose of sodium hydroxide is advised at all.
    words = ("alkalinity", "--from", "20", "--to", "27.14", "ph=6.6", "--volume", "1000L", "--with")
    (lye,) = dose(tmp_path, *words, "potassium hydroxide")["options"]
    assert lye["grams"] * molar_mass("NaOH") / molar_mass("KOH") == pytest.approx(5.71, abs=0.05)
    refused = CliRunner().invoke(triage, ["dose", *words, "sodium hydroxide", "--home", str(tmp_path)])
    assert isinstance(refused.exception, UsageError)


@pytest.mark.parametrize(
    ("acid", "grams", "salt", "brought"),
    [
        # molar-mass: 50.04 mg of calcium carbonate is one equivalent
        ("phosphoric acid", 97.994 / 50.04, "phosphate", 94.97 / 50.04),
        ("nitric acid", 63.012 / 50.04, "nitrate", 62.004 / 50.04),
        ("sulphuric acid", 98.072 / 100.09, "sulfate", 96.06 / 100.09),
    ],
)
def test_acid_takes_alkalinity_and_leaves_its_salt(
    tmp_path: Path, acid: str, grams: float, salt: str, brought: float
) -> None:
    words = ("alkalinity", "--from", "140", "--to", "130", "ph=7.8", "temperature=24", "--volume", "1000L", "--with",
             acid, "--animals", "tilapia")  # fmt: skip
    option = next(o for o in dose(tmp_path, *words)["options"] if o["steps"])
    assert not option["refused"]
    assert option["grams"] == pytest.approx(10 * grams, rel=0.002)
    assert option["days"] >= 3
    assert all(abs(step["ph_at_once"] - step["ph_before"]) <= 0.3 + 1e-9 for step in option["steps"])
    effect = next(effect for effect in option["effects"] if effect["quantity"] == salt)
    assert effect["change"] == pytest.approx(10 * brought, rel=0.005)


def test_hydrochloric_acid_only_in_the_barrel(tmp_path: Path) -> None:
    in_tank = dose(tmp_path, "ph", "--to", "7.4", "ph=7.8", "kh=8dKH", "--volume", "1000L", "--with",
                   "hydrochloric acid")["options"]  # fmt: skip
    assert all(option["refused"] for option in in_tank)
    words = ("kh", "--from", "8dKH", "--to", "2dKH", "--volume", "100L", "--with", "hydrochloric acid")
    barrel, at_once = dose(tmp_path, *words)["options"]
    assert (barrel["treatment"], bool(barrel["refused"]), bool(at_once["refused"])) == (
        "treat-top-up-water",
        False,
        True,
    )
    # 6 degrees in 100 L are 10.7 g of alkalinity, 0.729 g of acid for each
    assert barrel["grams"] == pytest.approx(6 * 1.7848 * 0.729, rel=0.005)


@pytest.mark.parametrize("acid", ["phosphoric acid", "nitric acid", "sulphuric acid", "citric acid"])
@pytest.mark.parametrize("known", [("ph", "--to", "7.2", "ph=7.8"), ("kh", "--from", "8dKH", "--to", "6dKH")])
def test_no_acid_before_ph_and_alkalinity_are_known(tmp_path: Path, acid: str, known: tuple[str, ...]) -> None:
    (option,) = (o for o in dose(tmp_path, *known, "--volume", "1000L", "--with", acid)["options"]
                 if o["treatment"] != "treat-top-up-water")  # fmt: skip
    assert option["grams"] == 0
    assert "Measure" in option["refused"][0]


def test_citric_acid_is_eaten_before_it_may_work(tmp_path: Path) -> None:
    words = ("ph", "--to", "7.4", "ph=7.8", "kh=8dKH", "--volume", "1000L", "--with", "citric acid")
    (option,) = dose(tmp_path, *words)["options"]
    assert any("pH comes back" in why for why in option["refused"])


def test_millilitres_only_near_the_strength_whose_density_is_known(tmp_path: Path) -> None:
    words = (
        "alkalinity",
        "--from",
        "140",
        "--to",
        "130",
        "ph=7.8",
        "--volume",
        "1000L",
        "--with",
        "phosphoric acid",
        "--grade",
    )
    strong, weak = (next(o for o in dose(tmp_path, *words, grade)["options"] if o["steps"]) for grade in ("85%", "25%"))
    assert strong["millilitres"] == pytest.approx(strong["grams"] / 1.69, rel=0.001)
    assert weak["millilitres"] is None
    assert weak["grams"] == pytest.approx(strong["grams"] * 85 / 25, rel=0.001)
