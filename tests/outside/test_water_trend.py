"""Slope and test against pymannkendall on exact readings of evenly spaced days."""

from __future__ import annotations

import random

import pymannkendall
import pytest

from triage.model.interval import Interval
from triage.water.trend import mann_kendall, theil_sen

SERIES = [
    [7.0, 7.1, 7.1, 7.2, 7.4, 7.3, 7.5],
    [7.0, 7.0, 7.0, 7.0],
    [40, 35, 36, 30, 22, 20, 21, 12, 9, 11],
    [1, 2, 3, 4],
    [0.25, 0.25, 0.5, 0.25, 0.5, 0.5, 1.0, 1.0],
    *(
        [round(random.Random(seed).gauss(7, 0.3) + 0.01 * seed * day, 1) for day in range(6 + seed)]
        for seed in range(12)
    ),
]


@pytest.mark.parametrize("values", SERIES, ids=str)
def test_against_pymannkendall(values: list[float]) -> None:
    theirs = pymannkendall.original_test(values)
    ours = mann_kendall([Interval(float(value), float(value)) for value in values])
    assert ours.score == theirs.s
    assert ours.variance == pytest.approx(theirs.var_s)
    assert ours.deviate == pytest.approx(theirs.z)
    assert ours.chance == pytest.approx(theirs.p)
    assert theil_sen([float(day) for day in range(len(values))], values) == pytest.approx(theirs.slope)
