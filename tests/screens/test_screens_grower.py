"""The written grower answers what its case says and nothing else; the demo plays with it."""

from __future__ import annotations

import pytest

from triage.model.case import Case
from triage.report.case_report import OptionLine, QuestionLine
from triage.screens.grower import WrittenGrower


def question(*options: str, pick: str = "any") -> QuestionLine:
    lines = tuple(OptionLine(id=option, name=option) for option in options)
    return QuestionLine(id="q", ask="?", look="", pick=pick, options=lines, why="", bits=0.1)


CASE = Case(on="2026-05-04", seen=frozenset({"a", "b"}), absent=frozenset({"x", "y"}), unsure=frozenset({"c"}))


@pytest.mark.parametrize(
    ("options", "pick", "typed"),
    [
        (("a", "x", "b"), "any", "1 3"),
        (("x", "c", "a"), "any", "3 2?"),
        (("x", "a", "b"), "one", "2"),
        (("x", "c"), "one", "2?"),
        (("x", "y"), "any", "0"),
        (("x", "unknown"), "any", "t"),
        (("x", "y", "unknown"), "any", "0"),
        (("a",), "one", "1"),
        (("c",), "any", "1?"),
    ],
)
def test_it_says_what_its_case_says(options: tuple[str, ...], pick: str, typed: str) -> None:
    assert WrittenGrower(CASE).choice(question(*options, pick=pick)) == typed


def test_nobody_is_there_before_a_series_asks() -> None:
    with pytest.raises(EOFError):
        WrittenGrower(CASE).ask("?")
