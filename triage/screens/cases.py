"""How saved cases look."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

import msgspec
from rich.console import Console

from ..model.book import Book
from ..report.case_report import Report
from ..report.names import Names
from ..session import answer_as_told, still_known
from . import garden_words, sheet_words, wording
from .answer import render_answer
from .resume import answered_again
from .style import heading, line
from .why import render_why

if TYPE_CHECKING:
    from ..journal import StoredCase, StoredReport
    from ..recall.kept import KeptCase, KeptPhoto
    from ..recall.listing import ListedCase


def render_cases(cases: Sequence[ListedCase], console: Console, book: Book, *, of: int) -> None:
    """One line a case; ``of`` is how many there are in all."""
    if not cases:
        line(console, wording.NO_SUCH_CASE.format(wording.count(of, "case")) if of else wording.NO_CASES, indent=0)
    for case in cases:
        where = _where(case.crop, case.plant, case.bed, book)
        parts = [case.on, where, _taken_for(case, book), _ended(case)]
        line(console, "; ".join(part for part in parts if part), indent=0, bullet=f"{case.id:>3} ")


def _where(crop_id: str, plant: str, bed: str, book: Book) -> str:
    crop = wording.crop_inside(book.crops, crop_id, wording.A_PLANT)
    where = [part for part in (plant, wording.IN_BED.format(bed) if bed else "") if part]
    return f"{crop} ({', '.join(where)})" if where else crop


def _taken_for(case: ListedCase, book: Book) -> str:
    known = [wording.inside(book.causes[cause].name) for cause in case.causes if cause in book.causes]
    names = " + ".join(known) or ("" if case.proven else wording.inside(case.summary))
    return wording.PROVEN.format(names or wording.NOTHING_OF_THE_BOOK) if case.proven else names


def _ended(case: ListedCase) -> str:
    verdict = sheet_words.VERDICTS[case.verdict]
    looked = wording.LOOKED_AGAIN.format(verdict=verdict, day=case.last_look) if case.verdict else ""
    return case.outcome or looked or wording.STATE_WORDS[case.state]


def render_case(
    kept: KeptCase, console: Console, book: Book, *, numbers: bool = False, full: bool = False, why: bool = False
) -> None:
    """Where it is, what it turned out to be, what was told, advised and done, the later looks, and how it ended."""
    case, state = kept.case, wording.STATE_WORDS[kept.case.state]
    where = _where(case.crop, kept.place.plant or case.plant, kept.place.bed, book)
    heading(console, wording.CASE_TITLE.format(number=case.id, day=case.on, plant=where, state=state))
    _proved(kept, console, book)
    for told in _told(case, book):
        line(console, told, bullet="-")
    if kept.report is None:
        line(console, wording.NO_ADVICE.format(wording.count(case.answered, "answer")))
    else:
        _advice(kept.report, console, book, numbers=numbers, full=full, why=why)
    _went_on(kept, console)


def _proved(kept: KeptCase, console: Console, book: Book) -> None:
    """What it turned out to be; before anything that was only thought likely."""
    if kept.outcome is None:
        return
    names = [wording.inside(book.causes[id_].name) for id_ in kept.outcome.causes if id_ in book.causes]
    what = wording.listed(names) if names else wording.NOTHING_OF_THE_BOOK
    how = f" ({kept.outcome.how.rstrip('.')})" if kept.outcome.how else ""
    line(console, f"{sheet_words.PROVED}: ", (what, "triage.name"), f"{how}.", bullet=">")


def _went_on(kept: KeptCase, console: Console) -> None:
    """What was done, looked at again and photographed, and how it ended; nothing of what did not happen."""
    looks = [f"{look.on}  {sheet_words.VERDICTS[look.verdict] if look.report else sheet_words.NOT_FINISHED}"
             for look in kept.looks]  # fmt: skip
    end = kept.closings[-1] if kept.closings else None
    for title, said in (
        (wording.DONE, [f"{action.on}  {action.what}" for action in kept.actions]),
        (sheet_words.LATER, looks),
        (sheet_words.PHOTOS, [say_photo(each) for each in kept.photos]),
        (wording.ENDED_HOW, [f"{end.at[:10]}  {end.outcome}. {end.note}".rstrip(". ") + "."] if end else []),
    ):
        if said:
            heading(console, title)
        for text in said:
            line(console, text, bullet="-")


def say_photo(kept: KeptPhoto) -> str:
    """A photo with its day and its note, and whether it is still there as it was."""
    note = f" ({kept.photo.note})" if kept.photo.note else ""
    return f"{kept.photo.on}  {kept.photo.path}{note}: {garden_words.PHOTO_STATES[kept.state]}"


def _told(case: StoredCase, book: Book) -> Iterator[str]:
    """What the grower told, can't tell left out."""
    for answer in case.answers:
        told = still_known(answer_as_told(answer), book)
        if told.kind != "cant-tell":
            yield answered_again(told, book)


def _advice(report: StoredReport, console: Console, book: Book, *, numbers: bool, full: bool, why: bool) -> None:
    try:
        advised = msgspec.json.decode(report.report, type=Report)
    except msgspec.ValidationError:  # kept in the shape of an earlier version
        _short_advice(json.loads(report.report), console)
        return
    render_answer(advised, console, Names(book), numbers=numbers, full=full, heard=False)
    if why and advised.suspects and advised.suspects[0].cause in book.causes:
        render_why(advised, console, book)


def _short_advice(report: dict[str, Any], console: Console) -> None:
    """What every shape of a report has: alarms, suspects, responses."""
    line(console, wording.OLDER_ADVICE)
    for alarm in report.get("alarms", []):
        line(console, (alarm["say"], "triage.alarm"), bullet="!")
    heading(console, wording.TITLES["one"])
    for place, suspect in enumerate(report.get("suspects", [])[:4], start=1):
        sure = wording.sure_words(suspect["probability"])
        line(console, (suspect["name"], "triage.name"), ": ", (sure, "triage.sure"), bullet=f"{place}")
    heading(console, wording.DO)
    for response in report.get("responses", [])[:6]:
        line(console, f"[{wording.GRADE_TAGS[response['grade']]}] ", response["name"], bullet="-")
