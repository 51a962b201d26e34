"""The leaf model: sound outlines, places that make sense, veins inside the leaf, patterns where they belong."""

from __future__ import annotations

import math
from typing import get_args

import pytest

from triage.model.crop import LeafShape
from triage.model.picture import Params, PatternName, Picture
from triage.screens.pictures.coat import Coat, chosen, places
from triage.screens.pictures.leaf import PROFILES, ROSES, Warp, build_blade, build_leaf
from triage.screens.pictures.patterns import ORDER, PATTERNS, leaf_scene
from triage.screens.pictures.raster import Raster, paint

SHAPES = list(get_args(LeafShape))
BLADES = [*PROFILES, *ROSES]


def made(pattern: str, **params: object) -> Picture:
    return Picture(picture="x", finding="x", pattern=pattern, says="x", params=Params(**params), sources=[])  # type: ignore[arg-type]


def drawn(pattern: str, shape: str = "oval", **params: object) -> Raster:
    return paint(leaf_scene(shape, (made(pattern, **params),)), 110)  # type: ignore[arg-type]


def inks(raster: Raster, rows: slice = slice(None)) -> list[str]:
    lines = [raster.inks[y * raster.width : (y + 1) * raster.width] for y in range(raster.height)]
    return [ink for line in lines[rows] for ink in line if ink]


@pytest.mark.parametrize("shape", BLADES)
def test_a_blade_stands_on_its_base_and_ends_at_its_tip(shape: str) -> None:
    blade = build_blade(shape)
    assert max(y for _, y in blade.outline) == pytest.approx(1.0, abs=0.03)
    assert min(y for _, y in blade.outline) > -0.12
    assert sum(x for x, _ in blade.outline) / len(blade.outline) == pytest.approx(0, abs=0.02)
    assert 0.04 < blade.area < 0.9


@pytest.mark.parametrize("shape", BLADES)
def test_depth_is_nothing_at_the_edge_and_most_in_the_middle(shape: str) -> None:
    blade = build_blade(shape)
    edge = [abs(blade.locate(x, y).depth) for x, y in blade.outline if 0.1 < y < 0.9]
    assert max(edge) < 0.03
    assert blade.inmost > 0.05
    assert blade.locate(0.0, 0.45).depth > 0.3 * blade.inmost


@pytest.mark.parametrize("shape", BLADES)
def test_along_and_across_tell_base_from_tip_and_left_from_right(shape: str) -> None:
    blade = build_blade(shape)
    assert blade.locate(0.0, 0.1).along < blade.locate(0.0, 0.9).along
    x = 0.3 * blade.half
    assert blade.locate(-x, 0.4).across == pytest.approx(-blade.locate(x, 0.4).across, abs=0.02)
    assert blade.locate(x, 0.4).across > 0


@pytest.mark.parametrize("shape", BLADES)
def test_veins_start_inside_the_blade_and_come_in_three_orders(shape: str) -> None:
    blade = build_blade(shape)
    assert {vein.order for vein in blade.veins} >= {0, 1}
    for vein in blade.veins:
        x, y = vein.points[0]
        assert blade.locate(x, max(y, 0.02)).depth > -0.02


@pytest.mark.parametrize("shape", SHAPES)
def test_every_leaf_has_blades_that_do_not_leave_the_canvas(shape: LeafShape) -> None:
    leaf = build_leaf(shape)
    for blade, seat in leaf.blades:
        for point in blade.outline:
            x, y = seat(point)
            assert abs(x) <= 0.56
            assert -0.2 < y < 1.08


@pytest.mark.parametrize("warp", [Warp(narrow=0.5), Warp(waves=0.2), Warp(crumple=1.0), Warp(missing=0.86)])
@pytest.mark.parametrize("shape", BLADES)
def test_a_warped_blade_is_smaller_or_of_another_outline_but_never_inside_out(shape: str, warp: Warp) -> None:
    sound, bent = build_blade(shape), build_blade(shape, warp)
    assert bent.outline != sound.outline
    assert 0.02 < bent.area < 1.25 * sound.area


