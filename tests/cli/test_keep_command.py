"""`triage plant --from CASE.yaml --keep`: a written case is kept as the questions keep one."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

CASE = """
crop: basil
system: {volume: 1000 L, animals: [tilapia]}
seen: [yellow-between-veins, newest-leaves-first]
absent: [webbing]
words: the veins stay green, pH 7.4
readings:
  - {quantity: iron, value: "<= 0.1", unit: mg/L, kit: card, on: 2026-05-03}
on: 2026-05-04
"""


@pytest.fixture
def home(tmp_path: Path) -> list[str]:
    return ["--home", str(tmp_path / "home")]


def written(folder: Path, text: str = CASE) -> str:
    file = folder / "case.yaml"
    file.write_text(text, encoding="utf-8")
    return str(file)


def test_a_kept_case_is_there_with_its_answers_its_readings_and_its_advice(
    triage: Any, home: list[str], tmp_path: Path
) -> None:
    file = written(tmp_path)
    told = json.loads(triage("plant", "--from", file, "--json").stdout)
    done = triage(*home, "plant", "--from", file, "--keep", "--bed", "window", "--json")
    assert done.returncode == 0
    assert "Saved as case 1." in done.stderr
    kept = json.loads(triage(*home, "case", "show", "1", "--json").stdout)
    assert kept["place"] == {"bed": "window", "plant": ""}
    assert kept["case"]["state"] == "finished"
    assert kept["case"]["crop"] == "basil"
    assert [one["cause"] for one in kept["report"]["suspects"][:2]] == [one["cause"] for one in told["suspects"][:2]]
    readings = json.loads(triage(*home, "water", "export", "--json").stdout)["readings"]
    assert {(one["quantity"], one["on"]) for one in readings} == {("iron", "2026-05-03"), ("ph", "2026-05-04")}
    shown = " ".join(triage(*home, "case", "show", "1").stdout.split())
    assert "basil (bed window)" in shown
    assert "not there: fine silk webs" in shown
    again = triage(*home, "case", "recheck", "1", "--now", "better", "--on", "2026-05-14", "--json")
    assert json.loads(again.stdout)["moved"][0]["cause"] == told["suspects"][0]["cause"]


def test_without_keep_nothing_is_written(triage: Any, home: list[str], tmp_path: Path) -> None:
    assert triage(*home, "plant", "--from", written(tmp_path)).returncode == 0
    assert not (tmp_path / "home").exists()


def test_a_case_of_other_water_is_refused_and_nothing_of_it_is_kept(
    triage: Any, home: list[str], tmp_path: Path
) -> None:
    triage(*home, "setup", "--volume", "600L", "--animals", "shrimp")
    refused = triage(*home, "plant", "--from", written(tmp_path), "--keep", "--json")
    assert refused.returncode == 2
    assert "other water" in refused.stderr
    assert json.loads(triage(*home, "case", "list", "--json").stdout)["cases"] == []
    assert triage(*home, "water", "history").stdout == ""


@pytest.mark.parametrize("words", [["--keep"], ["--from", ".", "--keep"], ["--from", "x.yaml", "--bed", "window"]])
def test_keep_goes_with_one_file(triage: Any, home: list[str], words: list[str]) -> None:
    refused = triage(*home, "plant", *words)
    assert refused.returncode == 2
    assert "--keep" in refused.stderr


def test_in_german_it_is_kept_in_english(triage: Any, home: list[str], tmp_path: Path) -> None:
    triage(*home, "--language", "de", "plant", "--from", written(tmp_path), "--keep")
    kept = json.loads(triage(*home, "case", "show", "1", "--json").stdout)
    assert kept["report"]["suspects"][0]["name"] == "Iron shortage"


def test_a_written_case_is_read_with_the_readings_of_its_own_day(triage: Any, home: list[str], tmp_path: Path) -> None:
    triage(*home, "water", "add", "ph=7.6", "--on", "2024-05-03")
    triage(*home, "water", "add", "ph=6.2")
    file = written(tmp_path, "crop: basil\nseen: [yellow-between-veins]\non: 2024-05-04\n")
    used = json.loads(triage(*home, "plant", "--from", file, "--json").stdout)["readings_used"]
    assert [(one["quantity"], one["value"], one["age_days"]) for one in used] == [("ph", 7.6, 1)]


def test_what_failed_is_not_held_up_once_it_is_better(triage: Any, home: list[str], tmp_path: Path) -> None:
    triage(*home, "plant", "--from", written(tmp_path), "--keep")
    for day in ("2026-05-04", "2026-05-05"):
        triage(*home, "case", "did", "1", "iron-chelate-eddha", "--on", day)
    same = triage(*home, "case", "recheck", "1", "--now", "same", "--on", "2026-05-25").stdout
    better = triage(*home, "case", "recheck", "1", "--now", "better", "--on", "2026-06-05").stdout
    assert "Not again unchanged" in same
    assert "Not again unchanged" not in better
    assert 'triage case close 1 --outcome "well again"' in " ".join(better.split())
