"""A saved case → its sheet for an adviser."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from pathlib import PurePath
from typing import TYPE_CHECKING

import msgspec

from ..followup.done import Act, name_treatment
from ..followup.recovery import day_after
from ..model.book import Book
from ..model.case import System
from ..model.quantity import Reading
from ..report.case_sheet import (
    ActLine,
    AdviceLine,
    CaseSheet,
    EndLine,
    HereLine,
    LimitLine,
    MeasuredLine,
    PhotoLine,
    ProvedLine,
    SourceLine,
)
from ..report.own_words import Own, printable, without_own_words
from ..water.limits import Band, Bound, find_bands
from .sheet_advice import advice_line
from .sheet_looks import first_said, later_lines

if TYPE_CHECKING:
    from ..journal import Journal, StoredCase

#: Readings from so many days before the first look until so many after the last entry (our-judgement).
DAYS_BEFORE, DAYS_AFTER = 60, 14


def build_sheet(book: Book, journal: Journal, number: int, *, shared: bool = False) -> CaseSheet:
    """The sheet of a case; ``shared`` leaves out names, notes and own words. Errors: UsageError for no such case."""
    stored = journal.load_case(number)
    advice = advice_line(book, journal.case_report(number))
    sheet = CaseSheet(
        case=number, on=stored.on, state=stored.state, crop=stored.crop,
        crop_name=book.crops[stored.crop].name if stored.crop in book.crops else "",
        here=_here(book, journal, stored), said=first_said(book, stored, journal.case_report(number)),
        readings=(), limits=(), advice=advice,
        done=tuple(_done(book, journal, number, advice)), later=tuple(later_lines(book, journal, number)),
        photos=tuple(_photos(journal, number)), proved=_proved(book, journal, number), end=_end(journal, number),
        sources=(),
    )  # fmt: skip
    sheet = msgspec.structs.replace(sheet, readings=tuple(_readings(book, journal, sheet)))
    sheet = msgspec.structs.replace(sheet, limits=tuple(_limits(book, stored.system, sheet)))
    sheet = msgspec.structs.replace(sheet, sources=tuple(_sources(book, sheet)))
    return printable(without_own_words(msgspec.structs.replace(sheet, shared=True)) if shared else sheet)


def _here(book: Book, journal: Journal, stored: StoredCase) -> HereLine:
    system, place = stored.system, journal.case_place(stored.id)
    return HereLine(
        system=Own(system.name), bed=Own(place.bed), plant=Own(place.plant or stored.plant), volume_l=system.volume_l,
        animals=tuple(book.animals[id_].name for id_ in system.animals if id_ in book.animals), beds=system.beds,
        filter=Own(system.filter), top_up=system.top_up, place=system.place, altitude_m=system.altitude_m,
    )  # fmt: skip


def _done(book: Book, journal: Journal, number: int, advice: AdviceLine | None) -> Iterator[ActLine]:
    offered = tuple(remedy.treatment for remedy in advice.remedies) if advice else ()
    for action in journal.case_actions(number):
        act = Act(what=action.what, on=action.on, treatment=action.treatment)
        id_ = name_treatment(book, act, offered)
        yield ActLine(
            on=action.on, treatment=id_, name=book.treatments[id_].name if id_ else "", what=Own(action.what),
            note=Own(action.note),
        )  # fmt: skip


def _photos(journal: Journal, number: int) -> Iterator[PhotoLine]:
    for photo in journal.case_photos(number):
        name = PurePath(photo.path.replace("\\", "/")).name
        yield PhotoLine(on=photo.on, file=Own(name), sha256=photo.sha256, note=Own(photo.note))


def _proved(book: Book, journal: Journal, number: int) -> ProvedLine | None:
    outcome = journal.case_outcome(number)
    if outcome is None:
        return None
    names = tuple(book.causes[id_].name if id_ in book.causes else id_.replace("-", " ") for id_ in outcome.causes)
    return ProvedLine(on=outcome.on, causes=names, how=Own(outcome.how))


def _end(journal: Journal, number: int) -> EndLine | None:
    closings = journal.case_closings(number)
    if not closings:
        return None
    last = closings[-1]
    return EndLine(on=last.at[:10], outcome=Own(last.outcome), note=Own(last.note))


def _readings(book: Book, journal: Journal, sheet: CaseSheet) -> Iterator[MeasuredLine]:
    """The water around the case, by quantity and day."""
    first, last = day_after(sheet.on, -DAYS_BEFORE), day_after(max(days_of(sheet)), DAYS_AFTER)
    order = {id_: place for place, id_ in enumerate(book.quantities)}
    known = [r for r in journal.readings(since=first) if r.on <= last and r.quantity in order and not r.derived]
    for reading in sorted(known, key=lambda r: (order[r.quantity], r.on, r.time, r.point)):
        yield measured_line(book, reading)


def measured_line(book: Book, reading: Reading) -> MeasuredLine:
    """One reading as sheets and tables give it."""
    quantity = book.quantities.get(reading.quantity)
    return MeasuredLine(
        quantity=reading.quantity, name=quantity.name if quantity else reading.quantity, on=reading.on,
        time=reading.time, value=reading.value, bound=reading.bound, unit=reading.unit, low=_end_of(reading.low),
        high=_end_of(reading.high), step=reading.step, kit=reading.kit, point=reading.point, note=Own(reading.note),
    )  # fmt: skip


def _end_of(value: float) -> float | None:
    return None if math.isinf(value) else value


def days_of(sheet: CaseSheet) -> list[str]:
    """Every day on which something about the case happened."""
    ends = [part.on for part in (sheet.proved, sheet.end) if part is not None]
    return [sheet.on, *(act.on for act in sheet.done), *(look.on for look in sheet.later), *ends]


def _limits(book: Book, system: System, sheet: CaseSheet) -> Iterator[LimitLine]:
    """What the animals kept bear of what was measured."""
    bands = find_bands([book.animals[id_] for id_ in system.animals if id_ in book.animals])
    for id_ in dict.fromkeys(reading.quantity for reading in sheet.readings):
        band = bands.get(id_)
        if band and (band.low or band.high):
            yield _limit(band)


def _limit(band: Band) -> LimitLine:
    ends: list[Bound] = [end for end in (band.low, band.high) if end is not None]
    return LimitLine(
        quantity=band.quantity, low=band.low.limit if band.low else None, low_for=band.low.name if band.low else "",
        high=band.high.limit if band.high else None, high_for=band.high.name if band.high else "",
        sources=tuple(dict.fromkeys(end.source for end in ends)),
    )  # fmt: skip


def _sources(book: Book, sheet: CaseSheet) -> Iterator[SourceLine]:
    """Every source that the sheet names, in the order in which it does."""
    for id_ in dict.fromkeys(_named(sheet)):
        if id_ in book.sources:
            source = book.sources[id_]
            yield SourceLine(
                source=id_, title=source.title, publisher=source.publisher, year=source.year, address=source.address,
                read=source.read,
            )  # fmt: skip


def _named(sheet: CaseSheet) -> Iterator[str]:
    advice = sheet.advice
    if advice is not None:
        for cause in advice.causes:
            yield from cause.sources
            yield from _all(reason.sources for reason in (*cause.for_, *cause.against))
        yield from _all(drawn.sources for drawn in advice.drawn)
    yield from _all(limit.sources for limit in sheet.limits)
    if advice is not None:
        yield from _all(remedy.sources for remedy in advice.remedies)


def _all(named: Iterable[Sequence[str]]) -> Iterator[str]:
    for sources in named:
        yield from sources
