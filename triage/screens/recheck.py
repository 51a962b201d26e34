"""A later look beside the plant: what was done, how it is, and what that says."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

import msgspec
from rich.console import Console

from ..errors import UsageError
from ..followup.done import Act, name_treatment
from ..followup.recovery import days_between
from ..followup.roles import look_questions
from ..intake import clean_text
from ..model.book import Book
from ..session import Told
from . import later_words as words
from . import wording
from .question import parse_choice, shortened
from .series import Ask, Series
from .style import heading, line

if TYPE_CHECKING:
    from ..recall.again import Recheck

#: Questions beyond those of a later look: only what the new picture raises.
FURTHER = 2
OFFERED_SHOWN = 8


class RecheckSeries(Series):
    """A series that asks how it is now, then at most a few questions that would tell most."""

    intro = False

    def __init__(
        self, recheck: Recheck, console: Console, ask: Ask, *, record: Callable[[Told], object],
        forget: Callable[[], object],
    ) -> None:  # fmt: skip
        super().__init__(recheck.session, console, ask, record=record, forget=forget)
        self.recheck = recheck

    def _opening(self) -> Iterator[str]:
        yield from (question.question for question in look_questions(self.session.book))

    @property
    def number(self) -> int:
        return len({told.question for told in self.session.told[self.recheck.known :] if told.question}) + 1

    def _why_enough(self) -> str:
        opening = len(list(self._opening()))
        return "nothing" if self.number > opening + FURTHER else super()._why_enough()

    def _back(self) -> None:
        """What was told at earlier looks stays."""
        if len(self.session.told) <= self.recheck.known:
            line(self.console, wording.FIRST_QUESTION, indent=0)
        else:
            super()._back()


def begin_recheck(recheck: Recheck, plant: str, console: Console) -> None:
    """Which case it is, what it was taken for, and what was done."""
    earlier, book = recheck.look.earlier, recheck.session.book
    days = wording.count(days_between(earlier.told.on, recheck.look.on), "day")
    title = words.RECHECK_TITLE.format(number=earlier.number, plant=plant, first=earlier.told.on, days=days)
    heading(console, title)
    if earlier.suspects:
        likely = max(sorted(earlier.suspects), key=lambda cause: earlier.suspects[cause])
        line(console, words.RECHECK_EARLIER.format(wording.inside(book.causes[likely].name)))
    if earlier.acts:
        said = wording.listed([f"{act.what} ({act.on})" for act in earlier.acts], "and")
        line(console, words.DONE_SO_FAR.format(said))
    line(console, words.RECHECK_INTRO)


def ask_done(
    book: Book, offered: Sequence[str], first: str, today: str, console: Console, ask: Ask,
    keep: Callable[[Act], object],
) -> None:  # fmt: skip
    """Ask what was done since the first look; ``keep`` is called with each answer. Errors: EOFError."""
    shown = [id_ for id_ in offered if id_ in book.treatments][:OFFERED_SHOWN]
    heading(console, words.DONE_ASK.format(day=first))
    line(console, (words.DONE_LOOK, "triage.quiet"))
    for place, id_ in enumerate(shown, start=1):
        line(console, book.treatments[id_].name, bullet=f"{place:>2}")
    line(console, words.DONE_NOTHING, bullet=" 0")
    for act in _acts(book, shown, first, today, console, ask):
        keep(act)
        line(console, words.DONE_KEPT.format(what=act.what, day=act.on))
        if not name_treatment(book, act, shown):
            line(console, words.DONE_UNKNOWN.format(shortened(act.what)))


def _acts(book: Book, shown: Sequence[str], first: str, today: str, console: Console, ask: Ask) -> Iterator[Act]:
    for act in _what(book, shown, console, ask):
        yield msgspec.structs.replace(act, on=_when(act.what, first, today, console, ask))


def _what(book: Book, shown: Sequence[str], console: Console, ask: Ask) -> list[Act]:
    while True:
        typed = clean_text(ask(words.DONE_PROMPT))
        if typed.lower() in ("", "0", "t", *wording.KEYS["no"], words.DONE_NOTHING):
            return []
        if not typed[0].isdecimal() or any(sign.isalpha() for sign in typed):
            return [Act(what=typed, on="")]
        try:
            chosen, unsure = parse_choice(typed, len(shown), one=False)
        except UsageError as error:
            line(console, str(error))
            continue
        return [Act(what=book.treatments[shown[n]].name, on="", treatment=shown[n]) for n in (*chosen, *unsure)]


def _when(what: str, first: str, today: str, console: Console, ask: Ask) -> str:
    line(console, f"{what}: {words.DONE_WHEN}")
    while True:
        typed = clean_text(ask(words.DONE_WHEN_PROMPT.format(day=first)))
        if not typed:
            return first
        day = parse_day(typed, today)
        if first <= day <= today:
            return day
        line(console, words.DONE_NOT_A_DAY.format(first=first, last=today))


def parse_day(typed: str, today: str) -> str:
    """An ISO date, or a number of days before ``today``; '' if it is neither.

    >>> parse_day("9", "2026-05-14"), parse_day("2026-05-05", "2026-05-14"), parse_day("soon", "2026-05-14")
    ('2026-05-05', '2026-05-05', '')
    """
    try:
        if typed.isascii() and typed.isdecimal() and len(typed) < 4:
            return (date.fromisoformat(today) - timedelta(days=int(typed))).isoformat()
        return date.fromisoformat(typed).isoformat()
    except ValueError:
        return ""
