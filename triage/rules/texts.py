"""Facts in words: a reading as it was measured, and the reasons of a rule filled from its facts."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

import msgspec

from ..model.interval import Interval
from ..model.quantity import Reading, is_open
from ..model.rule import Rule
from ..water.spoken import spoken_unit

_SIGNS = {"=": "", "<=": "≤ ", ">=": "≥ ", "<": "< ", ">": "> "}
_PLACEHOLDER = r"\{([^{}]*)\}"
#: What a reason may name beside the quantities that the rule looks at.
FREE_NAMES = frozenset({"crop", "animal", "probability", "substance"})
UNKNOWN = "not known"
SPAN = "{} to {}"


class Said(msgspec.Struct, frozen=True):
    """A value in words, and its unit apart ('' if it has none)."""

    text: str
    unit: str = ""

    def __str__(self) -> str:
        return f"{self.text} {self.unit}" if self.unit else self.text


def number_text(value: float, digits: int = 10) -> str:
    """A number with at most so many digits that count, and no exponent.

    >>> number_text(7.4), number_text(0.00012345, 3), number_text(1250000.0), number_text(6.0)
    ('7.4', '0.000123', '1250000', '6')
    """
    if value == 0 or math.isinf(value):
        return "0" if value == 0 else str(value)
    places = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def interval_text(known: Interval) -> str:
    """Three digits of what is known; both ends where they differ.

    >>> interval_text(Interval(0.0123456, 0.0123499)), interval_text(Interval(0.2, 0.8))
    ('0.0123', '0.2 to 0.8')
    >>> interval_text(Interval(2.0, math.inf)), interval_text(Interval(-math.inf, math.inf))
    ('≥ 2', 'not known')
    """
    if math.isinf(known.low):
        return UNKNOWN if math.isinf(known.high) else f"≤ {number_text(known.high, 3)}"
    if math.isinf(known.high):
        return f"≥ {number_text(known.low, 3)}"
    low, high = number_text(known.low, 3), number_text(known.high, 3)
    return low if low == high else SPAN.format(low, high)


def say_reading(reading: Reading) -> Said:
    """A measured value with the sign of its bound; one that was worked out, or is of open form, with its spread."""
    factor, unit = spoken_unit(reading.unit, reading.low, reading.high)
    if reading.derived or is_open(reading.bound, reading.step, reading.low, reading.high):
        return Said(interval_text(Interval(reading.low * factor, reading.high * factor)), unit)
    return Said(_SIGNS[reading.bound] + number_text(reading.value * factor, 4), unit)


def templates_of(rule: Rule) -> tuple[str, ...]:
    """The texts of a rule that may name, in braces, what it looked at."""
    return (rule.because, rule.alarm.say, *rule.alarm.do) if rule.alarm else (rule.because,)


def names_in(template: str) -> list[str]:
    """The names in braces of a reason, in order.

    >>> names_in("pH {ph} at {iron} mg/L")
    ['ph', 'iron']
    """
    return re.findall(_PLACEHOLDER, template)


def fill(template: str, values: Mapping[str, Said]) -> str:
    """The reason with its names filled in; a unit that the text itself goes on to say is not said twice.

    >>> fill("only {iron} mg/L at pH {ph}", {"iron": Said("≤ 0.1", "mg/L"), "ph": Said("7.4")})
    'only ≤ 0.1 mg/L at pH 7.4'
    >>> fill("at {temperature}, with {iron}", {"temperature": Said("21", "°C")})
    'at 21 °C, with not known'
    """

    def say(match: re.Match[str]) -> str:
        said = values.get(match[1], Said(UNKNOWN))
        return said.text if _goes_on_with(said.unit, template[match.end() :]) else str(said)

    return re.sub(_PLACEHOLDER, say, template)


def _goes_on_with(unit: str, rest: str) -> bool:
    rest = rest.lstrip()
    return bool(unit) and rest.startswith(unit) and not rest[len(unit) : len(unit) + 1].isalnum()
