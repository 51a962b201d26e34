"""What the headings of a table mean."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from triage.errors import UsageError
from triage.model.quantity import Quantity
from triage.water.columns import ROLES, Column, read_columns

Book = Mapping[str, Quantity]


@pytest.mark.parametrize(("role", "heading"), [(role, name) for role, names in ROLES.items() for name in names])
def test_every_heading_that_is_no_reading(quantities: Book, role: str, heading: str) -> None:
    for written in (heading, heading.upper(), f"  {heading.replace(' ', '_')} "):
        assert read_columns([written, "pH"], quantities)[0] == Column(header=written, role=role)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("heading", "quantity", "unit"),
    [
        ("pH", "ph", ""),
        ("Nitrate (mg/L NO3)", "nitrate", "mg/L NO3"),
        ("KH [dKH]", "alkalinity", "dKH"),
        ("Temp °C", "temperature", "°C"),
        ("Nitrate mg/L as NO3", "nitrate", "mg/L as NO3"),
        ("Dissolved Oxygen", "oxygen", ""),
        ("dissolved oxygen mg/L", "oxygen", "mg/L"),
    ],
)
def test_a_reading_with_the_unit_behind_it(quantities: Book, heading: str, quantity: str, unit: str) -> None:
    kept = quantities[quantity]
    (column,) = read_columns([heading], quantities)
    named = quantities[column.quantity]
    assert (column.header, column.role, column.unit) == (heading, "reading", unit)
    assert named.same_as == kept.quantity or named is kept


@pytest.mark.parametrize("heading", ["Weather", "pH (mg/kg)", "Unionised ammonia", "Nitrate furlongs", ""])
def test_what_is_not_understood_is_kept_by_name(quantities: Book, heading: str) -> None:
    assert read_columns(["pH", heading], quantities)[1] == Column(header=heading, role="unread")


def test_a_table_without_readings(quantities: Book) -> None:
    for headings in (["date", "weather"], ["date", "quantity"], ["date", "value"]):
        with pytest.raises(UsageError) as refused:
            read_columns(headings, quantities)
        assert str(refused.value) == (
            f"no column is a reading (found: {', '.join(headings)}; allowed: names such as pH, nitrate (mg/L NO3), "
            "kh (dKH))"
        )
    assert [column.role for column in read_columns(["quantity", "value"], quantities)] == ["quantity", "value"]


def test_one_quantity_in_two_columns(quantities: Book) -> None:
    with pytest.raises(UsageError) as refused:
        read_columns(["date", "iron", "pH", "Fe"], quantities)
    assert str(refused.value) == "two columns are iron: give one of them a sampling point in a table of its own"
    assert len(read_columns(["date", "weather", "mood", "pH"], quantities)) == 4
