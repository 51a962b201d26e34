"""A thing one can do about a cause."""

from typing import Literal

from .record import Read, Record, Sourced, Status
from .rule import Grade

TreatmentKind = Literal["by-hand", "biological", "spray", "water", "housekeeping"]
Cover = Literal["none", "covered", "moved"]


class Against(Record, frozen=True, kw_only=True):
    """How well a treatment works against one cause, and on what evidence."""

    works: Literal["well", "partly", "little"]
    stage: str = ""
    source: str
    read: Read = "seen"
    note: str = ""


class Use(Record, frozen=True, kw_only=True):
    """The usual way a spray is used, for its exposure: strength of active in the sprayer, amount, cover."""

    strength: float
    unit: Literal["g/L", "mL/L", "%"]
    amount_l: float = 1.0
    cover: Cover = "moved"
    times: int = 1
    every_days: float = 7.0
    source: str
    read: Read = "memory"


class DoseOf(Record, frozen=True, kw_only=True):
    """A water addition: which quantity it moves, with what, and how fast it may.

    What else a product brings follows from its ``formula``, with the water in it: MgSO4(H2O)7. ``lowers``: it takes the
    quantity down, never below ``floor``. ``apart``: in water without animals. ``slow``: it dissolves by itself over
    weeks. ``ratio`` is a derived quantity that sets this one against the reading ``ratio_of``, ``ratio_to`` where it
    should stand.
    """

    quantity: str
    product: str  # words on the bag, e.g. Fe-DTPA 11 %
    grams_per_unit_per_1000_l: Sourced
    to: float  # usual target in the quantity's own unit
    most_per_day: float | None = None
    ph_at_most: float | None = None  # a chelate that does not hold above this is not offered
    note: str = ""
    formula: str = ""
    percent: float | None = None  # of the quantity in the product as reckoned, where no formula tells it
    grades: list[float] = []  # other grades on sale, per cent
    lowers: bool = False
    floor: float | None = None
    apart: bool = False
    slow: bool = False
    ratio: str = ""
    ratio_of: str = ""
    ratio_to: float = 0.0


class Conflict(Record, frozen=True, kw_only=True):
    """Another treatment it does not go with."""

    treatment: str
    why: str
    days: int | None = None


class Repeat(Record, frozen=True, kw_only=True):
    """How often it is done again: every so many days, so many times in all (not said: as long as it is needed)."""

    every_days: float
    times: int | None = None


class Treatment(Record, frozen=True, kw_only=True):
    """A thing one can do, with what of it may reach the water, how to do it, and what it works against."""

    treatment: str
    kind: TreatmentKind
    name: str
    also: list[str] = []  # other names that people look it up by
    plain: str
    substances: list[str] = []
    keep: Grade = "ok"  # the mildest grade it may have, for a hazard that is no substance dissolved in the water
    keep_because: str = ""
    use: Use | None = None
    repeat: Repeat | None = None  # where it is no spray whose use says so
    dose: DoseOf | None = None
    doses: list[DoseOf] = []  # further ways to dose it, for those who ask how much; never offered by themselves
    steps: list[str]
    against: dict[str, Against] = {}
    cautions: list[str] = []
    conflicts: list[Conflict] = []
    climate: dict[str, list[float]] = {}  # temperature: [low, high], humidity: [low, high]
    harvest_wait_days: int | None = None
    expect: str = ""
    sources: list[str]
    status: Status
