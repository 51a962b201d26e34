"""Small animals through a lens: bodies put together from a few measures, with a scale bar in millimetres."""

from __future__ import annotations

import math
from dataclasses import replace

from ...model.picture import Body, Creature
from .scatter import shuffled
from .scene import Area, Dots, Group, Line, Part, Points, Scene, ellipse, moved, scaled, turned

#: Lengths a scale bar may stand for, in mm.
BARS_MM = (0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0)
#: Half of the canvas, in units of itself; the view is a disc that fills it.
RADIUS = 1.0


def lens_scene(creature: Creature) -> Scene:
    """One or more animals of a kind on the skin of a leaf, as far apart as they are drawn."""
    view_mm = creature.length_mm * _room(creature)
    unit = 2 * RADIUS / view_mm  # canvas units a millimetre
    disc = ellipse(RADIUS, RADIUS, RADIUS, RADIUS, corners=48)
    groups = [Group((Area(disc, "glass"),))]
    for number in range(creature.number):
        size = creature.length_mm * unit * (1 - 0.35 * shuffled(number, 5) * (number > 0))
        place = scaled(size).then(turned(_turn(number))).then(moved(*_seat(number, creature.number)))
        groups.append(Group(body_parts(creature), place=place))
    if creature.eggs_mm:
        groups.append(Group(_eggs(creature.eggs_mm * unit)))
    groups = [replace(g, clip=tuple(g.place.inverse()(point) for point in disc)) for g in groups]
    rim = Group((Line((*disc, disc[0]), 0.035, "dark"),))
    bar = max(length for length in BARS_MM if length <= view_mm / 2.6 or length == BARS_MM[0])
    return Scene(2 * RADIUS, 2 * RADIUS, (*groups, rim), bar, bar * unit)


def _room(c: Creature) -> float:
    """How many body lengths the view is wide: room for legs, feelers and tail."""
    if c.number > 1:
        return 3.2
    across = c.width + 1.9 * c.leg_length * (c.legs > 0)
    along = 1 + 2 * max(c.feelers, 0.45 * (c.tail != ""))
    return max(1.7, 1.12 * across, 1.05 * along)


def _turn(number: int) -> float:
    return 18 + 360 * shuffled(number, 2) * (number > 0)


def _seat(number: int, of: int) -> tuple[float, float]:
    """Places that leave each other room: one in the middle, or a ring about it."""
    if of == 1:
        return RADIUS, RADIUS
    angle = 2 * math.pi * number / of + 0.4
    return RADIUS + 0.52 * math.cos(angle), RADIUS + 0.52 * math.sin(angle)


def _eggs(size: float) -> tuple[Part, ...]:
    seats = tuple((RADIUS + dx, RADIUS + dy) for dx, dy in ((-0.62, 0.34), (-0.45, 0.58), (0.6, -0.42), (0.66, 0.3)))
    shine = tuple((x - size * 0.15, y - size * 0.15) for x, y in seats)
    return Dots(seats, size / 2, "clear", 1.0, 3.0), Dots(shine, size / 7, "white", 1.0, 1.0)


def body_parts(c: Creature) -> tuple[Part, ...]:
    """An animal of length one, head up (towards smaller y), its middle at 0, 0."""
    parts: list[Part] = [*_legs(c), *_feelers(c), *_tail(c)]
    if c.wings in ("spread", "spotted"):
        parts += _wings(c)
    outline = _outline(c)
    parts += [Area(outline, c.ink, 1.0, 2.0), Line((*outline, outline[0]), 0.014, "dark", 0.6, 0.2)]
    parts += [*_back(c), *_head(c)]
    if c.wings in ("fringed", "folded"):
        parts += _wings(c)
    return tuple(parts)


def _half_width(c: Creature, part: float) -> float:
    """Half width at a share of the length from the head."""
    return c.width / 2 * _fullness(c.body, part)


def _fullness(body: Body, part: float) -> float:
    """Share of the widest half width."""
    if body == "pear":
        return float(math.sin(math.pi * part**1.35) ** 0.62)
    if body == "cone":
        return min(1.0, math.sqrt(part / 0.12)) * (1 - 0.82 * max(0.0, part - 0.12))
    if body in ("slender", "worm", "fly"):
        return float(min(1.0, math.sqrt(4 * part), (5 * (1 - part)) ** 0.6))
    return float(math.sin(math.pi * part) ** (0.45 if body == "disc" else 0.6))


def _spine(c: Creature, part: float) -> tuple[float, float]:
    """The middle line: a worm lies in a curve."""
    bend = 0.11 * math.sin(2.2 * math.pi * part) if c.body == "worm" else 0.0
    return bend, part - 0.5


def _outline(c: Creature) -> Points:
    steps = [k / 28 for k in range(29)]
    right = [(x + _half_width(c, t), y) for t in steps for x, y in (_spine(c, t),)]
    left = [(x - _half_width(c, t), y) for t in reversed(steps) for x, y in (_spine(c, t),)]
    return (*right, *left)


