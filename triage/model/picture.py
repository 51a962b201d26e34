"""Which picture shows a finding, and how it is drawn: words and numbers only, the drawing is done elsewhere."""

from typing import Literal

from .crop import LeafShape
from .record import Record

PatternName = Literal[
    "whole", "between-veins", "margin", "tip", "midrib-run", "wedges", "patches", "panels", "vein-ink", "tint",
    "dieback", "mosaic", "line-marks", "spots", "stipple", "streaks", "blisters", "drips", "bronze", "powder", "mine",
    "trail", "web", "holes", "bites", "window", "skeleton", "tears", "cup", "roll", "waves", "twist", "pucker", "thin",
    "half-missing", "small", "plant", "creature",
]  # fmt: skip
InkName = Literal[
    "green", "vein", "deep-green", "pale-green", "yellow", "cream", "white", "tan", "brown", "black", "purple",
    "bronze", "silver", "grey", "wet", "rust", "pink", "shine", "thread", "stem", "pot", "ghost", "glass", "amber",
    "lime", "orange", "red", "dark", "clear",
]  # fmt: skip
Where = Literal["young", "middle", "old", "all", "one-side", "lowest"]
Posture = Literal["sound", "limp", "leggy", "stunted", "bunched", "tip-dead"]
Body = Literal["oval", "pear", "cone", "slender", "worm", "disc", "fly"]


class Params(Record, frozen=True, kw_only=True):
    """What a pattern is drawn with; what is left out is the pattern's own choice. Lengths are in leaf lengths."""

    ink: InkName | None = None
    ground: InkName | None = None  # the leaf below the marks
    rim: InkName | None = None  # round a mark, or inside a margin
    middle: InkName | None = None  # in the middle of a mark; the colour of the veins of a whole leaf
    size: float | None = None
    count: int | None = None
    reach: float | None = None  # how far from the edge, the tip, the stalk or the vein
    form: str = ""  # a variant of the pattern, e.g. net | lines | bands; round | angular | rings


class Creature(Record, frozen=True, kw_only=True):
    """A small animal seen from above, head up. Lengths other than ``length_mm`` are shares of the body length."""

    length_mm: float
    body: Body
    width: float
    ink: InkName
    legs: int = 0
    leg_length: float = 0.5
    feelers: float = 0.0
    eyes: InkName | None = None
    head: InkName | None = None
    blotches: InkName | None = None
    stripe: InkName | None = None
    rings: int = 0  # seams across the body
    wings: Literal["", "fringed", "folded", "spread", "spotted"] = ""
    tail: Literal["", "tubes", "fork", "whips", "threads"] = ""
    number: int = 1  # how many are drawn
    eggs_mm: float | None = None


class Picture(Record, frozen=True, kw_only=True):
    """A picture of one finding. ``also`` names findings that the same picture shows; ``says`` tells it in words."""

    picture: str
    finding: str
    pattern: PatternName
    says: str
    also: list[str] = []
    where: Where | None = None  # which leaves of the whole plant
    posture: Posture = "sound"
    leaf: LeafShape | None = None  # instead of the crop's own
    view: Literal["leaf", "close"] = "leaf"
    params: Params = Params()
    creature: Creature | None = None
    sources: list[str]
