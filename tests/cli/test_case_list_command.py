"""`triage case list` and what it can be narrowed to."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from triage.journal import CasePlace, open_journal
from triage.model.case import System

MITES = '{"suspects":[{"cause":"two-spotted-spider-mite","probability":0.9},{"cause":"thrips","probability":0.6}]}'
IRON = '{"suspects":[{"cause":"iron-deficiency","probability":0.8},{"cause":"thrips","probability":0.3}]}'
AGAIN = '{"suspects":[{"cause":"pythium-root-rot","probability":0.7}]}'


@pytest.fixture
def home(tmp_path: Path) -> str:
    """1 cucumber, closed; 2 basil, looked at again; 3 cucumber, proved to be nothing; 4 begun; 5 given up."""
    with open_journal(tmp_path / "home", now=lambda: "2026-06-01T10:00:00") as journal:

        def case(on: str, crop: str, report: str, bed: str, plant: str = "") -> int:
            number = journal.begin_case(on, crop, System(), plant=plant)
            if report:
                journal.finish_case(number, report, "1", "x", summary="Something")
            journal.place_case(number, CasePlace(bed=bed, plant=plant))
            return number

        journal.close_case(case("2026-05-01", "cucumber", MITES, "Warm wall"), "well again")
        basil = case("2026-05-02", "basil", IRON, "2", "by the door")
        journal.finish_recheck(journal.begin_recheck(basil, "2026-05-12"), "same", AGAIN, "1", "x")
        journal.record_outcome(case("2026-05-03", "cucumber", MITES, "2"), [], "looked closely", "2026-05-10")
        case("2026-05-04", "chard", "", "")
        journal.abandon_case(case("2026-05-05", "chard", "", ""))
    return str(tmp_path / "home")


def numbers(triage: Any, home: str, *words: str) -> list[int]:
    return [case["id"] for case in json.loads(triage("case", "list", *words, "--home", home, "--json").stdout)["cases"]]


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("", [5, 4, 3, 2, 1]),
        ("--open", [4, 3, 2]),
        ("--closed", [1]),
        ("--crop cucumber", [3, 1]),
        ("--crop Cucumbers --open", [3]),
        ("--bed 2", [3, 2]),
        ("--bed warm\u00a0wall", [1]),
        ("--since 2026-05-03", [5, 4, 3]),
        ("--cause two-spotted-spider-mite", [1]),  # 3 was none after all
        ("--cause thrips", [1]),  # less likely than an even chance in 2
        ("--cause pythium-root-rot", [2]),
        ("--cause iron-deficiency", []),  # not any more
        ("--crop basil --bed 2 --open --since 2026-05-02", [2]),
    ],
)
def test_only_what_is_wanted_is_listed(triage: Any, home: str, words: str, found: list[int]) -> None:
    assert numbers(triage, home, *(word.replace("\u00a0", " ") for word in words.split(" ") if word)) == found


def test_a_cause_may_be_named(triage: Any, home: str) -> None:
    assert numbers(triage, home, "--cause", "Spider mites") == [1]
    assert numbers(triage, home, "--cause", "pythium") == [2]


def test_each_case_is_told_as_it_stands(triage: Any, home: str) -> None:
    for columns in (60, 80):
        done = triage("case", "list", "--home", home, columns=columns, NO_COLOR="1")
        assert max(map(len, done.stdout.splitlines())) <= columns
        said = " ".join(done.stdout.split())
        assert "2 2026-05-02; basil (by the door, bed 2); root rot (pythium); the same on 2026-05-12" in said
        assert "3 2026-05-03; cucumber (bed 2); proved to be nothing of the book; answered" in said
        assert "1 2026-05-01; cucumber (bed Warm wall); spider mites + thrips; well again" in said
        assert "4 2026-05-04; chard; not finished" in said


def test_json_says_more(triage: Any, home: str) -> None:
    said = json.loads(triage("case", "list", "--crop", "basil", "--home", home, "--json").stdout)
    assert said["format"] == "triage-cases/1"
    assert said["of"] == 5
    (basil,) = said["cases"]
    assert basil["causes"] == ["pythium-root-rot"]
    assert (basil["verdict"], basil["last_look"], basil["bed"]) == ("same", "2026-05-12", "2")
    assert (basil["summary"], basil["state"], basil["proven"]) == ("Something", "finished", False)


def test_none_that_fits_is_said_otherwise_than_none_at_all(triage: Any, home: str) -> None:
    assert triage("case", "list", "--crop", "basil", "--closed", "--home", home).stdout == "None of the 5 cases fits.\n"
    assert "No case yet" in triage("case", "list", "--closed", "--home", "nowhere").stdout


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--crop", "cucumbre"), "nearest: 'cucumber'"),
        (("--cause", "spider mits"), "nearest: 'spider mites'"),
        (("--cause", "mildew"), "say one of: downy-mildew, powdery-mildew"),
        (("--since", "May"), "is not a date"),
    ],
)
def test_wrong_use_is_one_clear_line(triage: Any, home: str, words: tuple[str, ...], says: str) -> None:
    done = triage("case", "list", "--home", home, *words)
    assert done.returncode == 2
    assert says in done.stderr
    assert len(done.stderr.splitlines()) == 1
