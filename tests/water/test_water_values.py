"""Numbers and values as people write them, units as they are said."""

from __future__ import annotations

import math

import pytest

from triage.errors import UsageError
from triage.water.spoken import spoken_unit
from triage.water.values import Value, parse_number, parse_value

TWO_WAYS = "'{}' can be read in two ways (write a decimal point and no mark for thousands)"
NO_NUMBER = "'{}' is not a number (write it like 0.25)"
NO_VALUE = "'{}' is not a value (write a number, or a limit such as <=0.25 with a unit behind it)"
NO_RANGE = "'{}' is not a range (write the lower number first, and no limit sign)"


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("0,125", 0.125), ("00,125", 0.125), ("1,5", 1.5), ("12,34", 12.34), ("1234,567", 1234.567), ("7.", 7.0),
        ("7,", 7.0), ("-0,125", -0.125), ("+1,5", 1.5), ("1234", 1234.0), ("1,2345", 1.2345), (",125", 0.125),
    ],
)  # fmt: skip
def test_a_comma_that_can_only_be_a_decimal_one(text: str, number: float) -> None:
    assert parse_number(text) == number


@pytest.mark.parametrize("text", ["1,234", "12,345", "123,456", "-1,234", "+1,234", "1,234,567", "1.234,5", "1,234.5"])
def test_what_can_be_read_in_two_ways(text: str) -> None:
    with pytest.raises(UsageError) as refused:
        parse_number(text)
    assert str(refused.value) == TWO_WAYS.format(text)


@pytest.mark.parametrize("text", ["", "abc", "1.2.3", "--1"])
def test_what_is_no_number(text: str) -> None:
    with pytest.raises(UsageError) as refused:
        parse_number(text)
    assert str(refused.value) == NO_NUMBER.format(text)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("0.6", Value("=", 0.6, 0.6, "")),
        ("=0.6", Value("=", 0.6, 0.6, "")),
        ("  0.6 mg/L  ", Value("=", 0.6, 0.6, "mg/L")),
        ("6.4 to 6.8 pH", Value("=", 6.4, 6.8, "pH")),
        ("6,4–6,8", Value("=", 6.4, 6.8, "")),
        ("6.4 - 6.4", Value("=", 6.4, 6.4, "")),
        ("6..7", Value("=", 6.0, 7.0, "")),
        ("≥8", Value(">=", 8.0, 8.0, "")),
        ("=>8", Value(">=", 8.0, 8.0, "")),
        ("=<8", Value("<=", 8.0, 8.0, "")),
        ("> 8 °C", Value(">", 8.0, 8.0, "°C")),
        ("<8", Value("<", 8.0, 8.0, "")),
        (7.2, Value("=", 7.2, 7.2, "")),
        (7, Value("=", 7.0, 7.0, "")),
    ],
)
def test_values(text: str | float, value: Value) -> None:
    assert parse_value(text) == value


@pytest.mark.parametrize(
    ("text", "says"),
    [("", NO_VALUE), ("much", NO_VALUE), ("6.8-6.4", NO_RANGE), ("<=6.4-6.8", NO_RANGE), (">6..7", NO_RANGE)],
)
def test_what_is_no_value(text: str, says: str) -> None:
    with pytest.raises(UsageError) as refused:
        parse_value(text)
    assert str(refused.value) == says.format(text)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_nobody_measures(value: float) -> None:
    with pytest.raises(UsageError) as refused:
        parse_value(value)
    assert str(refused.value) == f"'{value}' is not a measured value (write a number)"


@pytest.mark.parametrize(
    ("unit", "low", "high", "said"),
    [
        ("fraction", 0.05, None, (100.0, "%")),
        ("pH", 7.2, None, (1.0, "")),
        ("mg/L", 3, 4, (1.0, "mg/L")),
        ("h", 3, 4, (1.0, "h")),
        ("of the limit", 1, None, (1.0, "times the limit")),
        ("of the limit", 0.99, None, (1.0, "of the limit")),
        ("of the limit", 1, 3, (1.0, "times the limit")),
        ("of the limit", 0.5, 3, (1.0, "of the limit")),
        ("of the limit", 1.2, 0.8, (1.0, "of the limit")),
        ("g/day", 1.2, 2, (1.0, "g/day")),
    ],
)
def test_units_as_they_are_said(unit: str, low: float, high: float | None, said: tuple[float, str]) -> None:
    """From the whole limit on it is said how many times; below it, what share of it."""
    assert spoken_unit(unit, low, high) == said
