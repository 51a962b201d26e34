"""What the ranking would name in a cause's place."""

from __future__ import annotations

import pytest

from triage.model.cause import Cause
from triage.model.finding import Finding
from triage.ranking.neighbours import nearest

FINDINGS = {
    name: Finding(finding=name, kind="symptom", name=name, place="leaf", sources=["our-judgement"]) for name in "fgh"
}


def cause(name: str, status: str = "reviewed", **shows: str) -> Cause:
    return Cause(
        cause=name, kind="pest", name=name, plain=name, base="common", shows=shows, settle=["look"], status=status,
        sources=["our-judgement"],
    )  # fmt: skip


def test_the_one_that_shows_the_same_is_nearest_and_strangers_are_not() -> None:
    book = {
        "a": cause("a", f="usually", g="usually"),
        "b": cause("b", f="usually", g="often"),
        "c": cause("c", h="usually"),
        "old": cause("old", "retired", f="usually", g="usually"),
    }
    assert nearest(book, FINDINGS) == {"a": ("b",), "b": ("a",), "c": ()}


def test_a_finding_that_is_not_there_is_refused() -> None:
    with pytest.raises(ValueError, match="not a finding"):
        nearest({"a": cause("a", f="usually"), "b": cause("b", x="usually")}, FINDINGS)
