"""Published worked examples through the command itself: triage water check --json. Sources beside each."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from triage.cli import triage

#: Where published rules differ, the answer is a range, and the example is one of its ends or its middle.
RANGES = {"ammonia_given_off_g", "plant_area_m2", "usual_ration_g"}


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


def test_hardness_from_calcium_and_magnesium(tmp_path: Path) -> None:
    # forum-hardness-units (W15): 286 with rounded divisors
    derived = check(tmp_path, "ca=72", "mg=26")["derived"]["hardness_mg_l_caco3"]
    assert derived["value"] == pytest.approx(286, abs=1.5)


def test_warning_names_its_source(tmp_path: Path) -> None:
    warnings = check(tmp_path, "ph=8.2", "temperature=26", "tan=4", "--animals", "tilapia")["warnings"]
    (alarm,) = (warning for warning in warnings if warning["id"] == "ammonia-acute-alarm")
    assert "epa2013" in alarm["source"]
