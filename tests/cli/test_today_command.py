"""`triage today`."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from icalendar import Calendar

from triage.journal import open_journal
from triage.model.case import System

FIRST = '{"suspects":[{"cause":"two-spotted-spider-mite","probability":0.9}]}'


@pytest.fixture
def home(tmp_path: Path) -> str:
    """A cucumber with mites, rinsed once."""
    with open_journal(tmp_path / "home", now=lambda: "2026-05-04T10:00:00") as journal:
        case = journal.begin_case("2026-05-04", "cucumber", System(), plant="by the wall")
        journal.finish_case(case, FIRST, "1", "x")
        journal.record_action(case, "rinsed", "2026-05-05", treatment="rinse-leaves")
    return str(tmp_path / "home")


def test_it_says_what_is_due(triage: Any, home: str) -> None:
    for columns in (60, 80):
        done = triage("today", "--on", "2026-05-09", "--home", home, columns=columns, NO_COLOR="1")
        assert done.returncode == 0
        assert max(map(len, done.stdout.splitlines())) <= columns
        said = " ".join(done.stdout.split())
        assert "Do next - Cucumber (by the wall): Rinse the leaves" in said
        assert "(1 day late) triage case did 1 rinse-leaves" in said
        assert "Never tested: alkalinity" in said


def test_tests_to_come_stand_in_one_line_a_day(triage: Any, home: str) -> None:
    triage("water", "add", "ph=6.8", "nitrate=20", "--on", "2026-05-04", "--home", home)
    done = triage("today", "--on", "2026-05-09", "--home", home)
    assert "- 2026-05-11: Test nitrate and pH.\n" in done.stdout


def test_it_says_the_same_as_json(triage: Any, home: str) -> None:
    report = json.loads(triage("today", "--on", "2026-05-09", "--days", "9", "--home", home, "--json").stdout)
    assert report["format"] == "triage-today/1"
    assert report["due"][0] == {
        "kind": "step", "due": "2026-05-08", "late": 1, "case": 1, "treatment": "rinse-leaves", "quantity": "",
        "say": report["due"][0]["say"], "name": "", "last": "", "bed": "", "cause": "",
        "command": "triage case did 1 rinse-leaves",
    }  # fmt: skip
    assert [line["kind"] for line in report["due"][:2]] == ["step", "look"]
    earlier = json.loads(triage("today", "--on", "2026-05-05", "--days", "9", "--home", home, "--json").stdout)
    assert [line["kind"] for line in earlier["coming"]] == ["step", "look"]


def test_a_calendar_holds_the_weeks_to_come(triage: Any, home: str, tmp_path: Path) -> None:
    words = ("today", "--on", "2026-05-04", "--home", home)
    done = triage(*words, "--calendar", "garden.ics")
    assert "Calendar written to garden.ics" in done.stderr
    assert "Look again" not in done.stdout
    file = (tmp_path / "garden.ics").read_bytes()
    said = [str(event["summary"]) for event in Calendar.from_ical(file).walk("VEVENT")]
    assert any(text.startswith("Look again at cucumber (by the wall)") for text in said)
    assert triage(*words, "--calendar", "garden.ics").returncode == 2
    assert triage(*words, "--calendar", "garden.ics", "--replace").returncode == 0
    assert (tmp_path / "garden.ics").read_bytes() == file


def test_the_library_is_read_for_a_calendar_only(triage: Any, home: str) -> None:
    done = triage("today", "--home", home, PYTHONPROFILEIMPORTTIME="1")
    assert "icalendar" not in done.stderr


def test_an_empty_home_has_tests_to_do_and_stays_empty(triage: Any, tmp_path: Path) -> None:
    done = triage("today", "--home", "nowhere")
    assert "Never tested" in done.stdout
    assert not (tmp_path / "nowhere").exists()


@pytest.mark.parametrize("words", [("--on", "soon"), ("--days", "-1"), ("--calendar", "no/where.ics")])
def test_wrong_use_is_one_clear_line(triage: Any, home: str, words: tuple[str, ...]) -> None:
    done = triage("today", "--home", home, *words)
    assert done.returncode == 2
    assert len(done.stderr.splitlines()) == 1


def test_it_speaks_the_language_that_is_read_and_english_to_programs(triage: Any, home: str) -> None:
    words = ("--language", "de", "today", "--on", "2026-05-09", "--home", home)
    said = " ".join(triage(*words).stdout.split())
    assert "Wieder hinsehen: Gurke (by the wall): Spinnmilben." in said
    assert "Look again" not in said
    assert triage(*words, "--json").stdout == triage(*words[2:], "--json").stdout
