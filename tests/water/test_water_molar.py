"""Formulas of products against the grades printed on bags."""

from __future__ import annotations

import pytest

from triage.water.ammonia import acute_limit_epa2013, acute_limit_mussels_absent
from triage.water.molar import alkalinity_rise_dkh, brings, element_of


@pytest.mark.parametrize(
    ("form", "element"),
    [("H3BO3", "B"), ("HPO4", "P"), ("O3S", "S"), ("P2O5", "P"), ("K", "K"), ("OHCl", "Cl"), ("NH4", "N")],
)
def test_a_form_is_measured_for_what_is_neither_oxygen_nor_hydrogen(form: str, element: str) -> None:
    assert element_of(form) == element


@pytest.mark.parametrize(
    ("product", "form", "share"),
    [
        ("KH2PO4", "P2O5", 0.52), ("KH2PO4", "K2O", 0.346), ("K2SO4", "K2O", 0.54), ("KNO3", "K2O", 0.466),
        ("KNO3", "N", 0.138), ("MgSO4(H2O)7", "Mg", 0.0986), ("Ca(NO3)2", "Ca", 0.244), ("KCl", "P2O5", 0.0),
    ],
)  # fmt: skip
def test_products_hold_what_their_bags_say(product: str, form: str, share: float) -> None:
    """Monopotassium phosphate is sold as 0-52-34, potassium nitrate as 13-0-46 (grades of the trade, from memory)."""
    assert brings(product, form) == pytest.approx(share, abs=0.002)


def test_one_degree_of_hardness_takes_thirty_grams_of_bicarbonate_a_cubic_metre() -> None:
    """29.96 g, from the molar masses; three times the base in a third of the water is nine times as much."""
    assert alkalinity_rise_dkh("NaHCO3", 29.962, 1000) == pytest.approx(1.0, rel=1e-4)
    assert alkalinity_rise_dkh("NaHCO3", 89.886, 1000 / 3) == pytest.approx(9.0, rel=1e-4)


def test_without_mussels_warm_water_bears_more_by_one_share() -> None:
    """62.15 in place of 23.12 (azdeq-script), where neither meets the cap; both fall tenfold in 27.8 degrees."""
    for ph in (6.8, 8.2):
        ratio = acute_limit_mussels_absent(ph, 28) / acute_limit_epa2013(ph, 28, salmonids=False)
        assert ratio == pytest.approx(62.15 / 23.12)
        fall = acute_limit_mussels_absent(ph, 24) / acute_limit_mussels_absent(ph, 29)
        assert fall == pytest.approx(10 ** (0.036 * 5))
    assert acute_limit_mussels_absent(7.0, 20) == pytest.approx(37.6, abs=0.1)  # the cap: 51.93 at the pH of 7
