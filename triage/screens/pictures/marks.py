"""Marks on the leaf: spots, specks, streaks, blisters, drops, powder, mines, webs."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

from ...model.picture import Params
from .coat import Coat, ink, places, ragged, value
from .scatter import clouds, ramp, shuffled
from .scene import Area, Dots, Line, Part, Points, Wash, ellipse


def spots(coat: Coat, p: Params) -> Coat:
    """Spots with a rim and a middle: ``form`` round, angular, rings (like a target) or ragged."""
    size = coat.size(p.size, 0.05)
    seats = places(coat, round(value(p.count, 12)), edge=size * 0.7, salt=1, apart=size * 2.1)
    parts: list[Part] = []
    for number, (x, y) in enumerate(seats):
        radius = size * (0.75 + 0.5 * shuffled(number, coat.salt))
        parts += _spot(p, x, y, radius, number)
    return coat.over_with(*parts)


def _spot(p: Params, x: float, y: float, radius: float, number: int) -> list[Part]:
    tone = ink(p.ink, "brown")
    parts: list[Part] = []
    if p.rim:
        parts.append(Area(ellipse(x, y, radius * 1.6, radius * 1.6), p.rim, 1.0, 1.5))
    if p.form == "rings":
        for share, inked in ((1.0, tone), (0.78, ink(p.middle, "tan")), (0.56, tone), (0.34, ink(p.middle, "tan"))):
            parts.append(Area(ellipse(x, y, radius * share, radius * share), inked, 1.0, 2.0))
        return [*parts, Dots(((x, y),), radius * 0.14, tone)]
    outline = _outline(p.form, x, y, radius, number)
    parts.append(Area(outline, tone, 1.0, 2.0))
    if p.middle:
        parts.append(Area(ellipse(x, y, radius * 0.55, radius * 0.55), p.middle, 1.0, 2.5))
    return parts


def _outline(form: str, x: float, y: float, radius: float, number: int) -> Points:
    if form == "angular":
        return ellipse(x, y, radius, radius, 40 * number, 4 if number % 2 else 5)
    if form == "ragged":
        return ragged(x, y, radius, number)
    return ellipse(x, y, radius, radius, corners=16)


def stipple(coat: Coat, p: Params) -> Coat:
    """Very many fine dots."""
    seats = places(coat, round(value(p.count, 240)), edge=0.012, salt=2)
    return coat.over_with(Dots(seats, coat.size(p.size, 0.008), ink(p.ink, "cream"), 1.0, 1.6))


def streaks(coat: Coat, p: Params) -> Coat:
    """Short scratches along the side veins, with dark specks beside them."""
    seats = places(coat, round(value(p.count, 34)), edge=0.03, salt=3)
    length = coat.size(p.size, 0.06)
    lines: list[Part] = []
    for number, (x, y) in enumerate(seats):
        side = 1 if x > 0 else -1
        lean = 0.7 + 0.5 * shuffled(number, 4)
        lines.append(
            Line(((x, y), (x + side * length, y + length * lean)), 0.022 * coat.unit, ink(p.ink, "silver"), 0.95, 3.0)
        )
    specks = tuple((x + 0.03 * coat.unit, y - 0.012) for x, y in seats[::2])
    return coat.over_with(*lines, Dots(specks, 0.008 * coat.unit, ink(p.middle, "black"), 1.0, 3.0))


def blisters(coat: Coat, p: Params) -> Coat:
    """Raised bumps, lit from the upper left; ``form`` crust leaves the light out."""
    size = coat.size(p.size, 0.024)
    seats = places(coat, round(value(p.count, 26)), edge=size * 1.6, salt=4, apart=size * 1.9)
    shade = tuple((x + size * 0.45, y - size * 0.45) for x, y in seats)
    light = tuple((x - size * 0.3, y + size * 0.3) for x, y in seats)
    parts: list[Part] = [
        Dots(shade, size * 1.1, ink(p.rim, "deep-green"), 0.9, 1.0),
        Dots(seats, size, ink(p.ink, "lime"), 1.0, 3.0),
    ]
    if p.form != "crust":
        parts.append(Dots(light, size * 0.42, ink(p.middle, "shine"), 1.0, 2.0))
    return coat.over_with(*parts)


def drips(coat: Coat, p: Params) -> Coat:
    """Shining drops that have run down the blade."""
    parts: list[Part] = []
    usual = coat.size(p.size, 0.036)
    seats = places(coat, round(value(p.count, 9)), edge=usual * 1.6, salt=6, apart=usual * 4)
    for number, (x, y) in enumerate(seats):
        size = usual * (0.8 + 0.5 * shuffled(number, 8))
        run = ((x, y), (x, y - size * 2.6))
        parts += [
            Line(run, size * 1.3, ink(p.ink, "shine"), 0.75, 2.0),
            Dots((run[1],), size, ink(p.ink, "shine"), 0.9),
        ]
        parts.append(Dots(((x - size * 0.3, y - size * 2.4),), size * 0.4, "white", 1.0, 1.0))
    return coat.over_with(*parts)


def powder(coat: Coat, p: Params) -> Coat:
    """A film in soft patches over everything: white powder, black soot."""
    size = coat.size(p.size, 0.17)
    cover = value(p.reach, 0.55) * (0.55 + 0.45 * coat.strength)

    def thick(x: float, y: float) -> float:
        grain = 0.25 * (clouds(x * 60, y * 60, 8) - 0.5)
        return 0.94 * ramp(clouds(x / size, y / size, coat.salt + 13) + grain, 1.0 - cover, 1.22 - cover)

    return coat.over_with(Wash(thick, ink(p.ink, "white"), 2.0))


def mine(coat: Coat, p: Params) -> Coat:
    """A line that winds through the leaf and grows wider as it goes, or (``form`` blotch) hollow dry patches."""
    if p.form == "blotch":
        return _blotch_mines(coat, p)
    parts: list[Part] = []
    step = coat.size(p.size, 0.034, 0.25)
    seats = places(coat, round(value(p.count, 5)), edge=step * 2, salt=9, apart=step * 6, least=3)
    for number, (x, y) in enumerate(seats):
        path = _winding(x, y, number + coat.salt, step)
        parts += [
            Line(pair, step * (0.75 + 1.2 * k / len(path)), ink(p.ink, "cream"), 1.0, 3.0)
            for k, pair in enumerate(itertools.pairwise(path))
        ]
        parts.append(Line(path[4:], step * 0.23, ink(p.middle, "brown"), 0.7, 0.5))
    return coat.over_with(*parts)


def _winding(x: float, y: float, number: int, length: float) -> Points:
    points, heading = [(x, y)], 360 * shuffled(number, 15)
    for step in range(26):
        heading += 34 * math.sin(step * 0.55 + number * 1.7)
        px, py = points[-1]
        points.append((px + length * math.cos(math.radians(heading)), py + length * math.sin(math.radians(heading))))
    return tuple(points)


def _blotch_mines(coat: Coat, p: Params) -> Coat:
    parts: list[Part] = []
    size = coat.size(p.size, 0.15)
    for number, (x, y) in enumerate(places(coat, round(value(p.count, 3)), edge=size * 0.6, salt=9, apart=size * 2)):
        patch = ragged(x, y, size, number, rough=0.3)
        parts += [Area(patch, ink(p.ink, "tan"), 1.0, 2.0), Line((*patch, patch[0]), 0.014, ink(p.rim, "brown"), 0.9)]
        crumbs = tuple(ragged(x, y, size / 3, number + 40, rough=0.8, corners=9))
        parts.append(Dots(crumbs, size * 0.06, "dark", 1.0, 1.5))
    return coat.over_with(*parts)


def trail(coat: Coat, p: Params) -> Coat:
    """A shining band that wanders across the leaf."""
    path = tuple((-0.42 + 0.84 * k / 20, 0.28 + 0.46 * k / 20 + 0.07 * math.sin(k * 0.9)) for k in range(21))
    tone = ink(p.ink, "shine")
    return coat.over_with(
        Line(path, 0.065 * coat.unit, tone, 0.8, 3.0), Line(path, 0.022 * coat.unit, "white", 0.9, 1.0)
    )


def web(coat: Coat, p: Params) -> Coat:
    """Threads over the blade and from its edge to the stalk, with dots that sit in them."""
    outline = coat.blade.outline
    count = max(4, round(value(p.count, 16) * coat.strength))
    threads: list[Part] = []
    for number in range(count):
        first = outline[int(shuffled(number, 16) * len(outline))]
        other = outline[int(shuffled(number, 17) * len(outline))] if number % 3 else (0.0, -0.2)
        sag = ((first[0] + other[0]) / 2, (first[1] + other[1]) / 2 - 0.06)
        threads.append(Line((first, sag, other), 0.008 * coat.unit, ink(p.ink, "thread"), 0.95, 3.0))
    dots = Dots(places(coat, 26, edge=0.05, salt=18), 0.011 * coat.unit, ink(p.middle, "rust"), 1.0, 2.0)
    return replace(coat, loose=(*coat.loose, *threads, dots))
