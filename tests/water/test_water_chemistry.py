"""Laws that the chemistry keeps whatever the numbers."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.water import ammonia, carbonate, iron, metals, nitrite, nitrogen, oxygen, salts
from triage.water.formulas import formulas, share_of
from triage.water.molar import BASE_EQUIVALENTS, alkalinity_per_gram, form_factor, molar_mass

PH = st.floats(4, 11)
WARM = st.floats(0, 40)
AMOUNT = st.floats(0, 1000)


@given(PH, PH, WARM)
def test_toxic_share_grows_with_ph(first: float, second: float, temperature_c: float) -> None:
    low, high = sorted((first, second))
    assert ammonia.unionised_fraction(low, temperature_c) <= ammonia.unionised_fraction(high, temperature_c)


@given(PH, WARM, WARM)
def test_toxic_share_grows_with_temperature(ph: float, first: float, second: float) -> None:
    low, high = sorted((first, second))
    assert 0 < ammonia.unionised_fraction(ph, low) <= ammonia.unionised_fraction(ph, high) < 1


@given(PH, WARM)
def test_limits_for_ammonia_keep_their_order(ph: float, temperature_c: float) -> None:
    strict = ammonia.acute_limit(ph, temperature_c, salmonids=True)
    mild = ammonia.acute_limit(ph, temperature_c, salmonids=False)
    assert 0 < strict <= mild + 1e-9
    assert mild <= ammonia.acute_limit_mussels_absent(ph, temperature_c) + 1e-9
    assert ammonia.chronic_limit(ph, temperature_c) < ammonia.highest_four_day_epa2013(ph, temperature_c)
    assert ammonia.chronic_limit(ph, temperature_c) < ammonia.chronic_limit_mussels_absent(ph, temperature_c)


@given(WARM, st.floats(0, 40), st.floats(0.6, 1.05))
def test_oxygen_falls_with_salt_and_with_thin_air(temperature_c: float, salt: float, pressure_atm: float) -> None:
    fresh = oxygen.saturation(temperature_c, pressure_atm=pressure_atm)
    assert oxygen.saturation(temperature_c, salinity_g_kg=salt, pressure_atm=pressure_atm) <= fresh
    assert oxygen.saturation(temperature_c, pressure_atm=pressure_atm * 0.95) < fresh


@given(st.floats(-400, 5000))
def test_one_atmosphere_stands_at_the_sea(altitude_m: float) -> None:
    assert (oxygen.pressure_at_altitude_atm(altitude_m) - 1) * altitude_m <= 0
    assert oxygen.pressure_at_altitude_atm(0) == 1
    assert oxygen.pressure_factor(20, 1.0) == pytest.approx(1)


@given(st.floats(5, 9), st.floats(1, 500), st.floats(0, 35))
def test_carbon_dioxide_times_ten_is_one_ph(ph: float, alkalinity: float, temperature_c: float) -> None:
    dioxide = carbonate.carbon_dioxide(ph, alkalinity, temperature_c)
    lower = carbonate.carbon_dioxide(ph + carbonate.ph_change_from_carbon_dioxide(10), alkalinity, temperature_c)
    assert lower == pytest.approx(10 * dioxide)


@given(st.floats(0, 600), st.floats(0, 600))
def test_copper_limits_grow_with_hardness(first: float, second: float) -> None:
    low, high = sorted((first, second))
    for limit in (metals.copper_acute_limit, metals.copper_chronic_limit_cfr132, metals.copper_guideline_ccme,
                  metals.copper_acute_limit_bc2006, metals.copper_chronic_limit_bc2006):  # fmt: skip
        assert limit(low) <= limit(high)


@given(st.floats(0, 100), st.floats(0, 100))
def test_nitrite_limit_grows_with_chloride(first: float, second: float) -> None:
    low, high = sorted((first, second))
    assert nitrite.limit_bc(low, short_term=False) <= nitrite.limit_bc(high, short_term=False)
    assert nitrite.limit_bc(low, short_term=False) <= nitrite.limit_bc(low, short_term=True)


@given(st.floats(0.01, 50), st.floats(1, 30))
def test_chloride_needed_gives_its_ratio(nitrite_mg_l: float, ratio: float) -> None:
    chloride = nitrite.chloride_needed(nitrite_mg_l, ratio)
    assert nitrite.chloride_ratio(chloride, nitrite_mg_l) == pytest.approx(ratio)
    assert nitrite.salt_for_chloride(chloride) > chloride


@given(st.sampled_from(sorted(iron.CEILINGS)), PH, PH)
def test_iron_held_never_rises_with_ph(form: str, first: float, second: float) -> None:
    low, high = sorted((first, second))
    held, later = iron.held_share(form, low), iron.held_share(form, high)
    assert later.low <= held.low
    assert later.high <= held.high


def test_iron_of_an_unknown_form() -> None:
    with pytest.raises(ValueError, match=r"no chelate 'HEDTA' .allowed: none, EDTA, DTPA, EDDHA"):
        iron.held_share("HEDTA", 7)


@given(AMOUNT, st.floats(0, 10), st.floats(0, 200))
def test_alkalinity_is_conserved(alkalinity: float, nitrogen_mg_l: float, residual: float) -> None:
    added = nitrogen.alkalinity_to_add(nitrogen_mg_l, alkalinity, residual)
    left = alkalinity + added - nitrogen.alkalinity_consumed(nitrogen_mg_l)
    assert left >= residual - 1e-9
    assert added == 0 or left == pytest.approx(residual)


@given(AMOUNT, st.floats(0.01, 10), st.floats(0, 200))
def test_buffer_days_use_up_what_is_spare(alkalinity: float, per_day: float, residual: float) -> None:
    days = nitrogen.buffer_days(alkalinity, per_day, residual)
    assert alkalinity - nitrogen.alkalinity_consumed(per_day * days) == pytest.approx(max(residual, 0) if days else
                                                                                    alkalinity, abs=1e-6)  # fmt: skip


def test_no_feed_uses_no_buffer() -> None:
    assert nitrogen.buffer_days(50, 0) == float("inf")


@given(st.floats(5, 9), st.floats(5, 9))
def test_nitrification_never_slows_with_rising_ph(first: float, second: float) -> None:
    low, high = sorted((first, second))
    assert nitrogen.nitrification_rate(low) <= nitrogen.nitrification_rate(high) <= 1


@given(st.floats(0, 20), st.floats(0.5, 4), st.floats(1, 30))
def test_yield_is_a_share(ec: float, threshold: float, slope: float) -> None:
    assert 0 <= salts.yield_percent(ec, threshold, slope) <= 100
    assert salts.yield_percent(threshold, threshold, slope) == 100


def test_bases_neutralise_by_equivalents() -> None:
    for base, equivalents in BASE_EQUIVALENTS.items():
        moles_of_charge = alkalinity_per_gram(base) * molar_mass(base) / (molar_mass("CaCO3") / 2)
        assert moles_of_charge == pytest.approx(equivalents)
    assert alkalinity_per_gram("CaCO3") == pytest.approx(1)


@pytest.mark.parametrize(("formula", "grams"), [("NaCl", 58.44), ("Ca(OH)2", 74.09), ("Mg(OH)2", 58.32)])
def test_molar_masses(formula: str, grams: float) -> None:
    assert molar_mass(formula) == pytest.approx(grams, abs=0.01)


def test_strange_formula() -> None:
    with pytest.raises(ValueError, match="cannot read 'Xx'"):
        molar_mass("XxO2")


@given(st.sampled_from(["NO3", "NO2", "NH3", "NH4"]))
def test_forms_invert(form: str) -> None:
    assert form_factor("N", form) * form_factor(form, "N") == pytest.approx(1)


@given(st.floats(0.001, 1000), st.floats(0.001, 1000))
def test_share_of(amount: float, limit: float) -> None:
    assert share_of(amount, limit) * limit == pytest.approx(amount)
    assert share_of(amount, 0) == float("inf")


BOX = {
    "ph": PH, "temperature": st.floats(0, 35), "tan": AMOUNT, "salinity": st.floats(0, 40),
    "pressure": st.floats(600, 1080), "oxygen": st.floats(0, 20), "oxygen-percent": st.floats(0, 200),
    "alkalinity": AMOUNT, "calcium": AMOUNT, "magnesium": AMOUNT, "hardness": AMOUNT, "copper": AMOUNT,
    "chloride": AMOUNT, "nitrite": st.floats(0.001, 100), "feed": st.floats(0.1, 1000),
    "feed-protein": st.floats(1, 60), "volume": st.floats(10, 1e5), "oxygen-saturation": st.floats(6, 15),
    "least-oxygen": st.floats(1, 8), "stock": st.floats(0.01, 100), "top-up-chlorine": st.floats(0, 5),
    "top-up-per-day": st.floats(0, 1e4), "titration-acid": st.floats(0, 100), "titration-strength": st.floats(0, 1),
    "titration-sample": st.floats(1, 500),
}  # fmt: skip


@pytest.mark.parametrize("salmonids", [True, False])
@pytest.mark.parametrize("place", range(len(formulas(salmonids=False))))
@given(data=st.data())
def test_every_formula_is_monotone_in_each_input(place: int, salmonids: bool, data: st.DataObject) -> None:
    """What working at the corners of a box rests on: along each input the middle lies between the ends."""
    formula = formulas(salmonids=salmonids)[place]
    point = [data.draw(BOX[need], label=need) for need in formula.needs]
    for number, need in enumerate(formula.needs):
        low, middle, high = sorted(data.draw(BOX[need], label=f"{need} along") for _ in range(3))
        results = [formula.of(*point[:number], value, *point[number + 1 :]) for value in (low, middle, high)]
        ends = [(r, r) if isinstance(r, float) else (r.low, r.high) for r in results]
        for at_low, at_middle, at_high in zip(*ends, strict=True):
            # rounding may move the last digits; nothing else may leave the span of the ends
            assert min(at_low, at_high) <= at_middle * (1 + 1e-9) + 1e-12
            assert at_middle <= max(at_low, at_high) * (1 + 1e-9) + 1e-12
