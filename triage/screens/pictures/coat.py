"""How one blade is painted: ground, what lies under the veins, the veins, what lies over them, and what is gone.

Patterns take a coat and give back a changed one, so that several of them can be worn together.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from .leaf import Blade
from .scatter import shuffled, spread
from .scene import Affine, Area, Group, Line, Part, Point, Points, box_of, ellipse
from .veins import Vein

USUAL_VEINS = (0.02, 0.010, 0.0)
USUAL_AREA = 0.4  # of a blade, in leaf lengths squared


@dataclass(frozen=True)
class Coat:
    """The paint of one blade. ``strength`` (0 to 1) is how far the trouble has gone; ``salt`` varies the scatter."""

    blade: Blade
    salt: int = 0
    strength: float = 1.0
    unit: float = 1.0  # a leaf length in blade lengths: marks are as large on a leaflet as on a whole leaf
    ground: str = "green"
    under: tuple[Part, ...] = ()
    vein_ink: str = "vein"
    vein_widths: tuple[float, float, float] = USUAL_VEINS  # by order; 0: not drawn
    over: tuple[Part, ...] = ()
    cuts: tuple[Points, ...] = ()
    loose: tuple[Part, ...] = field(default=())  # on the leaf's place, but not clipped to it

    def size(self, said: float | None, usual: float, most: float = 0.62) -> float:
        """A length said in leaf lengths (or the usual one), on this blade: at most a share of its inmost depth."""
        return min(value(said, usual) * self.unit, most * self.blade.inmost)

    def under_with(self, *parts: Part) -> Coat:
        """With more parts below the veins."""
        return replace(self, under=(*self.under, *parts))

    def over_with(self, *parts: Part) -> Coat:
        """With more parts above the veins."""
        return replace(self, over=(*self.over, *parts))

    def groups(self, place: Affine) -> tuple[Group, ...]:
        """The blade as groups for a canvas."""
        blade = self.blade
        body: list[Part] = [Area(blade.outline, self.ground)] if self.ground else []
        rim = Line((*blade.outline, blade.outline[0]), 0.012, "deep-green", 0.35, 0.1)
        body += [*self.under, *self.vein_lines(), *([rim] if self.ground else []), *self.over]
        leaf = Group(tuple(body), blade.outline, self.cuts, place)
        return (leaf, Group(self.loose, place=place)) if self.loose else (leaf,)

    def vein_lines(self) -> list[Part]:
        """The veins in their ink, thick to thin. Veins as they always are say nothing in plain text."""
        loud = 0.3 if self.vein_widths == USUAL_VEINS else 1.6
        return [
            Line(vein.points, width, self.vein_ink, loud=loud)
            for vein in sorted(self.blade.veins, key=lambda vein: -vein.order)
            if (width := self.vein_widths[vein.order])
        ]

    def veins(self, *orders: int) -> list[Vein]:
        """Veins of these orders."""
        return [vein for vein in self.blade.veins if vein.order in orders]


def places(
    coat: Coat, count: int, *, edge: float = 0.03, salt: int = 0, apart: float = 0.0, least: int = 1
) -> tuple[Point, ...]:
    """Evenly scattered places on a blade, at least ``edge`` from its edge and ``apart`` from each other.

    ``count`` is for a leaf of usual area at full strength; there are ``least`` on any blade.
    """
    left, bottom, right, top = box_of(coat.blade.outline)
    found: list[Point] = []
    share = min(1.0, coat.blade.area / (USUAL_AREA * coat.unit**2))
    wanted = max(least, round(count * coat.strength * share))
    for tries, (u, v) in enumerate(spread(coat.salt * 31 + salt)):
        x, y = left + u * (right - left), bottom + v * (top - bottom)
        spot = coat.blade.locate(x, y)
        near = apart and any((x - px) ** 2 + (y - py) ** 2 < apart * apart for px, py in found)
        if spot.depth > edge and 0.02 < spot.along < 0.98 and not near:
            found.append((x, y))
        if len(found) >= wanted or tries > 40 * wanted + 200:
            return tuple(found)
    return tuple(found)


def chosen(coat: Coat, number: int, share: float) -> bool:
    """Whether piece ``number`` of many is one of the share that is hit: evenly spread, more with strength."""
    return (number * 0.618034 + 0.1 + 0.37 * coat.salt) % 1.0 < share * coat.strength


def ragged(x: float, y: float, radius: float, number: int, *, rough: float = 0.35, corners: int = 14) -> Points:
    """An uneven round patch."""
    shares = (1 - rough * shuffled(number * 64 + k, 9) for k in range(corners))
    round_ = ellipse(x, y, radius, radius, 40 * number, corners)
    return tuple((x + (px - x) * share, y + (py - y) * share) for (px, py), share in zip(round_, shares, strict=True))


def value(said: float | None, usual: float) -> float:
    """What was said, or the usual."""
    return usual if said is None else said


def ink(said: str | None, usual: str) -> str:
    """The ink said, or the usual."""
    return said or usual
