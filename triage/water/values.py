"""A measured value as people write it: a bound, a number or a range, a unit behind it."""

from __future__ import annotations

import math
import re

import msgspec

from ..errors import UsageError
from ..model.quantity import Bound

_BOUNDS: dict[str, Bound] = {"<=": "<=", "=<": "<=", "≤": "<=", ">=": ">=", "=>": ">=", "≥": ">=", "<": "<", ">": ">"}
_NUMBER = r"[+-]?(?:\d[\d.,]*|[.,]\d+)"
_VALUE = (
    rf"\s*(?P<bound><=|=<|≤|>=|=>|≥|<|>|=)?\s*(?P<low>{_NUMBER})"
    rf"(?:\s*(?:\.\.|–|-|\bto\b)\s*(?P<high>{_NUMBER}))?\s*(?P<unit>\D.*)?$"
)


class Value(msgspec.Struct, frozen=True):
    """What was written: bound, lower and upper number (equal unless a range was written), unit (may be empty)."""

    bound: Bound
    low: float
    high: float
    unit: str


def parse_number(text: str) -> float:
    """A number with a decimal point, or with a decimal comma where it cannot be a thousands mark.

    Raises:
        UsageError: the text can be read in two ways, or is no number.

    >>> parse_number("0,125"), parse_number("7,2"), parse_number("12.5")
    (0.125, 7.2, 12.5)
    """
    whole, comma, decimals = text.lstrip("+-").partition(",")
    if comma and ("." in text or "," in decimals or (len(decimals) == 3 and whole.strip("0") and len(whole) <= 3)):
        raise UsageError(f"'{text}' can be read in two ways (write a decimal point and no mark for thousands)")
    try:
        return float(text.replace(",", ".").rstrip("."))
    except ValueError:
        raise UsageError(f"'{text}' is not a number (write it like 0.25)") from None


def parse_value(text: str | float) -> Value:
    """A bound, a number or range, and the unit behind it.

    Args:
        text: such as ``0.6``, ``<= 0.1``, ``0.6 mg/L``, ``6.4-6.8`` or ``6.4..6.8``; or a number.

    Raises:
        UsageError: one line on what cannot be read.

    >>> parse_value("<= 0,1 mg/L")
    Value(bound='<=', low=0.1, high=0.1, unit='mg/L')
    >>> parse_value("6.4..6.8")
    Value(bound='=', low=6.4, high=6.8, unit='')
    """
    if not isinstance(text, str):
        return Value("=", _finite(float(text)), float(text), "")
    # two dots join the ends of a range and belong to neither number
    match = re.match(_VALUE, text.replace("..", " .. "))
    if match is None:
        raise UsageError(f"'{text}' is not a value (write a number, or a limit such as <=0.25 with a unit behind it)")
    low = parse_number(match["low"])
    high = parse_number(match["high"]) if match["high"] else low
    bound = _BOUNDS.get(match["bound"] or "=", "=")
    if low > high or (match["high"] and bound != "="):
        raise UsageError(f"'{text}' is not a range (write the lower number first, and no limit sign)")
    return Value(bound, low, high, (match["unit"] or "").strip())


def _finite(value: float) -> float:
    if not math.isfinite(value):
        raise UsageError(f"'{value}' is not a measured value (write a number)")
    return value
