"""The door to the pictures in a terminal: beside an answer, and in `book show`."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import Console
from rich.text import Text

from ...model.book import Book
from ..style import columns, line
from . import words
from .catalogue import Shown, find_picture, row_of, show
from .raster import Raster, paint, trimmed
from .scene import Scene
from .terminal import bar_line, beside, legend, picture_lines, shows_colours

#: Pixels (columns) of one leaf length, in a large picture and in a small one; a whole plant is drawn smaller.
LARGE, SMALL, OF_PLANT, OF_LENS = 32.0, 24.0, 0.5, 0.6
#: Four small plants fit into 80 columns.
SMALL_PLANT = 17.5
INDENT, GAP = 2, 3


def picture_beside(
    finding: str, crop: str, console: Console, *, book: Book, words_too: bool = True, small: bool = False
) -> bool:
    """Print the picture of one finding (or cause), with its words; False, and nothing printed, where there is none.

    A terminal that cannot place letters (TERM=dumb, as screen readers use it) gets the words only.
    """
    shown = show(book, finding, crop)
    if shown is None:
        return False
    if words_too or console.is_dumb_terminal:
        line(console, shown.says)
    if not console.is_dumb_terminal:
        print_picture(shown, console, small=small)
    return True


def pictures_beside(findings: Sequence[str], crop: str, console: Console, *, book: Book) -> int:
    """Print small pictures of a question's answers next to each other, numbered as the answers are (from 1).

    Passed over are answers without a picture, and those that share one. Gives back how many were drawn; with fewer
    than two nothing is printed: one picture among answers in words would pull the answer towards it.
    """
    if console.is_dumb_terminal:
        return words_beside(findings, crop, console, book=book)
    for text in lines_beside(findings, crop, console, book=book):
        console.print(text, soft_wrap=True)
    return len(_offered(findings, crop, book))


def words_beside(findings: Sequence[str], crop: str, console: Console, *, book: Book) -> int:
    """The same pictures in words, for whoever cannot see them."""
    found = _offered(findings, crop, book)
    for number, shown in found:
        line(console, shown.says, bullet=f"{number:>2}")
    return len(found)


def lines_beside(findings: Sequence[str], crop: str, console: Console, *, book: Book) -> list[Text]:
    """The lines that ``pictures_beside`` prints."""
    found = _offered(findings, crop, book)
    rasters = [small_raster(shown.scenes[-1]) for _, shown in found]
    colours = shows_colours(console)
    blocks = [_numbered(raster, number, colours) for raster, (number, _) in zip(rasters, found, strict=True)]
    lines = _rows(console, blocks)
    if not colours and rasters:
        said = f"{words.LEGEND}: {legend(rasters)}"
        wrapped = Text(said).wrap(console, columns(console) - INDENT)
        lines += [Text.assemble(" " * INDENT, part) for part in wrapped]
    return lines


def _offered(findings: Sequence[str], crop: str, book: Book) -> list[tuple[int, Shown]]:
    """The pictures that may stand beside answers, with the answers' numbers; two at least, or none."""
    row = row_of(book, findings)
    pictures = [find_picture(book, id_) for id_ in findings]
    alone = [n for n, picture in enumerate(pictures) if picture is not None and pictures.count(picture) == 1]
    found = [(n + 1, shown) for n in alone if (shown := show(book, findings[n], crop, row=row)) is not None]
    return found if len(found) > 1 else []


def small_raster(scene: Scene) -> Raster:
    """A scene as it is painted beside an answer."""
    plant = scene.width > 2 and not scene.bar_mm
    return _raster(scene, SMALL_PLANT if plant else SMALL)


def _numbered(raster: Raster, number: int, colours: bool) -> list[Text]:
    """A small picture with its number below the middle."""
    lines = picture_lines(raster, colours=colours)
    return [*lines, Text(str(number).center(raster.width), no_wrap=True, end="")]


def print_picture(shown: Shown, console: Console, *, small: bool = False) -> None:
    """Print the scenes side by side, a little smaller if that lets them fit; else the others below."""
    room = columns(console) - INDENT
    per_unit = SMALL if small else LARGE
    rasters = [_raster(scene, per_unit) for scene in shown.scenes]
    wide = sum(raster.width for raster in rasters) + GAP * (len(rasters) - 1)
    if wide > room:
        shrunk = per_unit * max(0.72, room / wide * 0.97)
        rasters = [_raster(scene, min(shrunk, _most(scene, room))) for scene in shown.scenes]
    blocks = [_with_bar(s, r, shows_colours(console)) for s, r in zip(shown.scenes, rasters, strict=True)]
    _print_rows(console, blocks, rasters)


def _raster(scene: Scene, per_unit: float) -> Raster:
    """A scene on the scale of a leaf, of a plant, or as large as a lens, without its empty sides."""
    return trimmed(paint(scene, max(8, round(scene.width * per_unit * _share(scene)))))


def _share(scene: Scene) -> float:
    """How much smaller than a leaf the things of a scene are drawn."""
    if scene.bar_mm:
        return OF_LENS
    return OF_PLANT if scene.width > 2 else 1.0


def _most(scene: Scene, room: int) -> float:
    """The largest scale at which a scene alone fits."""
    return room / scene.width / _share(scene)


def _print_rows(console: Console, blocks: Sequence[list[Text]], rasters: Sequence[Raster]) -> None:
    """Blocks side by side; letters explained below where there is no colour."""
    for text in _rows(console, blocks):
        console.print(text, soft_wrap=True)
    if not shows_colours(console):
        line(console, f"{words.LEGEND}: {legend(rasters)}")


def _rows(console: Console, blocks: Sequence[list[Text]]) -> list[Text]:
    """Blocks side by side, as many as fit into a row."""
    room = columns(console) - INDENT
    rest, lines = list(blocks), []
    while rest:
        count = next(n for n in range(len(rest), 0, -1) if n == 1 or _wide(rest[:n]) <= room)
        lines += [Text.assemble(" " * INDENT, text) for text in beside(rest[:count], GAP)]
        rest = rest[count:]
    return lines


def _wide(blocks: Sequence[Sequence[Text]]) -> int:
    return sum(max(text.cell_len for text in block) for block in blocks) + GAP * (len(blocks) - 1)


def _with_bar(scene: Scene, raster: Raster, colours: bool) -> list[Text]:
    lines = picture_lines(raster, colours=colours)
    if scene.bar_mm:
        length = round(scene.bar_length / scene.width * raster.width)
        lines.append(bar_line(length, words.BAR.format(mm=scene.bar_mm)))
    return lines
