"""Reasons filled from facts, and readings as they were measured."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.quantity import Bound, Reading
from triage.rules.texts import Said, fill, number_text, say_reading


@pytest.mark.parametrize(
    ("value", "bound", "unit", "said"),
    [
        (7.4, "=", "pH", "7.4"),
        (7.0, "=", "", "7"),
        (0.1, "<=", "mg/L", "≤ 0.1 mg/L"),
        (8.0, ">=", "mg/L", "≥ 8 mg/L"),
        (8.0, ">", "mg/L", "> 8 mg/L"),
        (0.00001, "<", "mg/L", "< 0.00001 mg/L"),
        (1250000.0, "=", "µS/cm", "1250000 µS/cm"),
    ],
)
def test_a_measured_value_is_said_as_measured(value: float, bound: Bound, unit: str, said: str) -> None:
    reading = Reading(quantity="ph", value=value, bound=bound, unit=unit, low=value, high=value)
    assert str(say_reading(reading)) == said


def test_a_derived_value_is_said_with_its_spread() -> None:
    reading = Reading(quantity="nh3", value=0.02, unit="mg/L", low=0.0123456, high=0.0349999, derived=True)
    assert str(say_reading(reading)) == "0.0123 to 0.035 mg/L"


@pytest.mark.parametrize(
    ("template", "said"),
    [
        ("{iron} mg/L is little", "≤ 0.1 mg/L is little"),
        ("{iron}mg/L is little", "≤ 0.1mg/L is little"),
        ("{iron} is little", "≤ 0.1 mg/L is little"),
        ("{iron} mg/Litre", "≤ 0.1 mg/L mg/Litre"),
        ("{iron}", "≤ 0.1 mg/L"),
        ("{oxygen} is little", "not known is little"),
        ("no name at all", "no name at all"),
    ],
)
def test_a_unit_is_said_once(template: str, said: str) -> None:
    assert fill(template, {"iron": Said("≤ 0.1", "mg/L")}) == said


@given(st.floats(min_value=1e-9, max_value=1e9), st.integers(min_value=2, max_value=10))
def test_a_number_keeps_its_digits_and_has_no_exponent(value: float, digits: int) -> None:
    text = number_text(value, digits)
    assert "e" not in text
    assert math.isclose(float(text), value, rel_tol=10.0 ** (1 - digits))


def test_zero_and_negative_numbers() -> None:
    assert [number_text(value) for value in (0.0, -0.0, -12.5, 100.0)] == ["0", "0", "-12.5", "100"]
