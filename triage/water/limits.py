"""What the animals kept bear, side by side: each published limit, the strictest of them, and where they disagree."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import msgspec

from ..model.crop import Animal, AnimalLimit

#: From the limit that one works with to the one that is only a wish; a deadly limit is no limit to work with.
_WORKING = ("tolerated", "best")


class Bound(msgspec.Struct, frozen=True, kw_only=True):
    """One end of what an animal bears."""

    limit: float
    animal: str
    name: str
    what: str
    source: str
    read: str


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """One published range for one animal."""

    animal: str
    name: str
    what: str
    low: float | None
    high: float | None
    source: str
    read: str
    note: str = ""


class Band(msgspec.Struct, frozen=True, kw_only=True):
    """A quantity as the animals kept bear it: the strictest ends, and every row they come from.

    ``disagree``: published ranges of one kind (best, tolerated or deadly) differ between the animals or sources.
    """

    quantity: str
    low: Bound | None
    high: Bound | None
    rows: tuple[Row, ...]
    disagree: bool


def find_bands(animals: Sequence[Animal]) -> dict[str, Band]:
    """The band of each quantity that has a published limit for an animal kept, in the order of quantities.

    Where an animal has a range it tolerates, that counts; else the range that is best for it.
    """
    ids = sorted({limit.quantity for animal in animals for limit in animal.limits})
    return {id_: _band(id_, animals) for id_ in ids}


def _band(quantity: str, animals: Sequence[Animal]) -> Band:
    rows = [_row(animal, limit) for animal in animals for limit in animal.limits if limit.quantity == quantity]
    lows = [bound for animal in animals for bound in _ends(animal, quantity, "low")]
    highs = [bound for animal in animals for bound in _ends(animal, quantity, "high")]
    return Band(
        quantity=quantity, low=max(lows, key=lambda bound: bound.limit, default=None),
        high=min(highs, key=lambda bound: bound.limit, default=None), rows=tuple(rows), disagree=_disagree(rows),
    )  # fmt: skip


def _ends(animal: Animal, quantity: str, end: str) -> list[Bound]:
    """The end that one works with, none where only a deadly one is published."""
    for what in _WORKING:
        for limit in animal.limits:
            value = getattr(limit, end)
            if limit.quantity == quantity and limit.what == what and value is not None:
                return [_bound(animal, limit, value)]
    return []


def _bound(animal: Animal, limit: AnimalLimit, value: float) -> Bound:
    return Bound(
        limit=value, animal=animal.animal, name=animal.name, what=limit.what, source=limit.source, read=limit.read
    )


def _row(animal: Animal, limit: AnimalLimit) -> Row:
    return Row(
        animal=animal.animal, name=animal.name, what=limit.what, low=limit.low, high=limit.high, source=limit.source,
        read=limit.read, note=limit.note,
    )  # fmt: skip


def _disagree(rows: Iterable[Row]) -> bool:
    ranges: dict[str, set[tuple[float | None, float | None]]] = {}
    for row in rows:
        ranges.setdefault(row.what, set()).add((row.low, row.high))
    return any(len(found) > 1 for found in ranges.values())


def least(animals: Sequence[Animal], quantity: str) -> float | None:
    """The least of a quantity that every animal kept bears; None where no limit is published."""
    band = find_bands(animals).get(quantity)
    return band.low.limit if band and band.low else None
