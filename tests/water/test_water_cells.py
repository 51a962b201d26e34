"""Cells of exported tables: nothing a spreadsheet reckons with, and every digit of a number."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.water.cells import guard_text, number_text, unguard_text


@given(st.text(max_size=20))
def test_what_was_guarded_comes_back(text: str) -> None:
    guarded = guard_text(text)
    assert unguard_text(guarded) == text
    assert not guarded or guarded[0] not in "=+-@\t\r"


@pytest.mark.parametrize("text", ["'tis cold", "'", "", "row 2", "a=1", "7.2"])
def test_an_apostrophe_that_guards_nothing_stays(text: str) -> None:
    assert unguard_text(text) == text


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_every_digit_is_kept_without_an_exponent(value: float) -> None:
    text = number_text(value)
    assert float(text) == value
    assert "e" not in text.lower()


def test_what_has_no_end_or_is_not_known_is_empty() -> None:
    assert [number_text(value) for value in (None, math.inf, -math.inf, math.nan)] == ["", "", "", ""]
    assert [number_text(value) for value in (7.0, 100.0, 0.5, 1e21)] == ["7", "100", "0.5", "1" + "0" * 21]
