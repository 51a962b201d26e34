"""What the tests against published values share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from triage.book.strict_yaml import parse_yaml

SHARED = Path(__file__).resolve().parents[2] / "shared"


@pytest.fixture(scope="module")
def strictly() -> Callable[[str], list[dict[str, Any]]]:
    """Reads a list below shared/ as strictly as the book is read."""

    def read(path: str) -> list[dict[str, Any]]:
        document = parse_yaml((SHARED / path).read_text(encoding="utf-8"), path)
        assert document.faults == []
        assert isinstance(document.data, list)
        return document.data

    return read
