"""Pictures in a terminal: half blocks in 256 colours, or letters and a legend where there is no colour.

The ground of the terminal shows through wherever nothing is painted, so that pictures lie well on light and on dark.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from rich.color import Color
from rich.console import Console
from rich.style import Style
from rich.text import Text

from .palette import INKS, Rgb, xterm_of
from .raster import Raster

UPPER, LOWER = "▀", "▄"


def shows_colours(console: Console) -> bool:
    """Whether half blocks in 256 colours can be shown: a terminal that has them, and nobody asked for no colour."""
    if console.no_color or console.is_dumb_terminal or not console.encoding.lower().startswith("utf"):
        return False
    return console.is_terminal and console.color_system in ("256", "truecolor")


def picture_lines(raster: Raster, *, colours: bool) -> list[Text]:
    """A raster as lines of text, two pixel rows a line."""
    draw = _half_block if colours else _letter
    lines = []
    for y in range(0, raster.height, 2):
        line = Text(no_wrap=True, end="")
        for x in range(raster.width):
            draw(line, raster, x, y)
        lines.append(line)
    return lines


def _half_block(line: Text, raster: Raster, x: int, y: int) -> None:
    above, below = raster.colour(x, y), raster.colour(x, y + 1)
    if above is None and below is None:
        line.append(" ")
    elif above is None:
        line.append(LOWER, _style(below, None))
    else:
        line.append(UPPER, _style(above, below))


@lru_cache(maxsize=2048)
def _style(front: Rgb | None, back: Rgb | None) -> Style:
    return Style(color=_colour(front), bgcolor=_colour(back))


def _colour(rgb: Rgb | None) -> Color | None:
    return None if rgb is None else Color.from_ansi(xterm_of(rgb))


def _letter(line: Text, raster: Raster, x: int, y: int) -> None:
    inks = [ink for ink in (raster.ink(x, y), raster.ink(x, y + 1)) if ink]
    line.append(INKS[_louder(inks)].letter if inks else " ")


def _louder(inks: list[str]) -> str:
    """Of two inks in one cell the one that is not sound tissue."""
    return next((ink for ink in inks if ink not in QUIET), inks[0])


#: Inks of sound tissue: they give way to whatever is wrong.
QUIET = ("green", "vein", "stem", "pot", "glass", "ghost")


def legend(rasters: Sequence[Raster]) -> str:
    """The letters that some rasters show, in words, in the order of the table of inks."""
    shown = {letter for raster in rasters for line in picture_lines(raster, colours=False) for letter in line.plain}
    used = {ink for raster in rasters for ink in raster.inks if ink}
    words: dict[str, list[str]] = {}
    for name, ink in INKS.items():
        if name in used and ink.letter in shown - {" "}:
            words.setdefault(ink.letter, []).append(ink.word)
    return ", ".join(f"{letter} {' or '.join(names)}" for letter, names in words.items())


def beside(blocks: Sequence[Sequence[Text]], gap: int = 2) -> list[Text]:
    """Blocks of lines next to each other, all standing on the same ground line."""
    tall = max((len(block) for block in blocks), default=0)
    widths = [max((line.cell_len for line in block), default=0) for block in blocks]
    lines = []
    for row in range(tall):
        joined = Text(no_wrap=True, end="")
        for number, (block, width) in enumerate(zip(blocks, widths, strict=True)):
            place = row - (tall - len(block))
            part = block[place] if place >= 0 else Text("")
            joined.append_text(part)
            last = number == len(blocks) - 1
            joined.append(" " * (0 if last else width - part.cell_len + gap))
        lines.append(joined)
    return lines


def bar_line(length: int, words: str) -> Text:
    """A scale bar some columns long, with its length in words."""
    return Text(f"|{'-' * max(1, length - 2)}| {words}", no_wrap=True, end="")
