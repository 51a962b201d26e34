"""What a picture is made of, before anybody decides how to show it: parts in groups on a canvas.

Two renderers read the same scene: one paints pixels for the terminal, one writes SVG. Canvas units have no size of
their own; y points down. A group may have its own coordinates (``place`` takes them to the canvas).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass

Point = tuple[float, float]
Points = tuple[Point, ...]
Field = Callable[[float, float], float]


@dataclass(frozen=True)
class Affine:
    """x' = a x + c y + e, y' = b x + d y + f."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def __call__(self, point: Point) -> Point:
        x, y = point
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    def then(self, outer: Affine) -> Affine:
        """First this, then ``outer``.

        >>> moved(1, 0).then(turned(90))((0.0, 0.0)) == (math.cos(math.pi / 2), 1.0)
        True
        """
        return Affine(
            outer.a * self.a + outer.c * self.b, outer.b * self.a + outer.d * self.b,
            outer.a * self.c + outer.c * self.d, outer.b * self.c + outer.d * self.d,
            *outer((self.e, self.f)),
        )  # fmt: skip

    def inverse(self) -> Affine:
        """The way back. Errors: ZeroDivisionError when everything was pressed flat."""
        det = self.a * self.d - self.b * self.c
        a, b, c, d = self.d / det, -self.b / det, -self.c / det, self.a / det
        return Affine(a, b, c, d, -(a * self.e + c * self.f), -(b * self.e + d * self.f))

    @property
    def scale(self) -> float:
        """How much longer lines get (the root of the area factor)."""
        return math.sqrt(abs(self.a * self.d - self.b * self.c))


def moved(x: float, y: float) -> Affine:
    """Shift by x and y."""
    return Affine(e=x, f=y)


def scaled(x: float, y: float | None = None) -> Affine:
    """Stretch; a negative factor flips."""
    return Affine(a=x, d=x if y is None else y)


def turned(degrees: float) -> Affine:
    """Turn about the origin, from the x axis towards the y axis."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return Affine(cos, sin, -sin, cos)


@dataclass(frozen=True)
class Area:
    """A filled polygon."""

    points: Points
    ink: str
    opacity: float = 1.0
    loud: float = 1.0  # how strongly it claims a letter in plain text


@dataclass(frozen=True)
class Line:
    """A stroke with round ends."""

    points: Points
    width: float
    ink: str
    opacity: float = 1.0
    loud: float = 1.0


@dataclass(frozen=True)
class Dots:
    """Round dots of one size."""

    points: Points
    radius: float
    ink: str
    opacity: float = 1.0
    loud: float = 3.0


@dataclass(frozen=True)
class Wash:
    """An ink laid on as thick as ``field`` says (0 to 1) at each place of the group's clip."""

    field: Field
    ink: str
    loud: float = 1.0


Part = Area | Line | Dots | Wash


@dataclass(frozen=True)
class Group:
    """Parts painted one after the other, only inside ``clip`` (if given) and not where it is cut."""

    parts: tuple[Part, ...]
    clip: Points = ()
    cuts: tuple[Points, ...] = ()
    place: Affine = Affine()


@dataclass(frozen=True)
class Scene:
    """A canvas with groups from back to front, and a scale bar if it is a view through a lens."""

    width: float
    height: float
    groups: tuple[Group, ...]
    bar_mm: float = 0.0  # what the scale bar stands for; 0: there is none
    bar_length: float = 0.0  # its length in canvas units


def placed(scene: Scene, place: Affine) -> tuple[Group, ...]:
    """The groups of a scene taken to another canvas."""
    return tuple(Group(g.parts, g.clip, g.cuts, g.place.then(place)) for g in scene.groups)


def ellipse(x: float, y: float, rx: float, ry: float, degrees: float = 0.0, corners: int = 24) -> Points:
    """The corners of an ellipse about (x, y), turned by ``degrees``."""
    turn = turned(degrees)
    steps = (2 * math.pi * k / corners for k in range(corners))
    return tuple(moved(x, y)(turn((rx * math.cos(step), ry * math.sin(step)))) for step in steps)


def box_of(points: Iterable[Point]) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of some points.

    >>> box_of([(0, 1), (2, -1)])
    (0, -1, 2, 1)
    """
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
