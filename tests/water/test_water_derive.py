"""Derived values: names and numbers, ranges over the corners, and no more than the inputs allow."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.quantity import Quantity, Reading
from triage.water.derive import derive_values, derived_readings
from triage.water.readings import parse_assignment

Book = Mapping[str, Quantity]


def derived(quantities: Book, *words: str, salmonids: bool = False, **more: float) -> dict[str, tuple[float, ...]]:
    readings = [parse_assignment(word, quantities) for word in words]
    found = derive_values(readings, salmonids=salmonids, **more)
    return {value.name: (value.low, value.value, value.high) for value in found}


def test_worked_example_of_the_extension_page(quantities: Book) -> None:
    # uf-fa031: 1 mg/L at pH 8 and 24 degrees
    found = derived(quantities, "tan=1", "ph=8", "temperature=24")
    assert found["unionised_ammonia_fraction"] == pytest.approx((0.0502,) * 3, abs=1e-4)
    assert found["unionised_ammonia_mg_l"] == pytest.approx((0.0502,) * 3, abs=1e-4)


def test_epa_anchor_with_and_without_salmonids(quantities: Book) -> None:
    # odeq-pkg-tests: pH 7, 10 degrees, 24 with salmonids and 38 without
    assert round(derived(quantities, "ph=7", "temperature=10", salmonids=True)["ammonia_acute_limit_mg_l"][1]) == 24
    assert round(derived(quantities, "ph=7", "temperature=10")["ammonia_acute_limit_mg_l"][1]) == 38
    assert round(derived(quantities, "ph=7", "temperature=20")["ammonia_chronic_limit_mg_l"][1], 1) == 1.9


def test_only_what_the_inputs_allow(quantities: Book) -> None:
    assert derived(quantities) == {}
    assert not any("ammonia" in name for name in derived(quantities, "tan=1", "ph=8"))
    assert "carbon_dioxide_mg_l" not in derived(quantities, "ph=7", "kh=4dKH")


def test_oxygen_at_altitude_pressure_and_sea_level(quantities: Book) -> None:
    # kit-maker-oxygen-altitude: 8.8 at 20 degrees and 300 m, 9.1 at sea level
    assert derived(quantities, "temperature=20")["oxygen_saturation_mg_l"][1] == pytest.approx(9.09, abs=0.01)
    for found in (
        derived(quantities, "temperature=20", "altitude=300"),
        derived(quantities, "temperature=20", altitude_m=300),
        derived(quantities, "temperature=20", "pressure=977.7hPa"),
    ):
        assert found["oxygen_saturation_mg_l"][1] == pytest.approx(8.8, abs=0.05)
    salty = derived(quantities, "temperature=20", "salinity=5")
    assert salty["oxygen_saturation_mg_l"][1] == pytest.approx(8.83, abs=0.02)


def test_sea_level_is_said_where_assumed(quantities: Book) -> None:
    readings = [parse_assignment("temperature=20", quantities)]
    (assumed,) = (v for v in derive_values(readings, salmonids=False) if v.name == "oxygen_saturation_mg_l")
    (told,) = (v for v in derive_values(readings, salmonids=False, altitude_m=0) if v.name == assumed.name)
    assert (assumed.note, told.note) == ("sea level assumed", "")


def test_extended_formulas_are_said(quantities: Book) -> None:
    readings = [parse_assignment(word, quantities) for word in ("ph=5.8", "temperature=25")]
    notes = {value.name: value.note for value in derive_values(readings, salmonids=False)}
    assert notes["ammonia_acute_limit_mg_l"] == "the formula was made for ph 6.5 to 9"
    assert notes["unionised_ammonia_fraction"] == ""


def test_oxygen_both_ways(quantities: Book) -> None:
    assert derived(quantities, "do=4.5", "temperature=20")["oxygen_percent"][1] == pytest.approx(49.5, abs=0.2)
    assert derived(quantities, "do-percent=50%", "temperature=20")["oxygen_mg_l"][1] == pytest.approx(4.55, abs=0.01)


def test_hardness_from_metals_gives_the_copper_limit(quantities: Book) -> None:
    found = derived(quantities, "ca=40", "mg=0", "cu=10ppb")
    assert found["hardness_mg_l_caco3"][1] == pytest.approx(99.9, abs=0.1)
    # cfr132 at a hardness of 100: 13.4
    assert found["copper_acute_limit_ug_l"][1] == pytest.approx(13.4, abs=0.05)
    assert found["copper_acute_share"][1] == pytest.approx(10 / 13.4, abs=0.01)
    assert derived(quantities, "hardness=0", "cu=10ppb")["copper_acute_share"][2] == float("inf")


def test_days_of_buffer(quantities: Book) -> None:
    # 100 g of 32 % feed a day: 2.944 g N (ksu2021), 21 g CaCO3 (filter-maker-alkalinity) of the 71.4 g in 1000 L
    found = derived(quantities, "kh=4dKH", "feed=100g", "protein=32%", volume_l=1000)
    assert found["buffer_days"][1] == pytest.approx(71.392 / (2.944 * 7.14))
    assert "buffer_days" not in derived(quantities, "kh=4dKH", "feed=100g", "protein=32%")
    assert derived(quantities, "kh=4dKH", "feed=0", "protein=32%", volume_l=1000)["buffer_days"][2] == float("inf")


def test_nitrite_and_chloride(quantities: Book) -> None:
    assert derived(quantities, "nitrite=2mg/L NO2", "cl=20")["nitrite_chloride_ratio"] == (10, 10, 10)
    low, _, high = derived(quantities, "nitrite<=2mg/L NO2", "cl=20")["nitrite_chloride_ratio"]
    assert (low, high) == (10, float("inf"))


def test_names_that_other_programs_rely_on(quantities: Book) -> None:
    words = ("tan=1", "ph=7", "temperature=20", "do=6", "kh=4dKH", "gh=8dGH")
    assert {
        "unionised_ammonia_fraction", "unionised_ammonia_mg_l", "ammonia_acute_limit_mg_l",
        "ammonia_chronic_limit_mg_l", "oxygen_saturation_mg_l", "oxygen_percent", "carbon_dioxide_mg_l",
        "alkalinity_mg_l_caco3", "copper_acute_limit_ug_l",
    } <= derived(quantities, *words).keys()  # fmt: skip


def test_every_derived_value_is_a_quantity_of_the_book(quantities: Book) -> None:
    words = ("tan=1", "ph=7", "temperature=20", "do=6", "do-percent=60", "kh=4dKH", "ca=40", "mg=8", "cu=0.01",
             "nitrite=1mg/L NO2", "cl=20", "feed=100", "protein=32")  # fmt: skip
    readings = [parse_assignment(word, quantities) for word in words]
    for value in derive_values(readings, salmonids=False, volume_l=1000):
        assert quantities[value.quantity].unit == value.unit, value.quantity
        assert value.source


def test_readings_for_rules_leave_out_what_was_measured(quantities: Book) -> None:
    readings = [parse_assignment(word, quantities) for word in ("ph=7", "kh=4dKH", "temperature=20", "co2=10")]
    found = {reading.quantity for reading in derived_readings(readings, derive_values(readings, salmonids=False))}
    assert "unionised-ammonia-fraction" in found
    assert not found & {"carbon-dioxide", "alkalinity"}
    assert all(reading.derived for reading in derived_readings(readings, derive_values(readings, salmonids=False)))


def spread(quantity: str, low: float, high: float) -> Reading:
    return Reading(quantity=quantity, value=(low + high) / 2, low=low, high=high)


RANGES = {
    "ph": (5, 9.5), "temperature": (1, 34), "tan": (0, 20), "oxygen": (0, 15), "alkalinity": (0, 300),
    "hardness": (0, 500), "copper": (0, 1), "chloride": (0, 300), "nitrite": (0.01, 20), "salinity": (0, 10),
    "pressure": (700, 1050),
}  # fmt: skip


@given(st.data(), st.booleans())
def test_a_wider_interval_never_gives_a_narrower_result(data: st.DataObject, salmonids: bool) -> None:
    narrow, wide = [], []
    for quantity, (least, most) in RANGES.items():
        a, b, c, d = sorted(data.draw(st.floats(least, most), label=quantity) for _ in range(4))
        narrow.append(spread(quantity, b, c))
        wide.append(spread(quantity, a, d))
    inner = derive_values(narrow, salmonids=salmonids)
    outer = {value.name: value for value in derive_values(wide, salmonids=salmonids)}
    assert len(inner) == len(outer) >= 14
    for value in inner:
        assert outer[value.name].low <= value.low <= value.value <= value.high <= outer[value.name].high


@given(st.data(), st.booleans())
def test_the_range_holds_for_every_value_inside(data: st.DataObject, salmonids: bool) -> None:
    spans, points = [], []
    for quantity, (least, most) in RANGES.items():
        low, inside, high = sorted(data.draw(st.floats(least, most), label=quantity) for _ in range(3))
        spans.append(spread(quantity, low, high))
        points.append(spread(quantity, inside, inside))
    exact = {value.name: value for value in derive_values(points, salmonids=salmonids)}
    for value in derive_values(spans, salmonids=salmonids):
        slack = 1e-9 * max(1.0, abs(exact[value.name].low))
        assert value.low - slack <= exact[value.name].low
        assert exact[value.name].high <= value.high + slack


def test_readings_for_rules_are_the_derived_values_with_all_that_was_told(quantities: Book) -> None:
    words = ("oxygen=6", "temperature=20", "ph=7", "stock=10", "feed=100g", "protein=32%", "kh=4dKH")
    readings = [parse_assignment(word, quantities) for word in words]
    told = {"altitude_m": 1500.0, "volume_l": 1000.0, "least_oxygen_mg_l": 3.0}
    for salmonids in (False, True):
        values = derive_values(readings, salmonids=salmonids, **told)
        found = {reading.quantity: reading for reading in derived_readings(readings, values)}
        assert {"oxygen-hours-left", "buffer-days", "ammonia-acute-limit"} <= found.keys()
        for value in values:
            if value.quantity in found:
                one = found[value.quantity]
                assert (one.value, one.low, one.high) == (value.value, value.low, value.high)
                assert (one.unit, one.note, one.derived) == (value.unit, value.note, True)
    assert found["oxygen-saturation"].value < 8.0  # 9.1 by the sea, 7.6 at 1,500 m
    assert found["oxygen-saturation"].note == ""


def test_pressure_falls_with_height_over_the_range_of_the_height(quantities: Book) -> None:
    heat = parse_assignment("temperature=20", quantities)
    height = Reading(quantity="altitude", value=500.0, low=0.0, high=1000.0)

    def saturation(*readings: Reading, **told: float) -> tuple[float, float, float]:
        (found,) = (v for v in derive_values(readings, salmonids=False, **told) if v.name == "oxygen_saturation_mg_l")
        return found.low, found.value, found.high

    sea, half, top = (saturation(heat, altitude_m=metres)[1] for metres in (0.0, 500.0, 1000.0))
    assert saturation(heat, height) == pytest.approx((top, half, sea))
    assert top < half < sea
    assert saturation(heat)[1] == sea  # nothing told: the sea
    assert saturation(heat, height, altitude_m=3000.0)[1] == pytest.approx(half)  # what was read goes first
