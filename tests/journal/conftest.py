"""A clock that never stands still, and journals in throw-away homes."""

from __future__ import annotations

import itertools
import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from triage.journal import Journal, open_journal


def ticking() -> Callable[[], str]:
    """Times one second apart, beginning on the morning of 4 May 2026."""
    seconds = itertools.count()
    return lambda: f"2026-05-04T10:{next(seconds) // 60 % 60:02d}:{next(seconds) % 60:02d}"


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "home"


@pytest.fixture
def journal(home: Path) -> Iterator[Journal]:
    with open_journal(home, now=ticking()) as journal:
        yield journal


@contextmanager
def _ordinary_user() -> Iterator[None]:
    root = os.geteuid() == 0
    if root:
        os.seteuid(65534)  # permission bits do not bind root
    try:
        yield
    finally:
        if root:
            os.seteuid(0)


@pytest.fixture
def as_ordinary_user() -> Callable[[], object]:
    """A context in which permission bits count."""
    return _ordinary_user


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that every user can get to (pytest's own are for one user)."""
    folder = Path(tempfile.mkdtemp(prefix="journal-"))
    folder.chmod(0o755)
    yield folder
    for path in (folder, *folder.rglob("*")):
        path.chmod(0o755)
    shutil.rmtree(folder)
