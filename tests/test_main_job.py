"""The main job end to end, as a person or a program meets it: causes, deciding check, water, responses."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

IRON = """
crop: basil
system: {volume: 1000 L, animals: [tilapia, freshwater-shrimp], beds: media}
words: The newest leaves are yellow between the veins, the veins stay green.
readings:
  - {quantity: ph, value: PH, on: 2026-05-03}
  - {quantity: iron, value: IRON, unit: mg/L, on: 2026-05-03}
on: 2026-05-04
"""
MITES = """
crop: cucumber
system: {volume: 1000 L, animals: [tilapia, freshwater-shrimp], beds: media}
words: fine webbing, pale stippling on the leaves and tiny moving dots under the leaf
on: 2026-07-08
"""


def look(triage: Any, folder: Path, text: str, *more: str) -> dict[str, Any]:
    """The JSON report on a case."""
    (folder / "case.yaml").write_text(text, encoding="utf-8")
    done = triage("plant", "--from", "case.yaml", "--json", *more)
    assert done.returncode == 0, done.stderr
    data: dict[str, Any] = json.loads(done.stdout)
    return data


def iron(ph: str, level: str) -> str:
    return IRON.replace("PH", ph).replace("IRON", level)


def test_iron_shortage_leads_when_iron_is_scarce_and_ph_high(triage: Any, tmp_path: Path) -> None:
    report = look(triage, tmp_path, iron("7.4", '"<= 0.1"'))
    first = report["suspects"][0]
    assert first["cause"] == "iron-deficiency"
    assert first["probability"] > 0.5
    assert first["settle"]
    assert any("out of reach" in conclusion["because"] for conclusion in report["conclusions"])
    said = json.dumps(report["responses"])
    assert "pH" in said
    chelates = [r for r in report["responses"] if r["treatment"].startswith("iron-chelate")]
    assert chelates
    assert chelates[0]["treatment"] == "iron-chelate-eddha" or chelates[0]["treatment"] == "iron-chelate-dtpa"
    assert chelates[0]["dose"]["grams"] > 1
    assert not any(r["treatment"] == "iron-chelate-edta" for r in report["responses"])  # falls apart at pH 7.4
    (unmeasured,) = [a for a in report["avoid"] if a["treatment"] == "lower-ph-slowly"]  # nobody measured alkalinity
    assert any("0.3 a day" in text for text in unmeasured["why"])
    buffered = look(
        triage,
        tmp_path,
        iron("7.4", '"<= 0.1"').replace("readings:", "readings:\n  - {quantity: kh, value: 5, unit: dKH}"),
    )
    (slower,) = [r for r in buffered["responses"] if r["treatment"] == "lower-ph-slowly"]
    assert any("more than 0.3 in pH within a day can harm or kill fish" in text for text in slower["cautions"])


def test_iron_is_not_blamed_by_reflex(triage: Any, tmp_path: Path) -> None:
    report = look(triage, tmp_path, iron("6.2", "2"))
    assert report["suspects"][0]["cause"] != "iron-deficiency"


def test_a_locked_iron_is_told_from_a_missing_one(triage: Any, tmp_path: Path) -> None:
    report = look(triage, tmp_path, iron("7.8", "2"))
    assert report["suspects"][0]["cause"] in ("iron-lockout-high-ph", "micronutrient-lockout-high-ph")


def test_mites_lead_and_responses_begin_where_no_fish_is_reached(triage: Any, tmp_path: Path) -> None:
    report = look(triage, tmp_path, MITES)
    assert report["suspects"][0]["cause"] == "two-spotted-spider-mite"
    responses = report["responses"]
    assert all(r["grade"] not in ("never", "unknown") for r in responses)
    kinds = [r["kind"] for r in responses]
    assert set(kinds[:2]) <= {"by-hand", "biological"}
    assert {"rinse-leaves", "predatory-mites-persimilis"} <= {r["treatment"] for r in responses}
    avoided = {a["treatment"]: a for a in report["avoid"]}
    pyrethroids = [a for name, a in avoided.items() if "thrin" in name]
    assert pyrethroids
    assert all(a["grade"] == "never" and a["why"] for a in pyrethroids)


def test_fish_in_trouble_come_before_the_plant(triage: Any, tmp_path: Path) -> None:
    (tmp_path / "case.yaml").write_text(
        "crop: chard\nseen: [fish-gasping]\nwords: the chard is a little limp\n", encoding="utf-8"
    )
    done = triage("plant", "--from", "case.yaml", "--exit-on-alarm")
    assert done.returncode == 1
    assert done.stdout.strip().splitlines()[0].startswith("Act on this")
    series = triage("plant", typed="2\n\nq\n")
    shown = series.stdout
    assert "How are they just now" in shown
    assert shown.index("Act on this") < shown.index("Which plant is it")


@pytest.mark.parametrize("cover", ["none", "covered", "moved"])
@pytest.mark.parametrize("volume", ["200L", "50000L"])
def test_permethrin_is_never_anywhere_near_the_system(triage: Any, cover: str, volume: str) -> None:
    done = triage("spray", "permethrin", "--cover", cover, "--volume", volume, "--animals", "tilapia", "--json")
    assert done.returncode == 0
    report = json.loads(done.stdout)
    assert report["format"] == "triage-spray/1"
    assert report["grade"] == "never"
    assert report["harms"]["crustaceans"] is None  # nobody keeps any


def test_an_unknown_name_is_unknown_and_says_what_to_look_for(triage: Any) -> None:
    done = triage("spray", "Garden Miracle 3000", "--json")
    report = json.loads(done.stdout)
    assert done.returncode == 0
    assert report["grade"] == "unknown"
    assert any("label" in text for text in report["cautions"])


def test_unread_words_come_back(triage: Any, tmp_path: Path) -> None:
    report = look(triage, tmp_path, "words: [webbing under the leaf, the gnome blinked twice]\non: 2026-05-04\n")
    assert report["unread_words"] == ["the gnome blinked twice"]


def test_readings_in_words_are_readings(triage: Any, tmp_path: Path) -> None:
    report = look(
        triage, tmp_path, 'words: "newest leaves yellow, veins green, pH 7.4, iron <= 0.1 mg/L"\non: 2026-05-04\n'
    )
    assert {r["quantity"]: r["bound"] for r in report["readings_used"]} == {"ph": "=", "iron": "<="}
    assert report["suspects"][0]["cause"] == "iron-deficiency"


def test_the_contract_keys_are_there(triage: Any, tmp_path: Path) -> None:
    report = look(triage, tmp_path, iron("7.4", "0.3"))
    assert report["format"] == "triage-case/1"
    assert set(report["book"]) == {"version", "hash"}
    for key in (
        "alarms", "conclusions", "read_words", "unread_words", "suspects", "none_in_book", "together", "unexplained",
        "next_question", "responses", "avoid", "readings_used", "cautions",
    ):  # fmt: skip
        assert key in report
    suspect = report["suspects"][0]
    assert {"cause", "name", "kind", "probability", "for", "against", "settle"} <= set(suspect)
    assert {"what", "support"} <= set(suspect["for"][0])
    assert {"id", "because", "rule", "from"} <= set(report["conclusions"][0])
    assert {"quantity", "value", "unit", "bound", "on", "age_days", "note"} <= set(report["readings_used"][0])
    if report["next_question"]:
        assert {"id", "ask", "options", "why", "bits"} <= set(report["next_question"])


def test_the_same_case_gives_the_same_bytes_under_20_hash_seeds(triage: Any, tmp_path: Path) -> None:
    (tmp_path / "case.yaml").write_text(iron("7.4", '"<= 0.1"'), encoding="utf-8")
    seen = {triage("plant", "--from", "case.yaml", "--json", PYTHONHASHSEED=str(seed)).stdout for seed in range(20)}
    assert len(seen) == 1
