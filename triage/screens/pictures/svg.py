"""A scene as SVG: outlines, strokes and dots as they are, washes as contours of a few steps."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, replace
from html import escape

from .contour import Grid
from .palette import rgb_of
from .scene import Affine, Area, Dots, Group, Line, Part, Points, Scene, Wash, box_of

#: Steps of a wash; samples across its longer side on a small leaf and on a large one; paths this long are kept once.
STEPS, LEAST_CELLS, MOST_CELLS, LONG = 3, 14, 56, 60
_PATH = re.compile(r'<path d="([^"]*)"')


class SvgWriter:
    """Collects numbered clips while scenes are written, so that many pictures fit on one page."""

    def __init__(self) -> None:
        self.count = 0

    def scene(self, scene: Scene, x: float, y: float, width: float) -> str:
        """A scene at a place of the page, ``width`` wide, as one nested svg element."""
        height = width * scene.height / scene.width
        body = "".join(self._group(group, width / scene.width) for group in scene.groups)
        return (
            f'<svg x="{_n(x)}" y="{_n(y)}" width="{_n(width)}" height="{_n(height)}" '
            f'viewBox="0 0 {_n(scene.width)} {_n(scene.height)}" overflow="hidden">{body}</svg>\n'
        )

    def _group(self, group: Group, per_unit: float) -> str:
        cells = min(MOST_CELLS, max(LEAST_CELLS, round(group.place.scale * per_unit / 4)))
        parts = "".join(_part(part, group, cells) for part in _joined(group.parts))
        for layer in _apart(group.cuts):
            parts = self._clipped(parts, "M-2 -2h5v5h-5z" + "".join(_closed(_backwards(cut)) for cut in layer))
        if group.clip:
            parts = self._clipped(parts, _closed(group.clip))
        return f"<g{_transform(group.place)}>{parts}</g>"

    def _clipped(self, body: str, path: str) -> str:
        """``body`` shown only inside the path."""
        self.count += 1
        clip = f'<clipPath id="c{self.count}"><path d="{path}"/></clipPath>'
        return f'{clip}<g clip-path="url(#c{self.count})">{body}</g>'


def _apart(cuts: tuple[Points, ...]) -> list[list[Points]]:
    """The cuts in layers that do not overlap one another: two holes in one path would undo each other."""
    layers: list[list[Points]] = []
    for cut in cuts:
        room = next((layer for layer in layers if not any(_touch(cut, other) for other in layer)), None)
        if room is None:
            layers.append([cut])
        else:
            room.append(cut)
    return layers


def _backwards(points: Points) -> Points:
    """Corners in the order that makes a hole of them: against the way of the square around it."""
    turn = sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(points, (*points[1:], points[0]), strict=True))
    return points if turn < 0 else points[::-1]


def _touch(first: Points, second: Points) -> bool:
    (al, at, ar, ab), (bl, bt, br, bb) = box_of(first), box_of(second)
    return al < br and bl < ar and at < bb and bt < ab


def page(width: float, height: float, title: str, words: str, body: str) -> str:
    """A whole SVG file with a title and a description for readers who hear it; on a light ground of its own."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(width)} {_n(height)}" width="{_n(width)}" '
        f'height="{_n(height)}" role="img" aria-labelledby="t d" font-family="sans-serif">\n'
        f'<title id="t">{escape(title)}</title>\n<desc id="d">{escape(words)}</desc>\n'
        f'<rect width="100%" height="100%" fill="#fbfbf7"/>\n{_shared(body)}</svg>\n'
    )


def _shared(body: str) -> str:
    """Long paths that occur more than once (leaves of a plant have one outline) written once and used by name."""
    counts = Counter(path for path in _PATH.findall(body) if len(path) >= LONG)
    names = {path: f"p{number}" for number, path in enumerate(sorted(p for p, n in counts.items() if n > 1), start=1)}

    def by_name(found: re.Match[str]) -> str:
        name = names.get(found[1])
        return f'<use href="#{name}"' if name else found[0]

    defined = "".join(f'<path id="{name}" d="{path}"/>' for path, name in names.items())
    return (f"<defs>{defined}</defs>\n" if names else "") + _PATH.sub(by_name, body)


