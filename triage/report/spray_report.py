"""The answer to "may I use this near my fish?" in the documented shape."""

from __future__ import annotations

from collections.abc import Sequence

from ..model.outcome import Exposure, Firing, HarmVerdict, Verdict
from ..model.rule import Grade
from .case_report import Part

FORMAT = "triage-spray/1"
COMPARE_FORMAT = "triage-spray-compare/1"
SHELF_FORMAT = "triage-spray-shelf/1"


class Harms(Part, frozen=True, kw_only=True):
    """The harms side by side; a harm that does not apply here is None."""

    fish: HarmVerdict | None = None
    crustaceans: HarmVerdict | None = None
    filter: HarmVerdict | None = None
    water: HarmVerdict | None = None
    people: HarmVerdict | None = None


class Use(Part, frozen=True, kw_only=True):
    """How it is used, as the figures were reckoned. ``grams``: of what is counted, in one filling or dose."""

    way: str  # sprayed | dosed
    cover: str = ""
    strength: str = ""
    amount: str = ""
    grams: float | None = None
    times: int = 1
    every_days: float = 7.0


class Member(Part, frozen=True, kw_only=True):
    """One of several substances in the bottle, or that a word may mean."""

    substance: str
    name: str
    grade: Grade
    of: str  # the words it was found by


class Better(Part, frozen=True, kw_only=True):
    """A way to use it that its grade allows. ``share``: of the amount asked for."""

    grade: Grade
    cover: str
    amount: str
    strength: str
    share: float


class WaterChange(Part, frozen=True, kw_only=True):
    """So many changes of ``each`` (a share), litres in all; ``factor``: how far over the aim the water is.

    ``decides``: the measure that is furthest over its aim; ``target_mg_l``: what may be left of it.
    """

    aim: str
    decides: str
    target_mg_l: float | None
    factor: float
    times: int
    each: float
    litres: float
    share: float


class Spill(Part, frozen=True, kw_only=True):
    """What to do when it got into the water."""

    level_mg_l: float | None
    of: str
    first: tuple[str, ...]
    change: tuple[WaterChange, ...]
    change_note: str
    test: tuple[str, ...]
    over: tuple[str, ...]
    tell: tuple[str, ...]


class SprayReport(Part, frozen=True, kw_only=True):
    """What `spray` gives. ``acceptable``: whether the plan already is as careful as the grade asks for."""

    format: str = FORMAT
    words: str = ""
    substance: str
    name: str
    what: str
    grade: Grade
    why: tuple[str, ...]
    exposure: Exposure
    harms: Harms
    assumed: tuple[str, ...]
    instead: tuple[str, ...]
    cautions: tuple[str, ...]
    harvest_wait_days: float | None
    sources: tuple[str, ...]
    firings: tuple[Firing, ...]
    animals: tuple[str, ...] = ()
    use: Use | None = None
    acceptable: bool = False
    members: tuple[Member, ...] = ()
    better: tuple[Better, ...] = ()
    before: tuple[str, ...] = ()
    watch: tuple[str, ...] = ()
    react: tuple[str, ...] = ()
    spill: Spill | None = None


class Row(Part, frozen=True, kw_only=True):
    """One substance of a comparison or of the shelf: the grade, each harm's, and the reason that decides."""

    words: str
    substance: str
    name: str
    grade: Grade
    acceptable: bool
    fish: Grade | None = None
    crustaceans: Grade | None = None
    filter: Grade | None = None
    water: Grade | None = None
    people: Grade | None = None
    why: str = ""


class SprayTable(Part, frozen=True, kw_only=True):
    """Several substances for the same use in the same water; mildest first (compare) or as they stand (shelf)."""

    format: str
    rows: tuple[Row, ...]
    strength: str = ""
    amount: str = ""
    cover: str = ""
    volume_l: float | None = None
    animals: tuple[str, ...] = ()
    assumed: tuple[str, ...]
    cautions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()


def harms_of(verdict: Verdict) -> Harms:
    """The harms of a verdict, by name."""
    by_harm = {harm.harm: harm for harm in verdict.harms}
    return Harms(
        fish=by_harm.get("fish"), crustaceans=by_harm.get("crustaceans"), filter=by_harm.get("filter"),
        water=by_harm.get("water"), people=by_harm.get("people"),
    )  # fmt: skip


def sources_used(verdict: Verdict, named: Sequence[str] = ()) -> tuple[str, ...]:
    """The sources behind a verdict: of the values that count, of the rules that fired, then of the entry."""
    used = dict.fromkeys(harm.source for harm in verdict.harms if harm.source)
    for firing in verdict.firings:
        used |= dict.fromkeys(firing.sources)
    return tuple(dict.fromkeys([*used, *named]))
