"""The water commands as a person runs them: piped, without colour, at 60 columns, with an example in each help."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

NOTES = "date,pH,KH (dKH),GH (dGH),nitrate (mg/L NO3),tan\n" + "".join(
    f"2026-04-{day:02d},{6.6 + day / 40:.2f},{3 + day // 9},{6 + day // 7},{20 + day},0.1\n" for day in range(1, 30, 4)
)
COMMANDS = [
    ["water", "why", "ph", "--on", "2026-05-01", "--volume", "1000L"],
    ["water", "why", "nitrate", "--on", "2026-05-01"],
    ["water", "show", "--on", "2026-05-01"],
    ["water", "show", "ph", "--on", "2026-05-01"],
    ["water", "check", "ph=7.6", "temperature=25", "tan=1", "iron=1", "ec=2mS/cm", "--animals", "tilapia,shrimp",
     "--crops", "strawberry"],
    ["dose", "ph", "--to", "7.0", "ph=6.4", "kh=2dKH", "temperature=24", "--volume", "1000L", "--animals", "tilapia"],
    ["dose", "iron", "--to", "2", "ph=7.4", "iron=0.1", "--volume", "1000L"],
    ["dose", "ph", "--to", "6.5", "ph=7.8", "kh=8dKH", "--with", "hydrochloric acid", "--volume", "1000L"],
    ["water", "import", "more.csv", "--preview"],
]  # fmt: skip


@pytest.mark.parametrize("columns", [60, 80])
@pytest.mark.parametrize("words", COMMANDS, ids=[" ".join(words[:3]) for words in COMMANDS])
def test_screens_keep_to_the_width_and_hold_no_escape(
    triage: Any, tmp_path: Path, words: list[str], columns: int
) -> None:
    (tmp_path / "notes.csv").write_text(NOTES, encoding="utf-8")
    (tmp_path / "more.csv").write_text(NOTES + "2026-04-31,7,4,6,20,0\n", encoding="utf-8")
    assert triage("water", "import", "notes.csv").returncode == 0
    done = triage(*words, columns=columns)
    assert done.returncode == (1 if "more.csv" in words else 0), done.stderr
    assert "\x1b" not in done.stdout
    assert max(len(line) for line in done.stdout.splitlines()) <= columns


def test_a_terminal_without_the_letters_still_gets_its_charts(triage: Any, tmp_path: Path) -> None:
    (tmp_path / "notes.csv").write_text(NOTES, encoding="utf-8")
    assert triage("water", "import", "notes.csv").returncode == 0
    done = triage("water", "show", "--on", "2026-05-01", PYTHONIOENCODING="ascii")
    assert done.returncode == 0, done.stderr
    assert "pH" in done.stdout


@pytest.mark.parametrize("command", ["water import", "water why", "water show", "water check", "dose"])
def test_every_water_command_has_help_with_an_example(triage: Any, command: str) -> None:
    done = triage(*command.split(), "--help")
    assert done.returncode == 0
    assert "Example: triage" in " ".join(done.stdout.split())


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["water", "why", "colour"], "no reason is known for 'colour'"),
        (["water", "why", "ph", "--seen", "stones-fizz"], "no finding 'stones-fizz'"),
        (["water", "import", "nowhere.csv"], "nowhere.csv"),
        (["water", "show", "phh"], "no reading 'phh'"),
        (["dose", "iron", "--to", "plenty"], "plenty"),
        (["dose", "love", "--to", "2"], "no reading 'love'"),
        (["dose", "iron", "--to", "2", "--days", "0"], "--days"),
    ],
)
def test_wrong_use_gets_one_clear_line_and_exit_2(triage: Any, words: list[str], said: str) -> None:
    done = triage(*words)
    assert done.returncode == 2
    assert done.stdout == ""
    assert said in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
