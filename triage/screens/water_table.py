"""How a table of readings looks before and after it is recorded."""

from __future__ import annotations

from collections.abc import Mapping

from rich.console import Console

from ..model.quantity import Quantity
from ..water.columns import Column
from ..water.table import Table
from . import water_words as words
from .numbers import say_measured
from .style import heading, line

SHOWN = 12


def render_table(table: Table, console: Console, quantities: Mapping[str, Quantity], *, added: int | None) -> None:
    """The columns as understood, what was (or would be) recorded, and each row refused. ``added`` None: a preview."""
    if added is None:
        _preview(table, console, quantities)
    else:
        again = len(table.readings) - added
        line(console, words.RECORDED.format(added) + (words.KNOWN_ALREADY.format(again) if again else ""), indent=0)
        unread = [column.header for column in table.columns if column.role == "unread" and column.header]
        if unread:
            line(console, words.NOT_READ.format(", ".join(unread)), indent=0)
    if table.refused:
        heading(console, words.REFUSED.format(len(table.refused)))
        for refused in table.refused:
            line(console, (words.REFUSED_LINE.format(refused.line), "triage.name"), "; ".join(refused.why), bullet="x")


def _preview(table: Table, console: Console, quantities: Mapping[str, Quantity]) -> None:
    heading(console, words.COLUMNS_READ)
    for column in table.columns:
        line(console, f"{column.header}: {_meaning(column, quantities)}")
    heading(console, words.WOULD_BE.format(readings=len(table.readings), rows=len(table.rows)))
    for reading in table.readings[:SHOWN]:
        note = (f"  ({reading.note})" if reading.note else "", "triage.quiet")
        line(console, f"{reading.on} {quantities[reading.quantity].name}: {say_measured(reading)}", note)
    if len(table.readings) > SHOWN:
        line(console, words.MORE_ROWS.format(len(table.readings) - SHOWN))


def _meaning(column: Column, quantities: Mapping[str, Quantity]) -> str:
    if column.role == "reading":
        quantity = quantities[column.quantity]
        kept = quantities.get(quantity.same_as, quantity)
        open_ = not column.unit and quantity.unit_needed
        return f"{kept.name}, {column.unit or (words.FORM_NOT_SAID if open_ else quantity.unit)}"
    return words.COLUMN_ROLES.get(column.role, column.role)
