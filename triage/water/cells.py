"""Cells of a table for spreadsheets: text that no spreadsheet takes for a formula, numbers that every program reads."""

from __future__ import annotations

import math
from decimal import Decimal

#: What a spreadsheet may take for the beginning of a formula, the wide forms too.
_BEGINS_FORMULA = frozenset("=+-@\t\r\n＝＋－＠")
_GUARD = "'"


def guard_text(text: str) -> str:
    """Text with an apostrophe before it where a spreadsheet might reckon with it.

    >>> guard_text("=1+1"), guard_text("row 2"), guard_text("'quoted'")
    ("'=1+1", 'row 2', "''quoted'")
    """
    return f"{_GUARD}{text}" if text[:1] in _BEGINS_FORMULA | {_GUARD} else text


def unguard_text(text: str) -> str:
    """The text that ``guard_text`` was given.

    >>> unguard_text("'=1+1"), unguard_text("''quoted'"), unguard_text("row 2")
    ('=1+1', "'quoted'", 'row 2')
    """
    guarded = text[:1] == _GUARD and text[1:2] in _BEGINS_FORMULA | {_GUARD}
    return text[1:] if guarded else text


def number_text(value: float | None) -> str:
    """Every digit of a number, with a decimal point and never an exponent; nothing for what is not known or has no end.

    >>> number_text(7.4), number_text(1000.0), number_text(1e-07), number_text(None), number_text(math.inf)
    ('7.4', '1000', '0.0000001', '', '')
    """
    if value is None or not math.isfinite(value):
        return ""
    text = format(Decimal(repr(value)), "f")
    return text.removesuffix(".0")
