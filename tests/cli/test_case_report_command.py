"""`triage case report` as a person reaches it."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., "CompletedProcess[str]"]


@pytest.fixture
def kept(triage: Run) -> Run:
    """A home with one case."""
    triage("water", "add", "ph=7.4", "iron<=0.1", "--on", "2026-05-03")
    done = triage("plant", "--on", "2026-05-04", typed="1\nbasil\nyellow between the veins of new leaves\nq\n")
    assert done.returncode == 0, done.stderr
    assert triage("case", "place", "1", "--plant", "../../row", "--bed", "win<b>dow").returncode == 0
    return triage


def test_markdown_on_standard_output(kept: Run) -> None:
    done = kept("case", "report", "1")
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("# Case 1: basil, 2026-05-04\n")
    assert "win\\<b\\>dow" in done.stdout
    assert "2026-05-03" in done.stdout


def test_the_name_of_a_file_says_its_form(kept: Run, tmp_path: Path) -> None:
    for name, begins in (("a.html", "<!DOCTYPE html>"), ("a.json", "{"), ("a.md", "# "), ("a.txt", "# ")):
        done = kept("case", "report", "1", "--out", name)
        assert (done.returncode, done.stdout) == (0, "")
        assert (tmp_path / name).read_text(encoding="utf-8").startswith(begins)
    assert kept("case", "report", "1", "--out", "b.md", "--format", "html").returncode == 0
    assert (tmp_path / "b.md").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_in_a_folder_the_name_is_made_of_the_number_alone(kept: Run, tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    assert kept("case", "report", "1", "--format", "html", "--out", "out").returncode == 0
    assert [file.name for file in (tmp_path / "out").iterdir()] == ["case-1.html"]


def test_json_is_the_same_by_both_ways(kept: Run) -> None:
    first, second = kept("case", "report", "1", "--json"), kept("case", "report", "1", "--format", "json")
    assert first.stdout == second.stdout
    sheet = json.loads(first.stdout)
    assert (sheet["format"], sheet["case"], sheet["here"]["bed"]) == ("triage-case-sheet/1", 1, "win<b>dow")
    shared = json.loads(kept("case", "report", "1", "--json", "--share").stdout)
    assert (shared["shared"], shared["here"]["bed"], shared["said"]["words"]) == (True, "", [])


def test_wrong_use(kept: Run, tmp_path: Path) -> None:
    (tmp_path / "a.md").write_text("precious")
    for words, says in (
        (["1", "--out", "a.md"], "already"),
        (["7"], "no case 7"),
        (["1", "--out", "no/where.md"], "cannot be written"),
        (["1", "--json", "--format", "md"], "two forms"),
        (["1", "--home", "nowhere"], "nothing is kept"),
    ):
        done = kept("case", "report", *words)
        assert done.returncode == 2
        assert done.stdout == ""
        (line,) = done.stderr.splitlines()
        assert says in line
    assert (tmp_path / "a.md").read_text() == "precious"
