"""Where things grow, and what this garden's own journal knows beside the book."""

import msgspec

from .case import Case
from .outcome import Favoured


class Bed(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A bed as the grower names it. ``gone`` is the day on which it was taken away."""

    name: str
    kind: str = ""  # media | raft | channel | wicking | mixed
    crops: tuple[str, ...] = ()  # crop ids
    note: str = ""
    gone: str = ""
    beside: tuple[str, ...] = ()  # names of the beds next to it


class Plant(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A plant, or a row of the same kind and age. ``gone`` is the day on which it was pulled or harvested."""

    name: str
    bed: str = ""
    crop: str = ""
    planted: str = ""
    note: str = ""
    gone: str = ""


class OtherLook(msgspec.Struct, frozen=True, kw_only=True):
    """What a look at another plant of this garden found. ``passes_on``: it is taken for something that spreads."""

    number: int
    on: str
    crop: str
    plant: str = ""
    seen: frozenset[str] = frozenset()
    absent: frozenset[str] = frozenset()
    passes_on: bool = False


class Here(msgspec.Struct, frozen=True, kw_only=True):
    """What holds in this garden on a day: how its proven cases move each cause, and looks at other plants.

    ``told``: at a later look, what was told before it; how that sounds as a whole counts on, so that what is told now
    of what else came does not take from what was there.
    """

    favoured: tuple[Favoured, ...] = ()
    looks: tuple[OtherLook, ...] = ()
    told: Case | None = None
