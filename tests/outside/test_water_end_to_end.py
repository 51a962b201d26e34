"""Published worked examples through the command itself: triage water check --json. Sources beside each."""

from __future__ import annotations

import csv
import json
import re
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from triage.cli import triage

#: Where published rules differ, the answer is a range, and the example is one of its ends or its middle.
RANGES = {"ammonia_given_off_g", "plant_area_m2", "usual_ration_g"}
TABLE = Path(__file__).parents[2] / "shared" / "water" / "worked_examples.csv"
#: Examples that go through triage dose --json stand in test_water_dose_examples.py.
THROUGH_DOSE = {"W20", "W22", "W23", "W31", "W32", "W39", "W41", "W42"}


def check(home: Path, *words: str) -> dict[str, Any]:
    result = CliRunner().invoke(triage, ["water", "check", *words, "--json", "--home", str(home)])
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.stdout)
    assert found["format"] == "triage-water/1"
    return found


@pytest.mark.parametrize(
    ("words", "name", "expected", "within"),
    [
        # uf-fa031 (W01)
        (("tan=1.0", "temperature=24", "ph=8.0"), "unionised_ammonia_fraction", 0.0502, 0.0001),
        (("tan=1.0", "temperature=24", "ph=8.0"), "unionised_ammonia_mg_l", 0.0502, 0.0001),
        # kit-maker-ammonia-table (W03), an older constant
        (("tan=1.0", "temperature=20", "ph=8.5"), "unionised_ammonia_mg_l", 0.1118, 0.001),
        # epa2013 (W04, W05)
        (("ph=7", "temperature=20", "--animals", "rainbow-trout"), "ammonia_acute_limit_mg_l", 17, 0.5),
        (("ph=7", "temperature=20"), "ammonia_chronic_limit_mg_l", 1.9, 0.05),
        # odeq-pkg-tests: salmonids present or not in cold water
        (("ph=7", "temperature=10", "--animals", "rainbow-trout"), "ammonia_acute_limit_mg_l", 24, 0.5),
        (("ph=7", "temperature=10", "--animals", "tilapia"), "ammonia_acute_limit_mg_l", 38, 0.5),
        # tw-moenv (W34), rounded to whole mg/L
        (("temperature=15", "salinity=0", "pressure=1atm"), "oxygen_saturation_mg_l", 10, 0.1),
        # kit-maker-oxygen-altitude: 20 degrees at 900 m
        (("temperature=20", "altitude=900"), "oxygen_saturation_mg_l", 8.1, 0.08),
        # aq-carbonates (W30), fao589 (W28)
        (("kh=4dKH",), "alkalinity_mg_l_caco3", 71.5, 0.2),
        (("kh=1meq/L",), "alkalinity_mg_l_caco3", 50, 0.1),
        # co2-factor-reprint: 0.335 at pH 6.8 and 20 degrees, times 100
        (("ph=6.8", "temperature=20", "alkalinity=100"), "carbon_dioxide_mg_l", 33.5, 0.2),
        # ksu2021 (W12): 58.9 g of total ammonia nitrogen from 2 kg of 32 % feed; another published rule is 11 % higher
        (("feed=2kg", "protein=32"), "ammonia_given_off_g", 58.9, 0.05),
        # rakocy2007 (W07): 1 kg of feed for 16.7 m2 of rafts at 60 g for each m2 and day
        (("feed=1kg",), "plant_area_m2", 16.7, 0.05),
        # losordo-flow (W11): 60 kg of feed for 4,000 kg of fish at 1.5 %; fao589 (W37): 1 to 2 g for 100 g of fish
        (("stock=4000",), "usual_ration_g", 60000, 1),
        (("stock=100g",), "usual_ration_g", 1, 1e-9),
        (("stock=100g",), "usual_ration_g", 2, 1e-9),
        # losordo-flow (W11) again: 80 kg in each of 50 m3 are 4,000 kg
        (("stock=4000", "--volume", "50000L"), "stocking_density_kg_m3", 80, 0.001),
        # fisheries-blog (W09): 1,000 fish of 75 g
        (("stock=75kg",), "ammonia_from_stock_g", 18.75, 0.01),
        # test-maker-titration (W14): 0.01 M sulphuric acid is 0.02 eq/L
        (
            ("titration-acid=18", "titration-strength=0.01 mol/L H2SO4", "titration-sample=50"),
            "alkalinity_mg_l_caco3",
            360,
            0.5,
        ),
        # wurts-hardness (W25)
        (("hardness=100",), "calcium_if_all_calcium_mg_l", 40, 0.2),
        # forum-hardness-units (W15), with rounded divisors
        (("ca=72", "mg=26"), "hardness_mg_l_caco3", 286, 1.5),
        # forum-hardness-conversion (W17)
        (("ca=131.6", "mg=0"), "hardness_mg_l_caco3", 329, 0.5),
        # reef-units (W27), backwards
        (("alkalinity=2meq/L",), "alkalinity_mg_l_caco3", 100, 0.5),
        # cfr132 at a hardness of 100
        (("hardness=100",), "copper_acute_limit_ug_l", 13.4, 0.05),
    ],
)
def test_worked_examples(tmp_path: Path, words: tuple[str, ...], name: str, expected: float, within: float) -> None:
    derived = check(tmp_path, *words)["derived"][name]
    ends = [derived["low"], derived["value"], derived["high"]]
    assert min(abs(end - expected) for end in ends) <= within
    assert ends == sorted(ends)
    assert (derived["low"] == derived["high"]) == (name not in RANGES)
    assert derived["unit"]
    assert derived["source"]


