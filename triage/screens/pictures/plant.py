"""A whole plant: its leaves by age, so that one sees which of them have it first."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ...model.crop import Habit, LeafShape
from ...model.picture import Picture, Posture, Where
from .leaf import build_leaf
from .patterns import leaf_groups
from .scatter import ramp
from .scene import Affine, Area, Group, Line, Scene, ellipse, moved, scaled, turned

WIDTH, HEIGHT = 2.6, 3.1
#: Where the stem stands on the canvas: its foot.
FOOT = (WIDTH / 2, 2.82)


@dataclass(frozen=True)
class Seat:
    """A leaf on the plant: where its stalk starts (up from the foot), its lean from upright in degrees (right is
    positive), its length, and its age from 0 (just opened) to 1 (the oldest)."""

    height: float
    lean: float
    length: float
    age: float


def share_hit(where: Where | None, seat: Seat) -> float:
    """How far a leaf of this age and side has it, 0 to 1.

    >>> [share_hit("young", Seat(1, 0, 1, age)) for age in (0.0, 1.0)]
    [1.0, 0.0]
    """
    age = seat.age
    if where == "young":
        return ramp(age, 0.5, 0.25)
    if where == "old":
        return ramp(age, 0.45, 0.8)
    if where == "lowest":
        return ramp(age, 0.8, 0.95)
    if where == "middle":
        return ramp(age, 0.2, 0.4) * ramp(age, 0.8, 0.65)
    if where == "one-side":
        return 1.0 if seat.lean > 0 else 0.0
    return 1.0


def seats(habit: Habit, posture: Posture, shape: LeafShape) -> tuple[Seat, ...]:
    """The leaves of a plant, from the back of the picture to the front."""
    if posture == "limp":
        made = _clump(posture) if habit == "clump" else _upright(posture, 7)
        return tuple(Seat(s.height, math.copysign(_hanging(s), s.lean or 1), s.length * 0.85, s.age) for s in made)
    if posture not in ("leggy", "bunched"):
        if habit == "rosette":
            return _rosette()
        if habit == "clump":
            return _clump(posture)
    return _upright(posture, 9 if shape in ("oval", "toothed", "lance", "cut", "strap") else 7)


def from_above(habit: Habit, posture: Posture) -> bool:
    """Whether the plant is drawn as one looks down on it."""
    return habit == "rosette" and posture in ("sound", "stunted", "tip-dead")


def _hanging(seat: Seat) -> float:
    return min(172.0, abs(seat.lean) + 70 + 20 * seat.age)


def _upright(posture: Posture, leaves: int) -> tuple[Seat, ...]:
    count = 6 if posture == "leggy" else leaves
    tall = {"leggy": 2.45, "bunched": 0.75, "limp": 1.5}.get(posture, 1.85)
    low = 0.62 if posture == "limp" else 0.28
    longest = {"leggy": 0.42, "bunched": 0.7}.get(posture, 0.82)
    made = []
    for number in range(count):
        age = 1 - number / (count - 1)
        lean = (20 + 75 * age) * (1 if number % 2 else -1) if number < count - 1 else 4.0
        made.append(Seat(tall - (tall - low) * age**0.9, lean, longest * (0.5 + 0.5 * ramp(age, 0.0, 0.45)), age))
    return tuple(made)


def _rosette() -> tuple[Seat, ...]:
    """From above: each leaf a golden angle (137.5 degrees) on from the one before, the oldest lowest and largest."""
    count = 11
    ages = [1 - number / (count - 1) for number in range(count)]
    return tuple(
        Seat(0.0, ((137.508 * number + 60) % 360) - 180, 0.42 + 0.72 * age, age) for number, age in enumerate(ages)
    )


def _clump(posture: Posture) -> tuple[Seat, ...]:
    count = 7
    made = []
    for number in range(count):
        age = 1 - number / (count - 1)
        made.append(Seat(0.05, (3 + 38 * age) * (1 if number % 2 else -1), 1.45 + 0.5 * age, age))
    return tuple(made)


def plant_scene(
    habit: Habit, shape: LeafShape, worn: tuple[Picture, ...], where: Where | None, posture: Posture = "sound",
    base: tuple[Picture, ...] = (),
) -> Scene:  # fmt: skip
    """A plant on which the leaves that have it wear the pictures' patterns, and the others those of ``base``."""
    size = 0.58 if posture == "stunted" else 1.0
    above = from_above(habit, posture)
    foot = (WIDTH / 2, HEIGHT / 2) if above else FOOT
    place = scaled(size, -size).then(moved(*foot))
    made = seats(habit, posture, shape)
    groups = [] if above else [*_pot()]
    if posture == "stunted":
        groups += _ghosts(seats(habit, "sound", shape), shape, scaled(1, -1).then(moved(*foot)))
    groups.append(_stem(habit, posture, made, place))
    for number, seat in enumerate(made):
        strength = share_hit(where, seat)
        wears = worn if strength > 0.3 or not base else base
        spot = _at(seat, shape).then(place)
        groups += leaf_groups(shape, wears, spot, strength=1.0 if wears is base else strength, salt=number)
    if posture == "tip-dead":
        top = min(made, key=lambda seat: seat.age)
        tall, wide = (0.6, 0.12) if habit == "clump" else (0.22, 0.13)
        heart = ellipse(0, 0, 0.2, 0.2) if above else ellipse(0, top.height + 0.03 + tall, wide, tall)
        groups.append(Group((Area(heart, "black", 1.0, 4.0),), place=place))
    return Scene(WIDTH, HEIGHT, tuple(groups))


def _at(seat: Seat, shape: LeafShape) -> Affine:
    """From a leaf of length one to its place on the plant (foot at 0, 0; y up): the end of its stalk on the stem."""
    end = min([0.0, *(y for points in build_leaf(shape).stalks for _, y in points)])
    return moved(0, -end).then(scaled(seat.length)).then(turned(-seat.lean)).then(moved(0, seat.height))


def _stem(habit: Habit, posture: Posture, made: tuple[Seat, ...], place: Affine) -> Group:
    top = max(seat.height for seat in made)
    if top < 0.1:
        return Group((Area(ellipse(0, 0.0, 0.1, 0.1), "stem"),), place=place)
    return Group((Line(((0, 0), (0, top)), 0.03 if posture == "leggy" else 0.055, "stem"),), place=place)


def _pot() -> tuple[Group, ...]:
    """A net pot in the raft: the same under every plant, for the scale."""
    x, y = FOOT
    sides = ((x - 0.3, y), (x + 0.3, y), (x + 0.2, y + 0.24), (x - 0.2, y + 0.24))
    return (Group((Area(sides, "pot"),)),)


def _ghosts(made: tuple[Seat, ...], shape: LeafShape, place: Affine) -> tuple[Group, ...]:
    """The outlines of a plant of usual size, behind the small one."""
    lines = []
    for seat in made:
        for blade, on_leaf in build_leaf(shape).blades:
            line = Line((*blade.outline, blade.outline[0]), 0.02, "ghost", 0.8)
            lines.append(Group((line,), place=on_leaf.then(_at(seat, shape)).then(place)))
    return tuple(lines)
