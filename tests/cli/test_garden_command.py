"""`triage garden` and what is kept with a case, as a person reaches it."""

from __future__ import annotations

import hashlib
import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]
Run = Callable[..., "CompletedProcess[str]"]
MITES = "1\ncucumber\nwebbing under the leaf, tiny moving dots\nq\n"


def told(done: CompletedProcess[str]) -> Any:
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


@pytest.fixture
def grown(triage: Run) -> Run:
    """Two beds and a case of mites on the cucumber."""
    for words in (
        ["setup", "--volume", "1000L", "--animals", "tilapia", "--crops", "cucumber,chard"],
        ["garden", "bed", "window", "--crops", "cucumber", "--beside", "wall"],
        ["garden", "bed", "wall", "--crops", "chard"],
    ):
        assert triage(*words).returncode == 0
    assert triage("plant", "--on", "2026-05-04", typed=MITES).returncode == 0
    assert triage("case", "place", "1", "--bed", "window", "--plant", "tall one").returncode == 0
    return triage


def test_the_watch_list_names_the_neighbours(grown: Run) -> None:
    report = told(grown("garden", "--on", "2026-05-06", "--json"))
    assert report["format"] == "triage-garden/1"
    assert {(line["bed"], line["near"]) for line in report["watch"]} == {("window", "same"), ("wall", "beside")}
    for columns in (60, 80):
        shown = grown("garden", "--on", "2026-05-06", columns=columns, NO_COLOR="1")
        assert shown.returncode == 0
        assert "Bed wall" in shown.stdout
        assert "chard" in shown.stdout
        assert max(len(line) for line in shown.stdout.splitlines()) <= columns
        assert "\x1b" not in shown.stdout


def test_an_outcome_teaches_and_can_be_taken_back(grown: Run) -> None:
    case = "crop: cucumber\nseen: [webbing]\non: 2027-05-04\n"
    plain = _webbing(grown, case)
    assert "from_journal" in plain
    assert plain["from_journal"] == []
    said = grown("case", "outcome", "1", "two-spotted-spider-mite", "--how", "lens", "--on", "2026-05-05")
    assert "turned out to be spider mites" in said.stdout
    taught = _webbing(grown, case)
    assert "1 of 1 proven case in this garden" in taught["from_journal"][0]
    assert taught["suspects"][0]["probability"] > plain["suspects"][0]["probability"]
    assert "proven 1 time" in " ".join(grown("garden").stdout.split())
    assert grown("garden", "learn", "off").returncode == 0
    assert _webbing(grown, case) == plain
    assert grown("garden", "learn", "on").returncode == 0
    assert grown("case", "outcome", "1", "--unknown").returncode == 0
    assert _webbing(grown, case) == plain


def _webbing(run: Run, case: str) -> Any:
    done = run("plant", "--from", "/dev/stdin", "--json", typed=case)
    return told(done)


def test_a_case_file_with_its_own_system_is_somebody_elses(grown: Run) -> None:
    grown("case", "outcome", "1", "two-spotted-spider-mite", "--on", "2026-05-05")
    case = "crop: cucumber\nsystem: {volume: 500 L}\nseen: [webbing]\non: 2027-05-04\n"
    assert _webbing(grown, case)["from_journal"] == []


def test_the_answer_says_what_the_journal_added(grown: Run) -> None:
    grown("case", "outcome", "1", "two-spotted-spider-mite", "--on", "2026-05-05")
    shown = grown("plant", "--from", "/dev/stdin", typed="crop: cucumber\nseen: [webbing]\non: 2027-05-04\n").stdout
    words = " ".join(shown.split())
    assert "From your journal: 1 of 1 proven case in this garden turned out to be" in words
    assert words.count("proven case in this garden") == 1


def test_the_series_takes_the_bed_one_stands_at(triage: Run) -> None:
    assert triage("plant", "--bed", "window", "--plant", "row 2", typed=MITES).returncode == 0
    assert "row 2, bed window" in triage("case", "list").stdout
    refused = triage("plant", "--from", "case.yaml", "--bed", "window")
    assert refused.returncode == 2
    assert "not kept" in refused.stderr


LOADED = """
import sys
sys.argv = ["triage", "plant", "--from", *sys.argv[1:]]
from triage.cli import main
try:
    main()
except SystemExit as done:
    assert done.code == 0
print(sorted(m for m in sys.modules if m.startswith(("triage.journal", "triage.recall", "triage.followup", "sqlite3"))))
"""


