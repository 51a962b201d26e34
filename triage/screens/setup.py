"""The few questions about the system, asked once."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from rich.console import Console

from ..errors import UsageError
from ..intake import BEDS, PLACES, TOP_UP, clean_text, named_ids, volume_litres
from ..model.book import Book
from ..model.case import System
from .style import heading, line

Ask = Callable[[str], str]


def ask_system(old: System, book: Book, console: Console, ask: Ask) -> System:
    """Ask for each part; Enter keeps what stands in brackets, and nothing has to be known."""
    line(console, "Enter keeps what stands in brackets. Nothing has to be exact; all of it can be changed.", indent=0)

    def asked(what: str, old_value: Any, parse: Callable[[str], Any]) -> Any:
        return _ask(console, ask, what, old_value, parse)

    return System(
        volume_l=asked("Water in tank, sump and beds together (1000L, 1 m3)", old.volume_l, volume_litres),
        animals=asked("Animals, with commas (tilapia, shrimp)", old.animals, _names(book.animals, "animal")),
        crops=asked("Crops, with commas", old.crops, _names(book.crops, "crop")),
        beds=asked(f"Beds: {', '.join(BEDS)}", old.beds, _one_of(*BEDS)),
        filter=asked("Filter, in your words", old.filter, clean_text),
        top_up=asked(f"Top-up water: {', '.join(TOP_UP)}", old.top_up, _one_of(*TOP_UP)),
        place=asked(f"Where it stands: {', '.join(PLACES)}", old.place, _one_of(*PLACES)),
        altitude_m=old.altitude_m,
        shelf=asked("Sprays and additives at hand, with commas", old.shelf, _words),
    )


def _ask(console: Console, ask: Ask, what: str, old: Any, parse: Callable[[str], Any]) -> Any:
    heading(console, what)
    shown = ", ".join(old) if isinstance(old, tuple) else "" if old is None else str(old)
    while True:
        try:
            typed = clean_text(ask(f"[{shown}] "))
        except EOFError:
            return old
        if not typed:
            return old
        try:
            return parse(typed)
        except UsageError as error:
            line(console, str(error))


def _words(text: str) -> tuple[str, ...]:
    return tuple(clean_text(word) for word in text.split(",") if word.strip())


def _names(entries: Mapping[str, Any], what: str) -> Callable[[str], tuple[str, ...]]:
    return lambda text: named_ids(_words(text), entries, what)


def _one_of(*words: str) -> Callable[[str], str]:
    def parse(text: str) -> str:
        if text.lower() not in words:
            raise UsageError(f"'{text}' is not one of: {', '.join(words)}")
        return text.lower()

    return parse
