"""Every command: help with an example, plain output at 60 columns, one clear line for wrong use."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

WRONG = [
    (["planet"], "no command 'planet'"),
    (["plant", "--from", "nowhere.yaml"], "nowhere.yaml:1"),
    (["plant", "--json"], "--from"),
    (["plant", "--from", "case.yaml", "--on", "yesterday"], "2026-05-03"),
    (["spray"], "SUBSTANCE"),
    (["spray", "neem oil", "--strength", "lots"], "lots"),
    (["spray", "neem oil", "--amount", "a cup"], "a cup"),
    (["spray", "neem oil", "--volume", "big"], "big"),
    (["spray", "neem oil", "--animals", "tilapiaa"], "nearest: 'tilapia'"),
    (["spray", "neem oil", "--times", "0"], "1"),
    (["water", "check", "ph"], "name=value"),
    (["water", "check", "phh=7"], "ph"),
    (["water", "check", "ph=19"], "19"),
    (["water", "check", "ph=nan"], "nan"),
    (["water", "check", "iron=-1mg/L"], "-1"),
    (["water", "check", "iron=1furlong"], "furlong"),
    (["water", "add", "ph=7", "--on", "3 May"], "2026-05-03"),
    (["case", "show", "99"], "no cases"),
    (["case", "show", "x"], "x"),
    (["book", "show", "iron-deficiensy"], "nearest: 'iron-deficiency'"),
    (["book", "sources", "epa-2013"], "nearest: 'epa2013'"),
    (["book", "check", "nofolder"], "nofolder"),
    (["setup", "--volume", "much"], "much"),
    (["setup", "--beds", "feather"], "media"),
]


@pytest.mark.parametrize(("words", "said"), WRONG, ids=[" ".join(words) for words, _ in WRONG])
def test_wrong_use_gets_one_clear_line_and_exit_2(triage: Any, tmp_path: Path, words: list[str], said: str) -> None:
    (tmp_path / "case.yaml").write_text("crop: basil\n", encoding="utf-8")
    done = triage(*words)
    assert done.returncode == 2
    assert done.stdout == ""
    assert said in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert "Traceback" not in done.stderr


COMMANDS = (
    "", "setup", "plant", "spray", "water", "water add", "water show", "water check", "case", "case list", "case show",
    "case did", "case close", "book", "book check", "book find", "book show", "book sources", "demo",
)  # fmt: skip


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help_with_an_example(triage: Any, command: str) -> None:
    done = triage(*command.split(), "--help")
    assert done.returncode == 0
    assert "Example: triage" in " ".join(done.stdout.split())


def test_faults_of_a_case_file_are_all_named_with_line_and_nearest(triage: Any, tmp_path: Path) -> None:
    (tmp_path / "case.yaml").write_text(
        "crop: basill\nseen: [webing]\nabsent: [moving-dots]\nchanges: [webbing]\nreadings:\n"
        "  - {quantity: phh, value: 7}\n  - {quantity: iron, value: -3}\non: 2026-05-04\n",
        encoding="utf-8",
    )
    done = triage("plant", "--from", "case.yaml")
    assert done.returncode == 2
    lines = done.stderr.splitlines()
    assert [line.split(":")[1] for line in lines] == ["1", "2", "3", "4", "6", "7"]
    assert "nearest: 'basil'" in lines[0]
    assert "nearest: 'webbing'" in lines[1]


@pytest.mark.parametrize("columns", [60, 80])
def test_screens_keep_to_the_width_and_hold_no_escape_when_piped(triage: Any, tmp_path: Path, columns: int) -> None:
    (tmp_path / "case.yaml").write_text(
        "crop: basil\nwords: webbing under the leaf\non: 2026-05-04\n", encoding="utf-8"
    )
    for words in (
        ["plant", "--from", "case.yaml", "--numbers", "--why"], ["spray", "neem oil", "--volume", "1000L"],
        ["water", "check", "ph=7", "tan=1", "temperature=25"], ["book", "show", "iron-deficiency"],
        ["book", "find", "mite"], ["water", "show"], ["case", "list"],
    ):  # fmt: skip
        done = triage(*words, columns=columns)
        assert done.returncode == 0, done.stderr
        assert "\x1b" not in done.stdout
        assert max(len(line) for line in done.stdout.splitlines()) <= columns


def test_readings_are_kept_and_shown(triage: Any) -> None:
    assert triage("water", "add", "ph=7.2", "iron=0.6mg/L", "tan<=0.25", "--kit", "card").returncode == 0
    again = triage("water", "add", "ph=7.2", "iron=0.6mg/L", "tan<=0.25", "--kit", "card")
    assert "0 recorded" in again.stdout
    shown = json.loads(triage("water", "show", "--json").stdout)
    assert {item["reading"]["quantity"] for item in shown["latest"]} == {"ph", "iron", "tan"}
    assert "temperature" in shown["due"]


def test_home_is_taken_before_and_after_the_command(triage: Any, tmp_path: Path) -> None:
    assert triage("--home", str(tmp_path / "a"), "water", "add", "ph=7.2").returncode == 0
    assert triage("water", "show", "--home", str(tmp_path / "a"), "--json").stdout.count('"ph"') >= 1
    assert (tmp_path / "a" / "journal.sqlite3").is_file()


def test_setup_is_kept_and_used(triage: Any, tmp_path: Path) -> None:
    assert triage("setup", "--volume", "800L", "--animals", "tilapia", "--beds", "media").returncode == 0
    saved = json.loads(triage("setup", "--json").stdout)["system"]
    assert saved["volume_l"] == 800
    report = json.loads(triage("spray", "neem oil", "--json").stdout)
    assert report["exposure"]["volume_l"] == 800
    assert report["harms"]["crustaceans"] is None


def test_an_unfinished_series_is_offered_again(triage: Any) -> None:
    first = triage("plant", typed="1\nbasil\nwebbing under the leaf\n")  # nobody answers any more
    assert first.returncode == 0
    listed = json.loads(triage("case", "list", "--json").stdout)["cases"]
    assert listed[0]["crop"] == "basil"


def test_an_authors_own_cause_is_used(triage: Any, tmp_path: Path) -> None:
    folder = tmp_path / "home" / "knowledge" / "crops.yaml"
    folder.parent.mkdir(parents=True)
    folder.write_text(
        "- crop: house-lettuce\n  name: House lettuce\n  kind: leafy\n  sources: [common-practice]\n", encoding="utf-8"
    )
    (tmp_path / "case.yaml").write_text("crop: house lettuce\nwords: webbing\non: 2026-05-04\n", encoding="utf-8")
    done = triage("plant", "--from", "case.yaml", "--json", "--home", str(tmp_path / "home"))
    assert json.loads(done.stdout)["crop"] == "house-lettuce"


def test_the_built_in_book_is_clean(triage: Any) -> None:
    done = triage("book", "check")
    assert done.returncode == 0, done.stdout
