"""Quantities one can measure, and readings of them."""

from typing import Literal

import msgspec

from .finding import Effort
from .interval import Interval
from .record import Record

Bound = Literal["=", "<=", ">=", "<", ">"]
Tells = Literal["rising", "falling", "some"]
State = Literal["scarce", "locked", "antagonised", "too-much", "enough"]


class Unit(Record, frozen=True, kw_only=True):
    """How a unit becomes the quantity's own unit: value * times + plus."""

    times: float
    plus: float = 0.0
    also: list[str] = []
    source: str = ""


class Quantity(Record, frozen=True, kw_only=True):
    """One measured (or derived) quantity, its units, what is possible and what is likely.

    ``unit_needed`` lists unit names of which one must be said because they differ by a factor; a bare value is then
    read as the interval that spans them all. ``same_as`` names the quantity that readings of this one are kept as
    (the everyday word 'ammonia' is kept as total ammonia nitrogen). ``kits`` holds the numbers printed on a colour
    card, by kind of kit; other kits read in steps of ``kit_step``.

    ``tells`` names the finding that says the same in words: that it rises, that it falls, or that there is some of it
    (and none of it says that the finding is absent). ``needs`` lists what one must know to tell why it moves;
    ``effort`` and ``how`` say what it costs to learn this quantity, and how. ``formula`` is what its milligrams are
    milligrams of; a product that holds its element brings some of it. ``states``, of a plant nutrient, says what each
    conclusion of the rules means for it (conclusion id → state).
    """

    quantity: str
    name: str
    unit: str
    also: list[str] = []
    short: list[str] = []  # symbols for typing (do=5, ca=40), too short to be read out of running text
    units: dict[str, Unit] = {}
    unit_needed: list[str] = []
    possible: list[float]
    likely: list[float] = []
    same_as: str = ""
    kits: dict[str, list[float]] = {}
    kit_step: float = 0.0  # step of the usual drop kit or card in the quantity's own unit
    test_every_days: int | None = None
    derived: bool = False
    tells: dict[Tells, str] = {}
    needs: list[str] = []
    effort: Effort = "test-kit"
    how: str = ""
    formula: str = ""
    states: dict[str, State] = {}
    sources: list[str]


class Reading(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """A measured value in the quantity's own unit, with what is known of its spread."""

    quantity: str
    value: float
    unit: str = ""
    bound: Bound = "="
    step: float = 0.0
    low: float
    high: float
    on: str = ""  # ISO date
    time: str = ""
    kit: str = ""
    point: str = ""  # fish-tank | sump | bed | top-up
    note: str = ""
    derived: bool = False

    @property
    def interval(self) -> Interval:
        return Interval(self.low, self.high)


#: A measured value whose ends lie further apart than this, though no kit's step parts them, left open which form it is.
_OPEN_FORM = 1.2


def is_open(bound: str, step: float, low: float, high: float) -> bool:
    """Whether a value left open which form was meant (nitrate as NO3 or as nitrogen): then only its ends say what is
    known.

    >>> is_open("=", 0.0, 10.0, 44.3), is_open("=", 10.0, 5.0, 15.0), is_open("<=", 0.0, 0.0, 5.0)
    (True, False, False)
    """
    return bound == "=" and not step and high > low * _OPEN_FORM