def test_without_a_journal_nothing_of_it_is_imported(tmp_path: Path, cache: Path) -> None:
    (tmp_path / "case.yaml").write_text("crop: basil\nseen: [webbing]\non: 2026-05-04\n", encoding="utf-8")
    command = [sys.executable, "-c", LOADED, str(tmp_path / "case.yaml"), "--home", str(tmp_path / "home")]
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "TRIAGE_CACHE": str(cache)}
    done = subprocess.run(command, capture_output=True, text=True, env=environment, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


def test_beds_and_plants_as_last_said(triage: Run) -> None:
    assert told(triage("garden", "bed", "window", "--crops", "Basil", "--kind", "raft", "--json"))["bed"] == {
        "name": "window", "kind": "raft", "crops": ["basil"],
    }  # fmt: skip
    bed = told(triage("garden", "bed", "window", "--note", "leaks", "--json"))["bed"]
    assert (bed["crops"], bed["note"]) == (["basil"], "leaks")
    plant = told(triage("garden", "plant", "row 2", "--bed", "window", "--crop", "basil", "--json"))["plant"]
    assert plant == {"name": "row 2", "bed": "window", "crop": "basil"}


def test_photos_are_known_again(grown: Run, tmp_path: Path) -> None:
    leaf = tmp_path / "leaf.jpg"
    leaf.write_bytes(b"leaf")
    kept = told(grown("case", "photo", "1", "leaf.jpg", "--on", "2026-05-04", "--json"))["photos"]
    assert kept[0]["photo"]["sha256"] == hashlib.sha256(b"leaf").hexdigest()
    assert "as it was" in grown("case", "photo", "1").stdout
    leaf.write_bytes(b"lead")
    changed = grown("case", "photo", "1")
    assert changed.returncode == 1
    assert "CHANGED" in changed.stdout
    refused = grown("case", "photo", "1", "leaf.jpg", "none.jpg")
    assert refused.returncode == 2
    assert len(told_photos(grown)) == 1  # all of them, or none


def told_photos(run: Run) -> Any:
    return json.loads(run("case", "photo", "1", "--json").stdout)["photos"]


def test_what_was_done_is_set_right_and_the_history_keeps_both(grown: Run) -> None:
    grown("case", "did", "1", "iron", "chelate,", "20", "g", "--on", "2026-05-05")
    grown("case", "correct", "1", "1", "iron chelate, 12 g", "--why", "misread the scale")
    history = told(grown("case", "history", "1", "--json"))["entries"]
    acts = [entry for entry in history if entry["kind"] == "action"]
    assert [(act["what"], act.get("stands", True)) for act in acts] == [
        ("iron chelate, 20 g", False),
        ("iron chelate, 12 g", True),
    ]
    assert acts[0]["why"] == "misread the scale"
    assert acts[1]["on"] == "2026-05-05"
    assert grown("case", "correct", "1", "1", "more").returncode == 2
    assert grown("case", "correct", "1", "2", "--withdraw").returncode == 0
    shown = " ".join(grown("case", "history", "1").stdout.split())
    assert "replaced by number 2 (misread the scale)" in shown
    assert "taken back" in shown
    assert "advised: Spider mites (book" in shown


def test_a_reading_is_set_right(triage: Run) -> None:
    triage("water", "add", "ph=6.2", "--on", "2026-05-04", "--kit", "card")
    listed = triage("water", "history", "ph").stdout
    assert listed.split()[:2] == ["1", "2026-05-04"]
    assert triage("water", "correct", "1", "ph=7.2", "--why", "lamp light").returncode == 0
    found = told(triage("water", "history", "--json"))["readings"]
    assert [(each["reading"]["value"], each["fate"]) for each in found] == [(6.2, "replaced"), (7.2, "")]
    assert found[1]["reading"]["kit"] == "card"
    assert triage("water", "correct", "2", "--withdraw").returncode == 0
    assert triage("water", "correct", "2", "--withdraw").returncode == 2


WRONG = [
    (["garden", "--on", "May"], "not a date"),
    (["garden", "--json", "learn", "on"], "behind the command"),
    (["garden", "bed", " "], "needs a name"),
    (["garden", "bed", "b", "--crops", "bassil"], "nearest: 'basil'"),
    (["garden", "plant", "p", "--planted", "May"], "not a date"),
    (["case", "outcome", "1"], "--nothing"),
    (["case", "outcome", "1", "aphids", "--nothing"], "--nothing"),
    (["case", "outcome", "1", "aphidz"], "nearest: 'aphids'"),
    (["case", "outcome", "9", "aphids"], "no case 9"),
    (["case", "place", "1"], "--bed NAME"),
    (["case", "photo", "1", "none.jpg"], "cannot be read"),
    (["case", "correct", "1", "5", "x"], "no action number 5"),
    (["case", "history", "9"], "no case 9"),
    (["water", "correct", "5", "ph=7"], "no reading number 5"),
]


@pytest.mark.parametrize(("words", "said"), WRONG, ids=[" ".join(words) for words, _ in WRONG])
def test_wrong_use_changes_nothing_and_says_why(grown: Run, words: list[str], said: str) -> None:
    before = grown("journal", "export").stdout
    done = grown(*words)
    assert done.returncode == 2
    assert said in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert grown("journal", "export").stdout == before
