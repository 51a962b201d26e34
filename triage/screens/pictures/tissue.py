"""Patterns of colour in the leaf itself: whole, between veins, edge, tip, patches, veins, tints."""

from __future__ import annotations

import math
from dataclasses import replace

from ...model.picture import Params
from .coat import Coat, chosen, ink, places, ragged, value
from .scatter import clouds, ramp
from .scene import Area, Field, Line, Part, Point, Points, Wash
from .veins import Vein, panel_area, panels


def whole(coat: Coat, p: Params) -> Coat:
    """The whole blade in one ink, its veins in another (``middle``)."""
    ground = ink(p.ink, "yellow")
    return replace(_faded(coat, ground), vein_ink=ink(p.middle, "cream"))


def _faded(coat: Coat, ground: str) -> Coat:
    """The ground turned as far as the strength says."""
    if coat.strength > 0.85:
        return replace(coat, ground=ground)
    strength = coat.strength
    return coat.under_with(Wash(lambda x, y: strength, ground))


def between_veins(coat: Coat, p: Params) -> Coat:
    """Another ink between veins that keep their green: ``form`` net (finest too), lines, or bands (wide and soft)."""
    coat = _faded(coat, ink(p.ink, "yellow"))
    keep = ink(p.rim, "green")
    if p.form == "net":
        return replace(coat, vein_ink=keep, vein_widths=(0.024, 0.017, 0.008))
    if p.form == "bands":
        bands: list[Part] = []
        for share, opacity in ((1.0, 0.35), (0.72, 0.5), (0.45, 1.0)):
            for vein in coat.veins(0, 1):
                bands.append(_taper(vein, value(p.reach, 0.17) * (1 - 0.45 * vein.order) * share, keep, opacity))
        return replace(coat, under=(*coat.under, *bands), vein_ink=keep, vein_widths=(0.02, 0.01, 0.0))
    return replace(coat, vein_ink=keep, vein_widths=(0.05, 0.034, 0.0))


def _taper(vein: Vein, width: float, tone: str, opacity: float) -> Area:
    """A band along a vein, broad at its root and a quarter as broad at its end."""
    points = vein.points
    left, right = [], []
    for k, (x, y) in enumerate(points):
        (ax, ay), (bx, by) = points[max(0, k - 1)], points[min(len(points) - 1, k + 1)]
        length = math.hypot(bx - ax, by - ay) or 1.0
        half = width / 2 * (1 - 0.75 * k / (len(points) - 1))
        left.append((x - half * (by - ay) / length, y + half * (bx - ax) / length))
        right.append((x + half * (by - ay) / length, y - half * (bx - ax) / length))
    return Area((*left, *reversed(right)), tone, opacity)


def margin(coat: Coat, p: Params) -> Coat:
    """An uneven band along the edge, with another ink (``rim``) on its inner side."""
    reach = coat.size(p.reach, 0.055, 0.36) * (0.35 + 0.65 * coat.strength)
    parts: list[Part] = []
    if p.rim:
        parts.append(Wash(_edge(coat, reach * 2.1), p.rim))
    parts.append(Wash(_edge(coat, reach), ink(p.ink, "brown"), 2.0))
    return coat.over_with(*parts)


def _edge(coat: Coat, reach: float) -> Field:
    def thick(x: float, y: float) -> float:
        spot = coat.blade.locate(x, y)
        if spot.depth > reach * 1.36:
            return 0.0
        local = reach * (0.65 + 0.7 * clouds(x * 9, y * 9, coat.salt))
        return ramp(spot.depth, local, local * 0.7) * ramp(spot.along, 0.03, 0.14)

    return thick


def tip(coat: Coat, p: Params) -> Coat:
    """The tip in another ink, with a rim behind it."""
    start = 1 - value(p.reach, 0.2) * (0.4 + 0.6 * coat.strength)

    def thick(shift: float) -> Field:
        return lambda x, y: ramp(coat.blade.locate(x, y).along + 0.05 * clouds(x * 12, y * 12), start - shift, start)

    halo = [Wash(thick(0.1), p.rim)] if p.rim else []
    return coat.over_with(*halo, Wash(thick(0.03), ink(p.ink, "brown"), 2.0))


