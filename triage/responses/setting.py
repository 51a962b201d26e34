"""What a substance is graded for: how it is used, the water it may reach, and what is assumed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

import msgspec

from ..errors import TriageError
from ..model.book import Book
from ..model.crop import Animal
from ..model.exposure import CoverShare, Margin
from ..model.interval import Interval
from ..model.quantity import Reading
from ..model.substance import Substance
from .amounts import Amount, Strength

Way = Literal["sprayed", "dosed"]


class Plan(msgspec.Struct, frozen=True, kw_only=True):
    """How a substance is used. ``sprayed``: on plants, on purpose not in the water; ``dosed``: into the water.

    ``already_g``: grams of the same thing that the system holds before a dose.
    """

    strength: Strength | None = None
    amount: Amount | None = None
    cover: str = "none"
    times: int = 1
    every_days: float = 7.0
    way: Way = "sprayed"
    already_g: float = 0.0


class Water(msgspec.Struct, frozen=True, kw_only=True):
    """The water of the system and who lives in it.

    ``oxygen_mg_l`` is what the water holds now: measured, or else saturation at its temperature; None if neither is
    known. No animals means that nobody said who lives there: then both fish and crustaceans count.
    """

    volume_l: float | None = None
    animals: tuple[Animal, ...] = ()
    readings: tuple[Reading, ...] = ()
    oxygen_mg_l: float | None = None

    def reading(self, quantity: str) -> Interval | None:
        """What is known of a quantity, or None."""
        return next((reading.interval for reading in self.readings if reading.quantity == quantity), None)

    @property
    def crustaceans_kept(self) -> bool:
        return not self.animals or any(animal.kind == "crustacean" for animal in self.animals)


class Assumptions(msgspec.Struct, frozen=True, kw_only=True):
    """Shares reaching the water, margins, and all animals of the book (to tell near relatives)."""

    shares: Mapping[str, CoverShare]
    margins: Mapping[str, Margin]
    animals: tuple[Animal, ...] = ()

    @classmethod
    def from_book(cls, book: Book) -> Assumptions:
        return cls(shares=book.cover_shares, margins=book.margins, animals=tuple(book.animals.values()))

    def margin(self, name: str) -> float:
        """The value of a margin. Raises TriageError when the book lacks it."""
        if name not in self.margins:
            raise TriageError(f"the book has no margin '{name}' (knowledge/margins.yaml)")
        return self.margins[name].value

    def share(self, cover: str) -> float:
        """Share reaching the water; all of it for a cover that the book does not know."""
        return self.shares[cover].share if cover in self.shares else 1.0

    def share_at_worst(self, cover: str) -> float:
        """Share reaching the water when all goes wrong."""
        return self.shares[cover].at_worst if cover in self.shares else 1.0


def way_of(substance: Substance) -> Way:
    """How a substance is meant to be used where nobody says otherwise."""
    return "dosed" if "meant-for-water" in substance.traits else "sprayed"
