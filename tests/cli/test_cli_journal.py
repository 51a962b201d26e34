"""`triage journal`: out and in again, one clear line for what cannot be."""

from __future__ import annotations

import json
import os
import sqlite3
from pathlib import Path
from typing import Any

import pytest

from triage.journal import JOURNAL_FILE, Answer, Journal, check_journal, open_journal
from triage.model.case import System
from triage.model.quantity import Reading


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A home with a case and a reading."""
    with open_journal(tmp_path / "home", now=lambda: "2026-05-04T10:00:00") as journal:
        journal.add_readings([Reading(quantity="ph", value=7.2, low=7.1, high=7.3, on="2026-05-04")])
        case_id = journal.begin_case("2026-05-04", "basil", System(volume_l=1000.0))
        journal.record_answer(case_id, Answer(kind="words", payload='{"text":"webs"}'))
    return tmp_path / "home"


def export_of(home: Path) -> str:
    lines: list[str] = []
    with open_journal(home, now=lambda: "", read_only=True) as journal:
        journal.export_lines(lines.append)
    return "".join(lines)


def test_export_and_import_give_the_same_lines(triage: Any, home: Path, tmp_path: Path) -> None:
    assert triage("journal", "export", "out.jsonl", "--home", str(home)).returncode == 0
    assert triage("journal", "import", "out.jsonl", "--home", "second").returncode == 0
    again = triage("journal", "export", "--home", "second")
    assert again.stdout == (tmp_path / "out.jsonl").read_text(encoding="utf-8") == export_of(home)
    assert not list(tmp_path.glob("*.part"))


def test_what_was_written_is_said_as_json(triage: Any, home: Path) -> None:
    said = json.loads(triage("journal", "export", "out.jsonl", "--json", "--home", str(home)).stdout)
    assert said == {"format": "triage-journal-export/1", "file": "out.jsonl", "entries": 3}
    said = json.loads(triage("journal", "import", "out.jsonl", "--json", "--home", "second").stdout)
    assert said["entries"] == 3
    said = json.loads(triage("journal", "check", "--json", "--home", "second").stdout)
    assert said["damage"] == []


def test_a_backup_into_a_folder_is_a_journal(triage: Any, home: Path, tmp_path: Path) -> None:
    (tmp_path / "stick").mkdir()
    assert triage("journal", "backup", "stick", "--home", str(home)).returncode == 0
    (copy,) = (tmp_path / "stick").iterdir()
    (tmp_path / "restored").mkdir()
    copy.rename(tmp_path / "restored" / JOURNAL_FILE)
    assert check_journal(tmp_path / "restored") == []
    assert export_of(tmp_path / "restored") == export_of(home)


def one_line(done: Any) -> str:
    assert done.returncode == 2
    assert done.stdout == ""
    (line,) = done.stderr.splitlines()
    return str(line)


def test_nothing_is_written_over(triage: Any, home: Path, tmp_path: Path) -> None:
    (tmp_path / "out.jsonl").write_text("precious")
    for words in (["export", "out.jsonl"], ["backup", "out.jsonl"]):
        assert "already" in one_line(triage("journal", *words, "--home", str(home)))
    assert (tmp_path / "out.jsonl").read_text() == "precious"
    assert triage("journal", "export", "out.jsonl", "--replace", "--home", str(home)).returncode == 0


def test_wrong_use(triage: Any, home: Path, tmp_path: Path) -> None:
    assert "nothing is kept" in one_line(triage("journal", "export", "--home", "nowhere"))
    assert "needs a file" in one_line(triage("journal", "export", "--json", "--home", str(home)))
    assert "cannot be read" in one_line(triage("journal", "import", "nowhere.jsonl", "--home", "second"))
    assert "cannot be written" in one_line(triage("journal", "export", "no/where.jsonl", "--home", str(home)))
    (tmp_path / "bad.jsonl").write_bytes(b'{"format":"triage-journal/1","version":1}\n\xff\xfe\n')
    assert "not a line of an exported journal" in one_line(triage("journal", "import", "bad.jsonl", "--home", "second"))
    triage("journal", "export", "out.jsonl", "--home", str(home))
    assert "already has entries" in one_line(triage("journal", "import", "out.jsonl", "--home", str(home)))


def test_no_room_left(triage: Any, home: Path) -> None:
    """/dev/full answers every write as a full disk does."""
    done = triage("journal", "export", "/dev/full", "--replace", "--home", str(home))
    assert "cannot be written" in one_line(done)


def test_damage_is_named_and_left_alone(triage: Any, home: Path) -> None:
    sql = sqlite3.connect(home / JOURNAL_FILE)
    sql.execute("DROP TRIGGER readings_no_update")
    sql.execute("UPDATE readings SET low = 9")
    sql.commit()
    sql.close()
    before = (home / JOURNAL_FILE).read_bytes()
    done = triage("journal", "check", "--home", str(home))
    assert done.returncode == 1
    assert "readings 1" in done.stdout
    assert "readings_no_update is missing" in done.stdout
    assert (home / JOURNAL_FILE).read_bytes() == before


def test_a_file_that_is_no_journal(triage: Any, tmp_path: Path) -> None:
    (tmp_path / "home").mkdir()
    (tmp_path / "home" / JOURNAL_FILE).write_bytes(os.urandom(8192))
    done = triage("journal", "check", "--home", "home")
    assert done.returncode == 1
    assert len(done.stdout.splitlines()) == 1
    assert "damaged" in one_line(triage("journal", "export", "--home", "home"))


def test_a_journal_in_use_is_exported_all_the_same(triage: Any, home: Path) -> None:
    """And one that is being written to says so to a second writer."""
    with open_journal(home, now=lambda: "2026-05-04T10:00:00") as journal:
        assert isinstance(journal, Journal)
        with journal.all_or_nothing():
            journal.save_system(System(volume_l=5.0))
            assert triage("journal", "export", "--home", str(home)).returncode == 0
            assert "in use" in one_line(triage("water", "add", "ph=7", "--home", str(home)))
