"""What an eye makes out in a raster: its colours, and marks and holes with their size, length and depth."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator
from functools import lru_cache

from .palette import Rgb, colour_difference, xterm_of, xterm_rgb
from .raster import Raster

Place = tuple[int, int]
Spots = dict[Place, int]  # place (from the foot, from the middle) → colour of the terminal, or NOTHING

#: Colours nearer than this (CIE76) are taken for the same beside each other; about six just noticeable steps.
NEAR = 14.0
#: What stands for a place without paint.
NOTHING = -1
#: How far a like colour may be off, in pixels.
REACH = 2
_AROUND = sorted(itertools.product(range(-REACH, REACH + 1), repeat=2), key=lambda step: (math.hypot(*step), step))
_BESIDE = ((1, 0), (-1, 0), (0, 1), (0, -1))


def spots_of(raster: Raster) -> Spots:
    """Pixels counted from the middle of the lowest row, in the colours of the terminal; with a rim without paint."""
    return {
        (x - raster.width // 2, y - raster.height): _shown(raster.colour(x, y))
        for y in range(-REACH, raster.height + REACH)
        for x in range(-REACH, raster.width + REACH)
    }


@lru_cache(maxsize=4096)
def _shown(rgb: Rgb | None) -> int:
    return NOTHING if rgb is None else xterm_of(rgb)


@lru_cache(maxsize=65536)
def near(first: int, second: int) -> bool:
    """Whether two terminal colours look the same."""
    if NOTHING in (first, second):
        return first == second
    return first == second or colour_difference(xterm_rgb(first), xterm_rgb(second)) < NEAR


def counted(colours: Iterable[int]) -> dict[int, int]:
    """How often each colour is painted."""
    counts: dict[int, int] = {}
    for colour in colours:
        if colour != NOTHING:
            counts[colour] = counts.get(colour, 0) + 1
    return counts


def colour_missing(first: Spots, second: Spots) -> float:
    """The larger share of either picture in colours of which the other has hardly a pixel."""
    return max(_lacking(first, second), _lacking(second, first))


def _lacking(first: Spots, second: Spots) -> float:
    here, there = counted(first.values()), counted(second.values())
    least = max(2.0, 0.004 * sum(there.values()))
    missing = [
        count
        for colour, count in here.items()
        if sum(found for other, found in there.items() if near(colour, other)) < least
    ]
    return sum(missing) / sum(here.values())


def misplaced(first: Spots, second: Spots) -> float:
    """The larger share of either picture's places with no like colour near by in the other."""
    union = len(painted(first) | painted(second))
    return max(_strangers(first, second), _strangers(second, first)) / union


def _strangers(first: Spots, second: Spots) -> int:
    lonely = 0
    for (x, y), colour in first.items():
        around = (second.get((x + dx, y + dy), NOTHING) for dx, dy in _AROUND)
        lonely += not any(near(colour, other) for other in around)
    return lonely


def painted(spots: Spots) -> set[Place]:
    """Places with paint."""
    return {place for place, colour in spots.items() if colour != NOTHING}


def traits(raster: Raster) -> tuple[float, float, float]:
    """Of what is unlike the commonest colour, and of holes, the mean over their pixels of: size (logarithm), length
    against width (logarithm), depth in the picture (edge 0, middle 1). Nothing to be seen gives zeros."""
    spots = spots_of(raster)
    counts = counted(spots.values())
    ground = max(counts, key=lambda colour: (counts[colour], -colour))
    whole = painted(spots)
    holes = _holes(whole)
    unlike = {place for place in whole if not near(spots[place], ground) and not _as_always(raster, place)}
    pieces = list(_pieces(unlike | holes))
    total = sum(len(piece) for piece in pieces)
    if not total:
        return 0.0, 0.0, 0.0
    depths = _depths(whole | holes)
    deepest = max(depths.values())
    size = sum(len(piece) * math.log1p(len(piece)) for piece in pieces) / total
    length = sum(len(piece) * _length(piece) for piece in pieces) / total
    depth = sum(depths[place] / deepest for piece in pieces for place in piece) / total
    return size, length, depth


def _as_always(raster: Raster, place: Place) -> bool:
    """Ribs and stalk that look as they do on any leaf."""
    return raster.ink(place[0] + raster.width // 2, place[1] + raster.height) in ("vein", "stem")


def _holes(whole: set[Place]) -> set[Place]:
    """Places without paint that have painted ones on all four sides."""
    rows: dict[int, list[int]] = {}
    columns: dict[int, list[int]] = {}
    for x, y in whole:
        rows.setdefault(y, []).append(x)
        columns.setdefault(x, []).append(y)
    return {
        (x, y)
        for y, xs in rows.items()
        for x in range(min(xs), max(xs))
        if (x, y) not in whole and x in columns and min(columns[x]) < y < max(columns[x])
    }


def _pieces(places: set[Place]) -> Iterator[list[Place]]:
    """The connected pieces (four neighbours)."""
    left = set(places)
    while left:
        heap, piece = [left.pop()], []
        while heap:
            x, y = heap.pop()
            piece.append((x, y))
            for dx, dy in _BESIDE:
                if (x + dx, y + dy) in left:
                    left.remove((x + dx, y + dy))
                    heap.append((x + dx, y + dy))
        yield piece


def _length(piece: list[Place]) -> float:
    """Logarithm of how much longer than wide a piece is, by its moments; a pixel has a width of its own."""
    count = len(piece)
    mx, my = sum(x for x, _ in piece) / count, sum(y for _, y in piece) / count
    xx = sum((x - mx) ** 2 for x, _ in piece) / count + 1 / 12
    yy = sum((y - my) ** 2 for _, y in piece) / count + 1 / 12
    xy = sum((x - mx) * (y - my) for x, y in piece) / count
    half, root = (xx + yy) / 2, math.hypot((xx - yy) / 2, xy)
    return 0.5 * math.log((half + root) / max(1e-9, half - root))


def _depths(whole: set[Place]) -> dict[Place, int]:
    """For each place, how many rings of places lie around it."""
    depths: dict[Place, int] = {}
    left, ring = set(whole), 0
    while left:
        ring += 1
        edge = {(x, y) for x, y in left if any((x + dx, y + dy) not in left for dx, dy in _BESIDE)}
        depths |= dict.fromkeys(edge, ring)
        left -= edge
    return depths
