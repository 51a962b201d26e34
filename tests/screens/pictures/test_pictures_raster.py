"""The painter: areas, strokes, dots, washes, clips and holes come out as large as they are, and always the same."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.screens.pictures.raster import Raster, paint, trimmed
from triage.screens.pictures.scene import (
    Affine,
    Area,
    Dots,
    Group,
    Line,
    Part,
    Points,
    Scene,
    Wash,
    ellipse,
    moved,
    scaled,
    turned,
)  # fmt: skip

HERE = Affine()
SQUARE: Points = ((2.0, 2.0), (8.0, 2.0), (8.0, 8.0), (2.0, 8.0))


def painted(*parts: Part, clip: Points = (), cuts: tuple[Points, ...] = (), place: Affine = HERE) -> Raster:
    return paint(Scene(10, 10, (Group(parts, clip, cuts, place),)), 100, samples=1)


def count(raster: Raster) -> int:
    return sum(colour is not None for colour in raster.colours)


def test_a_square_covers_its_area() -> None:
    assert count(painted(Area(SQUARE, "green"))) == 60 * 60


@given(st.floats(0.5, 4.5), st.floats(0.3, 4.5), st.floats(0, 180))
def test_an_ellipse_covers_pi_a_b(a: float, b: float, degrees: float) -> None:
    found = count(painted(Area(ellipse(5, 5, a, b, degrees, corners=96), "green"))) / 100
    assert found == pytest.approx(math.pi * a * b, rel=0.06, abs=0.12)


@given(st.floats(0.2, 3.0), st.floats(0.5, 3.5))
def test_a_stroke_covers_its_length_times_its_width_and_two_half_discs(width: float, length: float) -> None:
    raster = painted(Line(((5 - length, 5.0), (5 + length, 5.0)), width, "green"))
    assert count(raster) / 100 == pytest.approx(
        2 * length * width + math.pi * width**2 / 4,
        rel=0.02,
        abs=0.2 * length + 0.1 * width + 0.1,  # squares of the raster along the rim
    )


def test_dots_are_round_and_never_lost() -> None:
    assert count(painted(Dots(((5.0, 5.0),), 2.0, "green"))) / 100 == pytest.approx(math.pi * 4, rel=0.02)
    assert count(painted(Dots(((5.0, 5.0),), 0.0001, "green"))) >= 1


def test_a_line_that_says_nothing_fades_away_when_it_is_thin_and_one_that_matters_stays() -> None:
    def lines(loud: float) -> int:
        line = Line(((1.0, 5.0), (9.0, 5.0)), 0.001, "green", loud=loud)
        raster = paint(Scene(10, 10, (Group((Area(SQUARE, "black"), line)),)), 50)
        return raster.inks.count("green")

    assert lines(0.3) == 0
    assert lines(2.0) > 0


def test_nothing_is_painted_outside_the_clip_or_in_a_hole() -> None:
    hole: Points = ((4.0, 4.0), (6.0, 4.0), (6.0, 6.0), (4.0, 6.0))
    raster = painted(Area(((0, 0), (10, 0), (10, 10), (0, 10)), "green"), clip=SQUARE, cuts=(hole,))
    assert count(raster) == 60 * 60 - 20 * 20
    assert raster.colour(50, 50) is None
    assert raster.colour(10, 50) is None


def test_a_wash_is_as_thick_as_its_field_says() -> None:
    def red_at(x: int) -> int:
        colour = raster.colour(x, 50)
        assert colour is not None
        return colour[0]

    raster = painted(Area(SQUARE, "black"), Wash(lambda x, y: (x - 2) / 6, "white"), clip=SQUARE)
    reds = [red_at(x) for x in range(20, 80)]
    assert reds == sorted(reds)
    assert reds[0] < 45
    assert reds[-1] > 240


def test_groups_are_placed() -> None:
    unit: Points = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
    place = scaled(4).then(turned(90)).then(moved(6, 2))
    raster = painted(Area(unit, "green"), place=place)
    assert count(raster) == 40 * 40
    assert raster.colour(30, 30) is not None
    assert raster.colour(70, 30) is None


@given(st.floats(0.2, 5), st.floats(-180, 180), st.floats(-5, 5), st.floats(-5, 5))
def test_the_way_back_is_the_way_back(size: float, degrees: float, x: float, y: float) -> None:
    place = scaled(size, -size).then(turned(degrees)).then(moved(x, y))
    assert place.inverse()(place((1.25, -0.5))) == pytest.approx((1.25, -0.5), abs=1e-9)
    assert place.scale == pytest.approx(size)


def test_the_same_scene_gives_the_same_pixels() -> None:
    parts = (Area(SQUARE, "green"), Dots(((3, 3), (5, 7)), 0.4, "brown"), Wash(lambda x, y: x / 10, "yellow"))
    assert painted(*parts, clip=SQUARE) == painted(*parts, clip=SQUARE)


def test_trimmed_keeps_all_that_is_painted() -> None:
    raster = trimmed(painted(Area(SQUARE, "green")))
    assert (raster.width, raster.height) == (60, 60)
    assert count(raster) == 3600
    assert trimmed(painted()).width == 1


def test_small_pixels_average_their_samples_and_the_loudest_ink_gives_the_letter() -> None:
    half: Points = ((0.0, 0.0), (5.0, 0.0), (5.0, 10.0), (0.0, 10.0))
    whole: Points = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
    scene = Scene(10, 10, (Group((Area(whole, "black"), Area(half, "white", loud=2.0))),))
    raster = paint(scene, 1, samples=2)
    colour = raster.colour(0, 0)
    assert colour is not None
    assert 120 < colour[0] < 170
    assert raster.ink(0, 0) == "white"
