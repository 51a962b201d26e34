"""Strengths, amounts, volumes and intervals as people write them."""

from __future__ import annotations

import re
from typing import Literal

import msgspec

from ..errors import UsageError

StrengthUnit = Literal["%", "% vol", "g/L", "mL/L"]
Of = Literal["active", "product"]

_NUMBER = r"(?P<number>\d+(?:[.,]\d+)?|[.,]\d+)"
_STRENGTH = rf"^{_NUMBER}\s*(?P<unit>%|mg/l|g/l|ml/l)\s*(?P<by>v/v|vol|w/v)?(?:\s*(?:of\s+)?(?P<of>product|active))?$"
_AMOUNT = rf"^{_NUMBER}\s*(?P<unit>[a-zµ]+)$"
_VOLUME = rf"^{_NUMBER}\s*(?P<unit>[a-z0-9³ ]+)$"
_EVERY = rf"^{_NUMBER}\s*(?P<unit>d|day|days|w|week|weeks|h|hours?)$"

_LITRES = {"l": 1.0, "litre": 1.0, "litres": 1.0, "liter": 1.0, "liters": 1.0, "ml": 0.001, "m3": 1000.0, "m³": 1000.0}
_GRAMS = {"g": 1.0, "gram": 1.0, "grams": 1.0, "kg": 1000.0, "mg": 0.001}
#: Exact by definition: 231 cubic inches, and 4.54609 L.
_GALLONS = {"gal us": 3.785411784, "us gal": 3.785411784, "gal uk": 4.54609, "uk gal": 4.54609, "gal imp": 4.54609}
_DAYS = {"d": 1.0, "w": 7.0, "h": 1.0 / 24.0}


class Strength(msgspec.Struct, frozen=True, kw_only=True):
    """How strong the mix in the sprayer is; ``of`` tells whether the active is meant, or the product as bought."""

    value: float
    unit: StrengthUnit
    of: Of = "active"


class Amount(msgspec.Struct, frozen=True, kw_only=True):
    """How much is used: litres of liquid or grams of solid, one of them."""

    litres: float | None = None
    grams: float | None = None


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def _read(pattern: str, text: str, what: str, allowed: str) -> re.Match[str]:
    found = re.match(pattern, text.strip(), re.IGNORECASE)
    if found is None or _number(found["number"]) <= 0:
        raise UsageError(f"{what} '{text}' is not readable: write for example {allowed}")
    return found


def parse_strength(text: str) -> Strength:
    """Read a strength. Per cent means grams in 100 mL, by volume only where '% vol' is written.

    Raises UsageError for anything else, and above 100 %.

    >>> parse_strength("2%"), parse_strength("300 mg/L").value
    (Strength(value=2.0, unit='%', of='active'), 0.3)
    >>> parse_strength("5 mL/L product").of
    'product'
    """
    allowed = "2%, 70% vol, 20 g/L, 300 mg/L or 5 mL/L, with 'product' behind it if that is what you measured"
    found = _read(_STRENGTH, text, "strength", allowed)
    unit, value = found["unit"].lower(), _number(found["number"])
    if (unit == "%" and value > 100) or (found["by"] and unit != "%"):
        raise UsageError(f"strength '{text}' is not readable: write for example {allowed}")
    of: Of = "product" if (found["of"] or "").lower() == "product" else "active"
    if unit == "%":
        return Strength(value=value, unit="% vol" if (found["by"] or "").lower() in ("v/v", "vol") else "%", of=of)
    if unit == "ml/l":
        return Strength(value=value, unit="mL/L", of=of)
    return Strength(value=value / 1000 if unit == "mg/l" else value, unit="g/L", of=of)


def parse_amount(text: str) -> Amount:
    """Read how much is used. Raises UsageError when the unit is missing or strange.

    >>> parse_amount("250 mL"), parse_amount("10 g").grams
    (Amount(litres=0.25, grams=None), 10.0)
    """
    allowed = "1L, 250 mL or 10 g"
    found = _read(_AMOUNT, text, "amount", allowed)
    unit, value = found["unit"].lower(), _number(found["number"])
    if unit in _LITRES:
        return Amount(litres=value * _LITRES[unit])
    if unit in _GRAMS:
        return Amount(grams=value * _GRAMS[unit])
    raise UsageError(f"amount '{text}' has an unknown unit: write for example {allowed}")


def parse_volume(text: str) -> float:
    """Read the volume of the system, in litres. Raises UsageError; a gallon must say whose it is.

    >>> parse_volume("1 m3"), round(parse_volume("250 gal US"), 1)
    (1000.0, 946.4)
    """
    allowed = "1000L, 1 m3 or 250 gal US"
    found = _read(_VOLUME, text, "volume", allowed)
    unit, value = " ".join(found["unit"].lower().split()), _number(found["number"])
    if unit in ("gal", "gallon", "gallons"):
        raise UsageError(f"volume '{text}': US gallons (3.8 L) or UK gallons (4.5 L)? write 'gal US' or 'gal UK'")
    unit = re.sub(r"gallons?", "gal", unit)
    if unit in _GALLONS:
        return value * _GALLONS[unit]
    if unit in _LITRES:
        return value * _LITRES[unit]
    raise UsageError(f"volume '{text}' has an unknown unit: write for example {allowed}")


def parse_every(text: str) -> float:
    """Read how far apart sprays are, in days. Raises UsageError.

    >>> parse_every("7d"), parse_every("2 weeks"), parse_every("12 h")
    (7.0, 14.0, 0.5)
    """
    found = _read(_EVERY, text, "interval", "7d, 2 weeks or 12 h")
    return _number(found["number"]) * _DAYS[found["unit"][0].lower()]
