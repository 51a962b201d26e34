"""What is asked about a spray, as typed, and the system it is asked for."""

from __future__ import annotations

import msgspec

from ..intake import named_ids, volume_litres
from ..model.book import Book
from ..model.case import System


class Asked(msgspec.Struct, frozen=True, kw_only=True):
    """What was asked, as typed; None where nothing was said. ``cover`` is an id of the book's cover shares."""

    words: str
    strength: str | None = None
    amount: str | None = None
    cover: str | None = None
    volume: str | None = None
    animals: str | None = None
    times: int = 1
    every: str | None = None
    into_water: bool = False  # put there on purpose


def system_for(book: Book, asked: Asked, saved: System) -> System:
    """The saved system with what was said of it now. Errors: UsageError for a volume or an animal."""
    if asked.volume is not None:
        saved = msgspec.structs.replace(saved, volume_l=volume_litres(asked.volume))
    if asked.animals is not None:
        names = [name.strip() for name in asked.animals.split(",") if name.strip()]
        saved = msgspec.structs.replace(saved, animals=named_ids(names, book.animals, "animal"))
    return saved
