"""Several substances graded for the same use in the same water."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from ..intake import clean_text
from ..model.book import Book
from ..model.case import System
from ..model.quantity import Reading
from ..model.rule import GRADES
from ..report.spray_report import COMPARE_FORMAT, SHELF_FORMAT, Row, SprayTable, sources_used
from . import words
from .answer import is_acceptable, shown_name, unsaid_of
from .asked import Asked
from .judge import Answer, Judge


def compare_sprays(
    book: Book, names: Sequence[str], asked: Asked, saved: System | None, readings: Sequence[Reading], *, on: str
) -> SprayTable:
    """Several substances for the same use in the same water, the mildest first. Errors: UsageError."""
    table = _table(Judge(book, saved or System(), readings, on=on), names, asked, COMPARE_FORMAT)
    order = {row: number for number, row in enumerate(table.rows)}
    rows = sorted(table.rows, key=lambda row: (_rank(row), order[row]))
    return msgspec.structs.replace(table, rows=tuple(rows))


def grade_shelf(book: Book, asked: Asked, saved: System | None, readings: Sequence[Reading], *, on: str) -> SprayTable:
    """Everything the grower owns, as it stands on the shelf. Errors: UsageError."""
    system = saved or System()
    return _table(Judge(book, system, readings, on=on), system.shelf, asked, SHELF_FORMAT)


def _table(judge: Judge, names: Sequence[str], asked: Asked, format_: str) -> SprayTable:
    rows: list[Row] = []
    sources: dict[str, None] = {}
    for name in names:
        one = msgspec.structs.replace(asked, words=clean_text(name))
        answer = judge.judge(one)
        rows.append(_row(one.words, answer, judge.book))
        sources |= dict.fromkeys(sources_used(answer.verdict))
    system = judge.system(asked)
    return SprayTable(
        format=format_, rows=tuple(rows), strength=asked.strength or "", amount=asked.amount or "",
        cover=asked.cover or "", volume_l=system.volume_l, animals=system.animals,
        assumed=(*_unsaid(asked), *unsaid_of(system)), cautions=(words.LABEL_FIRST,),
        sources=tuple(sources),
    )  # fmt: skip


def _unsaid(asked: Asked) -> tuple[str, ...]:
    """What was taken for granted of each of them."""
    lines = []
    if asked.strength is None:
        lines.append(words.EACH_STRENGTH)
    if asked.amount is None:
        lines.append(words.EACH_AMOUNT)
    if asked.cover is None and not asked.into_water:
        lines.append(words.COVER_UNSAID)
    return tuple(lines)


def _row(typed: str, answer: Answer, book: Book) -> Row:
    verdict = answer.verdict
    grades = {harm.harm: harm.grade for harm in verdict.harms}
    deciding = [harm for harm in verdict.harms if harm.grade == verdict.grade and harm.why]
    why = deciding[0].why[0] if deciding and answer.all_judged else " ".join(verdict.why)
    return Row(
        words=typed, substance=verdict.substance, name=shown_name(answer, book), grade=verdict.grade,
        acceptable=is_acceptable(answer), why=why, fish=grades.get("fish"), crustaceans=grades.get("crustaceans"),
        filter=grades.get("filter"), water=grades.get("water"), people=grades.get("people"),
    )  # fmt: skip


def _rank(row: Row) -> int:
    return GRADES.index(row.grade)
