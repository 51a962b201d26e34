"""Values in this water: soft water is never milder."""

from __future__ import annotations

from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.interval import Interval
from triage.responses.inwater import place_in_water, value_between

POINTS = st.lists(
    st.tuples(st.floats(1, 400), st.floats(0.001, 1000)), min_size=2, max_size=6, unique_by=lambda point: point[0]
)


@given(points=POINTS, soft=st.floats(1, 500), harder=st.floats(0, 500))
def test_softer_water_is_never_milder(points: list[tuple[float, float]], soft: float, harder: float) -> None:
    in_soft = value_between(points, Interval.exactly(soft), "hardness")
    in_hard = value_between(points, Interval.exactly(soft + harder), "hardness")
    assert in_soft <= in_hard * (1 + 1e-9)


@given(points=POINTS, low=st.floats(1, 500), wide=st.floats(0, 200), name=st.sampled_from(["hardness", "ph"]))
def test_a_wider_reading_is_never_milder(points: list[tuple[float, float]], low: float, wide: float, name: str) -> None:
    exact = value_between(points, Interval.exactly(low), name)  # type: ignore[arg-type]
    assert value_between(points, Interval(low, low + wide), name) <= exact * (1 + 1e-9)  # type: ignore[arg-type]


@given(points=POINTS, at=st.floats(1, 500))
def test_nothing_is_milder_than_the_mildest_test(points: list[tuple[float, float]], at: float) -> None:
    values = [value for _, value in points]
    found = value_between(points, Interval.exactly(at), "alkalinity")
    assert min(values) <= found * (1 + 1e-9)
    assert found <= max(values) * (1 + 1e-9)


def test_outside_the_tested_ph_the_strictest_holds() -> None:
    points = [(5.5, 0.41), (6.0, 0.48), (7.0, 2.0)]
    assert value_between(points, Interval.exactly(7.5), "ph") == 0.41
    assert value_between(points, Interval(6.0, 7.0), "ph") == pytest.approx(0.48)


def _copper(kit: SimpleNamespace) -> list[tuple[object, float]]:
    soft = kit.row(0.05, "Ictalurus punctatus", basis="metal", conditions={"alkalinity": 16.0})
    hard = kit.row(0.98, "Ictalurus punctatus", basis="metal", conditions={"alkalinity": 240.0})
    other = kit.row(0.02, "Poecilia reticulata", basis="metal")
    return [(soft, 0.05), (hard, 0.98), (other, 0.02)]


def test_in_measured_water_the_tests_that_tell_their_water_count(kit: SimpleNamespace) -> None:
    rows = _copper(kit)
    dependent = kit.substance(*(row for row, _ in rows), depends_on=["alkalinity"])
    here = kit.water(readings=(kit.reading("alkalinity", 128),))
    placed = place_in_water(rows, dependent, here)
    assert [(p.row.organism, round(p.mg_l, 3), p.by) for p in placed] == [("Ictalurus punctatus", 0.515, "alkalinity")]


@pytest.mark.parametrize("depends", [[], ["hardness"]])
def test_otherwise_all_tests_count_as_they_are(kit: SimpleNamespace, depends: list[str]) -> None:
    rows = _copper(kit)
    dependent = kit.substance(*(row for row, _ in rows), depends_on=depends)
    here = kit.water(readings=(kit.reading("alkalinity", 128),))
    assert [p.mg_l for p in place_in_water(rows, dependent, here)] == [0.05, 0.98, 0.02]
    unmeasured = kit.substance(*(row for row, _ in rows), depends_on=["alkalinity"])
    assert [p.mg_l for p in place_in_water(rows, unmeasured, kit.water())] == [0.05, 0.98, 0.02]
