"""Readings that stand in a grower's own words: "pH 7.4, iron below 0.1 mg/L"."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

import msgspec

from ..model.quantity import Bound, Quantity

_BOUNDS: dict[str, Bound] = {
    "<=": "<=", "≤": "<=", "=<": "<=", "at most": "<=", "up to": "<=", "or below": "<=", "or less": "<=",
    ">=": ">=", "≥": ">=", "at least": ">=", "or above": ">=", "or more": ">=",
    "<": "<", "below": "<", "under": "<", "less than": "<",
    ">": ">", "above": ">", "over": ">", "more than": ">",
}  # fmt: skip
_BOUND = "|".join(re.escape(word) for word in sorted(_BOUNDS, key=len, reverse=True))
_FILLER = r"(?:\s+(?:is|was|of|at|about|around|reads|reading|level|measures|in the water))*"
_NUMBER = r"\d{1,6}(?:[.,]\d{1,4})?"
_UNIT = r"(?:mg/l|ppm|µg/l|ug/l|g/l|mmol/l|meq/l|ms/cm|µs/cm|us/cm|dkh|dgh|°?\s?[cf]\b|%)"


class NumberRead(msgspec.Struct, frozen=True):
    """A quantity, its value as text, bound and unit, and the words it was read from."""

    quantity: str
    value: str
    bound: Bound
    unit: str
    words: str


def _names(quantities: Iterable[Quantity]) -> dict[str, str]:
    names: dict[str, str] = {}
    for quantity in quantities:
        if not quantity.derived:
            for name in (quantity.quantity.replace("-", " "), quantity.name, *quantity.also):
                names.setdefault(name.lower().replace("-", " "), quantity.quantity)
    return names


def read_numbers(text: str, quantities: Mapping[str, Quantity]) -> tuple[list[NumberRead], str]:
    """Readings found in ``text``, and the text without them.

    A number for soil ("soil pH 7.9") is not a water reading and is left in the text. Ranges ("6 to 7") are left, too.
    """
    if not any(character.isdigit() for character in text):
        return [], text
    spoken = text.lower()
    names = {name: quantity for name, quantity in _names(quantities.values()).items() if name in spoken}
    if not names:
        return [], text
    name = "|".join(re.escape(word) for word in sorted(names, key=len, reverse=True))
    pattern = re.compile(
        rf"(?<![\w-])(?P<name>{name})(?![\w-]){_FILLER}\s*[:=]?\s*(?P<bound>{_BOUND})?\s*(?P<value>{_NUMBER})"
        rf"(?!\d|[.,]\d)(?:\s*(?P<unit>{_UNIT})|(?!\w))(?:\s+(?P<after>or (?:below|less|above|more)))?"
        r"(?!\s*(?:-|–|to)\s*\d)",
        re.IGNORECASE | re.ASCII,
    )
    found: list[NumberRead] = []

    def take(match: re.Match[str]) -> str:
        before = text[max(0, match.start() - 12) : match.start()].lower()
        if re.search(r"\b(soil|media|medium|substrate)\s*$", before):
            return match.group(0)
        bound = _BOUNDS[(match["after"] or match["bound"] or "").lower()] if match["after"] or match["bound"] else "="
        found.append(
            NumberRead(names[match["name"].lower()], match["value"], bound, match["unit"] or "", match.group(0).strip())
        )
        return " "

    return found, pattern.sub(take, text)
