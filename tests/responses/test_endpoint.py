"""What a published value says."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from triage.model.record import Sourced
from triage.model.substance import AsSold
from triage.responses.endpoint import endpoint_of, is_ceiling, is_floor, to_mg_l, value_mg_l


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
        ("LC50", 24, "acute"), ("LC50", 23.9, "above"), ("tolerated", 23.9, None),
        ("NOEC", 12, None), ("LC100", 2, "above"), ("MATC", 2, "chronic"), (" lc50 ", 96, "acute"),
        ("no_effect", 96, "tolerated"), ("toxic_at", 96, "above"), ("something new", 2, "above"),
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


def test_what_is_counted_as_itself_needs_no_conversion(kit: SimpleNamespace) -> None:
    share = Sourced(value=0.25, unit="g per g", source="molar-mass")
    sold = [AsSold(form="concentrate", active=10, unit="%", source="our-judgement", read="seen")]
    assert value_mg_l(kit.row(8), kit.substance(kit.row(8), element_share=share, as_sold=sold)) == 8
    element = kit.row(8, basis="element")
    assert value_mg_l(element, kit.substance(element, kit.row(1), element_share=share)) == 32
    product = kit.row(8, basis="product")
    assert value_mg_l(product, kit.substance(product)) == 8  # all its values are for the product
    assert value_mg_l(kit.row(8), kit.substance(product)) == 8
    assert value_mg_l(kit.row(8, basis="product", unit="%"), kit.substance(as_sold=sold)) is None


@pytest.mark.parametrize(
    ("unit", "milligrams"),
    [
        ("ug/L", 0.002),
        ("ng/L", 2e-6),
        (" mg / l", 2.0),
        ("µl/L", 1.84),
        ("ml/L", 1840.0),
        ("ML/L", 1840.0),
        ("G/L", None),
    ],
)
def test_small_units_and_volumes(kit: SimpleNamespace, unit: str, milligrams: float | None) -> None:
    oil = kit.substance(density=Sourced(value=0.92, unit="g/mL", source="our-judgement"))
    found = to_mg_l(2, unit, oil)
    assert found == (milligrams if milligrams is None else pytest.approx(milligrams))


def test_floors_and_ceilings(kit: SimpleNamespace) -> None:
    assert is_floor(kit.row(100, bound=">="), "acute")
    assert is_floor(kit.row(100), "tolerated")
    assert is_ceiling(kit.row(100, bound="<="), "acute")
    assert not is_ceiling(kit.row(100, bound=">"), "acute")
    assert not is_floor(kit.row(100, bound="<"), "above")
    assert is_floor(kit.row(100, bound=">"), "acute")
    assert is_floor(kit.row(100, test="NOEC"), "floor")
    assert not is_floor(kit.row(100), "acute")
    assert is_ceiling(kit.row(100, bound="<"), "acute")
    assert is_ceiling(kit.row(100), "above")
