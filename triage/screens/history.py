"""Every entry of a case, one line each."""

from __future__ import annotations

from rich.console import Console

from ..model.book import Book
from ..recall.history import CaseHistory, Entry
from ..session import Told, still_known
from . import garden_words as words
from . import sheet_words, wording
from .resume import answered_again
from .style import heading, line


def render_history(history: CaseHistory, console: Console, book: Book) -> None:
    """Each entry with its time."""
    heading(console, words.HISTORY.format(number=history.case))
    for entry in history.entries:
        line(console, (f"{entry.at[:16].replace('T', ' ')}  ", "triage.quiet"), _said(entry, book), bullet="-")


def _said(entry: Entry, book: Book) -> str:
    why = words.WHY.format(entry.why) if entry.why else ""
    if entry.kind == "begun":
        return words.BEGUN.format(entry.on)
    if entry.kind == "answer":
        return f"{words.ANSWERED if entry.stands else words.TAKEN_BACK}: {_answer(entry, book)}"
    if entry.kind == "back":
        return words.BACK
    if entry.kind == "report":
        version, _, hash_ = entry.book.partition(" ")
        return words.ADVISED.format(summary=entry.what or words.NO_SUMMARY, version=version, hash=hash_)
    if entry.kind == "recheck":
        verdict = sheet_words.VERDICTS[entry.what]
        return (words.LOOKED if entry.book else words.LOOK_OPEN).format(day=entry.on, verdict=verdict)
    if entry.kind == "action":
        fate = "" if entry.stands else words.FATES["withdrawn" if entry.by is None else "replaced"].format(by=entry.by)
        return words.DID.format(on=entry.on, id=entry.id, what=entry.what) + fate + why
    if entry.kind == "photo":
        return words.PHOTO.format(on=entry.on, path=entry.what, state=words.PHOTO_STATES[entry.state]) + why
    if entry.kind == "outcome":
        return _outcome(entry, book) + why
    return words.CLOSED.format(entry.what) + why


def _answer(entry: Entry, book: Book) -> str:
    import msgspec

    told = still_known(msgspec.json.decode(entry.what, type=Told), book)
    return answered_again(told, book)


def _outcome(entry: Entry, book: Book) -> str:
    if entry.causes is None:
        return words.NOT_KNOWN
    names = [wording.inside(book.causes[id_].name) if id_ in book.causes else id_ for id_ in entry.causes]
    return words.TURNED_OUT.format(wording.listed(names) if names else words.OUTCOME_NOTHING)
