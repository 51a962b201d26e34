"""`triage plant --from DIR`: one line a case, bad ones among good ones, stopped and gone on with."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., "CompletedProcess[str]"]
DEMO = Path(__file__).parents[2] / "demo"
GOOD = ("gasping.yaml", "iron.yaml", "mites.yaml")


@pytest.fixture
def cases(tmp_path: Path) -> Path:
    """Three cases that can be read, and two in a folder below that cannot."""
    folder = tmp_path / "cases"
    (folder / "below").mkdir(parents=True)
    for name in GOOD:
        shutil.copy(DEMO / name, folder / name)
    (folder / "below" / "crop.yaml").write_text("crop: basl\n", encoding="utf-8")
    (folder / "below" / "form.yaml").write_text("seen: [webbing\n", encoding="utf-8")
    (folder / "notes.txt").write_text("not a case", encoding="utf-8")
    return folder


def lines_of(text: str) -> list[dict[str, Any]]:
    return [json.loads(line) for line in text.splitlines()]


def test_a_bad_case_stops_no_other(triage: Run, cases: Path) -> None:
    run = triage("plant", "--from", str(cases), "--json")
    assert run.returncode == 1
    lines = lines_of(run.stdout)
    assert [line["case"] for line in lines] == ["below/crop.yaml", "below/form.yaml", *GOOD]
    assert "nearest: 'basil'" in lines[0]["faults"][0]
    assert "crop.yaml:1:" in lines[0]["faults"][0]
    first = [line["report"]["suspects"][0]["cause"] for line in lines[3:]]
    assert first == ["iron-deficiency", "two-spotted-spider-mite"]
    assert "2 could not be read" in run.stderr


def test_each_report_is_that_of_the_case_alone(triage: Run, cases: Path) -> None:
    lines = lines_of(triage("plant", "--from", str(cases), "--json").stdout)
    together = {line["case"]: line.get("report") for line in lines}
    for name in GOOD:
        assert together[name] == json.loads(triage("plant", "--from", str(cases / name), "--json").stdout)


def test_two_processes_give_the_same_lines_in_the_same_order(triage: Run, cases: Path) -> None:
    one, two = (triage("plant", "--from", str(cases), "--json", "--jobs", jobs).stdout for jobs in ("1", "2"))
    assert one == two


@pytest.mark.parametrize("cut", [0, 1, 2.5, 4.9, 5])
def test_a_stopped_run_goes_on_where_it_was(triage: Run, cases: Path, tmp_path: Path, cut: float) -> None:
    whole, out = tmp_path / "whole.jsonl", tmp_path / "out.jsonl"
    triage("plant", "--from", str(cases), "--out", str(whole))
    lines = whole.read_text(encoding="utf-8").splitlines(keepends=True)
    kept, part = int(cut), cut % 1
    half = lines[kept][: int(len(lines[kept]) * part)] if part else ""
    out.write_text("".join(lines[:kept]) + half, encoding="utf-8")
    again = triage("plant", "--from", str(cases), "--out", str(out))
    assert out.read_text(encoding="utf-8") == whole.read_text(encoding="utf-8")
    assert f"Looked at {5 - kept} cases" in again.stderr


def test_without_json_each_case_is_a_line_for_people(triage: Run, cases: Path) -> None:
    run = triage("plant", "--from", str(cases), columns=60)
    assert "iron.yaml: Iron shortage (very likely)" in run.stdout
    assert "gasping.yaml: Act on this before anything else:" in run.stdout
    assert max(map(len, run.stdout.splitlines())) <= 60


def test_wrong_use_gets_one_line(triage: Run, cases: Path, tmp_path: Path) -> None:
    other = tmp_path / "diary.txt"
    other.write_text("Monday: rain\n", encoding="utf-8")
    (tmp_path / "none").mkdir()
    for words, says in [
        (("plant", "--from", str(tmp_path / "none")), "no case in this folder"),
        (("plant", "--from", str(cases), "--out", str(other)), "nothing was changed"),
        (("plant", "--from", str(DEMO / "iron.yaml"), "--jobs", "2"), "a folder of cases"),
        (("plant", "--from", str(cases), "--out", "/nowhere/at/all"), "cannot be written"),
    ]:
        run = triage(*words)
        assert run.returncode == 2, words
        assert says in run.stderr
        assert len(run.stderr.strip().splitlines()) == 1
    assert other.read_text(encoding="utf-8") == "Monday: rain\n"
