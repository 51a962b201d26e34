"""The few questions about the system, asked once."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import msgspec
from rich.console import Console

from ..errors import UsageError
from ..intake import BEDS, PLACES, TOP_UP, clean_text, named_ids, volume_litres
from ..model.book import Book
from ..model.case import System
from . import setup_words as words
from . import wording
from .question import shortened
from .style import heading, line

Ask = Callable[[str], str]
CHOICES: dict[str, tuple[str, ...]] = {"beds": BEDS, "top_up": TOP_UP, "place": PLACES}
#: What a dose and a grade cannot do without.
NEEDED = ("volume_l", "animals")


def ask_system(
    old: System, book: Book, console: Console, ask: Ask, keep: Callable[[System], object],
    parts: Sequence[str] = tuple(words.ASKS),
) -> System:  # fmt: skip
    """Ask for each part; Enter keeps what stands in brackets. ``keep`` is called at once with every change.

    Nothing has to be known; when nobody answers any more, the rest stays as it was.
    """
    system = old
    for part in parts:
        try:
            value = _ask_part(part, getattr(system, part), book, console, ask)
        except EOFError:
            return system
        if value != getattr(system, part):
            system = msgspec.structs.replace(system, **{part: value})
            keep(system)
    return system


def _ask_part(part: str, old: Any, book: Book, console: Console, ask: Ask) -> Any:
    heading(console, words.ASKS[part])
    if part in CHOICES:
        line(console, words.CHOICES.format(wording.listed(choice_words(part), "or")))
    said = say_part(part, old, book)
    while True:
        typed = clean_text(ask(f"[{said}] " if said else "> "))
        if not typed:
            return old
        try:
            return parse_part(part, typed, book)
        except UsageError as error:
            line(console, str(error))


def say_part(part: str, value: Any, book: Book) -> str:
    """What is kept of one part, in words."""
    if part in ("animals", "crops"):
        shelf: Mapping[str, Any] = book.animals if part == "animals" else book.crops
        return ", ".join(wording.inside(shelf[id_].name) if id_ in shelf else id_ for id_ in value)
    if isinstance(value, tuple):
        return ", ".join(value)
    if value is None:
        return ""
    if part in CHOICES:
        return words.CHOICE_WORDS.get(value, str(value))
    return f"{value:g} L" if part == "volume_l" else f"{value:g}" if isinstance(value, float) else str(value)


def parse_part(part: str, typed: str, book: Book) -> Any:
    """One part of the system as typed. Errors: UsageError says what is allowed."""
    if part == "volume_l":
        return volume_litres(typed)
    if part == "animals":
        return named_ids(_words(typed), book.animals, "animal")
    if part == "crops":
        return named_ids(_words(typed), book.crops, "crop")
    if part == "altitude_m":
        return _metres(typed)
    if part in CHOICES:
        return _one_of(typed, part)
    return tuple(_words(typed)) if part == "shelf" else typed


def _metres(typed: str) -> float:
    try:
        value = float(typed.lower().removesuffix("metres").removesuffix("m").strip())
    except ValueError:
        value = float("nan")
    if not -500 <= value <= 9000:  # the Dead Sea shore to the highest summit
        raise UsageError(words.NOT_A_NUMBER.format(shortened(typed)))
    return value


def choice_words(part: str) -> list[str]:
    """The words of which one answers a part."""
    return [words.CHOICE_WORDS.get(choice, choice) for choice in CHOICES[part]]


def _one_of(typed: str, part: str) -> str:
    """One of the choices, by its word or its id, or by the beginning of either."""
    said = typed.lower()
    both = zip(CHOICES[part], choice_words(part), strict=True)
    fitting = [id_ for id_, word in both if word.lower().startswith(said) or id_.startswith(said)]
    if len(fitting) != 1:
        raise UsageError(words.NO_CHOICE.format(shortened(typed), ", ".join(choice_words(part))))
    return fitting[0]


def _words(text: str) -> list[str]:
    names = [name.strip() for name in text.split(",") if name.strip()]
    if text and not names:
        raise UsageError(words.NO_NAMES.format(shortened(text)))
    return names
