"""The few questions about a spray; Enter where one does not know, or to keep what is saved."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
from rich.console import Console

from ..errors import UsageError
from ..intake import clean_text, named_ids, volume_litres
from ..model.book import Book
from ..model.case import System
from ..responses.amounts import parse_amount, parse_strength
from ..responses.names import Named, Names
from ..spraying import Asked
from . import spray_words as words
from .style import heading, line

Ask = Callable[[str], str]


class Answers(msgspec.Struct, frozen=True, kw_only=True):
    """What was answered: the question about the spray, and whether it is in the water already."""

    asked: Asked
    spilled: bool = False


def ask_spray(book: Book, saved: System, console: Console, ask: Ask) -> Answers | None:
    """Ask for everything; None if nothing was named. When nobody answers any more, the rest is not known."""
    line(console, words.INTRO, indent=0)
    named = _ask_words(book, console, ask)
    if not named:
        return None
    strength = _ask(console, ask, words.ASK_STRENGTH, parse_strength)
    amount = _ask(console, ask, words.ASK_AMOUNT, parse_amount)
    cover = _ask_cover(console, ask)
    volume = _ask(console, ask, words.ASK_VOLUME, volume_litres, f"{saved.volume_l:g} L" if saved.volume_l else "")
    kept = ", ".join(saved.animals)
    animals = _ask(console, ask, words.ASK_ANIMALS, lambda text: _animals(text, book), kept)
    placed = cover if cover not in ("into-water", "spilled", "") else None
    asked = Asked(
        words=named, strength=strength or None, amount=amount or None, cover=placed, volume=volume or None,
        animals=animals or None, into_water=cover == "into-water",
    )  # fmt: skip
    return Answers(asked=asked, spilled=cover == "spilled")


def _ask(console: Console, ask: Ask, what: str, parse: Callable[[str], object], known: str = "") -> str:
    """The words typed, if they can be read; nothing for Enter."""
    heading(console, what)
    while True:
        try:
            typed = clean_text(ask(f"[{known}] " if known else "> "))
        except EOFError:
            return ""
        if not typed:
            return ""
        try:
            parse(typed)
        except UsageError as error:
            line(console, str(error))
        else:
            return typed


def _animals(text: str, book: Book) -> tuple[str, ...]:
    return named_ids([name.strip() for name in text.split(",") if name.strip()], book.animals, "animal")


def _ask_words(book: Book, console: Console, ask: Ask) -> str:
    """Words that are understood, or words that the grower wants to keep though they are not."""
    names, kept = Names(book), ""
    heading(console, words.ASK_WORDS)
    while True:
        try:
            typed = clean_text(ask("> "))
        except EOFError:
            return kept
        if not typed:
            return kept
        found = names.read(typed)
        unknown = [one for one in found if not one.ids and not one.treatment]
        for one in found:
            _say_understood(one, book, console)
        if not unknown:
            return typed
        kept = typed
        if not any(one.near for one in unknown):
            return typed


def _say_understood(named: Named, book: Book, console: Console) -> None:
    if named.group or len(named.ids) > 1:
        shown = book.substance_groups[named.group].name if named.group else named.words
        line(console, words.MAY_BE.format(shown, len(named.ids)))
    elif named.ids:
        line(console, words.UNDERSTOOD.format(book.substances[named.ids[0]].name))
    elif named.treatment:
        line(console, words.UNDERSTOOD.format(book.treatments[named.treatment].name))
    else:
        near = f" {words.NEAR.format(', '.join(named.near))}" if named.near else ""
        line(console, words.NOT_IN_BOOK.format(named.words) + near)


def _ask_cover(console: Console, ask: Ask) -> str:
    heading(console, words.ASK_COVER)
    for number, says in enumerate(words.COVER_CHOICES.values(), start=1):
        line(console, says, bullet=f"{number}")
    by_number = {str(number): name for number, name in enumerate(words.COVER_CHOICES, start=1)}
    while True:
        try:
            typed = clean_text(ask("> ")).lower()
        except EOFError:
            return ""
        if not typed or typed in words.COVER_CHOICES or typed in by_number:
            return by_number.get(typed, typed)
        line(console, words.NOT_A_CHOICE.format(typed, words.A_NUMBER.format(len(by_number))))
