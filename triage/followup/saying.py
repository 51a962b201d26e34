"""Small words inside sentences."""

from __future__ import annotations

from collections.abc import Sequence


def inside(name: str) -> str:
    """A name as it stands inside a sentence, abbreviations as they are.

    >>> inside("Iron shortage"), inside("pH is high"), inside("EC too high")
    ('iron shortage', 'pH is high', 'EC too high')
    """
    return name[:1].lower() + name[1:] if name[1:2].islower() else name


def count_days(number: int) -> str:
    """A number of days.

    >>> count_days(1), count_days(13)
    ('1 day', '13 days')
    """
    return "1 day" if number == 1 else f"{number} days"


def listed(names: Sequence[str]) -> str:
    """Names in a sentence.

    >>> listed(["a", "b", "c"])
    'a, b and c'
    """
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
