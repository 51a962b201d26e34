"""The language of what a person reads: asked for, or of the locale; programs and the journal get English."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

from triage.cli.language import choose_language

Run = Callable[..., "CompletedProcess[str]"]
DEMO = Path(__file__).resolve().parents[2] / "demo"
IRON = ("plant", "--from", str(DEMO / "iron.yaml"))
NOTHING = {"LANGUAGE": "", "LC_ALL": "", "LC_MESSAGES": "", "LANG": ""}


def test_german_is_spoken_when_asked_for(triage: Run) -> None:
    shown = triage("--language", "de", *IRON).stdout
    assert "Was es am ehesten ist" in shown
    assert "Eisenmangel: sehr wahrscheinlich" in shown
    assert "What it most likely is" not in shown


@pytest.mark.parametrize(
    ("locale", "german"),
    [
        ({"LANG": "de_DE.UTF-8"}, True), ({"LC_ALL": "de_AT.UTF-8", "LANG": "en_GB.UTF-8"}, True),
        ({"LC_MESSAGES": "de_CH"}, True), ({"LANGUAGE": "fr:de", "LANG": "C"}, True),
        ({"LANGUAGE": "en:de", "LANG": "de_DE.UTF-8"}, False), ({"LC_ALL": "C.UTF-8", "LANG": "de_DE.UTF-8"}, False),
        ({"LANG": "fr_FR.UTF-8"}, False), ({}, False),
    ],
)  # fmt: skip
def test_the_first_variable_that_says_something_decides(triage: Run, locale: dict[str, str], german: bool) -> None:
    shown = triage(*IRON, **{**NOTHING, **locale}).stdout
    assert ("Eisenmangel" in shown, "Iron shortage" in shown) == (german, not german)


@pytest.mark.parametrize(
    "words",
    [
        IRON, ("spray", "soap", "--strength", "2%", "--amount", "1L", "--volume", "1000L", "--animals", "tilapia"),
        ("water", "check", "ph=7.4", "temperature=24", "tan=0.5"), ("book", "show", "iron-deficiency"),
    ],
    ids=lambda words: words[0],
)  # fmt: skip
def test_programs_get_english_under_any_locale(triage: Run, words: tuple[str, ...]) -> None:
    english = triage(*words, "--json", **NOTHING)
    german = triage(*words, "--json", **{**NOTHING, "LC_ALL": "de_DE.UTF-8"})
    assert german.stdout == english.stdout
    assert english.stdout.startswith("{")


def test_a_language_that_nobody_translated_is_refused(triage: Run) -> None:
    refused = triage("--language", "xx", *IRON)
    assert refused.returncode == 2
    assert "no translation into 'xx' (allowed: en, de)" in refused.stderr


def test_a_case_is_kept_in_english_and_told_in_german(triage: Run, tmp_path: Path) -> None:
    home = ("--home", str(tmp_path / "home"))
    triage(*home, "setup", "--volume", "1000L", "--animals", "tilapia")
    typed = "\nBasilikum\ntiny yellow dots on top of the leaf\n\n" + "t\n" * 20
    first = triage(*home, "--language", "de", "plant", "--on", "2026-05-04", typed=typed)
    assert "Genommen als" not in first.stdout  # the German name is the one it has
    assert "Gespeichert als Fall 1" in first.stdout
    kept = json.loads(triage(*home, "case", "show", "1", "--json", **NOTHING).stdout)["report"]
    assert kept["suspects"][0]["name"] == "Spider mites"
    assert "nur englisch" not in json.dumps(kept, ensure_ascii=False)
    shown = triage(*home, "--language", "de", "case", "show", "1").stdout
    assert "Spinnmilben" in shown
    assert "Spider mites" not in shown


def test_a_translation_of_the_growers_own_wins_and_the_rest_stays(triage: Run, tmp_path: Path) -> None:
    own = tmp_path / "home" / "knowledge"
    (own / "languages" / "de").mkdir(parents=True)
    (own / "languages" / "de" / "crops.yaml").write_text("basil:\n  name: Königskraut\n", encoding="utf-8")
    shown = triage("--home", str(tmp_path / "home"), "--language", "de", *IRON).stdout
    assert "Königskraut" in shown  # the grower's own word wins
    assert "Eisenmangel" in shown


def test_english_reads_no_translation(triage: Run) -> None:
    code = (
        "import sys; sys.argv = ['triage', *sys.argv[1:]]\n"
        "from triage.cli import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        "wanted = ('triage.cli.language', 'triage.book.languages', 'triage.screens.speech')\n"
        "print([name for name in wanted if name in sys.modules])"
    )
    root = Path(__file__).resolve().parents[2]
    warm = triage(*IRON)  # the book is compiled now
    assert warm.returncode == 0
    done = subprocess.run(
        [sys.executable, "-c", code, *IRON], capture_output=True, text=True, cwd=root, check=False, timeout=60,
        env={"PATH": "/usr/bin:/bin", "PYTHONPATH": str(root), "TRIAGE_CACHE": "", "HOME": str(root / "nowhere")},
    )  # fmt: skip
    assert done.stdout.splitlines()[-1] == "[]"


def test_names_of_languages() -> None:
    own = Path("nowhere")
    assert choose_language("de_DE", "", own) == "de"
    assert choose_language("en", "de_DE", own) == ""
    assert choose_language(None, "pt_BR:de", own) == "de"


def test_short_answers_are_in_the_language_that_is_read(triage: Any, tmp_path: Path) -> None:
    german = ("--home", str(tmp_path), "--language", "de")
    said = triage(*german, "water", "add", "ph=7.2", "iron<=0.1", "--on", "2026-05-01", **NOTHING).stdout
    assert said == "2 eingetragen für 2026-05-01\n"
    assert "Stattdessen Nummer 3: ph=7.3." in triage(*german, "water", "correct", "1", "ph=7.3", **NOTHING).stdout
    lines = triage(*german, "water", "history", **NOTHING).stdout.splitlines()
    told = {line.split(maxsplit=2)[2] for line in lines}
    assert told == {"pH 7.2, ersetzt durch Nummer 3", "Eisen höchstens 0.1 mg/L", "pH 7.3"}
    assert triage(*german, "journal", "check", **NOTHING).stdout == "Das Tagebuch ist heil.\n"
