"""Laws of the carbonate system: what is put in comes out again."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.water.carbonate_system import (
    alkalinity_settled,
    carbon_dioxide_mmol,
    ph_closed,
    ph_settled,
    pka2,
    pkw,
    total_carbon_mmol,
)

phs, alkalinities, warmths = st.floats(5.5, 9.5), st.floats(20, 300), st.floats(2, 35)


@pytest.mark.parametrize(
    ("temperature_c", "expected"), [(0, 14.94), (10, 14.54), (20, 14.17), (25, 14.00), (30, 13.84)]
)
def test_ion_product_of_water(temperature_c: float, expected: float) -> None:
    """stumm-morgan (from memory), printed to two digits."""
    assert pkw(temperature_c) == pytest.approx(expected, abs=0.011)


@pytest.mark.parametrize(("temperature_c", "expected"), [(5, 10.55), (15, 10.43), (25, 10.33), (35, 10.25)])
def test_second_constant(temperature_c: float, expected: float) -> None:
    """plummer-busenberg1982 (from memory), as tables print it to two digits."""
    assert pka2(temperature_c) == pytest.approx(expected, abs=0.011)


@given(phs, alkalinities, warmths)
def test_closed_water_has_the_ph_its_carbon_was_worked_out_from(ph: float, alkalinity: float, warmth: float) -> None:
    carbon = total_carbon_mmol(ph, alkalinity, warmth)
    assert ph_closed(alkalinity, carbon, warmth) == pytest.approx(ph, abs=1e-6)


@given(phs, alkalinities, warmths)
def test_settled_water_holds_its_carbon_dioxide(ph: float, alkalinity: float, warmth: float) -> None:
    carbon_dioxide = carbon_dioxide_mmol(ph, alkalinity, warmth)
    assert alkalinity_settled(ph, carbon_dioxide, warmth) == pytest.approx(alkalinity, rel=1e-9)
    assert ph_settled(alkalinity, carbon_dioxide, warmth) == pytest.approx(ph, abs=1e-6)


def test_without_carbon_only_the_ions_of_water_hold_alkalinity() -> None:
    """1 mmol/L of hydroxide (pOH 3) at 25 degrees is pH 11, of hydrogen pH 3; an equivalent is 50.04 mg of CaCO3."""
    assert ph_closed(50.0437, 0.0, 25) == pytest.approx(11.0, abs=0.01)
    assert ph_closed(-50.0437, 0.0, 25) == pytest.approx(3.0, abs=0.01)
    assert alkalinity_settled(3.0, 0.0, 25) == pytest.approx(-50.04, abs=0.05)


def test_carbon_dioxide_is_never_below_nothing() -> None:
    assert carbon_dioxide_mmol(11.5, 10, 25) == 0.0
    assert total_carbon_mmol(11.5, 10, 25) == 0.0


def test_ph_stays_between_its_ends() -> None:
    assert ph_closed(1e9, 0.0, 25) == pytest.approx(13.0)
    assert ph_closed(-1e9, 0.0, 25) == pytest.approx(2.0)
