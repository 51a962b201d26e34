"""The closed and the settled carbonate system of fresh water against PyCO2SYS (constants of Millero 1979, no salt)."""

from __future__ import annotations

import PyCO2SYS as pyco2
import pytest

from triage.water.basing import Buffer
from triage.water.carbonate import CACO3_PER_MEQ
from triage.water.carbonate_system import carbon_dioxide_mmol, ph_closed, total_carbon_mmol

FRESH = {
    "salinity": 0, "opt_k_carbonic": 8, "opt_pH_scale": 3, "total_borate": 0, "total_sulfate": 0, "total_fluoride": 0,
}  # fmt: skip


@pytest.mark.parametrize("temperature_c", [5, 15, 25, 30])
@pytest.mark.parametrize("alkalinity", [20, 60, 150])
@pytest.mark.parametrize("ph", [6.2, 7.0, 8.0, 8.8])
def test_carbon_from_ph_and_alkalinity(ph: float, alkalinity: float, temperature_c: float) -> None:
    """Carbon within 1 % and free carbon dioxide within 1.5 % (the first constant differs by up to 0.006)."""
    result = pyco2.sys(
        par1=alkalinity / CACO3_PER_MEQ * 1000, par2=ph, par1_type=1, par2_type=3, temperature=temperature_c, **FRESH
    )
    assert total_carbon_mmol(ph, alkalinity, temperature_c) == pytest.approx(result["dic"] / 1000, rel=0.01)
    assert carbon_dioxide_mmol(ph, alkalinity, temperature_c) == pytest.approx(result["aqueous_CO2"] / 1000, rel=0.015)


@pytest.mark.parametrize("temperature_c", [10, 25])
@pytest.mark.parametrize(("alkalinity", "carbon"), [(20, 1.0), (60, 2.0), (60, 1.3), (150, 3.1), (5, 2.0)])
def test_ph_of_closed_water(alkalinity: float, carbon: float, temperature_c: float) -> None:
    """pH within 0.01."""
    result = pyco2.sys(
        par1=alkalinity / CACO3_PER_MEQ * 1000, par2=carbon * 1000, par1_type=1, par2_type=2, temperature=temperature_c,
        **FRESH,
    )  # fmt: skip
    assert ph_closed(alkalinity, carbon, temperature_c) == pytest.approx(result["pH"], abs=0.01)


@pytest.mark.parametrize(("carbon_per_eq", "name"), [(0, "lye"), (0.5, "carbonate"), (1, "bicarbonate")])
def test_what_a_base_does_at_once(carbon_per_eq: float, name: str) -> None:
    """10 mg/L of alkalinity into water of pH 6.6 and alkalinity 40, at 25 degrees: pH within 0.01."""
    before = pyco2.sys(par1=40 / CACO3_PER_MEQ * 1000, par2=6.6, par1_type=1, par2_type=3, temperature=25, **FRESH)
    equivalents = 10 / CACO3_PER_MEQ * 1000
    after = pyco2.sys(
        par1=40 / CACO3_PER_MEQ * 1000 + equivalents, par2=before["dic"] + carbon_per_eq * equivalents, par1_type=1,
        par2_type=2, temperature=25, **FRESH,
    )  # fmt: skip
    assert Buffer.of(6.6, 40, 25).ph_at_once(10, carbon_per_eq) == pytest.approx(after["pH"], abs=0.01)
