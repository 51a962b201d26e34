"""The answer to "may I use this near my fish?" in the documented shape."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from ..model.outcome import Exposure, Firing, HarmVerdict, Verdict
from ..model.rule import Grade

FORMAT = "triage-spray/1"
LABEL_FIRST = "The label and local law come first; nothing here permits what they forbid."
LOOK_ON_LABEL = (
    "Look on the label for the active ingredients and their strength, and ask again by the active ingredient.",
    "Look for words such as 'toxic to fish', 'toxic to aquatic life' or 'do not contaminate water', and for the hazard"
    " codes H400 to H413.",
)


class Harms(msgspec.Struct, frozen=True, kw_only=True):
    """The harms side by side; a harm that does not apply here is None."""

    fish: HarmVerdict | None = None
    crustaceans: HarmVerdict | None = None
    filter: HarmVerdict | None = None
    water: HarmVerdict | None = None
    people: HarmVerdict | None = None


class SprayReport(msgspec.Struct, frozen=True, kw_only=True):
    """What `spray` gives."""

    format: str = FORMAT
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


def build_spray_report(
    verdict: Verdict, *, name: str, what: str, people: Sequence[str], harvest_wait_days: float | None,
    instead: Sequence[str], assumed: Sequence[str], sources: Sequence[str],
) -> SprayReport:  # fmt: skip
    """The report of one verdict."""
    by_harm = {harm.harm: harm for harm in verdict.harms}
    harms = Harms(
        fish=by_harm.get("fish"), crustaceans=by_harm.get("crustaceans"), filter=by_harm.get("filter"),
        water=by_harm.get("water"), people=by_harm.get("people"),
    )  # fmt: skip
    unknown = LOOK_ON_LABEL if verdict.grade == "unknown" else ()
    used = dict.fromkeys([*sources, *(harm.source for harm in verdict.harms if harm.source)])
    for firing in verdict.firings:
        used |= dict.fromkeys(firing.sources)
    return SprayReport(
        substance=verdict.substance, name=name, what=what, grade=verdict.grade, why=verdict.why,
        exposure=verdict.exposure, harms=harms, assumed=tuple(assumed), instead=tuple(instead),
        cautions=tuple(dict.fromkeys([*unknown, *people, LABEL_FIRST])), harvest_wait_days=harvest_wait_days,
        sources=tuple(used), firings=verdict.firings,
    )  # fmt: skip
