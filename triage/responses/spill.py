"""After a spill: how far over each aim the water is, and how much of it to change."""

from __future__ import annotations

import math
from collections.abc import Mapping

import msgspec

from ..model.interval import Interval
from .setting import Assumptions

#: Measures that decide, by their name for an event, with the margins that hold their first and their last aim.
_AIMS: tuple[tuple[str, str, str], ...] = (
    ("fish-quotient-{}", "quotient-out-of-danger", "quotient-at-rest"),
    ("crustacean-quotient-{}", "quotient-out-of-danger", "quotient-at-rest"),
    ("filter-quotient-{}", "quotient-out-of-danger", "quotient-at-rest"),
    ("oxygen-drawn-share-{}", "oxygen-share-at-rest", "oxygen-share-at-rest"),
    ("ph-shift-share-{}", "buffer-share-at-rest", "buffer-share-at-rest"),
    ("ammonia-limit-share-{}", "quotient-out-of-danger", "quotient-at-rest"),
    ("chlorine-{}-mg-l", "chlorine-at-rest", "chlorine-at-rest"),
)


class Change(msgspec.Struct, frozen=True, kw_only=True):
    """How much water to change until an aim is reached: so many times the share, litres in all."""

    factor: float  # how many times over the aim the water is
    share: float  # of all the water, if it were drained and filled once
    times: int  # changes of ``each``
    each: float  # share changed in one go
    litres: float


class Aim(msgspec.Struct, frozen=True, kw_only=True):
    """The measure that is furthest over its aim, and the change that brings it there; None: it is there."""

    decides: str
    factor: float
    change: Change | None


class SpillMath(msgspec.Struct, frozen=True, kw_only=True):
    """What takes the animals out of danger, and what brings the water to rest."""

    danger: Aim
    rest: Aim


def reckon_changes(
    exposures: Mapping[str, Interval], event: str, volume_l: float | None, assumed: Assumptions
) -> SpillMath | None:
    """The changes of water after what ``event`` (spilled, sprayed, dosed) brought; None where nothing was measured."""
    named = [(pattern.format(event), first, last) for pattern, first, last in _AIMS]
    known = [(name, first, last) for name, first, last in named if name in exposures]
    if not known or volume_l is None:
        return None
    each = assumed.margin("most-water-at-once")

    def aim(margins: dict[str, str]) -> Aim:
        over = {name: exposures[name].high / assumed.margin(margin) for name, margin in margins.items()}
        name = max(over, key=lambda one: (over[one], one))
        return Aim(decides=name, factor=over[name], change=change_for(over[name], volume_l, each))

    return SpillMath(
        danger=aim({name: first for name, first, _ in known}), rest=aim({name: last for name, _, last in known})
    )


def change_for(factor: float, volume_l: float, each: float) -> Change | None:
    """The change of water that brings a level down by a factor; None if it is low enough.

    Args:
        factor: the level over the aim.
        volume_l: litres of the system.
        each: share that is changed in one go.

    Source: what is left after a change of a share is the rest of it, each time anew. Ten times over, by halves, four
    times (a half, a quarter, an eighth, a sixteenth), 2,000 litres of a system of 1,000; at once it would be 900:

    >>> change = change_for(10, 1000, 0.5)
    >>> change.times, change.litres, round(change.share, 2)
    (4, 2000.0, 0.9)
    """
    times = times_to_change(factor, each) if factor > 1 else 0
    if times == 0:
        return None
    return Change(factor=factor, share=1 - 1 / factor, times=times, each=each, litres=times * each * volume_l)


def times_to_change(factor: float, each: float) -> int:
    """How often a share has to be changed until a level is down by a factor.

    >>> times_to_change(8, 0.5), times_to_change(8.1, 0.5), times_to_change(1, 0.5)
    (3, 4, 0)
    """
    return max(0, math.ceil(round(math.log(factor) / -math.log(1 - each), 9)))


def days_until(factor: float, half_life_days: float) -> float:
    """Days until a level has fallen by a factor of itself.

    Source: geometric decay. Eight times over is three half-lives:

    >>> days_until(8, 5)
    15.0
    """
    return half_life_days * math.log2(factor) if factor > 1 else 0.0
