"""What a published value says."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from triage.model.record import Sourced
from triage.model.substance import AsSold
from triage.responses.endpoint import endpoint_of, is_ceiling, is_floor, value_mg_l


@pytest.mark.parametrize(
    ("test", "hours", "expected"),
    [
        ("LC50", 96, "acute"), ("EC50", 48, "acute"), ("EL50", 48, "acute"), ("TLm", 336, "acute"),
        ("HC05", None, "acute"),
        ("LC50 or EC50", None, "acute"), ("LC50", None, "acute"), ("something new", None, "acute"),
        ("LC50", 6, "above"), ("LC100", 72, "above"), ("lethal", 48, "above"), ("toxic at", None, "above"),
        ("NOEC", 504, "floor"), ("NOEC life cycle", None, "floor"), ("NOEC_33d", None, "floor"),
        ("LC0", 120, "tolerated"), ("tolerated", 24, "tolerated"), ("no effect", None, "tolerated"),
        ("tolerated", 1, None), ("LC0", 3, None),
        ("MATC", None, "chronic"), ("IC25 early life", None, "chronic"), ("EC10 chronic", None, "chronic"),
        ("LOEC", None, "chronic"), ("effect", None, "chronic"),
    ],
)  # fmt: skip
def test_tests_are_told_apart(kit: SimpleNamespace, test: str, hours: float | None, expected: str | None) -> None:
    assert endpoint_of(kit.row(1, test=test, hours=hours)) == expected


@pytest.mark.parametrize(
    ("unit", "expected"),
    [("mg/L", 3.0), ("mg/L as Cu", 3.0), ("µg/L", 0.003), ("g/L", 3000.0), ("mL/L", 2760.0), ("microlitres/L", 2.76)],
)
def test_units_become_milligrams(kit: SimpleNamespace, unit: str, expected: float) -> None:
    oil = kit.substance(density=Sourced(value=0.92, unit="g/mL", source="our-judgement"))
    assert value_mg_l(kit.row(3, unit=unit), oil) == pytest.approx(expected)


@pytest.mark.parametrize("unit", ["pH", "mg/kg soil", "%", "mL/L"])
def test_what_is_no_concentration_is_not_compared(kit: SimpleNamespace, unit: str) -> None:
    assert value_mg_l(kit.row(3, unit=unit), kit.substance()) is None


def test_a_product_becomes_the_active_only_with_a_known_content(kit: SimpleNamespace) -> None:
    product, active = kit.row(1.19, basis="product"), kit.row(0.5)
    assert value_mg_l(product, kit.substance(product, active)) is None
    sold = [AsSold(form="concentrate", active=10, unit="g/L", source="our-judgement", read="seen")]
    assert value_mg_l(product, kit.substance(product, active, as_sold=sold)) == pytest.approx(0.0119)


def test_a_metal_becomes_the_compound_by_its_share(kit: SimpleNamespace) -> None:
    copper = kit.row(0.05, basis="metal")
    share = Sourced(value=0.25, unit="g per g", source="molar-mass")
    assert value_mg_l(copper, kit.substance(copper, element_share=share)) == pytest.approx(0.2)
    assert value_mg_l(copper, kit.substance(copper)) == 0.05


def test_floors_and_ceilings(kit: SimpleNamespace) -> None:
    assert is_floor(kit.row(100, bound=">"), "acute")
    assert is_floor(kit.row(100, test="NOEC"), "floor")
    assert not is_floor(kit.row(100), "acute")
    assert is_ceiling(kit.row(100, bound="<"), "acute")
    assert is_ceiling(kit.row(100), "above")
