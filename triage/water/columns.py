"""What the columns of a table of readings mean: a day, a sampling point, a kit, or a quantity with its unit."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Literal

import msgspec

from ..errors import UsageError
from ..model.quantity import Quantity
from .readings import find_quantity
from .units import units_meant

Role = Literal[
    "date", "time", "kit", "point", "reading", "quantity", "value", "unit", "bound", "low", "high", "step", "note",
    "unread",
]  # fmt: skip

#: How people head the columns that are no readings.
ROLES: dict[Role, tuple[str, ...]] = {
    "date": ("date", "day", "on", "datum", "fecha", "data", "date time", "datetime", "timestamp", "sample date"),
    "time": ("time", "hour", "uhrzeit", "hora", "heure"),
    "kit": ("kit", "test kit", "method", "instrument"),
    "point": ("point", "sample point", "sampling point", "location", "where", "site", "tank"),
    "quantity": ("quantity", "parameter", "reading", "test", "analyte", "what"),
    "value": ("value", "result", "measurement", "amount"),
    "unit": ("unit", "units"),
    # As an exported table heads them; nobody heads the reference ranges of a laboratory so.
    "bound": ("bound",),
    "low": ("value from",),
    "high": ("value to",),
    "step": ("kit step",),
    "note": ("reading note",),
}
_BRACKETS = re.compile(r"^(?P<name>[^\[(]+?)\s*[\[(](?P<unit>.+)[\])]\s*$")


class Column(msgspec.Struct, frozen=True, kw_only=True):
    """One column: what it is, and for a reading which quantity and in which unit as headed."""

    header: str
    role: Role
    quantity: str = ""
    unit: str = ""


def read_columns(headers: Sequence[str], quantities: Mapping[str, Quantity]) -> list[Column]:
    """The columns of a table.

    Args:
        headers: as written, such as ``Date``, ``pH``, ``Nitrate (mg/L NO3)``, ``KH [dKH]`` or ``Temp °C``.
        quantities: quantities of the book by id.

    Returns:
        One for each header; what is not understood is ``unread`` and kept by name.

    Raises:
        UsageError: no column holds readings, or one quantity has two columns.
    """
    columns = [_column(header, quantities) for header in headers]
    roles = [column.role for column in columns]
    if "reading" not in roles and not {"quantity", "value"} <= set(roles):
        known = ", ".join(headers)
        raise UsageError(
            f"no column is a reading (found: {known}; allowed: names such as pH, nitrate (mg/L NO3), kh (dKH))"
        )
    named = [column.quantity for column in columns if column.quantity]
    twice = next((name for name in named if named.count(name) > 1), None)
    if twice:
        raise UsageError(f"two columns are {twice}: give one of them a sampling point in a table of its own")
    return columns


def _column(header: str, quantities: Mapping[str, Quantity]) -> Column:
    plain = " ".join(header.replace("_", " ").casefold().split())
    for role, names in ROLES.items():
        if plain in names:
            return Column(header=header, role=role)
    for name, unit in _splits(header):
        try:
            quantity = find_quantity(name, quantities)
            units_meant(quantity, unit)
        except UsageError:
            continue
        return Column(header=header, role="reading", quantity=quantity.quantity, unit=unit)
    return Column(header=header, role="unread")


def _splits(header: str) -> list[tuple[str, str]]:
    """The name and the unit behind it, in every way the header can be split, the longest name first."""
    found = [(header, "")]
    if brackets := _BRACKETS.match(header):
        found.append((brackets["name"], brackets["unit"]))
    words = header.split()
    found += [(" ".join(words[:place]), " ".join(words[place:])) for place in range(len(words) - 1, 0, -1)]
    return found
