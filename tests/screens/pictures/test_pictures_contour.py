"""Contours: closed, where the field has its level, and as large as geometry says."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.screens.pictures.contour import Grid, thinned
from triage.screens.pictures.scene import Points

BOX = (-1.0, -1.0, 1.0, 1.0)


def area(points: Points) -> float:
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairs) / 2


def hill(x: float, y: float) -> float:
    """A cone: 1 in the middle, 0 at distance 1."""
    return 1 - math.hypot(x, y)


@pytest.mark.parametrize("level", [0.2, 0.5, 0.8])
def test_a_cone_has_circles_for_contours(level: float) -> None:
    loops = list(Grid(hill, BOX, 80).loops(level))
    assert len(loops) == 1
    assert abs(area(loops[0])) == pytest.approx(math.pi * (1 - level) ** 2, rel=0.02)
    assert all(math.hypot(x, y) == pytest.approx(1 - level, abs=0.02) for x, y in loops[0])


def test_a_ring_has_an_outer_and_an_inner_contour_that_turn_against_each_other() -> None:
    ring = Grid(lambda x, y: 1 - 4 * abs(math.hypot(x, y) - 0.6), BOX, 80)
    areas = sorted(area(loop) for loop in ring.loops(0.5))
    assert areas == pytest.approx([-math.pi * 0.725**2, math.pi * 0.475**2], rel=0.03) or areas == pytest.approx(
        [-math.pi * 0.475**2, math.pi * 0.725**2], rel=0.03
    )


def test_a_field_that_is_high_everywhere_closes_at_the_box() -> None:
    (loop,) = Grid(lambda x, y: 1.0, BOX, 20).loops(0.5)
    assert abs(area(loop)) == pytest.approx(4.2, rel=0.05)


def test_two_hills_that_meet_at_a_corner_stay_closed() -> None:
    saddle = Grid(lambda x, y: 1.0 if (x > 0) == (y > 0) else 0.0, BOX, 2)
    for loop in saddle.loops(0.5):
        assert len(loop) > 2


@given(st.lists(st.tuples(st.floats(-1, 1), st.floats(-1, 1)), min_size=2, max_size=30), st.floats(0.001, 0.5))
def test_a_thinned_line_keeps_its_ends_and_leaves_nothing_far_from_it(
    points: list[tuple[float, float]], slack: float
) -> None:
    kept = thinned(tuple(points), slack)
    assert (kept[0], kept[-1]) == (points[0], points[-1])
    assert set(kept) <= set(points)
    for x, y in points:
        assert min(_distance(a, b, x, y) for a, b in itertools.pairwise(kept)) <= slack * 1.001 + 1e-9


def _distance(a: tuple[float, float], b: tuple[float, float], x: float, y: float) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = dx * dx + dy * dy
    share = 0.0 if length == 0 else min(1.0, max(0.0, ((x - a[0]) * dx + (y - a[1]) * dy) / length))
    return math.hypot(x - a[0] - share * dx, y - a[1] - share * dy)
