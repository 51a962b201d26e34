"""What may be wrong with a plant, or nothing at all."""

from typing import Literal

from .odds import Base, CropWord, Frequency
from .record import Record, Status

CauseKind = Literal["deficiency", "excess", "pest", "disease", "condition", "water", "harmless"]


class LookAlike(Record, frozen=True, kw_only=True):
    """How to tell a cause from one it is taken for."""

    look: str
    source: str = ""


class Expect(Record, frozen=True, kw_only=True):
    """What recovery looks like and when to look again."""

    better_within_days: int | None = None
    new_leaves: str = ""
    old_leaves: str = ""
    look_again_days: int | None = None


class Spread(Record, frozen=True, kw_only=True):
    """How fast a cause spreads and to what."""

    speed: Literal["fast", "slow"]
    to: list[str] = []  # crop ids or kinds; empty: to most crops
    how: str = ""


class Cause(Record, frozen=True, kw_only=True):
    """A cause with how often it shows each finding, the deciding check, look-alikes and responses.

    ``talk``: how growers speak of it, in single words and short phrases (see ``words.talk``).
    """

    cause: str
    kind: CauseKind
    name: str
    plain: str
    base: Base
    crops: dict[str, CropWord] = {}
    shows: dict[str, Frequency]
    talk: list[str] = []
    settle: list[str]
    not_to_confuse: dict[str, LookAlike] = {}
    respond: list[str] = []
    expect: Expect = Expect()
    spreads: Spread | None = None
    sources: list[str]
    status: Status
