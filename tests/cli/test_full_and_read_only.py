"""A full disk and a home that cannot be written to, as a person meets them: one clear line, exit 2, nothing lost."""

from __future__ import annotations

import io
import os
import resource
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from triage.cli import main
from triage.journal import JOURNAL_FILE, CasePlace, check_journal, open_journal
from triage.model.case import System
from triage.model.quantity import Reading

#: Every command that writes into the journal.
WRITES = [
    ["setup", "--volume", "1000L"], ["water", "add", "ph=7.4"], ["water", "correct", "1", "ph=7.3"],
    ["case", "did", "1", "iron", "chelate"], ["case", "correct", "1", "1", "iron, 12 g"],
    ["case", "place", "1", "--bed", "wall"], ["case", "photo", "1", "leaf.jpg"],
    ["case", "outcome", "1", "iron-deficiency"], ["case", "recheck", "1", "--now", "better"],
    ["case", "close", "1", "--outcome", "well again"], ["garden", "bed", "door", "--crops", "basil"],
    ["garden", "plant", "row", "--crop", "basil"], ["garden", "learn", "off"],
]  # fmt: skip


def fill(home: Path) -> str:
    """A journal with a reading, a case and what was done; its export."""
    with open_journal(home, now=lambda: "2026-05-04T10:00:00") as journal:
        number = journal.begin_case("2026-05-04", "basil", System(volume_l=1000.0))
        journal.finish_case(number, "{}", "0.1.0", "f00d")
        journal.record_action(number, "iron, 20 g", "2026-05-05")
        journal.place_case(number, CasePlace(bed="window"))
        journal.add_readings([Reading(quantity="ph", value=7.2, low=7.1, high=7.3, on="2026-05-04")])
    return export(home)


def export(home: Path) -> str:
    lines: list[str] = []
    with open_journal(home, now=lambda: "", read_only=True) as journal:
        journal.export_lines(lines.append)
    return "".join(lines)


@contextmanager
def a_full_disk() -> Iterator[None]:
    """No file may grow beyond this, as where nothing is left."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (512, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


@contextmanager
def a_read_only_home(home: Path) -> Iterator[None]:
    """Nobody may write there, and permission bits count."""
    (home / JOURNAL_FILE).chmod(0o444)
    home.chmod(0o555)
    root = os.geteuid() == 0
    if root:
        os.seteuid(65534)
    try:
        yield
    finally:
        if root:
            os.seteuid(0)
        home.chmod(0o755)


@pytest.fixture(scope="module")
def warm() -> Iterator[Path]:
    """A folder with a compiled book that every user can read; everything that the commands import is imported by then,
    so that only the journal meets the fault."""
    folder = Path(tempfile.mkdtemp(prefix="warm-"))
    folder.chmod(0o755)
    (folder / "leaf.jpg").write_bytes(b"leaf")
    fill(folder / "home")
    for words in WRITES:
        with pytest.MonkeyPatch.context() as patch:
            patch.chdir(folder)
            assert run(words, folder / "home", folder / "cache", patch) == (0, ""), words
    for path in (folder / "cache", *(folder / "cache").iterdir()):
        path.chmod(0o755)
    yield folder / "cache"
    shutil.rmtree(folder)


def run(words: list[str], home: Path, cache: Path, patch: pytest.MonkeyPatch) -> tuple[int, str]:
    """Exit code and standard error of a command, run in this process so that the fault meets it alone."""
    said = io.StringIO()
    patch.setattr(sys, "stderr", said)
    patch.setattr(sys, "stdout", io.StringIO())
    patch.setenv("TRIAGE_CACHE", str(cache))
    patch.setattr(sys, "argv", ["triage", "--home", str(home), *words])
    with pytest.raises(SystemExit) as done:
        main()
    assert isinstance(done.value.code, int)
    return done.value.code, said.getvalue()


@pytest.fixture
def home(monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A home that every user can get to (pytest's own folders are for one user)."""
    folder = Path(tempfile.mkdtemp(prefix="home-"))
    folder.chmod(0o755)
    (folder / "leaf.jpg").write_bytes(b"leaf")
    monkeypatch.chdir(folder)
    yield folder / "home"
    monkeypatch.undo()
    shutil.rmtree(folder)


@pytest.mark.parametrize("words", WRITES, ids=[" ".join(words[:2]) for words in WRITES])
def test_a_full_disk(words: list[str], home: Path, warm: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = fill(home)
    with a_full_disk():
        code, said = run(words, home, warm, monkeypatch)
    assert code == 2
    assert "disk is full" in said
    assert len(said.strip().splitlines()) == 1
    assert export(home) == before
    assert check_journal(home) == []


@pytest.mark.parametrize("words", WRITES, ids=[" ".join(words[:2]) for words in WRITES])
def test_a_read_only_home(words: list[str], home: Path, warm: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = fill(home)
    with a_read_only_home(home):
        code, said = run(words, home, warm, monkeypatch)
    assert code == 2
    assert "written to" in said
    assert len(said.strip().splitlines()) == 1
    assert export(home) == before


def test_a_home_that_cannot_be_made(triage: Any) -> None:
    done = triage("water", "add", "ph=7.2", "--home", "/proc/nowhere")
    assert done.returncode == 2
    assert "cannot be used" in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
