"""Small words inside sentences."""

from __future__ import annotations

from collections.abc import Sequence

from ..report import words


def inside(name: str) -> str:
    """A name as it stands inside a sentence, abbreviations as they are.

    >>> inside("Iron shortage"), inside("pH is high"), inside("EC too high")
    ('iron shortage', 'pH is high', 'EC too high')
    """
    stays = name[1:2].isupper() or not {"*", name.split(" ")[0].strip(",")} & set(words.SMALL_FIRST)
    return name if stays else name[:1].lower() + name[1:]


def count_days(number: int) -> str:
    """A number of days.

    >>> count_days(1), count_days(13)
    ('1 day', '13 days')
    """
    return words.DAY if number == 1 else words.DAYS.format(number)


def listed(names: Sequence[str]) -> str:
    """Names in a sentence.

    >>> listed(["a", "b", "c"])
    'a, b and c'
    """
    return f" {words.AND} ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
