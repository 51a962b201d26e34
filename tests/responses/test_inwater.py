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


@pytest.mark.parametrize(("at", "value"), [(5, 50.0), (10, 50.0), (12, 52.0), (25, 65.0), (30, 70.0), (90, 70.0)])
def test_between_two_hardnesses_on_the_straight_line_and_beyond_them_the_nearest(at: float, value: float) -> None:
    points = [(30.0, 70.0), (10.0, 50.0), (20.0, 60.0)]
    assert value_between(points, Interval.exactly(at), "hardness") == pytest.approx(value)


def test_a_dip_in_harder_water_counts_in_softer_water_too() -> None:
    points = [(10.0, 4.0), (20.0, 8.0), (30.0, 6.0)]
    assert value_between(points, Interval.exactly(20.0), "hardness") == 6.0
    assert value_between(points, Interval(15.0, 90.0), "hardness") == 6.0


@pytest.mark.parametrize(
    ("low", "high", "value"),
    [
        (5.5, 5.5, 2.0), (5.75, 5.75, 1.24), (7.0, 7.0, 1.0), (6.5, 6.5, 0.74), (5.6, 6.9, 0.48),  # within
        (5.4, 5.5, 0.48), (7.0, 7.1, 0.48), (7.5, 7.5, 0.48), (5.0, 5.0, 0.48),  # partly or wholly beyond
    ],
)  # fmt: skip
def test_of_ph_the_worse_end_counts_and_beyond_the_tests_the_strictest(low: float, high: float, value: float) -> None:
    points = [(5.5, 2.0), (6.0, 0.48), (7.0, 1.0)]
    assert value_between(points, Interval(low, high), "ph") == pytest.approx(value)


def test_a_value_larger_than_its_ph_is_no_ph() -> None:
    assert value_between([(6.5, 9.0), (8.0, 1.0)], Interval.exactly(7.25), "ph") == pytest.approx(5.0)


def test_of_two_tests_in_one_water_the_stricter_counts() -> None:
    points = [(16.0, 0.07), (16.0, 0.05), (240.0, 0.98), (240.0, 2.0)]
    for chemistry in ("alkalinity", "temperature"):
        assert value_between(points, Interval.exactly(16.0), chemistry) == 0.05  # type: ignore[arg-type]
        assert value_between(points, Interval.exactly(240.0), chemistry) == 0.98  # type: ignore[arg-type]
        assert value_between(points, Interval.exactly(128.0), chemistry) == pytest.approx(0.515)  # type: ignore[arg-type]


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
    assert {p.by for p in place_in_water(rows, unmeasured, kit.water())} == {""}


def test_the_test_in_the_nearest_water_is_shown(kit: SimpleNamespace) -> None:
    soft, middle, hard = (
        kit.row(value, conditions={"hardness": hardness})
        for hardness, value in ((20.0, 1.0), (100.0, 3.0), (200.0, 9.0))
    )
    rows = [(soft, 1.0), (hard, 9.0), (middle, 3.0)]
    dependent = kit.substance(soft, middle, hard, depends_on=["hardness"])

    def shown(low: float, high: float) -> tuple[object, float, str]:
        (placed,) = place_in_water(rows, dependent, kit.water(readings=(kit.reading("hardness", low, low, high),)))
        return placed.row, round(placed.mg_l, 3), placed.by

    assert shown(30, 190) == (soft, 1.25, "hardness")  # the low end of the reading
    assert shown(110, 110) == (middle, 3.6, "hardness")
    assert shown(500, 600) == (hard, 9.0, "hardness")
    assert shown(60, 60) == (soft, 2.0, "hardness")  # as near to either: the stricter


def test_tests_that_differ_in_more_than_the_water_are_not_joined(kit: SimpleNamespace) -> None:
    base = kit.row(1.0, conditions={"hardness": 20.0})
    here = kit.water(readings=(kit.reading("hardness", 110),))
    others: list[dict[str, object]] = [
        {"organism": "Cyprinus carpio"}, {"test": "NOEC"}, {"hours": 24.0}, {"basis": "metal"}, {"bound": ">"},
        {"source": "another"}, {"conditions": {}}, {"conditions": {"hardness": 20.0}},
    ]  # fmt: skip
    for told in others:
        other = kit.row(9.0, **{"conditions": {"hardness": 200.0}, **told})
        dependent = kit.substance(base, other, depends_on=["hardness"])
        placed = place_in_water([(base, 1.0), (other, 9.0)], dependent, here)
        assert [(p.mg_l, p.by) for p in placed] == [(1.0, ""), (9.0, "")], told


def test_the_second_chemistry_is_asked_where_the_first_says_nothing(kit: SimpleNamespace) -> None:
    rows = [(kit.row(v, conditions={"hardness": 50.0, "ph": ph}), v) for v, ph in ((2.0, 6.0), (4.0, 8.0))]
    dependent = kit.substance(*(row for row, _ in rows), depends_on=["temperature", "hardness", "ph"])
    here = kit.water(readings=(kit.reading("hardness", 50), kit.reading("ph", 7)))
    (placed,) = place_in_water(rows, dependent, here)
    assert (placed.mg_l, placed.by) == (3.0, "ph")
