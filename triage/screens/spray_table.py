"""Several substances side by side; fits 60 columns."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping

from rich.console import Console

from ..report.spray_report import SHELF_FORMAT, Row, SprayTable
from . import spray_words as words
from . import wording
from .style import columns, heading, line

_CELL = 7  # columns of one harm
_LEAST = 12


def render_table(table: SprayTable, console: Console, names: Mapping[str, str]) -> None:
    """The grades as a table, then what decides each. ``names`` maps ids of animals to what people call them."""
    shelf = table.format == SHELF_FORMAT
    heading(console, words.SHELF if shelf else words.COMPARE)
    if not table.rows:
        line(console, words.SHELF_EMPTY)
        return
    if used := _use(table, names):
        line(console, used)
    name = _name_width(table, console)
    _print(console, _cells(name, "", words.ALL_IN_ALL, words.COLUMNS))
    for row in table.rows:
        _row(row, name, console)
    line(console, (words.LEGEND, "triage.quiet"), indent=0)
    heading(console, words.REASONS)
    for row in table.rows:
        known = row.name if row.name.lower() != row.words.lower() else row.words
        line(console, (f"{known}: ", "triage.name"), row.why, bullet="-")
    heading(console, words.NOTE)
    for text in (*table.assumed, *table.cautions):
        line(console, text, bullet="!")


def _use(table: SprayTable, names: Mapping[str, str]) -> str:
    """What all of them are graded for."""
    cover = words.COVERS.get(table.cover, "") if table.cover else ""
    where = words.WATER.format(f"{table.volume_l:g}") if table.volume_l else ""
    kept = ", ".join(names.get(animal, animal) for animal in table.animals)
    told = ", ".join(part for part in (table.amount, table.strength, cover, where, kept) if part)
    return f"{told}." if told else ""


def _name_width(table: SprayTable, console: Console) -> int:
    room = columns(console) - 2 - _tag_width() - _CELL * len(words.COLUMNS)
    longest = max(len(row.words) for row in table.rows) + 1
    return max(_LEAST, min(room, longest))


def _tag_width() -> int:
    """Columns of the grade."""
    return max(map(len, wording.GRADE_TAGS.values())) + 1


def _row(row: Row, width: int, console: Console) -> None:
    """A long name takes a second line, so that nothing is cut off."""
    name = textwrap.wrap(row.words, width - 1) or [""]
    grades = [words.SHORT[grade] if grade else "-" for grade in (row.fish, row.crustaceans, row.filter, row.water)]
    _print(console, _cells(width, name[0], wording.GRADE_TAGS[row.grade], tuple(grades)), f"triage.grade.{row.grade}")
    for more in name[1:]:
        line(console, more)


def _cells(width: int, name: str, tag: str, cells: tuple[str, ...]) -> tuple[str, str, str]:
    return f"{name:<{width}}", f"{tag:<{_tag_width()}}", "".join(f"{cell:<{_CELL}}" for cell in cells).rstrip()


def _print(console: Console, cells: tuple[str, str, str], style: str = "triage.quiet") -> None:
    name, tag, rest = cells
    line(console, name, (tag, style), rest)
