"""What a published toxicity value says: its endpoint, and how it becomes mg/L of what the sprayer is counted in."""

from __future__ import annotations

import re
from typing import Literal

from ..model.substance import Substance, Toxicity
from .exposure import counted_as, least_active

#: acute: a level that harms half; above: harms more than half, or half in less than a day; chronic: harms over time;
#: floor: no harm over time; tolerated: no deaths in a test of days.
Endpoint = Literal["acute", "above", "chronic", "floor", "tolerated"]

_DAY = 24.0
#: Patterns for the test in capitals: ignoring case costs milliseconds when a pattern is made.
_NAMES: tuple[tuple[Endpoint, re.Pattern[str]], ...] = (
    (
        "tolerated",
        re.compile(r"LC0?0\b|LL0\b|EC0\b|TOLERATED|SAFE|NO[ -]DEATHS|(EFFECT[ -])?NONE|NO[ -]EFFECT\b"),
    ),
    ("floor", re.compile(r"NO[AR]?EL?[CR]?\b")),
    ("acute", re.compile(r"[LEI][CL]50|TLM|HC0?5\b|MEDIAN")),
    ("above", re.compile(r"LC(9[0-9]|100)|LETHAL|DEADLY|TOXIC[ -]AT|ANAESTHESIA")),
    ("chronic", re.compile(r"MATC|LO[AR]?EL?[CR]?\b|[LEI]C[0-9][0-9]\b|EFFECT|CHRONIC")),
)
_TO_MG: dict[str, float] = {"mg": 1.0, "g": 1000.0, "µg": 0.001, "ug": 0.001, "ng": 1e-6}
_TO_ML: dict[str, float] = {"ml": 1.0, "µl": 0.001, "ul": 0.001, "microlitres": 0.001, "microlitre": 0.001}
_UNIT = re.compile(r"(?P<unit>[A-Za-zµ]+)\b[^/]*/\s*[Ll]\b")


def endpoint_of(row: Toxicity) -> Endpoint | None:
    """What kind of value a row holds; None for what was borne for less than a day, which says nothing of days.

    Half harmed in less than a day would be half harmed at less in four days. A test that is not known here counts as
    a harm to half.

    >>> endpoint_of(Toxicity(organism="carp", group="fish", test="LC50", hours=96, value=1, source="-", read="seen"))
    'acute'
    """
    short = row.hours is not None and row.hours < _DAY
    test = row.test.strip().replace("_", " ").upper()
    endpoint: Endpoint = next((endpoint for endpoint, pattern in _NAMES if pattern.match(test)), "acute")
    if short and endpoint == "acute":
        return "above"
    return None if short and endpoint in ("tolerated", "floor") else endpoint


def value_mg_l(row: Toxicity, substance: Substance) -> float | None:
    """The value in mg/L of what the substance is counted as; None where a conversion is not known.

    A value for a metal is turned into the compound by its share of metal; where that is not known it is taken as it
    is, which is stricter. A value for a product is turned into the active with the smallest content it is sold with.
    """
    plain = plain_mg_l(row, substance)
    if plain is None or row.basis in (counted_as(substance), "active"):
        return plain
    if row.basis in ("metal", "element"):
        return plain if substance.element_share is None else plain / substance.element_share.value
    content = least_active(substance)
    return None if content is None else plain * content


def plain_mg_l(row: Toxicity, substance: Substance) -> float | None:
    """The value in mg/L of whatever the source weighed; a volume needs the density."""
    return to_mg_l(row.value, row.unit, substance)


def to_mg_l(value: float, unit: str, substance: Substance) -> float | None:
    """A concentration in mg/L; None for a unit that is none, or a volume of unknown density."""
    found = _UNIT.match(unit.strip())
    name = found["unit"] if found else ""
    if name in _TO_MG:
        return value * _TO_MG[name]
    if name.lower() in _TO_ML and substance.density is not None:
        return value * _TO_ML[name.lower()] * substance.density.value * 1000
    return None


def is_floor(row: Toxicity, endpoint: Endpoint) -> bool:
    """Whether the value only says that nothing happened up to it."""
    return row.bound in (">", ">=") or endpoint in ("floor", "tolerated")


def is_ceiling(row: Toxicity, endpoint: Endpoint) -> bool:
    """Whether half are harmed at less than the value, nobody knows at how much less."""
    return row.bound in ("<", "<=") or endpoint == "above"
