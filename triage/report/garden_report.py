"""The garden as one: what may spread where, what comes back, and how proven cases here move the odds."""

from __future__ import annotations

from typing import Literal

from .case_report import Part

FORMAT = "triage-garden/1"
#: same: the bed itself; beside: named as next to it; apart: elsewhere in this garden; "": nobody named beds.
Near = Literal["same", "beside", "apart", ""]


class AtRisk(Part, frozen=True, kw_only=True):
    """A crop that may get it. ``prone``: more | less often than others | ''."""

    crop: str
    name: str
    prone: str


class WatchLine(Part, frozen=True, kw_only=True):
    """One thing to look for in one bed. ``due`` is the day of the next look, ``late`` the days since then."""

    bed: str
    near: Near
    cause: str
    name: str
    case: int
    from_bed: str
    from_plant: str
    since: str
    over: bool  # the case is closed or doing well; the bed is watched a while longer
    speed: Literal["fast", "slow"]
    how: str
    crops: tuple[AtRisk, ...]
    signs: tuple[str, ...]  # what to look for, in everyday words
    every_days: int
    due: str
    late: int


class Outbreak(Part, frozen=True, kw_only=True):
    """Cases of one cause that belong together in time."""

    first: str
    last: str
    cases: tuple[int, ...]
    proven: int
    crops: tuple[str, ...]
    beds: tuple[str, ...]


class ReturnLine(Part, frozen=True, kw_only=True):
    """A cause that came back. ``same_season``: in different years at about the same time of the year."""

    cause: str
    name: str
    outbreaks: tuple[Outbreak, ...]
    same_season: bool
    same_bed: str  # the bed it was in every time; '' if it was not


class RateLine(Part, frozen=True, kw_only=True):
    """How common a cause is in the book and here. ``times`` is what its odds are multiplied by (1: turned off)."""

    cause: str
    name: str
    proven: int
    book: float
    here: float
    times: float
    bounded: bool


class OwnCases(Part, frozen=True, kw_only=True):
    """The count: proven cases, what the book counts for, and how far it may move a cause."""

    on: bool
    cases: int
    nothing_of_the_book: int
    weight: float
    most: float
    rates: tuple[RateLine, ...]


class GardenReport(Part, frozen=True, kw_only=True):
    """Everything `garden` shows."""

    format: str = FORMAT
    on: str
    watch: tuple[WatchLine, ...]
    returning: tuple[ReturnLine, ...]
    own_cases: OwnCases
