"""A table of readings (CSV) → readings: one bad row never takes another with it, and nothing is guessed."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Literal

import msgspec

from ..errors import UsageError
from ..model.quantity import Quantity, Reading
from .cells import unguard_text
from .columns import Column, Role, read_columns
from .readings import make_reading
from .values import parse_number

Decimal = Literal["point", "comma"]
DateOrder = Literal["ymd", "dmy", "mdy"]
EMPTY = ("", "-", "–", "n/a", "na", "none", "nd", "?")
_SPAN: tuple[Role, ...] = ("low", "high")
_NUMBER = re.compile(r"\d[\d.,]*")
_DATE = re.compile(r"^(\d{1,4})[-/.](\d{1,2})[-/.](\d{1,4})(?:[T\s]+(\d{1,2}:\d{2})(?::\d{2}(?:\.\d+)?)?Z?)?$")
_THOUSANDS = {"point": re.compile(r"^\d{1,3}(,\d{3})+$"), "comma": re.compile(r"^\d{1,3}(\.\d{3})+$")}


class Asked(msgspec.Struct, frozen=True, kw_only=True):
    """What the file cannot tell by itself, as the grower said it; None or empty where nothing was said."""

    decimal: Decimal | None = None
    dates: DateOrder | None = None
    delimiter: str = ""
    on: str = ""
    kit: str = ""
    point: str = ""
    today: str = ""  # later days are refused


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """The readings of one line of the file."""

    line: int
    readings: tuple[Reading, ...]


class Refused(msgspec.Struct, frozen=True, kw_only=True):
    """A line that was not taken, whole, and every reason why."""

    line: int
    why: tuple[str, ...]
    text: str


class Table(msgspec.Struct, frozen=True, kw_only=True):
    """What a file holds: its columns as understood, the rows taken and those refused."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    refused: tuple[Refused, ...]

    @property
    def readings(self) -> tuple[Reading, ...]:
        return tuple(reading for row in self.rows for reading in row.readings)


class _Unsaid(UsageError):
    """The file can be read in two ways, and nobody said which: no row of it is taken."""


def read_table(text: str, quantities: Mapping[str, Quantity], asked: Asked) -> Table:
    """The readings in a table.

    Args:
        text: the file; the first line heads the columns. A line is a day with one column for each quantity, or one
            reading with columns quantity, value and unit (an exported table has more and comes back as it was).
        quantities: quantities of the book by id.
        asked: decimal mark, order of dates and the like.

    Returns:
        Rows taken and refused, by line.

    Raises:
        UsageError: the file as a whole cannot be read, or can be read in two ways and nobody said which.
    """
    try:
        lines = list(csv.reader(io.StringIO(text), delimiter=asked.delimiter or _delimiter(text)))
    except csv.Error as error:
        raise UsageError(f"this is not a table in CSV ({error})") from None
    if not lines or not any(cell.strip() for cell in lines[0]):
        raise UsageError("the file is empty (its first line heads the columns)")
    columns = read_columns([cell.strip() for cell in lines[0]], quantities)
    if not asked.on and all(column.role != "date" for column in columns):
        raise UsageError("no column is a date (head one 'date', or say --on DAY for all of them)")
    rows, refused = [], []
    for number, cells in enumerate(lines[1:], start=2):
        if not any(cell.strip() for cell in cells):
            continue
        readings, why = _read_row(columns, cells, quantities, asked, number)
        if why:
            refused.append(Refused(line=number, why=tuple(why), text=", ".join(cells)))
        elif readings:
            rows.append(Row(line=number, readings=tuple(readings)))
    return Table(columns=tuple(columns), rows=tuple(rows), refused=tuple(refused))


def _delimiter(text: str) -> str:
    """The mark between columns: the one that the first line holds most of."""
    first = text.split("\n", 1)[0]
    return max((",", ";", "\t"), key=first.count)


