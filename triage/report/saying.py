"""Small words inside sentences."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..model.crop import Crop
from . import words


def inside(name: str) -> str:
    """A name as it stands inside a sentence: its first letter small, unless it begins with an abbreviation or (nouns of
    German) stays as it is.

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


def crop_inside(crops: Mapping[str, Crop], id_: str, otherwise: str) -> str:
    """The name of a crop inside a sentence; ``otherwise`` where the book has no such crop."""
    return inside(crops[id_].name) if id_ in crops else otherwise


def listed(names: Sequence[str], last: str = "") -> str:
    """Names in a sentence, ``last`` (and, if not said) before the last of them.

    >>> listed(["a", "b", "c"])
    'a, b and c'
    """
    return f" {last or words.AND} ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
