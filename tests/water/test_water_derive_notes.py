"""What is said beside a derived value, and what little is needed to know it."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from triage.model.quantity import Quantity
from triage.water.ammonia import acute_limit_epa2013, acute_limit_mussels_absent
from triage.water.basing import carbon_per_equivalent
from triage.water.derive import Derived, as_reading, derive_values
from triage.water.readings import find_quantity, parse_assignment

Book = Mapping[str, Quantity]


def derived(quantities: Book, *words: str, **more: float) -> dict[str, Derived]:
    readings = [parse_assignment(word, quantities) for word in words]
    return {value.name: value for value in derive_values(readings, salmonids=False, **more)}


def test_remarks_follow_each_other(quantities: Book) -> None:
    found = derived(quantities, "ph=5.8", "temperature=31")
    assert found["ammonia_acute_limit_mg_l"].note == (
        "the formula was made for ph 6.5 to 9; the formula was made for temperature 0 to 30"
    )
    assert as_reading(found["ammonia_acute_limit_mg_l"]).note == found["ammonia_acute_limit_mg_l"].note


@pytest.mark.parametrize("ph", ["6.5", "9", "6.5..9"])
def test_the_ends_of_what_a_formula_was_made_for_belong_to_it(quantities: Book, ph: str) -> None:
    assert derived(quantities, f"ph={ph}", "temperature=30")["ammonia_acute_limit_mg_l"].note == ""
    assert derived(quantities, f"ph={ph}", "temperature=0")["ammonia_acute_limit_mg_l"].note == ""


def test_litres_above_nothing_are_needed(quantities: Book) -> None:
    assert "stocking_density_kg_m3" not in derived(quantities, "stock=2")
    assert "stocking_density_kg_m3" not in derived(quantities, "stock=2", volume_l=0)
    assert derived(quantities, "stock=2", volume_l=0.5)["stocking_density_kg_m3"].value == pytest.approx(4000)


def test_what_comes_twice_is_given_once(quantities: Book) -> None:
    """Alkalinity read goes before alkalinity of a titration."""
    words = ("titration-acid=1", "titration-strength=0.02", "titration-sample=20")
    readings = [parse_assignment(word, quantities) for word in ("alkalinity=80 mg/L CaCO3", *words)]
    names = [value.name for value in derive_values(readings, salmonids=False)]
    assert names.count("alkalinity_mg_l_caco3") == 1
    assert len(names) == len(set(names))


def test_the_stock_gives_off_a_quarter_gram_for_each_kilo(quantities: Book) -> None:
    """fisheries-blog: 25 mg for 100 g of fish a day."""
    assert derived(quantities, "stock=1000")["ammonia_from_stock_g"].value == pytest.approx(250.0)


def test_copper_as_a_share_of_its_limit(quantities: Book) -> None:
    found = derived(quantities, "copper=10", "hardness=100 mg/L CaCO3")
    limit = found["copper_acute_limit_ug_l"].value
    assert found["copper_acute_share"].value == pytest.approx(10 * 1000 / limit, rel=1e-9)


@pytest.mark.parametrize("temperature_c", [22.5, 25, 30])
def test_the_limit_without_mussels_is_the_national_one_times_the_ratio_of_the_factors(temperature_c: float) -> None:
    """azdeq-script: 62.15 in place of 23.12. The cap of 51.93 holds only below 22.2 degrees."""
    national = acute_limit_epa2013(8.0, temperature_c, salmonids=False)
    assert acute_limit_mussels_absent(8.0, temperature_c) == pytest.approx(national * 62.15 / 23.12)
    assert acute_limit_mussels_absent(8.0, 10) == pytest.approx(acute_limit_mussels_absent(8.0, 22))


def test_a_base_without_carbon_brings_none() -> None:
    assert carbon_per_equivalent("KOH", 1.121) == 0


def test_a_name_with_blanks_in_other_names_is_found() -> None:
    glow = Quantity(quantity="glow", name="Glow", unit="W", possible=[0, 9], also=["Inner Light"], sources=[])
    assert find_quantity("inner  light", {"glow": glow}) is glow
    assert find_quantity("inner_light", {"glow": glow}) is glow


def test_a_height_that_was_read_is_no_assumption(quantities: Book) -> None:
    assert derived(quantities, "temperature=20", "altitude=300")["oxygen_saturation_mg_l"].note == ""