def _read_row(
    columns: Sequence[Column], cells: Sequence[str], quantities: Mapping[str, Quantity], asked: Asked, line: int
) -> tuple[list[Reading], list[str]]:
    """The readings of a row, and every reason against it."""
    why: list[str] = []
    if len(cells) > len(columns) and any(cell.strip() for cell in cells[len(columns) :]):
        why.append(f"{len(cells)} cells under {len(columns)} headings")
    given = {column: cell.strip() for column, cell in zip(columns, cells, strict=False)}
    others: dict[Role, str] = {column.role: cell for column, cell in given.items() if column.role != "reading"}
    told: dict[Role, str] = {role: cell for role, cell in others.items() if not _is_empty(cell)}
    on, time = "", told.get("time", "")
    try:
        on, in_date = _read_date(told.get("date", asked.on), asked, line)
        time = time or in_date
    except _Unsaid:
        raise
    except UsageError as error:
        why.append(str(error))
    readings = []
    for name, value, unit in _values(given, told):
        try:
            reading = make_reading(
                name, _in_points(value, asked, line), quantities, unit=unit, on=on, time=_clock(time),
                kit=told.get("kit", asked.kit).casefold(), point=_hyphened(told.get("point", asked.point)),
                bound=told.get("bound"),  # type: ignore[arg-type]  # it says which are allowed
            )  # fmt: skip
            spans = {role: _in_points(told[role], asked, line) for role in _SPAN if role in told}
            ends = {role: make_reading(name, text, quantities, unit=unit).value for role, text in spans.items()}
            readings.append(_as_kept(reading, ends, others))
        except _Unsaid:
            raise
        except UsageError as error:
            why.append(str(error))
    return readings, list(dict.fromkeys(why))


def _as_kept(reading: Reading, ends: Mapping[Role, float], others: Mapping[Role, str]) -> Reading:
    """The reading with what an exported table says beside it: between which values it lies, the kit's step, the note.

    Errors: UsageError if that is upside down.
    """
    low, high = ends.get("low", reading.low), ends.get("high", reading.high)
    if low > high:
        raise UsageError(f"{reading.quantity}: nothing lies from {low:g} to {high:g} (write the lower value first)")
    step = others.get("step", "")
    return msgspec.structs.replace(
        reading, low=low, high=high, step=reading.step if _is_empty(step) else abs(parse_number(step)),
        note="".join(filter(str.isprintable, unguard_text(others["note"]))) if "note" in others else reading.note,
    )  # fmt: skip


def _values(given: Mapping[Column, str], told: Mapping[Role, str]) -> list[tuple[str, str, str]]:
    """(quantity, value, unit) of each cell with a reading; a unit in the cell goes before the heading's."""
    found = [
        (c.quantity, cell, _unit(cell, c.unit))
        for c, cell in given.items()
        if c.role == "reading" and not _is_empty(cell)
    ]
    if "value" in told:
        found.append((told.get("quantity", ""), told["value"], _unit(told["value"], told.get("unit", ""))))
    return found


def _unit(cell: str, unit: str) -> str:
    return "" if re.search(r"\d\s*[^\W\d]|%|°", cell) else unit


def _is_empty(cell: str) -> bool:
    return cell.strip().casefold() in EMPTY


def _in_points(cell: str, asked: Asked, line: int) -> str:
    """The cell with decimal points and no marks for thousands."""
    return _NUMBER.sub(lambda match: _number(match[0], asked, line), cell)


def _number(text: str, asked: Asked, line: int) -> str:
    if "," not in text and asked.decimal != "comma":
        return text
    if asked.decimal is None:
        raise _Unsaid(f"line {line}: '{text}' can be read in two ways (say --decimal comma or --decimal point)")
    own, other = (",", ".") if asked.decimal == "comma" else (".", ",")
    whole, _, decimals = text.partition(own)
    grouped = other not in whole or _THOUSANDS[asked.decimal].match(whole)
    if not grouped or other in decimals or own in decimals:
        raise UsageError(f"'{text}' does not fit decimals written with a {asked.decimal}")
    return whole.replace(other, "") + (f".{decimals}" if decimals else "")


def _read_date(text: str, asked: Asked, line: int) -> tuple[str, str]:
    """ISO date, and the time if the cell holds one."""
    match = _DATE.match(text.strip())
    if match is None:
        raise UsageError(f"'{text}' is not a date (write it as 2026-05-03)" if text else "no date")
    first, second, third, clock = match.groups()
    if len(first) == 4:
        year, month, day = first, second, third
    elif len(third) != 4:
        raise UsageError(f"'{text}' is not a date (write the year with four digits)")
    elif asked.dates is None:
        raise _Unsaid(f"line {line}: '{text}' can be read in two ways (say --dates dmy, day first, or --dates mdy)")
    elif asked.dates == "ymd":
        raise UsageError(f"'{text}' does not begin with the year")
    else:
        day, month, year = (first, second, third) if asked.dates == "dmy" else (second, first, third)
    try:
        on = date(int(year), int(month), int(day)).isoformat()
    except ValueError:
        raise UsageError(f"'{text}' is not a day of any month") from None
    if asked.today and on > asked.today:
        raise UsageError(f"'{text}' is in the future")
    return on, _clock(clock or "")


def _clock(text: str) -> str:
    return f"0{text}" if re.fullmatch(r"\d:\d\d", text) else text


def _hyphened(text: str) -> str:
    return "-".join(text.casefold().split())
