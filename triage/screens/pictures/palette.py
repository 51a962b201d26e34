"""Inks: what a leaf can look like, each with a colour, a letter for screens without colour, and an everyday word.

A picture names inks, never colours. The colours are our own choice; they stand near steps of the 256-colour cube, so
that a terminal shows them as they are meant.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

Rgb = tuple[int, int, int]


@dataclass(frozen=True)
class Ink:
    """One colour of tissue or animal: red, green, blue (0 to 255), its letter in plain text, and its everyday word."""

    rgb: Rgb
    letter: str
    word: str


INKS: dict[str, Ink] = {
    "green": Ink((84, 160, 60), ":", "green"),
    "vein": Ink((150, 200, 120), "'", "pale veins of a green leaf"),
    "deep-green": Ink((10, 95, 16), "#", "dark green"),
    "pale-green": Ink((178, 212, 110), "-", "pale green"),
    "yellow": Ink((244, 214, 60), "y", "yellow"),
    "cream": Ink((250, 240, 200), "w", "almost white"),
    "white": Ink((252, 252, 250), "w", "white"),
    "tan": Ink((210, 176, 120), "t", "tan"),
    "brown": Ink((136, 88, 22), "b", "brown"),
    "black": Ink((34, 28, 26), "B", "black"),
    "purple": Ink((128, 54, 128), "p", "purple"),
    "bronze": Ink((176, 108, 40), "z", "bronze"),
    "silver": Ink((172, 182, 190), "s", "silver"),
    "grey": Ink((128, 128, 124), "g", "grey"),
    "wet": Ink((14, 86, 84), "~", "dark and wet"),
    "rust": Ink((222, 104, 20), "r", "orange rust"),
    "pink": Ink((236, 170, 170), "k", "pink"),
    "shine": Ink((236, 246, 250), "*", "shining"),
    "thread": Ink((200, 204, 200), "/", "fine threads"),
    "stem": Ink((120, 170, 84), "|", "stem"),
    "pot": Ink((150, 110, 84), "=", "pot"),
    "ghost": Ink((150, 156, 150), ".", "outline for comparison"),
    "glass": Ink((180, 214, 176), " ", "leaf skin under the lens"),
    "amber": Ink((226, 180, 84), "a", "amber"),
    "lime": Ink((190, 214, 90), "l", "yellow-green"),
    "orange": Ink((230, 120, 40), "o", "orange"),
    "red": Ink((190, 40, 40), "R", "red"),
    "dark": Ink((60, 60, 62), "d", "dark"),
    "clear": Ink((236, 234, 206), "c", "clear, whitish"),
}


def rgb_of(ink: str) -> Rgb:
    """Red, green and blue of an ink. Errors: KeyError for an ink that is not in the table."""
    return INKS[ink].rgb


@lru_cache(maxsize=4096)
def lab_of(rgb: Rgb) -> tuple[float, float, float]:
    """CIE L*a*b* (1976, D65) of an sRGB colour; distances in it are near to what an eye sees.

    Source: IEC 61966-2-1 (sRGB) and CIE 15 (L*a*b*); white is 100, 0, 0.

    >>> [round(part) + 0 for part in lab_of((255, 255, 255))], [round(part) for part in lab_of((255, 0, 0))]
    ([100, 0, 0], [53, 80, 67])
    """
    red, green, blue = (_linear(part / 255) for part in rgb)
    x = _root((0.4124564 * red + 0.3575761 * green + 0.1804375 * blue) / 0.95047)
    y = _root(0.2126729 * red + 0.7151522 * green + 0.0721750 * blue)
    z = _root((0.0193339 * red + 0.1191920 * green + 0.9503041 * blue) / 1.08883)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)


def _root(part: float) -> float:
    return float(part ** (1 / 3)) if part > 216 / 24389 else (24389 / 27 * part + 16) / 116


def colour_difference(first: Rgb, second: Rgb) -> float:
    """CIE76 difference of two colours; about 2.3 is just noticeable (Mahy et al. 1994, from memory).

    >>> round(colour_difference((0, 0, 0), (255, 255, 255)))
    100
    """
    return float(sum((a - b) ** 2 for a, b in zip(lab_of(first), lab_of(second), strict=True)) ** 0.5)


@lru_cache(maxsize=4096)
def xterm_of(rgb: Rgb) -> int:
    """The nearest of the 240 fixed colours of a 256-colour terminal (16 to 255; the first 16 are the user's own).

    >>> xterm_of((255, 255, 255)), xterm_of((0, 0, 0)), xterm_of((95, 175, 0))
    (231, 16, 70)
    """
    light, red, yellow = lab_of(rgb)
    nearest = min(
        ((light - one[0]) ** 2 + (red - one[1]) ** 2 + (yellow - one[2]) ** 2, number)
        for number, one in _fixed_colours()
    )
    return nearest[1]


@lru_cache(maxsize=1)
def _fixed_colours() -> tuple[tuple[int, tuple[float, float, float]], ...]:
    """The fixed colours of a terminal, as an eye sees them."""
    return tuple((number, lab_of(xterm_rgb(number))) for number in range(16, 256))


@lru_cache(maxsize=256)
def xterm_rgb(number: int) -> Rgb:
    """Red, green and blue of a fixed terminal colour: the 6 by 6 by 6 cube, then 24 greys (xterm's table).

    >>> xterm_rgb(16), xterm_rgb(70), xterm_rgb(255)
    ((0, 0, 0), (95, 175, 0), (238, 238, 238))
    """
    if number >= 232:
        grey = 8 + 10 * (number - 232)
        return grey, grey, grey
    steps = (0, 95, 135, 175, 215, 255)
    place = number - 16
    return steps[place // 36], steps[place // 6 % 6], steps[place % 6]