def test_nitrite_unit_trap(tmp_path: Path) -> None:
    # hobby-nitrite-levels (W38) prints 1.34; the molar factor gives 1.31
    (reading,) = check(tmp_path, "nitrite=0.4mg/L N")["readings"]
    assert reading["value"] == pytest.approx(1.314, abs=0.002)


@pytest.mark.parametrize(
    ("word", "unit", "expected", "within"),
    [
        # reef-units (W27), fao589 (W28): milliequivalents, German degrees, lime
        ("alkalinity=100", "meq/L", 2, 0.01),
        ("alkalinity=50", "meq/L", 1, 0.03),
        ("alkalinity=50", "dKH", 2.805, 0.03),
        ("alkalinity=50", "mg/L CaO", 28, 0.03),
        # forum-hardness-conversion (W17): 18.4 degrees
        ("hardness=329", "dGH", 18.4, 0.5),
    ],
)
def test_reading_in_other_units(tmp_path: Path, word: str, unit: str, expected: float, within: float) -> None:
    (reading,) = check(tmp_path, word)["readings"]
    assert reading["also"][unit] == pytest.approx(expected, abs=within)


def test_highest_four_days(tmp_path: Path) -> None:
    # epa2013 (W05): 2.5 times the limit; the example multiplies the rounded limit and prints 4.8
    derived = check(tmp_path, "ph=7", "temperature=20")["derived"]
    limit, highest = (derived[f"ammonia_{name}_limit_mg_l"]["value"] for name in ("chronic", "four_day"))
    assert highest == pytest.approx(2.5 * limit)
    assert round(2.5 * round(limit, 1), 1) == pytest.approx(4.8, abs=0.05)


def test_diluted_sample(tmp_path: Path) -> None:
    # farm-notes-nitrite (W36): 0.5 mL filled up to 6 mL, the card times 12
    (reading,) = check(tmp_path, "nitrite=2mg/L NO2", "--kit", "card", "--diluted", "0.5/6")["readings"]
    assert reading["value"] == pytest.approx(24)
    assert reading["low"] < 24 < reading["high"]


@pytest.mark.parametrize(
    ("crop", "ec", "left"),
    [("bean", 3.6, 50), ("squash", 4.8, 75)],  # plos-0198290 (W43, W44)
)
def test_crop_left_by_salt(tmp_path: Path, crop: str, ec: float, left: float) -> None:
    (line,) = check(tmp_path, f"ec={ec}", "--crops", crop)["crops"]
    assert line["yield_low"] == line["yield_high"] == pytest.approx(left, abs=1.0)


def test_every_seen_example_goes_through_a_command() -> None:
    with TABLE.open(encoding="utf-8", newline="") as file:
        seen = {row["id"] for row in csv.DictReader(file) if row["verified"] == "seen"}
    here = set(re.findall(r"W\d\d", Path(__file__).read_text(encoding="utf-8")))
    assert here == seen


def test_warning_names_its_source(tmp_path: Path) -> None:
    warnings = check(tmp_path, "ph=8.2", "temperature=26", "tan=4", "--animals", "tilapia")["warnings"]
    (alarm,) = (warning for warning in warnings if warning["id"] == "ammonia-acute-alarm")
    assert "epa2013" in alarm["source"]
