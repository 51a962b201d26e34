"""What the animals kept would say: a published limit that the dose would cross, or cross further."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..model.crop import Animal, AnimalLimit
from ..model.quantity import Quantity, Reading

#: Limits that count as harm; a best range that is left is no reason to refuse.
HARMFUL = ("tolerated", "deadly")


def harmed_animals(
    animals: Sequence[Animal], before: Sequence[Reading], after: Sequence[Reading], quantities: Mapping[str, Quantity]
) -> list[str]:
    """Reasons not to, one for each animal and quantity, by the worse end of what is known."""
    was, now = ({reading.quantity: reading for reading in readings} for readings in (before, after))
    found: dict[tuple[str, str], str] = {}
    for animal in animals:
        for limit in animal.limits:
            then = now.get(limit.quantity)
            if limit.what in HARMFUL and then is not None and (said := _crossed(limit, was.get(limit.quantity), then)):
                name = quantities[limit.quantity].name
                found.setdefault(
                    (animal.animal, limit.quantity),
                    f"{animal.name}: {name} would be {said} ({limit.what}; {limit.source})",
                )
    return [f"{reason}." for reason in found.values()]


def _crossed(limit: AnimalLimit, before: Reading | None, after: Reading) -> str:
    if limit.high is not None and after.high > limit.high and (before is None or after.high > before.high + 1e-9):
        return f"{after.high:.3g}, above {limit.high:g}"
    if limit.low is not None and after.low < limit.low and (before is None or after.low < before.low - 1e-9):
        return f"{after.low:.3g}, below {limit.low:g}"
    return ""
