"""The whole plant: which leaves have it, on every habit; what the plant as a whole does."""

from __future__ import annotations

from typing import get_args

import pytest

from triage.model.crop import Habit, LeafShape
from triage.model.picture import Posture, Where
from triage.screens.pictures.catalogue import PLACEHOLDER
from triage.screens.pictures.plant import FOOT, HEIGHT, WIDTH, Seat, from_above, plant_scene, seats, share_hit
from triage.screens.pictures.raster import Raster, paint

HABITS = list(get_args(Habit))
BUILDS: list[tuple[Habit, LeafShape]] = [("upright", "oval"), ("rosette", "spoon"), ("clump", "strap")]
YELLOW = ("yellow", "cream")


def drawn(habit: Habit, shape: LeafShape, where: Where | None, posture: str = "sound") -> Raster:
    worn = (PLACEHOLDER,) if where else ()
    return paint(plant_scene(habit, shape, worn, where, posture), 90)  # type: ignore[arg-type]


def places_of(raster: Raster, *inks: str) -> list[tuple[float, float]]:
    """Places of inks in shares of the picture, from its upper left."""
    return [
        (n % raster.width / raster.width, n // raster.width / raster.height)
        for n, ink in enumerate(raster.inks)
        if ink in inks
    ]


def mean(values: list[float]) -> float:
    return sum(values) / len(values)


@pytest.mark.parametrize("where", get_args(Where))
def test_each_place_hits_some_leaves_and_only_all_hits_every_one(where: Where) -> None:
    shares = [share_hit(where, Seat(1, 20 if n % 2 else -20, 1, n / 8)) for n in range(9)]
    assert all(0 <= share <= 1 for share in shares)
    assert max(shares) == 1
    assert (min(shares) > 0.9) == (where == "all")


def test_young_leaves_are_at_the_top_and_old_ones_at_the_bottom_of_an_upright_plant() -> None:
    young = mean([y for _, y in places_of(drawn("upright", "oval", "young"), *YELLOW)])
    middle = mean([y for _, y in places_of(drawn("upright", "oval", "middle"), *YELLOW)])
    old = mean([y for _, y in places_of(drawn("upright", "oval", "old"), *YELLOW)])
    assert young < middle - 0.1 < old - 0.2


@pytest.mark.parametrize("habit", ["rosette", "clump"])
def test_young_leaves_are_in_the_heart_and_old_ones_outside(habit: Habit) -> None:
    shape: LeafShape = dict(BUILDS)[habit]

    def spread(where: Where) -> float:
        return mean([abs(x - 0.5) for x, _ in places_of(drawn(habit, shape, where), *YELLOW)])

    assert spread("young") < 0.75 * spread("old")


@pytest.mark.parametrize(("habit", "shape"), BUILDS)
def test_fewer_leaves_have_it_when_only_the_lowest_do(habit: Habit, shape: LeafShape) -> None:
    counts = [len(places_of(drawn(habit, shape, where), *YELLOW)) for where in ("lowest", "old", "all")]
    assert 0 < counts[0] < counts[1] < counts[2]


def test_one_side_is_one_side() -> None:
    sides = [x for x, y in places_of(drawn("upright", "oval", "one-side"), *YELLOW) if y > 0.2]
    assert sum(x > 0.5 for x in sides) > 0.95 * len(sides)


@pytest.mark.parametrize(("habit", "shape"), BUILDS)
def test_a_sound_plant_is_green_all_over(habit: Habit, shape: LeafShape) -> None:
    assert set(drawn(habit, shape, None).inks) <= {"", "green", "vein", "stem", "pot", "deep-green"}


@pytest.mark.parametrize(("habit", "shape"), BUILDS)
def test_a_stunted_plant_stands_inside_the_outline_of_a_usual_one(habit: Habit, shape: LeafShape) -> None:
    usual, small = drawn(habit, shape, None), drawn(habit, shape, None, "stunted")
    assert len(places_of(small, "green", "vein")) < 0.5 * len(places_of(usual, "green", "vein"))
    assert len(places_of(small, "ghost")) > 50


def test_limp_leaves_hang_below_their_stalks() -> None:
    for seat in seats("upright", "limp", "oval"):
        assert abs(seat.lean) > 70
    assert all(abs(seat.lean) <= 100 for seat in seats("upright", "sound", "oval"))


def test_a_leggy_plant_is_taller_with_fewer_leaves_and_a_bunched_one_lower() -> None:
    def height(posture: Posture) -> float:
        return max(seat.height for seat in seats("upright", posture, "oval"))

    tall = {posture: height(posture) for posture in get_args(Posture)}
    assert tall["bunched"] < 0.5 * tall["sound"] < tall["sound"] < tall["leggy"]
    assert len(seats("upright", "leggy", "oval")) < len(seats("upright", "sound", "oval"))


@pytest.mark.parametrize("habit", HABITS)
def test_the_dead_tip_lies_over_the_youngest_leaves(habit: Habit) -> None:
    dead = places_of(drawn(habit, dict(BUILDS)[habit], None, "tip-dead"), "black")
    assert dead
    assert mean([abs(x - 0.5) for x, _ in dead]) < 0.1
    assert mean([y for _, y in dead]) < (0.55 if habit == "rosette" else 0.7)


@pytest.mark.parametrize("habit", HABITS)
def test_only_a_rosette_is_seen_from_above(habit: Habit) -> None:
    assert from_above(habit, "sound") == (habit == "rosette")
    assert 0 < FOOT[0] < WIDTH
    assert 0 < FOOT[1] < HEIGHT
