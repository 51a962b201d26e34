"""What is asked about a spray, as typed."""

from __future__ import annotations

import msgspec


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
