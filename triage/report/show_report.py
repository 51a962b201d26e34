"""One report of the water as it stands: the latest readings, how they drift, what the animals bear, what is due."""

from __future__ import annotations

import msgspec

from ..water.latest import Current
from ..water.limits import Band
from ..water.trend import Trend
from .water_report import WaterReport

FORMAT = "triage-water-show/1"


class Crossing(msgspec.Struct, frozen=True, kw_only=True):
    """A limit that is crossed if the drift goes on: between so many days (no latest: perhaps never)."""

    limit: float
    animal: str
    name: str
    source: str
    from_days: float
    to_days: float | None


class Drift(msgspec.Struct, frozen=True, kw_only=True):
    """How a quantity moved, and what it will cross."""

    quantity: str
    name: str
    unit: str
    trend: Trend
    crosses: tuple[Crossing, ...]


class ShowReport(msgspec.Struct, frozen=True, kw_only=True):
    """What `water show` gives."""

    format: str = FORMAT
    on: str
    latest: tuple[Current, ...]
    due: tuple[str, ...]
    trends: tuple[Drift, ...]
    limits: dict[str, Band]
    report: WaterReport
