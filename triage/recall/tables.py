"""The readings and the cases of a journal as rows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import msgspec

from ..followup.standing import Standing
from ..model.book import Book
from ..model.quantity import Reading
from ..report.own_words import Own, printable, without_own_words
from ..report.tables import CaseRow, CasesTable, ReadingsTable
from .cases import list_standing
from .sheet import measured_line

if TYPE_CHECKING:
    from ..journal import CaseLine, Journal


class WantedReadings(msgspec.Struct, frozen=True, kw_only=True):
    """Which readings: of these quantities (all, if none is named), between two days; only the latest of each."""

    quantities: tuple[str, ...] = ()
    since: str = ""
    until: str = ""
    latest: bool = False


def readings_table(book: Book, journal: Journal, wanted: WantedReadings) -> ReadingsTable:
    """The readings that stand, by day; of ``latest`` one for each quantity at each point."""
    kept = [reading for reading in journal.readings() if _fits(reading, wanted)]
    if wanted.latest:
        kept = list({(reading.quantity, reading.point): reading for reading in kept}.values())
        kept.sort(key=lambda reading: (reading.quantity, reading.point))
    return printable(ReadingsTable(readings=tuple(measured_line(book, reading) for reading in kept)))


def _fits(reading: Reading, wanted: WantedReadings) -> bool:
    named = not wanted.quantities or reading.quantity in wanted.quantities
    return named and not reading.derived and wanted.since <= reading.on <= (wanted.until or reading.on)


def cases_table(book: Book, journal: Journal, *, shared: bool = False) -> CasesTable:
    """Every case as it stands now, by number; ``shared`` leaves out names and own words."""
    standing = {case.number: case for case in list_standing(book, journal)}
    lines: Sequence[CaseLine] = sorted(journal.list_cases(), key=lambda line: line.id)
    table = CasesTable(shared=shared, cases=tuple(_row(journal, line, standing.get(line.id)) for line in lines))
    return printable(without_own_words(table) if shared else table)


def _row(journal: Journal, line: CaseLine, standing: Standing | None) -> CaseRow:
    stands = standing or Standing(number=line.id, state=line.state, crop=line.crop, on=line.on, last_look=line.on)
    closings, report = journal.case_closings(line.id), journal.case_report(line.id)
    nobody: tuple[str, float | None] = ("", None)
    first, second, *_ = [*stands.suspects.items(), nobody, nobody]
    return CaseRow(
        case=line.id, date=line.on, state=line.state, crop=line.crop, bed=Own(stands.bed),
        plant=Own(stands.plant or line.plant), cause=first[0], probability=first[1],
        second_cause=second[0], second_probability=second[1], proven=stands.proven,
        looks=sum(look.report is not None for look in journal.case_rechecks(line.id)) + (report is not None),
        last_look=stands.last_look, verdict=stands.verdict,
        treatments=tuple(done.treatment for done in stands.done),
        last_done=max((action.on for action in journal.case_actions(line.id)), default=""),
        closed=closings[-1].at[:10] if closings else "", outcome=Own(line.outcome),
        book=report.book_version if report else "",
    )  # fmt: skip
