"""What many tests share: the built-in book, and the command run as a person runs it."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import hypothesis
import pytest

from triage.book.load import load_book
from triage.model.book import Book

ROOT = Path(__file__).resolve().parent.parent
# The same made-up cases on every machine and day; HYPOTHESIS_PROFILE=search looks further with cases nobody has seen.
hypothesis.settings.register_profile("same", derandomize=True, deadline=None)
# "few" is for mutation testing, where the laws are tried thousands of times over.
few = {"max_examples": 25, "suppress_health_check": [hypothesis.HealthCheck.too_slow]}
hypothesis.settings.register_profile("few", derandomize=True, deadline=None, **few)
hypothesis.settings.register_profile("search", derandomize=False, deadline=None, max_examples=1000)
hypothesis.settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "same"))

os.environ["LANGUAGE"] = "en"  # screens are compared in English, whatever locale the tests run under

Run = Callable[..., "subprocess.CompletedProcess[str]"]


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--rewrite-golden", action="store_true", help="write tests/golden anew instead of comparing")


@pytest.fixture(scope="session")
def book() -> Book:
    """The built-in book."""
    return load_book()


@pytest.fixture(scope="session")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One folder of compiled books for the whole run."""
    return tmp_path_factory.mktemp("cache")


@pytest.fixture
def triage(tmp_path: Path, cache: Path) -> Run:
    """Run the command in a home of its own, without a terminal; columns, input and colour can be set."""

    def run(*words: str, columns: int = 80, typed: str = "", **extra: str) -> subprocess.CompletedProcess[str]:
        environment = {
            **os.environ, "PYTHONPATH": str(ROOT), "TRIAGE_CACHE": str(cache), "COLUMNS": str(columns),
            "XDG_DATA_HOME": str(tmp_path / "data"), "PYTHONIOENCODING": "utf-8", **extra,
        }  # fmt: skip
        return subprocess.run(
            [sys.executable, "-m", "triage", *words], input=typed, capture_output=True, text=True, cwd=tmp_path,
            env=environment, timeout=60, check=False,
        )  # fmt: skip

    return run
