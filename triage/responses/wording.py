"""What a response says beside its steps: reasons, cautions, wait before harvest, sources."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from ..model.cause import Cause, Spread
from ..model.substance import Substance
from ..model.treatment import Conflict, Treatment
from . import words
from .dose import Refused
from .fit import Circumstances
from .grade import joined_grade
from .treat import Treated


def why_of(
    treatment: Treatment,
    helps: Sequence[str],
    causes: Mapping[str, Cause],
    treated: Treated,
    here: Circumstances,
    offered: Sequence[str],
) -> tuple[str, ...]:
    """How well it works against what, why a rule offers it, what spreads, what is at hand, and why its grade is what
    it is."""
    lines = list(offered)
    for cause in helps:
        if (against := treatment.against.get(cause)) is None:
            continue
        name = causes[cause].name if cause in causes else cause
        stage = words.STAGE.format(against.stage) if against.stage else ""
        recalled = words.RECALLED if against.read == "memory" else ""
        how = words.HOW_WELL[against.works]
        lines.append(words.WORKS.format(how=how, cause=words.inside(name), stage=stage, recalled=recalled))
    if treatment.kind == "by-hand":
        lines += [line for cause in helps if cause in causes for line in _haste(causes[cause].spreads)]
    if here.shelf and treatment.substances and here.at_hand(treatment):
        lines.append(words.ON_SHELF)
    grade = joined_grade(treated.verdicts)
    lines += [why for verdict in treated.verdicts if grade != "ok" and verdict.grade == grade for why in verdict.why]
    return tuple(dict.fromkeys(lines))


def _haste(spreads: Spread | None) -> list[str]:
    """Why not to wait: how it reaches the neighbours; nothing where it is slow."""
    if spreads is None or spreads.speed != "fast":
        return []
    return [words.HASTE.format(spreads.how).strip()]


def cautions_of(treatment: Treatment, treated: Treated, here: Circumstances) -> tuple[str, ...]:
    """What to measure before the dose, what the treatment warns of, and what its substances do to people."""
    lines = [treated.dose.why] if isinstance(treated.dose, Refused) else []
    lines += treatment.cautions
    lines += [line for name in treatment.substances if name in here.substances for line in here.substances[name].people]
    return tuple(dict.fromkeys(lines))


def conflict_cautions(treatment: Treatment, chosen: Sequence[Treatment]) -> tuple[str, ...]:
    """Which other responses it does not go with; each side says so, whichever of them names the other."""
    others = {other.treatment: other for other in chosen if other.treatment != treatment.treatment}
    lines = [_say(others[c.treatment], c) for c in treatment.conflicts if c.treatment in others]
    for other in others.values():
        lines += [_say(other, conflict) for conflict in other.conflicts if conflict.treatment == treatment.treatment]
    return tuple(dict.fromkeys(lines))


def _say(other: Treatment, conflict: Conflict) -> str:
    wait = (
        (words.DAY_BETWEEN if conflict.days == 1 else words.DAYS_BETWEEN).format(conflict.days) if conflict.days else ""
    )
    return words.NOT_TOGETHER.format(name=other.name, why=conflict.why, wait=wait)


def harvest_wait(treatment: Treatment, substances: Mapping[str, Substance]) -> int | None:
    """Days to wait before harvest: the longest that the treatment or any of its substances names."""
    waits: list[float] = [] if treatment.harvest_wait_days is None else [treatment.harvest_wait_days]
    named = [substances[name].harvest_wait_days for name in treatment.substances if name in substances]
    waits += [wait.value for wait in named if wait is not None]
    return math.ceil(max(waits)) if waits else None


def sources_of(treatment: Treatment, treated: Treated) -> tuple[str, ...]:
    """The treatment's sources, then those of the values and rules behind its grade."""
    return tuple(dict.fromkeys([*treatment.sources, *_grade_sources(treated)]))


def _grade_sources(treated: Treated) -> Iterable[str]:
    for verdict in treated.verdicts:
        yield from (harm.source for harm in verdict.harms if harm.source)
        yield from (source for firing in verdict.firings for source in firing.sources)
