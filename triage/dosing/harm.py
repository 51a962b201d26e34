"""What the animals kept would say: a published limit that the dose would cross, or cross further."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..model.crop import Animal, AnimalLimit
from ..model.quantity import Quantity, Reading

#: Readings after a dose are rounded (pH to 0.01, which is 2 % of carbon dioxide): so small a share is no change.
STAYS = 0.03
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
    """The limit that is crossed, or crossed further; what was beyond it and stays put is not the dose's doing."""
    most, least = (limit.high, limit.low) if before is None else (before.high, before.low)
    high = limit.high is not None and after.high > max(limit.high, _moved(most, limit.high, 1 + STAYS))
    low = limit.low is not None and after.low < min(limit.low, _moved(least, limit.low, 1 - STAYS))
    if high:
        return f"{after.high:.3g}, above {limit.high:g}"
    return f"{after.low:.3g}, below {limit.low:g}" if low else ""


def _moved(was: float | None, limit: float, by: float) -> float:
    """What a value must pass to have moved: the limit, or itself by a share where it was beyond the limit already."""
    beyond = was is not None and (was > limit if by > 1 else was < limit)
    return was * by if was is not None and beyond else limit
