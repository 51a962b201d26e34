"""The ends of a slope: Sen's ranks, and the same band upside down for the same readings upside down."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.interval import Interval
from triage.water.trend import mann_kendall, slope_band

Z = 1.6449  # both sides 90 %


def band(values: list[float], half: float = 0.0) -> tuple[float, float]:
    spans = [Interval(value - half, value + half) for value in values]
    points = [(float(day), span, value) for day, (span, value) in enumerate(zip(spans, values, strict=True))]
    found = slope_band(points, mann_kendall(spans).variance)
    assert found is not None
    return found


@pytest.mark.parametrize("count", [6, 8, 10, 15])
def test_ends_are_sens_ranks(count: int) -> None:
    """Gilbert 1987 (from memory): of the N ordered slopes the M1-th and the (M2 + 1)-th, M1 = (N - C) / 2, M2 = (N + C)
    / 2, C = z √var; between two ranks the one farther out counts, so that the band holds at least 90 %."""
    values = [math.sqrt(2 + 7 * day * day % 11) + day / 3 for day in range(count)]
    slopes = sorted((values[b] - values[a]) / (b - a) for b in range(count) for a in range(b))
    reach = Z * math.sqrt(count * (count - 1) * (2 * count + 5) / 18)
    below, above = math.floor((len(slopes) - reach) / 2), math.ceil((len(slopes) + reach) / 2)
    expected = slopes[max(below - 1, 0)], slopes[min(above, len(slopes) - 1)]
    assert band(values) == pytest.approx(expected)


@given(st.lists(st.integers(-50, 50), min_size=4, max_size=20))
def test_readings_upside_down_have_the_band_upside_down(values: list[int]) -> None:
    low, high = band([float(value) for value in values], 0.5)
    assert band([float(-value) for value in values], 0.5) == pytest.approx((-high, -low))


def test_few_readings_reach_to_the_steepest_slopes() -> None:
    """Four readings: z √var is 4.8 of six slopes, so nothing but the outermost is sure."""
    assert band([0.0, 1.0, 4.0, 9.0]) == (1.0, 5.0)


def test_the_width_of_readings_widens_the_band() -> None:
    assert band([0.0, 1.0, 4.0, 9.0], 0.5) == (0.0, 6.0)


def test_equal_readings_have_no_slope() -> None:
    assert band([7.0] * 6) == (0.0, 0.0)


def test_readings_of_one_moment_have_no_band() -> None:
    assert slope_band([(1.0, Interval(7, 7), 7.0), (1.0, Interval(8, 8), 8.0)], 1.0) is None