def midrib_run(coat: Coat, p: Params) -> Coat:
    """From the tip back along the midrib, narrowing towards the base."""
    reach = value(p.reach, 0.8) * coat.strength

    def thick(x: float, y: float) -> float:
        spot = coat.blade.locate(x, y)
        room = (spot.along - (1 - reach)) / reach * 1.05
        return ramp(abs(spot.across), room + 0.1, room - 0.1) if room > 0 else 0.0

    return replace(coat.under_with(Wash(thick, ink(p.ink, "yellow"))), vein_widths=(0.012, 0.0, 0.0), vein_ink="cream")


def wedges(coat: Coat, p: Params) -> Coat:
    """Wedges that stand with their broad side on the edge and point inward; ``rim`` darkens the vein in each."""
    count = max(1, round(value(p.count, 5) * coat.strength))
    outline = coat.blade.outline
    reach = 0.72 * min(0.32, coat.blade.half)
    ends = [outline[int((k + 0.85) * len(outline) / count) % len(outline)] for k in range(count)]
    parts: list[Part] = []
    for size, tone in ((reach, ink(p.ink, "yellow")), (reach * 0.5, ink(p.middle, "brown"))):
        parts += [Area(_wedge(end, size), tone, 1.0, 2.0) for end in ends if 0.1 < end[1] < 0.93]
    if p.rim:
        parts += [Line(((0.0, end[1] * 0.7), end), 0.016, p.rim, 1.0, 2.5) for end in ends if 0.1 < end[1] < 0.93]
    return coat.over_with(*parts)


def _wedge(end: Point, size: float) -> Points:
    """A triangle with its base across the edge at ``end`` and its point ``size`` further in."""
    ex, ey = end
    length = math.hypot(ex, ey * 0.3) or 1.0
    ux, uy = -ex / length, -ey * 0.3 / length
    wide = 0.62 * size
    return (
        (ex + ux * size, ey + uy * size), (ex - ux * size * 0.3 - uy * wide, ey - uy * size * 0.3 + ux * wide),
        (ex - ux * size * 0.3 + uy * wide, ey - uy * size * 0.3 - ux * wide),
    )  # fmt: skip


def patches(coat: Coat, p: Params) -> Coat:
    """Soft blotches without a border."""
    size = coat.size(p.size, 0.095)
    seats = places(coat, round(value(p.count, 7)), edge=size * 0.6, salt=14, apart=size * 2)

    def thick(x: float, y: float) -> float:
        near = min((math.hypot(x - px, y - py) for px, py in seats), default=9.0)
        return ramp(near + 0.5 * size * (clouds(x * 11, y * 11) - 0.5), size * 1.1, size * 0.75)

    return coat.under_with(Wash(thick, ink(p.ink, "yellow")))


def panel_patches(coat: Coat, p: Params) -> Coat:
    """Pieces with straight sides, stopped by the veins; ``reach`` is the share of pieces taken."""
    if p.form == "blotch":
        return _panel_blotches(coat, p)
    cells = [(lower, upper, k) for lower, upper in panels(coat.blade.veins) for k in range(round(value(p.size, 2)))]
    parts: list[Part] = []
    for number, (lower, upper, k) in enumerate(cells):
        if chosen(coat, number, value(p.reach, 0.45)):
            width = 0.8 / value(p.size, 2)
            area = panel_area(lower, upper, 0.12 + k * width, 0.12 + (k + 1) * width)
            if p.rim:
                parts.append(Line((*area, area[0]), 0.02, p.rim, 1.0, 1.0))
            parts.append(Area(area, ink(p.ink, "yellow"), 1.0, 2.0))
    return coat.under_with(*parts)


