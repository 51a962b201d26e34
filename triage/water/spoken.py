"""Units that are words of ours, as people say them: a fraction as per cent, a share as 'of the limit'."""

from __future__ import annotations

#: Units that are words, as they are said.
SPOKEN = {
    "of the limit": "of the limit", "times the limit": "times the limit", "times": "times", "days": "days", "h": "h",
    "g/day": "g/day", "L/day": "L/day", "mg/L N per day": "mg/L N per day", "mg/L CaCO3 per day": "mg/L CaCO3 per day",
}  # fmt: skip


def spoken_unit(unit: str, low: float, high: float | None = None) -> tuple[float, str]:
    """The factor that turns a value into what is said, and the unit that is said.

    Args:
        unit: the quantity's own.
        low: the value, or its lower end.
        high: its upper end, if that is another.

    Returns:
        Factor and words; no words for pH.

    >>> spoken_unit("fraction", 0.0502), spoken_unit("of the limit", 0.36), spoken_unit("of the limit", 2.4)
    ((100.0, '%'), (1.0, 'of the limit'), (1.0, 'times the limit'))
    >>> spoken_unit("pH", 7.2), spoken_unit("mg/L", 3)
    ((1.0, ''), (1.0, 'mg/L'))
    """
    if unit == "fraction":
        return 100.0, "%"
    if unit == "of the limit" and min(low, low if high is None else high) >= 1:
        return 1.0, SPOKEN["times the limit"]
    return 1.0, "" if unit == "pH" else SPOKEN.get(unit, unit)
