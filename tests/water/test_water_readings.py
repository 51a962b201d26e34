"""Readings as people give them: units, bounds, kits, names, and what is refused."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.errors import UsageError
from triage.model.quantity import Quantity
from triage.water.kits import kit_span, points_span
from triage.water.readings import find_quantity, make_reading, parse_assignment
from triage.water.units import from_own_unit, to_own_unit, units_meant
from triage.water.values import parse_number, parse_value

Book = Mapping[str, Quantity]


@pytest.mark.parametrize(
    ("word", "quantity", "low", "high"),
    [
        ("ph=7.2", "ph", 7.2, 7.2),
        ("pH = 7,2", "ph", 7.2, 7.2),
        ("ph:7.2", "ph", 7.2, 7.2),
        ("ph=6.4..6.8", "ph", 6.4, 6.8),
        ("ph=6.4-6.8", "ph", 6.4, 6.8),
        ("iron=0.6mg/L", "iron", 0.6, 0.6),
        ("fe=600 ppb", "iron", 0.6, 0.6),
        ("tan<=0.25", "tan", 0, 0.25),
        ("tan≤0.25", "tan", 0, 0.25),
        ("tan=<=0.25", "tan", 0, 0.25),
        ("tan=<0.25", "tan", 0, 0.25),
        ("tan=1mg/L-NH4", "tan", 0.776, 0.777),
        ("temperature=77F", "temperature", 25, 25),
        ("t=20°C", "temperature", 20, 20),
        ("kh=4dKH", "alkalinity", 71.392, 71.392),
        ("alkalinity=1.5 meq/L", "alkalinity", 75.0675, 75.0675),
        ("nitrate=40mg/L-NO3", "nitrate", 40, 40),
        ("nitrate=40 mg/L as NO3", "nitrate", 40, 40),
        ("nitrate=9mg/L N", "nitrate", 39.84, 39.84),
        ("ec=800µS/cm", "ec", 0.8, 0.8),
        ("ec=800 uS/cm", "ec", 0.8, 0.8),
        ("ec=560ppm 700", "ec", 0.8, 0.8),
        ("altitude=1000ft", "altitude", 304.8, 304.8),
        ("pressure=1atm", "pressure", 1013.25, 1013.25),
        ("dissolved oxygen=6", "oxygen", 6, 6),
        ("do=6", "oxygen", 6, 6),
    ],
)
def test_words_of_a_command_line(quantities: Book, word: str, quantity: str, low: float, high: float) -> None:
    reading = parse_assignment(word, quantities, on="2026-05-03")
    assert reading.quantity == quantity
    assert reading.unit == quantities[quantity].unit
    assert (reading.low, reading.high) == (pytest.approx(low, abs=0.01), pytest.approx(high, abs=0.01))
    assert reading.low <= reading.value <= reading.high
    assert reading.on == "2026-05-03"


@pytest.mark.parametrize(
    ("word", "low", "high"),
    [
        ("nitrate=10", 10, 44.27),
        ("nitrate=10mg/L", 10, 44.27),
        ("nitrate=10 ppm", 10, 44.27),
        ("nitrite=1", 1, 3.284),
        ("ammonia=1", 0.776, 1),
        ("nh3=1mg/L", 0.776, 1),
        ("phosphate=1", 1, 3.066),
        ("kh=4", 4, 71.39),
        ("gh=8", 8, 142.78),
        ("ec=700ppm", 1, 1.4),
        ("ec=1000", 1, 2),
    ],
)
def test_a_form_not_said_spans_every_possible_form(quantities: Book, word: str, low: float, high: float) -> None:
    reading = parse_assignment(word, quantities)
    assert (reading.low, reading.high) == (pytest.approx(low, abs=0.01), pytest.approx(high, abs=0.01))
    assert "form not said" in reading.note


def test_everyday_words_lead_to_one_quantity(quantities: Book) -> None:
    assert make_reading("ammonia", 1, quantities, unit="mg/L N") == make_reading("tan", 1, quantities)
    assert find_quantity("Ammonia", quantities).same_as == "tan"


@pytest.mark.parametrize(
    ("word", "says"),
    [
        ("ph=19", "19 pH is not possible .possible: 0 to 14"),
        ("iron=-1", "-1 mg/L is not possible"),
        ("iron=nan", "'nan' is not a value"),
        ("temperature=77", "77 °C is not possible .*in °F it could be"),
        ("ec=0.001", "0.001 mS/cm is not possible"),
        ("nitratte=5", "no reading 'nitratte', nearest: 'nitrate'"),
        ("iron=5 mg/kg", "iron: no unit 'mg/kg' .allowed: mg/L, µg/L"),
        ("nitrate=5 mg/L X", "nitrate: no unit 'mg/L X'"),
        ("ph=1,234", "'1,234' can be read in two ways"),
        ("tan=1,234.5", "two ways"),
        ("ph=7.2.1", "'7.2.1' is not a number"),
        ("ph=6.8-6.4", "not a range"),
        ("ph", "'ph' is not a reading .write name=value"),
        ("ph=", "'' is not a value"),
        ("unionised-ammonia=0.1", "worked out from other readings"),
        ("copper-acute-limit=3", "worked out from other readings"),
    ],
)
def test_refused_with_one_clear_line(quantities: Book, word: str, says: str) -> None:
    with pytest.raises(UsageError, match=says) as refused:
        parse_assignment(word, quantities)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_no_number(quantities: Book, value: float) -> None:
    with pytest.raises(UsageError, match="not a measured value"):
        make_reading("ph", value, quantities)


def test_unlikely_is_accepted_with_a_question(quantities: Book) -> None:
    assert "unlikely: usually 5 to 9" in make_reading("ph", 3.0, quantities).note
    assert make_reading("ph", 7.0, quantities).note == ""


def test_bound_as_argument(quantities: Book) -> None:
    assert make_reading("iron", 0.1, quantities, bound="<=") == make_reading("iron", "<= 0.1", quantities)
    assert make_reading("ph", "6", quantities, bound=">=").bound == ">="
    with pytest.raises(UsageError, match="two bounds"):
        make_reading("iron", "<= 0.1", quantities, bound=">=")


def test_unit_in_text_and_as_argument(quantities: Book) -> None:
    assert make_reading("iron", "0.1 mg/L", quantities, unit="ppm").value == 0.1
    with pytest.raises(UsageError, match="two units"):
        make_reading("iron", "0.1 mg/L", quantities, unit="ppb")


@pytest.mark.parametrize(
    ("quantity", "value", "kit", "low", "high"),
    [
        ("ph", 6.4, "card", 6.2, 6.5),
        ("ph", 6.7, "card", 6.6, 6.8),
        ("ph", 7.6, "card", 7.4, 9.0),
        ("ph", 6.0, "card", 5.0, 6.2),
        ("ph", 8.0, "high-card", 7.9, 8.1),
        ("tan", 0, "card", 0, 0.125),
        ("tan", 0.5, "drops", 0.375, 0.75),
        ("alkalinity", "4 dKH", "drops", 62.468, 80.316),
        ("iron", 0.25, "card", 0.125, 0.375),
        ("iron", 0.25, "meter", 0.25, 0.25),
        ("ph", 7.6, "", 7.6, 7.6),
    ],
)
def test_kits(quantities: Book, quantity: str, value: float | str, kit: str, low: float, high: float) -> None:
    reading = make_reading(quantity, value, quantities, kit=kit)
    assert (reading.low, reading.high) == (pytest.approx(low), pytest.approx(high))


def test_kit_step_known_better(quantities: Book) -> None:
    reading = make_reading("temperature", "70 F", quantities, step=2)
    assert (reading.low, reading.high) == (pytest.approx(20.556, abs=0.001), pytest.approx(21.667, abs=0.001))
    assert reading.step == pytest.approx(2 / 1.8)


def test_unknown_kit(quantities: Book) -> None:
    with pytest.raises(UsageError, match=r"no kit 'crad' .*nearest: 'card'"):
        make_reading("ph", 7, quantities, kit="crad")


def test_end_of_the_card_is_said(quantities: Book) -> None:
    assert "at or beyond" in make_reading("ph", 7.6, quantities, kit="card").note
    assert "at or beyond" not in make_reading("tan", 0, quantities, kit="card").note


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("on", "2026-13-01", "not a date"),
        ("on", "03.05.2026", "not a date"),
        ("time", "25:00", "not a time"),
        ("point", "fish-tnak", "nearest: 'fish-tank'"),
    ],
)
def test_where_and_when(quantities: Book, field: str, value: str, says: str) -> None:
    with pytest.raises(UsageError, match=says):
        make_reading("ph", 7, quantities, **{field: value})


@given(st.floats(0.001, 40), st.data())
def test_round_trips(quantities: Book, value: float, data: st.DataObject) -> None:
    quantity = quantities[data.draw(st.sampled_from(sorted(quantities)))]
    for unit in quantity.units:
        assert from_own_unit(quantity, to_own_unit(quantity, value, unit), unit) == pytest.approx(value)


def test_every_unit_and_every_other_spelling_is_found(quantities: Book) -> None:
    for quantity in quantities.values():
        for name, unit in quantity.units.items():
            for spelling in (name, name.upper(), *unit.also):
                assert units_meant(quantity, spelling) == (name,), (quantity.quantity, spelling)


def test_every_name_leads_home(quantities: Book) -> None:
    for quantity in quantities.values():
        if not quantity.derived:
            for name in (quantity.quantity, quantity.quantity.replace("-", " "), *quantity.also, *quantity.short):
                assert find_quantity(name.upper(), quantities) is quantity


def test_limits_of_every_quantity_make_sense(quantities: Book) -> None:
    for quantity in quantities.values():
        least, most = quantity.possible
        low, high = quantity.likely or quantity.possible
        assert least <= low < high <= most, quantity.quantity
        assert not quantity.same_as or quantity.same_as in quantities
        assert set(quantity.unit_needed) <= {quantity.unit, *quantity.units}


@given(st.floats(0, 9), st.sampled_from(["card", "drops", "strip", "meter", ""]), st.floats(0, 3))
def test_a_kit_never_hides_the_printed_value(quantities: Book, value: float, kit: str, wider: float) -> None:
    for quantity in ("tan", "nitrite", "iron"):
        span = kit_span(quantities[quantity], kit, value, 1.0)
        assert span.low <= value <= span.high


@given(st.lists(st.integers(0, 100), min_size=2, max_size=8, unique=True), st.integers(0, 100))
def test_points_span_meets_its_neighbours(points: list[int], printed: int) -> None:
    ordered = sorted(float(point) for point in points)
    for left, right in pairwise(ordered):
        assert points_span(ordered, left).high == points_span(ordered, right).low
    span = points_span(ordered, float(printed))
    assert span.low <= printed <= span.high


@pytest.mark.parametrize("text", ["0.25", "0,25", ".25", ",25", "+0.25", "0.250"])
def test_numbers(text: str) -> None:
    assert parse_number(text) == 0.25


def test_value_keeps_its_unit() -> None:
    value = parse_value(">= 7,6 pH")
    assert (value.bound, value.low, value.unit) == (">=", 7.6, "pH")
