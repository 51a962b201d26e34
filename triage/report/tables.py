"""Readings and cases as rows for spreadsheets and other programs; the columns stand in the contributors' guide."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Mapping, Sequence

import msgspec

from ..water.cells import guard_text, number_text
from .case_sheet import MeasuredLine
from .own_words import Own

READINGS_FORMAT = "triage-readings-export/1"
CASES_FORMAT = "triage-cases-export/1"
Cell = str | float | int | None


class CaseRow(msgspec.Struct, frozen=True, kw_only=True):
    """One case as it stands. ``cause`` is the likeliest by the last look, ``proven`` what it turned out to be (None:
    nobody said; empty: nothing of the book). ``looks`` counts the finished ones."""

    case: int
    date: str
    state: str
    crop: str
    bed: Own
    plant: Own
    cause: str
    probability: float | None
    second_cause: str
    second_probability: float | None
    proven: tuple[str, ...] | None
    looks: int
    last_look: str
    verdict: str
    treatments: tuple[str, ...]
    last_done: str
    closed: str
    outcome: Own
    book: str


class ReadingsTable(msgspec.Struct, frozen=True, kw_only=True):
    """What `water export --json` gives."""

    format: str = READINGS_FORMAT
    readings: tuple[MeasuredLine, ...]


class CasesTable(msgspec.Struct, frozen=True, kw_only=True):
    """What `case export --json` gives. ``shared``: names and own words are left out."""

    format: str = CASES_FORMAT
    shared: bool
    cases: tuple[CaseRow, ...]


#: Columns of readings, as `water import` reads them.
READING_COLUMNS: Mapping[str, Callable[[MeasuredLine], Cell]] = {
    "date": lambda r: r.on, "time": lambda r: r.time, "quantity": lambda r: r.quantity, "value": lambda r: r.value,
    "bound": lambda r: "" if r.bound == "=" else r.bound, "unit": lambda r: r.unit, "value_from": lambda r: r.low,
    "value_to": lambda r: r.high, "kit_step": lambda r: r.step, "kit": lambda r: r.kit, "point": lambda r: r.point,
    "reading_note": lambda r: r.note,
}  # fmt: skip


def readings_csv(readings: Iterable[MeasuredLine]) -> str:
    """A line for each reading."""
    return _csv(list(READING_COLUMNS), ([tell(r) for tell in READING_COLUMNS.values()] for r in readings))


def cases_csv(cases: Iterable[CaseRow]) -> str:
    """A line for each case. Several causes or treatments in one cell have ``; `` between them; 'none' is nothing of the
    book."""
    columns = CaseRow.__struct_fields__
    said = (msgspec.structs.replace(case, proven=("none",)) if case.proven == () else case for case in cases)
    return _csv(columns, ([_joined(getattr(case, name)) for name in columns] for case in said))


def _joined(value: Cell | tuple[str, ...]) -> Cell:
    return "; ".join(value) if isinstance(value, tuple) else value


def _csv(columns: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows([guard_text(cell) if isinstance(cell, str) else number_text(cell) for cell in row] for row in rows)
    return out.getvalue()
