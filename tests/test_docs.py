"""The documents are held to the program."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import click
import pytest

from triage.book.codes import CODES
from triage.cli import triage as command
from triage.journal import open_journal
from triage.model.case import System

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
EXAMPLE = re.compile(r"Example: (triage [^\n]+)")


def every_command() -> list[tuple[str, click.Command]]:
    """Every command with its path, groups left out."""
    found = []
    context = click.Context(command)
    for name in command.list_commands(context):
        child = command.get_command(context, name)
        assert child is not None
        if isinstance(child, click.Group):
            found += [(f"{name} {sub}", each) for sub, each in child.commands.items()]
        else:
            found.append((name, child))
    return found


def test_every_check_code_is_explained_in_the_guide() -> None:
    listed = dict(re.findall(r"^\| (KB\d+) \| (.+) \|$", GUIDE, re.MULTILINE))
    assert listed == CODES


@pytest.mark.parametrize("name", [name for name, _ in every_command()])
def test_every_command_takes_home_and_most_take_json(name: str) -> None:
    options = {option for parameter in dict(every_command())[name].params for option in parameter.opts}
    assert "--home" in options
    assert name == "demo" or "--json" in options


def test_the_readme_names_every_command() -> None:
    for name in {name.split()[0] for name, _ in every_command()}:
        assert f"triage {name}" in README


def test_the_two_commands_stand_in_the_readme_and_the_test_one_in_ci() -> None:
    assert ".venv/bin/pip install -q . && .venv/bin/triage demo" in README
    assert ".venv/bin/pip install -q '.[test]' && .venv/bin/python -m pytest" in README
    assert 'python" -m pytest' in (ROOT / ".ci" / "run").read_text(encoding="utf-8")


def test_commands_of_the_readme_run(triage: Any, tmp_path: Path) -> None:
    """Each line of the list beside the plant, as it stands (the series and the demo have tests of their own)."""
    import shlex

    (tmp_path / "CASE.yaml").write_text("crop: basil\nwords: webbing\non: 2026-05-04\n", encoding="utf-8")
    (tmp_path / "DIR").mkdir()
    (tmp_path / "DIR" / "one.yaml").write_text("crop: basil\nseen: [webbing]\n", encoding="utf-8")
    (tmp_path / "tests.csv").write_text("date;pH;nitrate (mg/L NO3)\n3.5.2026;7,2;40\n", encoding="utf-8")
    with open_journal(tmp_path / "data" / "triage", now=lambda: "2026-05-04T10:00:00") as journal:
        case = journal.begin_case("2026-05-04", "basil", System(volume_l=1000.0))
        journal.finish_case(case, "{}", "0", "0")
    lines = re.findall(r"^    (triage (?:plant --from|spray|water|today|case|book)\b.*)$", README, re.MULTILINE)
    assert len(lines) >= 7
    for text in lines:
        words = shlex.split(text.split("   ")[0])[1:]
        done = triage(*words)
        assert done.returncode == 0, (text, done.stderr)


def test_the_screen_in_the_readme_is_what_the_program_prints(triage: Any) -> None:
    shown = re.search(r"```text\n(.*?)\n```", README, re.DOTALL)
    assert shown
    done = triage("plant", "--from", str(ROOT / "demo" / "iron.yaml"))
    assert shown[1].strip() == done.stdout.strip()


def test_nothing_in_the_repository_reaches_outside_it() -> None:
    for path in [*ROOT.glob("tests/**/*.py"), *ROOT.glob("triage/**/*.py"), ROOT / ".ci" / "run"]:
        assert "../" + "shared" not in path.read_text(encoding="utf-8")