def label(x: float, y: float, words: str, size: float = 14, *, bold: bool = False, middle: bool = False) -> str:
    """One line of text."""
    weight = ' font-weight="bold"' if bold else ""
    anchor = ' text-anchor="middle"' if middle else ""
    return f'<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(size)}"{weight}{anchor} fill="#222">{escape(words)}</text>\n'


def bar(x: float, y: float, length: float, words: str) -> str:
    """A scale bar with its length in words."""
    line = f"M{_n(x)} {_n(y - 4)}v8m0 -4h{_n(length)}m0 -4v8"
    return f'<path d="{line}" fill="none" stroke="#222" stroke-width="2"/>\n' + label(x, y + 18, words, 13)


def _n(number: float) -> str:
    """A number as short as it may be: three decimals, no trailing zeros."""
    text = f"{number:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text.replace("0.", ".", 1) if text.startswith(("0.", "-0.")) else text


def _colour(ink: str) -> str:
    return "#{:02x}{:02x}{:02x}".format(*rgb_of(ink))


def _opacity(name: str, opacity: float) -> str:
    return "" if opacity >= 1 else f' {name}="{_n(opacity)}"'


def _closed(points: Points) -> str:
    return f"{_open(points)}z"


def _open(points: Points) -> str:
    """A path by its steps, in thousandths that do not add up to a drift."""
    (ax, ay), *rest = ((round(1000 * x), round(1000 * y)) for x, y in points)
    steps = []
    for x, y in rest:
        steps.append(_pair(x - ax, y - ay))
        ax, ay = x, y
    (sx, sy) = points[0]
    return f"M{_pair(round(1000 * sx), round(1000 * sy))}" + ("l" + " ".join(steps) if steps else "")


def _pair(x: int, y: int) -> str:
    first, second = _n(x / 1000), _n(y / 1000)
    return f"{first}{second}" if second.startswith("-") else f"{first} {second}"


def _transform(place: Affine) -> str:
    if place == Affine():
        return ""
    numbers = (place.a, place.b, place.c, place.d, place.e, place.f)
    return f' transform="matrix({" ".join(_n(number) for number in numbers)})"'


def _part(part: Area | Dots | Wash | _Strokes, group: Group, cells: int) -> str:
    colour = _colour(part.ink)
    if isinstance(part, Wash):
        return _wash(part, group.clip, colour, cells)
    if isinstance(part, Area):
        return f'<path d="{_closed(part.points)}" fill="{colour}"{_opacity("fill-opacity", part.opacity)}/>'
    if isinstance(part, _Strokes):
        path, width = "".join(_open(points) for points in part.lines), part.width
    else:
        path, width = "".join(f"M{_n(x)} {_n(y)}h0" for x, y in part.points), 2 * part.radius
    style = f'stroke="{colour}" stroke-width="{_n(width)}" stroke-linecap="round" stroke-linejoin="round"'
    return f'<path d="{path}" fill="none" {style}{_opacity("stroke-opacity", part.opacity)}/>'


@dataclass(frozen=True)
class _Strokes:
    """Lines of one width and ink that follow each other: one path."""

    lines: tuple[Points, ...]
    width: float
    ink: str
    opacity: float


def _joined(parts: tuple[Part, ...]) -> list[Area | Dots | Wash | _Strokes]:
    """Parts with their lines joined. Lines of the same look lie on each other anyway; thin ones would only add."""
    found: list[Area | Dots | Wash | _Strokes] = []
    for part in parts:
        last = found[-1] if found else None
        if not isinstance(part, Line):
            found.append(part)
        elif isinstance(last, _Strokes) and last == replace(last, width=part.width, ink=part.ink, opacity=part.opacity):
            found[-1] = replace(last, lines=(*last.lines, part.points))
        else:
            found.append(_Strokes((part.points,), part.width, part.ink, part.opacity))
    return found


def _wash(wash: Wash, clip: Points, colour: str, cells: int) -> str:
    """Each step is laid over the one before, so that together they come to the field's thickness."""
    grid = Grid(wash.field, box_of(clip), cells)
    paths = []
    for step in range(STEPS):
        path = "".join(_closed(loop) for loop in grid.loops((step + 0.5) / STEPS) if len(loop) > 2)
        if path:
            opacity = _opacity("fill-opacity", 1 / (STEPS - step))
            paths.append(f'<path d="{path}" fill="{colour}" fill-rule="evenodd"{opacity}/>')
    return "".join(paths)