def test_knowledge_may_name_exactly_the_patterns_there_are() -> None:
    assert set(get_args(PatternName)) == {*PATTERNS, "plant", "creature"}
    assert {pattern.layer for pattern in PATTERNS.values()} == set(ORDER)


@pytest.mark.parametrize("pattern", sorted(PATTERNS))
@pytest.mark.parametrize("shape", SHAPES)
def test_every_pattern_shows_on_every_leaf(shape: LeafShape, pattern: str) -> None:
    sound = paint(leaf_scene(shape, ()), 44)
    worn = paint(leaf_scene(shape, (made(pattern),)), 44)
    assert worn != sound
    assert sum(colour is not None for colour in worn.colours) > 25


def test_a_scorched_edge_lies_at_the_edge_and_a_scorched_tip_at_the_tip() -> None:
    edge, tip = drawn("margin"), drawn("tip")
    for y in range(20, 90):
        row = [x for x in range(edge.width) if edge.colour(x, y) is not None]
        if len(row) > 20:
            assert edge.ink(row[2], y) == "brown"
            assert edge.ink((row[0] + row[-1]) // 2 + 3, y) in ("green", "vein")
    assert "brown" in inks(tip, slice(0, 30))
    assert "brown" not in inks(tip, slice(45, None))


def test_between_veins_the_ribs_stay_green_and_the_fields_do_not() -> None:
    raster = drawn("between-veins", form="lines")
    middle = [raster.ink(55, y) for y in range(30, 90)]
    assert set(middle) == {"green"}
    assert inks(raster).count("yellow") > inks(raster).count("green")


def test_bands_keep_more_green_than_lines_and_lines_more_than_none() -> None:
    green = [inks(drawn(*what)).count("green") for what in (("whole",), ("between-veins",))]
    bands = inks(drawn("between-veins", form="bands")).count("green")
    assert green[0] < green[1]
    assert bands > 0.5 * green[1]


def test_a_blotch_from_the_stalk_lies_at_the_stalk() -> None:
    raster = drawn("dieback")
    assert "brown" not in inks(raster, slice(0, 40))
    assert "brown" in inks(raster, slice(75, 105))


def test_holes_let_the_ground_through_and_bites_take_from_the_edge() -> None:
    sound = sum(colour is not None for colour in paint(leaf_scene("oval", ()), 110).colours)
    for pattern in ("holes", "bites", "tears"):
        left = sum(colour is not None for colour in drawn(pattern).colours)
        assert 0.5 * sound < left < 0.97 * sound, pattern


def test_marks_keep_their_distance_from_the_edge_and_each_other() -> None:
    coat = Coat(build_blade("oval"))
    seats = places(coat, 12, edge=0.05, apart=0.1)
    assert len(seats) == 12
    for number, (x, y) in enumerate(seats):
        assert coat.blade.locate(x, y).depth > 0.05
        assert all(math.hypot(x - px, y - py) >= 0.1 for px, py in seats[:number])


def test_marks_are_as_large_on_a_leaflet_as_on_a_whole_leaf_and_fewer() -> None:
    whole, leaflet = Coat(build_blade("oval")), Coat(build_blade("oval"), unit=2.5)
    assert leaflet.size(0.05, 0.1) / 2.5 == pytest.approx(whole.size(0.05, 0.1), rel=0.25)
    assert len(places(leaflet, 40)) < len(places(whole, 40)) / 4


def test_strength_goes_from_nothing_to_all() -> None:
    coat = Coat(build_blade("oval"))
    hit = [sum(chosen(Coat(coat.blade, strength=s), k, 0.6) for k in range(50)) for s in (0.0, 0.5, 1.0)]
    assert hit[0] == 0
    assert hit[0] < hit[1] < hit[2]
    assert hit[2] == pytest.approx(30, abs=2)