def _panel_blotches(coat: Coat, p: Params) -> Coat:
    """Uneven dead patches in the middle of the pieces between veins."""
    parts: list[Part] = []
    for number, (lower, upper) in enumerate(panels(coat.blade.veins)):
        if chosen(coat, number, value(p.reach, 0.6)):
            corners = panel_area(lower, upper, 0.25, 0.85)
            x, y = (sum(point[k] for point in corners) / len(corners) for k in (0, 1))
            patch = ragged(0.0, 0.0, coat.size(p.size, 0.05), number, rough=0.5)
            (ax, ay), (bx, by) = lower[0], lower[-1]
            length = math.hypot(bx - ax, by - ay) or 1.0
            ux, uy = (bx - ax) / length, (by - ay) / length
            long = tuple((x + 2.0 * px * ux - 0.7 * py * uy, y + 2.0 * px * uy + 0.7 * py * ux) for px, py in patch)
            parts.append(Area(long, ink(p.ink, "brown"), 1.0, 2.0))
    return coat.over_with(*parts)


def vein_ink(coat: Coat, p: Params) -> Coat:
    """The veins themselves in another ink, thicker than usual."""
    size = value(p.size, 0.03)
    return replace(coat, vein_ink=ink(p.ink, "black"), vein_widths=(size, size * 0.7, 0.0))


def tint(coat: Coat, p: Params) -> Coat:
    """A tint that comes from the edge inwards and leaves the middle green; the veins take it too."""
    reach = coat.size(p.reach, 0.2, 0.7)
    strength = coat.strength
    parts = Wash(lambda x, y: 0.95 * strength * ramp(coat.blade.locate(x, y).depth, reach, 0.0), ink(p.ink, "purple"))
    return replace(coat.under_with(parts), vein_ink=ink(p.ink, "purple"))


def dieback(coat: Coat, p: Params) -> Coat:
    """Dying from the stalk outwards."""
    reach = value(p.reach, 0.45) * coat.strength

    def thick(shift: float) -> Field:
        def at(x: float, y: float) -> float:
            spot = coat.blade.locate(x, y)
            front = reach + shift + 0.1 * clouds(x * 8, y * 8) - 0.25 * abs(spot.across)
            return ramp(spot.along, front + 0.05, front - 0.03)

        return at

    return coat.over_with(Wash(thick(0.12), ink(p.rim, "yellow")), Wash(thick(0.0), ink(p.ink, "brown"), 2.0))


def mosaic(coat: Coat, p: Params) -> Coat:
    """A patchwork of two greens with clear borders."""
    size = coat.size(p.size, 0.11)

    def thick(x: float, y: float) -> float:
        return ramp(clouds(x / size, y / size, coat.salt + 21), 0.46, 0.54) * coat.strength

    light = replace(coat, ground=ink(p.ink, "pale-green")) if coat.strength > 0.5 else coat
    return replace(light.under_with(Wash(thick, ink(p.middle, "green"), 1.5)), vein_widths=(0.016, 0.0, 0.0))


def bronze(coat: Coat, p: Params) -> Coat:
    """A cast over the whole blade, uneven, with the veins a little greener."""
    strength = coat.strength
    field = Wash(lambda x, y: strength * (0.62 + 0.38 * clouds(x * 7, y * 7, 2)), ink(p.ink, "bronze"))
    return replace(coat.under_with(field), vein_ink=ink(p.middle, "green"), vein_widths=(0.018, 0.008, 0.0))


def line_marks(coat: Coat, p: Params) -> Coat:
    """Lines drawn on the leaf: rings, and a zigzag that follows the outline like an oak leaf."""
    tone = ink(p.ink, "yellow")
    parts: list[Part] = []
    for number, (x, y) in enumerate(
        places(coat, round(value(p.count, 4)), edge=0.3 * coat.blade.half, salt=5, apart=0.2)
    ):
        for radius in (coat.size(None, 0.085, 0.3), coat.size(None, 0.045, 0.16)):
            circle = tuple(ragged_ring(x, y, radius, number))
            parts.append(Line(circle, 0.016, tone, 1.0, 2.5))
    inner = tuple(
        (x * (0.55 if k % 4 < 2 else 0.72), 0.5 + (y - 0.5) * (0.62 if k % 4 < 2 else 0.74))
        for k, (x, y) in enumerate(coat.blade.outline[::2])
    )
    return coat.over_with(*parts, Line((*inner, inner[0]), 0.014, tone, 1.0, 2.0))


def ragged_ring(x: float, y: float, radius: float, number: int) -> Points:
    """A closed ring, not quite round."""
    ring = ragged(x, y, radius, number, rough=0.12, corners=18)
    return (*ring, ring[0])
