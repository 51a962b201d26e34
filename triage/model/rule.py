"""Rules as authors write them: structured conditions, one kind of outcome each."""

from typing import Literal

import msgspec

from .odds import Strength
from .record import Record

Stage = Literal["alarm", "conclude", "favour", "respond", "guard"]
STAGES: tuple[Stage, ...] = ("alarm", "conclude", "favour", "respond", "guard")
Trend = Literal["rising", "falling", "steady"]
Grade = Literal["ok", "keep-off-water", "away-from-system", "never", "unknown"]
Harm = Literal["fish", "crustaceans", "filter", "water", "people"]

#: From mildest to strictest; ``unknown`` is treated like ``never`` until the label is read.
GRADES: tuple[Grade, ...] = ("ok", "keep-off-water", "away-from-system", "unknown", "never")


class Condition(Record, frozen=True, kw_only=True):
    """One condition. Exactly one head; a limit (above, at-least, below, at-most, is) where the head takes one.

    ``finding``/``change`` hold when it is seen; ``absent`` when it was looked for and not there; ``no_reading``
    when nobody measured it; ``not`` never fires for something unknown (it means absent, or measured otherwise).
    """

    all: "list[Condition] | None" = None
    any: "list[Condition] | None" = None
    not_: "Condition | None" = msgspec.field(default=None, name="not")
    finding: str | None = None
    absent: str | None = None
    change: str | None = None
    reading: str | None = None
    no_reading: str | None = None
    trend: str | None = None
    conclusion: str | None = None
    crop: str | list[str] | None = None
    animal: str | list[str] | None = None
    suspect: str | None = None
    system: str | None = None
    exposure: str | None = None
    no_exposure: str | None = None
    trait: str | None = None
    above: float | None = None
    at_least: float | None = None
    below: float | None = None
    at_most: float | None = None
    is_: str | list[str] | None = msgspec.field(default=None, name="is")


HEADS: tuple[str, ...] = (
    "all", "any", "not_", "finding", "absent", "change", "reading", "no_reading", "trend", "conclusion", "crop",
    "animal", "suspect", "system", "exposure", "no_exposure", "trait",
)  # fmt: skip
LIMITS: tuple[str, ...] = ("above", "at_least", "below", "at_most", "is_")


class Alarm(Record, frozen=True, kw_only=True):
    """What to say and do before anything else."""

    say: str
    do: list[str]


class Rule(Record, frozen=True, kw_only=True):
    """When the condition holds: an alarm, a conclusion (which may move odds), a response or a stricter grade.

    ``because`` may name quantities in braces ({ph}); they are filled from the facts that fired the rule.
    """

    rule: str
    when: Condition
    alarm: Alarm | None = None
    conclude: str | None = None
    favour: dict[str, Strength] = {}
    against: dict[str, Strength] = {}
    offer: list[str] = []
    set_aside: list[str] = []
    grade: Grade | None = None
    harm: Harm | None = None
    because: str
    sources: list[str]
