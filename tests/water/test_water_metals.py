"""Copper limits: dissolved and total, where each curve begins and ends, and how the authorities lie to each other."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from triage.water.metals import (
    copper_acute_limit_cfr132,
    copper_acute_limit_wac,
    copper_chronic_limit_bc2006,
    copper_chronic_limit_cfr132,
    copper_chronic_limit_wac,
    copper_guideline_ccme,
)

CURVES = (copper_acute_limit_cfr132, copper_chronic_limit_cfr132, copper_acute_limit_wac, copper_chronic_limit_wac)


@pytest.mark.parametrize("curve", CURVES)
def test_dissolved_is_96_per_cent_of_total_and_the_usual_reading(curve: Callable[..., float]) -> None:
    """40 CFR 132, as in cfr132: the conversion factor of copper."""
    for hardness in (25.0, 100.0, 400.0):
        assert curve(hardness, dissolved=True) == pytest.approx(0.960 * curve(hardness, dissolved=False))
        assert curve(hardness) == curve(hardness, dissolved=True)


@pytest.mark.parametrize("curve", [*CURVES, copper_guideline_ccme])
def test_above_the_hardest_water_the_limit_stays(curve: Callable[[float], float]) -> None:
    assert curve(399.0) < curve(400.0) == curve(401.0) == curve(2000.0)


@pytest.mark.parametrize("curve", CURVES)
def test_water_without_any_hardness_bears_no_copper(curve: Callable[[float], float]) -> None:
    assert curve(0.0) == curve(-1.0) == 0.0
    assert 0.0 < curve(1.0) < curve(25.0)


def test_the_federal_chronic_limit_at_a_hardness_of_100() -> None:
    """9.3 µg/L total, 9.0 dissolved, as the federal criteria print it (from memory)."""
    assert copper_chronic_limit_cfr132(100, dissolved=False) == pytest.approx(9.3, abs=0.05)
    assert copper_chronic_limit_cfr132(100) == pytest.approx(9.0, abs=0.05)


def test_the_older_chronic_limit_lies_above_the_federal_one_by_one_share() -> None:
    """The slopes are one; only the intercepts differ, -1.465 against -1.702 (wac-173-201a, cfr132)."""
    for hardness in (25.0, 225.0):
        ratio = copper_chronic_limit_wac(hardness) / copper_chronic_limit_cfr132(hardness)
        assert ratio == pytest.approx(math.exp(1.702 - 1.465))


@pytest.mark.parametrize(
    ("hardness", "limit"), [(0, 2.0), (49.9, 2.0), (50, 2.0), (50.5, 2.02), (51, 2.04), (250, 10.0)]
)
def test_the_canadian_province_has_a_floor_up_to_50(hardness: float, limit: float) -> None:
    assert copper_chronic_limit_bc2006(hardness) == pytest.approx(limit)


@pytest.mark.parametrize("hardness", [0, 50, 90])
def test_the_canadian_guideline_has_a_floor_up_to_90(hardness: float) -> None:
    assert copper_guideline_ccme(hardness) == 2.0


def test_above_90_the_guideline_is_a_fifth_of_the_older_chronic_limit() -> None:
    for hardness in (90.5, 120.0, 180.0):
        assert copper_guideline_ccme(hardness) == pytest.approx(
            0.2 * copper_chronic_limit_wac(hardness, dissolved=False)
        )
    assert copper_guideline_ccme(180) > copper_guideline_ccme(120) > 2.0
