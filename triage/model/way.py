"""What a rule needs: its condition boiled down to alternatives, ready for the engine and for the compiled book."""

from collections.abc import Mapping
from typing import Literal

import msgspec

from .rule import Stage

NeedKind = Literal[
    "finding", "reading", "no-reading", "trend", "conclusion", "crop", "animal", "suspect", "system", "exposure",
    "no-exposure", "trait",
]  # fmt: skip


class Need(msgspec.Struct, frozen=True, array_like=True):
    """One thing that must be known; with ``other`` it must be known to be none of the values.

    A needed conclusion with ``other`` must not have been drawn.
    """

    kind: NeedKind
    id: str = ""
    values: tuple[str, ...] = ()
    limits: tuple[tuple[str, float], ...] = ()
    other: bool = False


#: All of these must be met.
Way = tuple[Need, ...]


class Turn(msgspec.Struct, frozen=True, array_like=True):
    """When a rule may fire: its stage, its layer (above the conclusions it looks at), the salience that follows.

    ``conclude`` is what it draws, '' if nothing; ``ways`` counts in how many ways it can hold.
    """

    stage: Stage
    layer: int
    salience: int
    conclude: str = ""
    ways: int = 0


class Schedule(msgspec.Struct, frozen=True):
    """The rules of a book made ready once: their ways, their turns, and which ways wait for what is told.

    ``waiting``: a key ("kind, id, state" with tabs between) → the places of ways, counted through all rules.
    ``unmeasured``: quantities that some rule wants to know unmeasured. Empty for a book that was not compiled.
    """

    ways: Mapping[str, tuple[Way, ...]] = {}
    turns: dict[str, Turn] = {}
    waiting: dict[str, tuple[int, ...]] = {}
    unmeasured: tuple[str, ...] = ()
