"""What a chelate holds, what a kit can tell, which unit is meant, and what limits say about nitrite."""

from __future__ import annotations

import math
from collections.abc import Mapping

import pytest

from triage.errors import UsageError
from triage.model.interval import Interval
from triage.model.quantity import Quantity
from triage.water.iron import held_share, iron_rise
from triage.water.kits import check_kit, kit_span, points_of, points_span
from triage.water.nitrite import chloride_needed, chloride_ratio, limit_bc, salt_for_chloride
from triage.water.units import in_other_units, units_meant

Book = Mapping[str, Quantity]


@pytest.mark.parametrize(
    ("chelate", "ph", "low", "high"),
    [
        ("none", 6.0, 1.0, 1.0),
        ("none", 6.01, 0.0, 0.0),
        ("EDTA", 6.0, 1.0, 1.0),
        ("EDTA", 6.5, 0.0, 1.0),
        ("EDTA", 7.0, 0.0, 1.0),
        ("EDTA", 7.8, 0.0, 0.5),  # half-way from 6.2 to 9.4, where one source sees the last of it go
        ("EDTA", 9.4, 0.0, 0.0),
        ("EDTA", 9.9, 0.0, 0.0),
        ("DTPA", 7.0, 1.0, 1.0),
        ("DTPA", 7.5, 0.0, 1.0),
        ("DTPA", 7.6, 0.0, 0.0),
        ("EDDHA", 8.5, 1.0, 1.0),
        ("EDDHA", 11.0, 0.0, 1.0),
        ("EDDHA", 11.1, 0.0, 0.0),
    ],
)
def test_iron_that_a_chelate_holds(chelate: str, ph: float, low: float, high: float) -> None:
    """The statements of six sources; where they disagree, anything may be."""
    held = held_share(chelate, ph)
    assert (held.low, held.high) == (low, pytest.approx(high))


def test_an_unknown_chelate_is_named() -> None:
    with pytest.raises(ValueError, match=r"^no chelate 'HBED' \(allowed: none, EDTA, DTPA, EDDHA\)$"):
        held_share("HBED", 7)


def test_iron_of_a_dose() -> None:
    """A gram of iron in a cubic metre is a milligram in a litre."""
    assert iron_rise(100, 10, 10_000) == pytest.approx(1.0)
    assert iron_rise(20, 6, 500) == pytest.approx(2.4)


def test_chloride_and_nitrite() -> None:
    assert chloride_ratio(30, 0.5) == 60.0
    assert chloride_ratio(30, 0) == math.inf
    assert chloride_needed(2, 10) == 20
    assert salt_for_chloride(60.7) == pytest.approx(100.0)


@pytest.mark.parametrize(
    ("chloride", "short", "long"),
    [(-1, 0.06, 0.02), (0, 0.06, 0.02), (3.9, 0.06, 0.02), (4, 0.18, 0.06), (6, 0.24, 0.08), (9.9, 0.24, 0.08),
     (10, 0.6, 0.2), (500, 0.6, 0.2)],
)  # fmt: skip
def test_steps_of_the_nitrite_guideline(chloride: float, short: float, long: float) -> None:
    """bc-limits."""
    assert (limit_bc(chloride, short_term=True), limit_bc(chloride, short_term=False)) == (short, long)


def test_colours_at_the_ends_and_between() -> None:
    points = [7.0, 6.0, 6.4]
    assert points_span(points, 6.0) == Interval(-math.inf, 6.2)
    middle = points_span(points, 6.4)
    assert (middle.low, middle.high) == (pytest.approx(6.2), pytest.approx(6.7))
    assert points_span(points, 7.0) == Interval(6.7, math.inf)
    assert points_span(points, 5.0) == Interval(-math.inf, 6.0)
    assert points_span(points, 6.1) == Interval(6.0, 6.4)
    assert points_span(points, 8.0) == Interval(7.0, math.inf)


def test_points_of_a_kit_not_listed_are_those_of_the_card(quantities: Book) -> None:
    ph = quantities["ph"]
    assert points_of(ph, "drops") == points_of(ph, "card") == ph.kits["card"]
    assert points_of(ph, "strip") == ph.kits["strip"] != ph.kits["card"]
    assert points_of(ph, "high-card") == ph.kits["high-card"] != ph.kits["card"]
    assert points_of(ph, "meter") == points_of(ph, "lab") == points_of(ph, "") == []
    assert points_of(quantities["temperature"], "card") == []


def test_the_step_of_a_kit_is_turned_into_the_printed_unit(quantities: Book) -> None:
    alkalinity = quantities["alkalinity"]
    half = alkalinity.kit_step / 2 / 17.848
    span = kit_span(alkalinity, "drops", 4.0, 17.848)
    assert (span.low, span.high) == (pytest.approx(4 - half), pytest.approx(4 + half))
    assert kit_span(alkalinity, "", 4.0, 17.848) == kit_span(alkalinity, "lab", 4.0, 17.848) == Interval(4.0, 4.0)


def test_kits_that_are_known(quantities: Book) -> None:
    every = list(quantities.values())
    for kit in ("card", "drops", "strip", "meter", "lab", "high-card", ""):
        assert check_kit(kit, every) == kit
    with pytest.raises(UsageError) as refused:
        check_kit("high-card", [])
    assert str(refused.value).startswith("no kit 'high-card' (allowed: card, drops, lab, meter, strip")


def test_units_of_which_one_must_be_said(quantities: Book) -> None:
    nitrate, iron = quantities["nitrate"], quantities["iron"]
    assert units_meant(nitrate, "") == units_meant(nitrate, "mg/L") == ("mg/L NO3", "mg/L N")
    assert units_meant(nitrate, "MG / l as n") == ("mg/L N",)
    assert units_meant(iron, "") == ("mg/L",)
    assert units_meant(iron, "μg/L") == units_meant(iron, "ug/l") == ("µg/L",)
    with pytest.raises(UsageError) as refused:
        units_meant(nitrate, "m3")
    assert str(refused.value).startswith("nitrate: no unit 'm3' (allowed: mg/L NO3, mg/L N")
    with pytest.raises(UsageError, match="nearest: 'mg/L'"):
        units_meant(iron, "mg/Lt")


def test_a_value_in_the_other_units(quantities: Book) -> None:
    assert in_other_units(quantities["temperature"], 25.0) == {"°F": 77.0}
    assert in_other_units(quantities["nitrate"], 44.2664)["mg/L N"] == 10.0
    assert "mg/L NO3" not in in_other_units(quantities["nitrate"], 44.2664)
