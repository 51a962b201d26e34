"""What to do before a spray, after it, and when something got into the water: knowledge, not wording."""

from typing import Literal

from .record import Read, Record
from .rule import Grade
from .substance import Trait

#: before: get ready; watch: the next 72 hours; react: if the fish react; first: after a spill, in order;
#: test: what to test after a spill; over: when it is over; tell: whom to tell.
Moment = Literal["before", "watch", "react", "first", "test", "over", "tell"]
Event = Literal["sprayed", "dosed", "neighbour", "perimeter", "drench", "returned"]


class Advice(Record, frozen=True, kw_only=True):
    """One line of advice. Empty lists mean: whatever it is. ``unless`` takes it back for substances with such traits.

    ``order`` sorts the lines of a moment, least first.
    """

    advice: str
    moment: Moment
    order: int
    say: str
    events: list[Event] = []
    traits: list[Trait] = []  # one of them is enough
    unless: list[Trait] = []
    substances: list[str] = []  # only for these
    not_for: list[str] = []  # not for these substances
    grades: list[Grade] = []
    crustaceans: bool = False  # only where shrimp or crayfish are kept, or nobody said who is kept
    sources: list[str]
    read: Read = "practice"
