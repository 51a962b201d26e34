"""`triage book show` with pictures, and that nothing of them is loaded unless one is shown."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[3]


@pytest.mark.parametrize("columns", [60, 80])
def test_show_a_finding_with_its_picture_and_words(triage: Any, columns: int) -> None:
    done = triage("book", "show", "brown-leaf-edges", columns=columns)
    assert done.returncode == 0, done.stderr
    words = " ".join(done.stdout.split())
    assert "The edge of the leaf is brown and dry all round, the middle is green." in words
    assert "bbb" in done.stdout
    assert "Letters: : green" in words
    assert "\x1b" not in done.stdout
    assert all(len(line) <= columns for line in done.stdout.splitlines())


def test_words_only_when_asked(triage: Any) -> None:
    done = triage("book", "show", "brown-leaf-edges", "--no-picture")
    assert "Letters:" not in done.stdout
    assert "brown-leaf-edges" in done.stdout


def test_show_a_cause_on_the_leaf_of_a_crop(triage: Any) -> None:
    oval, three = (triage("book", "show", "iron-deficiency", *crop).stdout for crop in ((), ("--crop", "strawberries")))
    assert oval != three
    assert "net drawn with a fine pen" in " ".join(oval.split())


def test_show_several_entries_and_a_picture_by_its_own_id(triage: Any) -> None:
    done = triage("book", "show", "lens-aphids", "aphids")
    assert done.returncode == 0, done.stderr
    assert done.stdout.count("2 mm") >= 2
    assert "lens-aphids  (picture)" in done.stdout


def test_an_entry_without_a_picture_is_shown_as_ever(triage: Any) -> None:
    done = triage("book", "show", "sludge-built-up")
    assert done.returncode == 0
    assert "Letters:" not in done.stdout


def test_write_pictures_and_never_over_another_file_unasked(triage: Any, tmp_path: Path) -> None:
    words = ("book", "show", "aphids", "thrips", "--svg", "two.svg")
    assert triage(*words).returncode == 0
    first = (tmp_path / "two.svg").read_text(encoding="utf-8")
    assert first.startswith("<svg")
    again = triage(*words)
    assert again.returncode == 2
    assert "--replace" in again.stderr
    assert triage(*words, "--replace").returncode == 0
    assert (tmp_path / "two.svg").read_text(encoding="utf-8") == first


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["book", "show", "sludge-built-up", "--svg", "x.svg"], "no picture of 'sludge-built-up'"),
        (["book", "show", "iron-deficiency", "--crop", "cucumbr"], "nearest: 'cucumber'"),
        (["book", "show", "iron-deficiensy", "--svg", "x.svg"], "nearest: 'iron-deficiency'"),
        (["book", "show", "aphids", "--svg", "no/such/folder/x.svg"], "cannot be written"),
        (["book", "show"], "ID"),
    ],
)
def test_wrong_use_gets_one_clear_line(triage: Any, tmp_path: Path, words: list[str], says: str) -> None:
    done = triage(*words)
    assert done.returncode == 2
    assert says in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "x.svg").exists()


@pytest.mark.parametrize(
    "words",
    [["book", "show", "sludge-built-up"], ["book", "find", "mite"], ["plant", "--help"], ["water", "check", "ph=7"]],
)
def test_nothing_of_the_pictures_is_loaded_unless_one_is_shown(words: list[str], tmp_path: Path) -> None:
    program = (
        "import sys\nfrom triage.cli import main\nsys.argv = ['triage', *sys.argv[1:]]\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        "print([name for name in sys.modules if 'pictures' in name], file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", program, "--home", str(tmp_path), *words], capture_output=True, text=True, cwd=ROOT,
        timeout=60, check=False,
    )  # fmt: skip
    assert done.stderr.splitlines()[-1] == "[]"
