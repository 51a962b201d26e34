"""The leaf: one parametric model of shape and veins. A blade stands on its base (0, 0) with its tip near (0, 1).

Two families: blades told by their half width along the midrib (oval, lance, spoon, cut, strap), and blades told by
their radius about a middle (heart, lobed). A leaf is one blade, or several leaflets of one blade each. The proportions
are our own judgement of what a person takes for such a leaf.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from ...model.crop import LeafShape
from .scatter import clouds
from .scene import Affine, Point, Points, box_of, moved, scaled, turned
from .veins import Vein, palmate_veins, parallel_veins, pinnate_veins


@dataclass(frozen=True)
class Warp:
    """What happened to the shape: all zero for a sound blade."""

    narrow: float = 0.0  # share of the width lost
    waves: float = 0.0  # ups and downs of the edge, in half widths
    crumple: float = 0.0  # one side longer than the other, bent midrib
    missing: float = 0.0  # share of one half that never grew


@dataclass(frozen=True)
class Spot:
    """A place on a blade: ``along`` from base 0 to tip 1, ``across`` from midrib 0 to edge 1 (left is negative),
    ``depth`` the distance from the edge in blade lengths."""

    along: float
    across: float
    depth: float


@dataclass(frozen=True)
class Blade:
    """One blade: its outline, its veins, and where on it a point lies."""

    outline: Points
    veins: tuple[Vein, ...]
    locate: Callable[[float, float], Spot]

    @property
    def area(self) -> float:
        """Its area, in blade lengths squared."""
        corners = zip(self.outline, (*self.outline[1:], self.outline[0]), strict=True)
        return abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in corners)) / 2

    @cached_property
    def inmost(self) -> float:
        """How far its innermost place is from the edge: what a round mark has to fit into."""
        left, bottom, right, top = box_of(self.outline)
        steps = [(k + 0.5) / 24 for k in range(24)]
        return max(
            self.locate(left + u * (right - left), bottom + v * (top - bottom)).depth for u in steps for v in steps
        )

    @property
    def half(self) -> float:
        """The widest half width."""
        return max(abs(x) for x, _ in self.outline)


@dataclass(frozen=True)
class Leaf:
    """Blades with their places on the leaf, and the stalks that carry them."""

    blades: tuple[tuple[Blade, Affine], ...]
    stalks: tuple[Points, ...]
    stalk_width: float = 0.03


@dataclass(frozen=True)
class Profile:
    """A blade told by half width: widest half width, where that is, how full it is, lobes and teeth of the edge."""

    half: float
    widest: float = 0.42
    full: float = 0.8
    lobes: int = 0
    lobe_depth: float = 0.0
    teeth: int = 0

    def half_width(self, along: float) -> float:
        """Half width at ``along``; 0 at base and tip."""
        part = min(1.0, max(0.0, along))
        bent = part ** (math.log(0.5) / math.log(self.widest))
        width: float = self.half * math.sin(math.pi * bent) ** self.full
        if self.lobes:
            width *= 1 - self.lobe_depth * (0.5 + 0.5 * math.cos(2 * math.pi * self.lobes * part))
        if self.teeth:
            width *= 1 + 0.07 * abs((part * self.teeth) % 1.0 - 0.5)
        return width


@dataclass(frozen=True)
class Rose:
    """A blade told by its radius about (0, middle), at angles from the tip (degrees) to the base at 180."""

    middle: float
    radii: tuple[tuple[float, float], ...]
    rays: tuple[float, ...]  # main veins: angles from the tip, seen from the base

    def radius(self, degrees: float) -> float:
        """Radius at an angle from the tip, both sides alike."""
        angle = abs((degrees + 180) % 360 - 180)
        for (low, first), (high, second) in zip(self.radii, self.radii[1:], strict=False):
            if angle <= high:
                share = 0.5 - 0.5 * math.cos(math.pi * (angle - low) / (high - low))
                return first + (second - first) * share
        return self.radii[-1][1]


PROFILES: dict[str, Profile] = {
    "oval": Profile(0.31),
    "toothed": Profile(0.36, 0.48, 0.7, teeth=16),
    "lance": Profile(0.17, 0.38, 0.9),
    "spoon": Profile(0.36, 0.6, 0.62),
    "cut": Profile(0.33, 0.58, 0.7, lobes=5, lobe_depth=0.5),
    "strap": Profile(0.11, 0.3, 0.35),
}
ROSES: dict[str, Rose] = {
    "heart": Rose(
        0.40, ((0, 0.60), (22, 0.47), (60, 0.42), (105, 0.43), (140, 0.49), (162, 0.48), (180, 0.385)), (0, 40, 85)
    ),
    "lobed": Rose(
        0.42,
        ((0, 0.58), (17, 0.45), (27, 0.41), (52, 0.53), (78, 0.39), (88, 0.39), (116, 0.52), (146, 0.45), (160, 0.46),
         (180, 0.40)),
        (0, 38, 84),
    ),
}  # fmt: skip


@lru_cache(maxsize=64)
def build_blade(shape: str, warp: Warp = Warp()) -> Blade:
    """The blade of a shape (a key of PROFILES or ROSES), warped. Errors: KeyError for an unknown shape."""
    sway = _sway(warp)
    straight = _profile_blade(shape, warp) if shape in PROFILES else _rose_blade(shape, warp)

    def bent(points: Points) -> Points:
        return tuple((x + sway(y), y) for x, y in points)

    veins = tuple(replace(vein, points=bent(vein.points)) for vein in straight.veins)
    return Blade(bent(straight.outline), veins, lambda x, y: straight.locate(x - sway(y), y))


def _sway(warp: Warp) -> Callable[[float], float]:
    """How far the midrib leans to the right at a height."""
    return lambda y: warp.crumple * 0.16 * math.sin(4.2 * y)


def _side_factor(warp: Warp, along: float, side: int) -> float:
    """What the warp leaves of the half width at one place of one side."""
    factor = 1 - warp.narrow
    factor *= 1 - warp.crumple * 0.75 * clouds(along * 4.5, 7.0 + side, 5)
    if side > 0 and warp.missing:
        factor *= 1 - warp.missing * (0.85 + 0.15 * math.sin(9 * along + 1))
    return max(0.05, factor)


def _profile_blade(shape: str, warp: Warp) -> Blade:
    profile = PROFILES[shape]

    def half(along: float, side: int) -> float:
        waves = 1 + warp.waves * math.sin(2 * math.pi * (5.5 * along + 0.3 * side))
        return profile.half_width(along) * _side_factor(warp, along, side) * waves

    steps = 96 if profile.teeth or profile.lobes else 48
    right = [(half(k / steps, 1), k / steps) for k in range(steps + 1)]
    left = [(-half(k / steps, -1), k / steps) for k in range(steps, -1, -1)]

    def locate(x: float, y: float) -> Spot:
        side = 1 if x >= 0 else -1
        width = max(1e-6, half(y, side))
        slope = (half(y + 0.02, side) - half(y - 0.02, side)) / 0.04
        depth = (width - abs(x)) / math.sqrt(1 + slope * slope)
        return Spot(y, x / width, min(depth, 1.0 - y if y > 0.9 else depth))

    veins = parallel_veins(half) if shape == "strap" else pinnate_veins(half)
    return Blade((*right, *left), veins, locate)


def _rose_blade(shape: str, warp: Warp) -> Blade:
    rose = ROSES[shape]

    def radius(degrees: float) -> float:
        along = min(1.0, max(0.0, rose.middle + 0.5 * math.cos(math.radians(degrees))))
        side = 1 if math.sin(math.radians(degrees)) >= 0 else -1
        waves = 1 + 0.5 * warp.waves * math.sin(math.radians(13 * degrees))
        sideways = abs(math.sin(math.radians(degrees)))
        return rose.radius(degrees) * waves * (1 - (1 - _side_factor(warp, along, side)) * sideways)

    def at(degrees: float) -> Point:
        return (
            radius(degrees) * math.sin(math.radians(degrees)),
            rose.middle + radius(degrees) * math.cos(math.radians(degrees)),
        )

    def locate(x: float, y: float) -> Spot:
        degrees = math.degrees(math.atan2(x, y - rose.middle))
        edge, here = radius(degrees), math.hypot(x, y - rose.middle)
        lean = (radius(degrees + 3) - radius(degrees - 3)) / (math.radians(6) * edge)
        share = here / edge
        across = share * math.sin(math.radians(degrees))
        return Spot(y, across, (edge - here) / math.sqrt(1 + lean * lean))

    outline = tuple(at(angle) for angle in range(-180, 180, 3))
    return Blade(outline, palmate_veins(outline, rose.rays), locate)


def _leaflets(shape: str, warp: Warp, seats: tuple[tuple[float, float, float], ...], width: float) -> Leaf:
    """Leaflets at (height on the stalk, turn in degrees, length); a turn stands for both sides."""
    blade = build_blade(shape, warp)
    placed, stalks = [], [((0.0, -0.12), (0.0, seats[-1][0]))]
    for height, degrees, length in seats:
        for turn in (degrees,) if degrees == 0 else (degrees, -degrees):
            # y points up in a blade: a turn to the right is a negative one
            gap = 0.04 if degrees else 0.0
            seat = moved(gap * math.sin(math.radians(turn)), height + gap * math.cos(math.radians(turn)))
            placed.append((blade, scaled(length).then(turned(-turn)).then(seat)))
            stalks.append(((0.0, height), seat((0.0, 0.0))))
    return Leaf(tuple(placed), tuple(stalks), width)


#: Where leaflets sit: (height, turn, length), from the lowest to the tip.
SEATS: dict[str, tuple[LeafShape, tuple[tuple[float, float, float], ...], float]] = {
    "three": ("toothed", ((0.36, 70, 0.5), (0.4, 0, 0.6)), 0.022),
    "compound": ("oval", ((0.12, 68, 0.38), (0.36, 60, 0.42), (0.56, 0, 0.44)), 0.024),
    "feathery": (
        "cut", ((0.08, 66, 0.36), (0.26, 60, 0.36), (0.44, 52, 0.32), (0.60, 44, 0.26), (0.70, 0, 0.30)), 0.018,
    ),
}  # fmt: skip


@lru_cache(maxsize=64)
def build_leaf(shape: LeafShape, warp: Warp = Warp()) -> Leaf:
    """The leaf of a crop's shape, warped.

    >>> len(build_leaf("oval").blades), len(build_leaf("three").blades)
    (1, 3)
    """
    if shape in SEATS:
        blade, seats, width = SEATS[shape]
        return _leaflets(blade, warp, seats, width)
    wide = {"spoon": 0.09, "strap": 0.05}.get(shape, 0.035)
    stalk = () if shape == "strap" else (((0.0, -0.22), (0.0, 0.04)),)
    return Leaf(((build_blade(shape, warp), Affine()),), stalk, wide)