def _legs(c: Creature) -> list[Part]:
    """Pairs of jointed legs; mites' front pairs point forward, insects' legs stand at the breast."""
    pairs = c.legs // 2
    first, last = {2: (0.10, 0.18), 3: (0.24, 0.46)}.get(pairs, (0.2, 0.68))
    parts: list[Part] = []
    for pair in range(pairs):
        share = pair / max(1, pairs - 1)
        part = first + (last - first) * share
        lean = -0.55 + 1.15 * share if pairs > 2 else -0.9
        for side in (-1, 1):
            x, y = side * _half_width(c, part) * 0.9, part - 0.5
            knee = (x + side * 0.55 * c.leg_length, y + (lean - 0.12) * 0.6 * c.leg_length)
            foot = (x + side * 0.95 * c.leg_length, y + lean * 1.25 * c.leg_length)
            parts.append(Line(((x, y), knee, foot), 0.03, c.head or c.ink, 1.0, 4.0))
            parts.append(Line(((x, y), knee, foot), 0.012, "dark", 0.8, 0.3))
    return parts


def _feelers(c: Creature) -> list[Part]:
    if not c.feelers:
        return []
    lines = [
        ((side * 0.05, -0.46), (side * (0.1 + 0.25 * c.feelers), -0.5 - 0.7 * c.feelers),
         (side * (0.12 + 0.6 * c.feelers), -0.5 - c.feelers))
        for side in (-1, 1)
    ]  # fmt: skip
    return [Line(line, 0.022, "dark", 1.0, 4.0) for line in lines]


def _tail(c: Creature) -> list[Part]:
    if c.tail == "tubes":
        tubes = [Line(((side * 0.16, 0.28), (side * 0.26, 0.52)), 0.045, "dark", 1.0, 3.0) for side in (-1, 1)]
        return [*tubes, Line(((0.0, 0.46), (0.0, 0.58)), 0.05, c.ink)]
    if c.tail == "fork":
        tines = (((0.0, 0.42), (side * 0.05, 0.62), (side * 0.15, 0.86)) for side in (-1, 1))
        return [Line(tine, 0.035, c.ink, 1.0, 2.0) for tine in tines]
    if c.tail == "whips":
        whips = (((side * 0.12, 0.36), (side * 0.3, 0.62), (side * 0.2, 0.92)) for side in (-1, 1))
        return [Line(whip, 0.016, "dark", 1.0, 2.0) for whip in whips]
    if c.tail == "threads":
        rim = ellipse(0, 0, c.width / 2, 0.5, corners=18)
        return [Line((point, (1.35 * point[0], 1.22 * point[1])), 0.018, "white", 1.0, 1.5) for point in rim]
    return []


def _back(c: Creature) -> list[Part]:
    parts: list[Part] = []
    for ring in range(1, c.rings + 1):
        part = 0.12 + 0.86 * ring / (c.rings + 1)
        (x, y), half = _spine(c, part), _half_width(c, part) * 0.96
        parts.append(Line(((x - half, y), (x + half, y)), 0.012, "dark", 0.55, 0.4))
    if c.blotches:
        blotch = [ellipse(side * c.width * 0.26, 0.03, c.width * 0.15, 0.17) for side in (-1, 1)]
        parts += [Area(points, c.blotches, 1.0, 4.0) for points in blotch]
    if c.stripe:
        parts.append(Line(((0.0, -0.3), (0.0, 0.3)), 0.07 * c.width, c.stripe, 1.0, 3.0))
    return parts


def _head(c: Creature) -> list[Part]:
    parts: list[Part] = []
    if c.head:
        x, _ = _spine(c, 0.04)
        parts.append(Area(ellipse(x, -0.46, max(0.04, c.width * 0.34), 0.075), c.head, 1.0, 4.0))
    if c.eyes:
        parts.append(Dots(((-c.width * 0.17, -0.36), (c.width * 0.17, -0.36)), 0.028, c.eyes, 1.0, 3.0))
    return parts


def _wings(c: Creature) -> list[Part]:
    draw = {"fringed": _fringed, "folded": _folded}.get(c.wings, _open_wing)
    return [part for side in (-1, 1) for part in draw(side, c.wings == "spotted")]


def _fringed(side: int, spotted: bool) -> list[Part]:
    """A narrow wing along the back with long hairs."""
    blade = ((side * 0.03, -0.18), (side * 0.085, 0.0), (side * 0.06, 0.42), (side * 0.02, 0.38))
    roots = [0.05 * k - 0.12 for k in range(12)]
    hairs = [Line(((side * 0.075, y), (side * 0.2, y + 0.09)), 0.009, "dark", 0.8, 1.0) for y in roots]
    return [*hairs, Area(blade, "dark", 0.75, 2.0)]


def _folded(side: int, spotted: bool) -> list[Part]:
    """Half of a white roof."""
    wing = ((0.0, -0.26), (side * 0.26, -0.12), (side * 0.4, 0.34), (side * 0.22, 0.52), (side * 0.015, 0.4))
    return [Area(wing, "white", 1.0, 2.0), Line((*wing, wing[0]), 0.014, "grey", 0.8, 0.5)]


def _open_wing(side: int, spotted: bool) -> list[Part]:
    """A clear wing held out, with five pale spots or none."""
    reach = 0.42 if spotted else 0.55
    wing = ellipse(side * reach * 0.75, 0.06, 0.17, reach * 0.82, side * -38)
    seats = tuple((side * x, y) for x, y in ((0.22, -0.04), (0.3, 0.1), (0.4, 0.02), (0.42, 0.2), (0.5, 0.3)))
    dots = [Dots(seats, 0.035, "white", 1.0, 3.0)] if spotted else []
    return [
        Area(wing, "grey" if spotted else "clear", 0.7, 1.0),
        Line((*wing, wing[0]), 0.012, "dark", 0.7, 0.5),
        *dots,
    ]
