"""A scene painted into pixels: a small painter with supersampling, in plain Python.

Every pixel keeps its colour (or nothing, where the screen shows through) and the ink that speaks loudest in it, which
is what plain text shows.
"""

from __future__ import annotations

import itertools
import math
from collections import Counter
from dataclasses import dataclass

from .palette import Rgb, rgb_of
from .scene import Affine, Area, Group, Line, Part, Points, Scene, Wash

#: The thinnest stroke and smallest dot, in pixels: thinner ones would vanish from a small picture.
THINNEST = 0.55
SMALLEST = 0.42
FAINTEST, LOST = 0.3, 0.2


@dataclass(frozen=True)
class Raster:
    """Pixels row by row: colours (None where nothing was painted) and inks ('' likewise)."""

    width: int
    height: int
    colours: tuple[Rgb | None, ...]
    inks: tuple[str, ...]

    def colour(self, x: int, y: int) -> Rgb | None:
        """The colour of a pixel; None outside."""
        return self.colours[y * self.width + x] if 0 <= y < self.height and 0 <= x < self.width else None

    def ink(self, x: int, y: int) -> str:
        """The ink of a pixel; '' outside."""
        return self.inks[y * self.width + x] if 0 <= y < self.height and 0 <= x < self.width else ""


def trimmed(raster: Raster) -> Raster:
    """A raster without empty columns and rows at its sides; at least one pixel is left."""
    spots = [(n % raster.width, n // raster.width) for n, colour in enumerate(raster.colours) if colour is not None]
    xs, ys = [x for x, _ in spots] or [0], [y for _, y in spots] or [0]
    left, top, width, height = min(xs), min(ys), max(xs) - min(xs) + 1, max(ys) - min(ys) + 1
    keep = [(top + y) * raster.width + left + x for y in range(height) for x in range(width)]
    return Raster(width, height, tuple(raster.colours[k] for k in keep), tuple(raster.inks[k] for k in keep))


class _Canvas:
    """Samples of a picture while it is painted."""

    def __init__(self, width: int, height: int, per_unit: float, thinnest: float) -> None:
        self.width, self.height, self.per_unit, self.pixel = width, height, per_unit, thinnest
        self.colours: list[tuple[float, float, float] | None] = [None] * (width * height)
        self.inks: list[tuple[str, float]] = [("", 0.0)] * (width * height)

    def blend(self, index: int, rgb: Rgb, ink: str, opacity: float, loud: float) -> None:
        """Lay an ink over a sample."""
        if opacity <= 0.01:
            return
        under = self.colours[index]
        if under is None:
            self.colours[index] = rgb
        else:
            self.colours[index] = (
                under[0] + (rgb[0] - under[0]) * opacity,
                under[1] + (rgb[1] - under[1]) * opacity,
                under[2] + (rgb[2] - under[2]) * opacity,
            )
        if opacity >= 0.5 or under is None:
            self.inks[index] = (ink, loud)


def paint(scene: Scene, width: int, *, samples: int = 2) -> Raster:
    """Paint a scene ``width`` pixels wide (its height follows), each pixel from ``samples`` by ``samples`` samples."""
    height = max(1, round(width * scene.height / scene.width))
    canvas = _Canvas(width * samples, height * samples, width * samples / scene.width, samples)
    for group in scene.groups:
        _paint_group(canvas, group)
    colours, inks = [], []
    for y in range(height):
        for x in range(width):
            corner = y * samples * canvas.width + x * samples
            indices = [corner + v * canvas.width + u for v in range(samples) for u in range(samples)]
            colours.append(_mean(canvas, indices))
            inks.append(_loudest(canvas, indices) if colours[-1] is not None else "")
    return Raster(width, height, tuple(colours), tuple(inks))


def _mean(canvas: _Canvas, indices: list[int]) -> Rgb | None:
    found = [colour for index in indices if (colour := canvas.colours[index]) is not None]
    if 2 * len(found) < len(indices):
        return None
    red, green, blue = (round(sum(colour[part] for colour in found) / len(found)) for part in range(3))
    return red, green, blue


def _loudest(canvas: _Canvas, indices: list[int]) -> str:
    votes: Counter[str] = Counter()
    for index in indices:
        ink, loud = canvas.inks[index]
        if ink:
            votes[ink] += loud  # type: ignore[assignment]
    return min(votes, key=lambda ink: (-votes[ink], ink)) if votes else ""


def _paint_group(canvas: _Canvas, group: Group) -> None:
    to_sample = group.place.then(Affine(a=canvas.per_unit, d=canvas.per_unit))
    mask: set[int] | None = None
    if group.clip:
        mask = _inside(canvas, _mapped(group.clip, to_sample))
        for cut in group.cuts:
            mask -= _inside(canvas, _mapped(cut, to_sample))
    for part in group.parts:
        _paint_part(canvas, part, to_sample, mask)


def _mapped(points: Points, place: Affine) -> Points:
    return tuple(place(point) for point in points)


def _paint_part(canvas: _Canvas, part: Part, place: Affine, mask: set[int] | None) -> None:
    rgb = rgb_of(part.ink)
    opacity = 1.0 if isinstance(part, Wash) else part.opacity
    if isinstance(part, Wash):
        back = place.inverse()
        for index in sorted(mask or ()):
            spot = back((index % canvas.width + 0.5, index // canvas.width + 0.5))
            canvas.blend(index, rgb, part.ink, min(1.0, part.field(*spot)), part.loud)
        return
    if isinstance(part, Area):
        touched = _inside(canvas, _mapped(part.points, place))
    elif isinstance(part, Line):
        width, least = part.width * place.scale, THINNEST * canvas.pixel
        opacity *= _fade(width / least, 0.0 if part.loud < 1 else FAINTEST)
        if opacity < LOST:
            return
        touched = _stroke(canvas, _mapped(part.points, place), max(width, least) / 2)
    else:
        radius, least = part.radius * place.scale, SMALLEST * canvas.pixel
        touched = _dots(canvas, _mapped(part.points, place), max(radius, least))
        opacity *= _fade((radius / least) ** 2, FAINTEST)
    for index in touched if mask is None else touched & mask:
        canvas.blend(index, rgb, part.ink, opacity, part.loud)


def _fade(share: float, least: float) -> float:
    """What is drawn larger than it is must be fainter, but not so faint that it is lost."""
    return max(least, min(1.0, share))


def _inside(canvas: _Canvas, points: Points) -> set[int]:
    """Samples inside a polygon (even-odd), row by row."""
    found: set[int] = set()
    top = max(0, math.floor(min(y for _, y in points)))
    bottom = min(canvas.height - 1, math.ceil(max(y for _, y in points)))
    edges = list(zip(points, (*points[1:], points[0]), strict=True))
    for row in range(top, bottom + 1):
        level = row + 0.5
        crossings = sorted(
            ax + (level - ay) / (by - ay) * (bx - ax) for (ax, ay), (bx, by) in edges if (ay <= level) != (by <= level)
        )
        for start, end in zip(crossings[::2], crossings[1::2], strict=False):
            first, last = max(0, math.ceil(start - 0.5)), min(canvas.width, math.ceil(end - 0.5))
            found.update(range(row * canvas.width + first, row * canvas.width + last))
    return found


def _stroke(canvas: _Canvas, points: Points, radius: float) -> set[int]:
    """Samples within ``radius`` of a line."""
    found: set[int] = set()
    for (ax, ay), (bx, by) in itertools.pairwise(points):
        dx, dy = bx - ax, by - ay
        length = dx * dx + dy * dy or 1e-12
        columns = _span(min(ax, bx) - radius, max(ax, bx) + radius, canvas.width)
        for y in _span(min(ay, by) - radius, max(ay, by) + radius, canvas.height):
            for x in columns:
                px, py = x + 0.5 - ax, y + 0.5 - ay
                share = min(1.0, max(0.0, (px * dx + py * dy) / length))
                if (px - share * dx) ** 2 + (py - share * dy) ** 2 <= radius * radius:
                    found.add(y * canvas.width + x)
    return found


def _span(low: float, high: float, most: int) -> range:
    """Whole numbers from ``low`` to ``high`` that lie on the canvas."""
    return range(max(0, math.floor(low)), min(most, math.ceil(high) + 1))


def _dots(canvas: _Canvas, points: Points, radius: float) -> set[int]:
    """Samples of round dots; every dot claims at least the sample it lies in."""
    found: set[int] = set()
    for cx, cy in points:
        if 0 <= cx < canvas.width and 0 <= cy < canvas.height:
            found.add(int(cy) * canvas.width + int(cx))
        for y in _span(cy - radius, cy + radius, canvas.height):
            for x in _span(cx - radius, cx + radius, canvas.width):
                if (x + 0.5 - cx) ** 2 + (y + 0.5 - cy) ** 2 <= radius * radius:
                    found.add(y * canvas.width + x)
    return found
