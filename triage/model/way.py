"""What a rule needs: its condition boiled down to alternatives, ready for the engine and for the compiled book."""

from typing import Literal, NamedTuple

NeedKind = Literal[
    "finding", "reading", "no-reading", "trend", "conclusion", "crop", "animal", "suspect", "system", "exposure",
    "no-exposure", "trait",
]  # fmt: skip


class Need(NamedTuple):
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
