"""How a table of readings looks before and after it is recorded."""

from __future__ import annotations

from collections.abc import Mapping

from rich.console import Console

from ..model.quantity import Quantity
from ..water.columns import Column
from ..water.table import Table
from . import wording
from .numbers import say_number, say_unit
from .style import heading, line

SHOWN = 12


def render_table(table: Table, console: Console, quantities: Mapping[str, Quantity], *, added: int | None) -> None:
    """The columns as understood, what was (or would be) recorded, and each row refused. ``added`` None: a preview."""
    if added is None:
        _preview(table, console, quantities)
    else:
        again = len(table.readings) - added
        line(console, f"{added} recorded" + (f"; {again} known already" if again else ""), indent=0)
        unread = [column.header for column in table.columns if column.role == "unread" and column.header]
        if unread:
            line(console, f"Columns not read: {', '.join(unread)}", indent=0)
    if table.refused:
        heading(console, f"Rows refused: {len(table.refused)}. Nothing of such a row is recorded.")
        for refused in table.refused:
            line(console, (f"line {refused.line}: ", "triage.name"), "; ".join(refused.why), bullet="x")


def _preview(table: Table, console: Console, quantities: Mapping[str, Quantity]) -> None:
    heading(console, "The columns, as they are read")
    for column in table.columns:
        line(console, f"{column.header}: {_meaning(column, quantities)}")
    heading(console, f"Would be recorded: {len(table.readings)} readings from {len(table.rows)} rows")
    for reading in table.readings[:SHOWN]:
        value = f"{wording.BOUND_WORDS[reading.bound]}{say_number(reading.value)}{say_unit(reading.unit)}"
        note = (f"  ({reading.note})" if reading.note else "", "triage.quiet")
        line(console, f"{reading.on} {quantities[reading.quantity].name}: {value}", note)
    if len(table.readings) > SHOWN:
        line(console, f"… and {len(table.readings) - SHOWN} more")


def _meaning(column: Column, quantities: Mapping[str, Quantity]) -> str:
    if column.role == "reading":
        quantity = quantities[column.quantity]
        kept = quantities.get(quantity.same_as, quantity)
        open_ = not column.unit and quantity.unit_needed
        return f"{kept.name}, {column.unit or ('form not said' if open_ else quantity.unit)}"
    return "not read" if column.role == "unread" else column.role
