"""Numbers and units as people read them."""

from __future__ import annotations

from ..rules.texts import number_text

#: Units that are words of ours and say nothing to a reader.
_SILENT = ("pH", "fraction", "times")


def say_number(value: float) -> str:
    """Three digits that count, and no exponent.

    >>> say_number(7.4), say_number(0.000123), say_number(1234.5)
    ('7.4', '0.000123', '1234')
    """
    return number_text(value, 3) if abs(value) < 1000 else f"{value:.0f}"


def say_unit(unit: str) -> str:
    """The unit with a blank before it; nothing where there is none to say.

    >>> say_unit("mg/L"), say_unit("pH")
    (' mg/L', '')
    """
    return "" if unit in _SILENT else f" {unit}"
