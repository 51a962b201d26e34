"""The verdict on a substance: every harm gets the strictest grade that a safety rule asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

import msgspec

from ..model.facts import Graded, GuardFacts
from ..model.outcome import Exposure, Firing, HarmVerdict, Verdict
from ..model.rule import GRADES, Grade, Harm
from ..model.substance import Substance, Toxicity
from . import words
from .exposure import reckon_exposure
from .measures import Measured, as_facts, measure
from .notes import water_notes
from .setting import Assumptions, Plan, Water
from .toxicity import Chosen, Kind, Lookup

Guard = Callable[[GuardFacts], tuple[Graded, ...]]

HARMS: tuple[Harm, ...] = ("fish", "crustaceans", "filter", "water", "people")
_KINDS: dict[Harm, Kind] = {"fish": "fish", "crustaceans": "crustacean"}
#: Never offered, whatever else is said.
NOT_OFFERED: frozenset[Grade] = frozenset({"never", "unknown"})


def strictest(grades: Iterable[Grade]) -> Grade:
    """The strictest of some grades; ``ok`` of none.

    >>> strictest(["ok", "away-from-system", "keep-off-water"]), strictest([])
    ('away-from-system', 'ok')
    """
    return max(grades, key=GRADES.index, default="ok")


def grade_substance(substance: Substance, plan: Plan, water: Water, assumed: Assumptions, guard: Guard) -> Verdict:
    """How a substance may be used like this around the animals kept.

    ``guard`` runs the safety rules over the measures (``RuleRunner.run_guard``). A harm that no rule speaks of is
    ``ok``, with its quotient as the reason; what is missing is for the rules to grade.
    """
    lookup = Lookup(substance=substance, water=water, assumed=assumed)
    reckoned = reckon_exposure(substance, plan, water.volume_l, assumed)
    measured = measure(lookup, plan, reckoned)
    graded = guard(as_facts(lookup, plan, measured))
    harms = tuple(
        _harm(harm, graded, measured, plan) for harm in HARMS if harm != "crustaceans" or water.crustaceans_kept
    )
    grade = strictest(harm.grade for harm in harms)
    why = _why(grade, harms, (*reckoned.notes, *water_notes(lookup)))
    return Verdict(
        substance=substance.substance, grade=grade, why=why, exposure=reckoned.exposure,
        harms=harms, firings=tuple(_firing(one) for one in graded),
    )  # fmt: skip


def _harm(harm: Harm, graded: Sequence[Graded], measured: Measured, plan: Plan) -> HarmVerdict:
    asked = sorted((one for one in graded if one.harm == harm), key=lambda one: -GRADES.index(one.grade))
    grade = strictest(one.grade for one in asked)
    kind = _KINDS.get(harm)
    events = ("dosed", "dosed") if plan.way == "dosed" else ("sprayed", "spilled")
    first, second = (_quotient(measured, kind, event) for event in events)
    chosen = measured.chosen.get(kind) if kind else None
    why = tuple(one.because for one in asked) or (_why_ok(chosen, first, second),)
    verdict = HarmVerdict(harm=harm, grade=grade, why=why, quotient_as_sprayed=first, quotient_spilled=second)
    return _with_value(verdict, chosen)


def _quotient(measured: Measured, kind: Kind | None, event: str) -> float | None:
    """The quotient of an event; of a dose, else the share of what was ever tested."""
    for name in (f"{kind}-quotient-{event}", f"{kind}-tested-share-{event}"):
        if name in measured.exposures:
            return measured.exposures[name].high
    return None


def _with_value(verdict: HarmVerdict, chosen: Chosen | None) -> HarmVerdict:
    """The verdict with the published value behind its quotients."""
    if chosen is None:
        return verdict
    row = chosen.row
    return msgspec.structs.replace(
        verdict, value_mg_l=chosen.published_mg_l, kind=row.test if row.bound == "=" else f"{row.bound}{row.test}",
        species=row.organism, source=row.source, verified=row.read, printed=printed_value(row), relation=chosen.step,
        counts_mg_l=chosen.effective_mg_l,
    )  # fmt: skip


def printed_value(row: Toxicity) -> str:
    """The value as its source prints it.

    >>> printed_value(Toxicity(organism="carp", group="fish", test="LC50", value=0.05, basis="metal", source="x",
    ...     read="seen"))
    '0.05 mg/L as metal'
    """
    bound = "" if row.bound == "=" else f"{row.bound} "
    high = "" if row.high is None else f" to {row.high:g}"
    basis = "" if row.basis == "active" else f" as {row.basis.replace('-', ' ')}"
    return f"{bound}{row.value:g}{high} {row.unit}{basis}"


def _why_ok(chosen: Chosen | None, sprayed: float | None, spilled: float | None) -> str:
    if chosen is None or sprayed is None or spilled is None:
        return words.NO_RULE
    return words.WHY_FINE.format(
        sprayed=words.digits(sprayed, 2), spilled=words.digits(spilled, 2),
        published=words.digits(chosen.published_mg_l, 2),
        organism=chosen.row.organism, relation=words.RELATIONS[chosen.step],
    )  # fmt: skip


def _why(grade: Grade, harms: Sequence[HarmVerdict], notes: Sequence[str]) -> tuple[str, ...]:
    """The reasons of the harms that decided, each once, then what was taken for granted."""
    deciding = [why for harm in harms if harm.grade == grade for why in harm.why]
    if grade == "ok":
        deciding = [why for harm in harms if harm.harm in _KINDS for why in harm.why]
    return tuple(dict.fromkeys([*deciding, *(f"{_as_sentence(note)}." for note in notes)]))


def _as_sentence(note: str) -> str:
    return note if note.startswith("pH") else f"{note[0].upper()}{note[1:]}"


def _firing(graded: Graded) -> Firing:
    return Firing(rule=graded.rule, stage="guard", because=graded.because, facts=(), sources=graded.sources)


def unknown_verdict(name: str, why: Sequence[str] = ()) -> Verdict:
    """The verdict on something that is not in the book: nothing is known, so every harm is unknown."""
    because = (words.NOT_IN_BOOK.format(name), *why)
    harms = tuple(HarmVerdict(harm=harm, grade="unknown", why=because[:1]) for harm in HARMS)
    return Verdict(substance=name, grade="unknown", why=because, exposure=exposure_none(), harms=harms)


def exposure_none() -> Exposure:
    """Nothing can be reckoned, because nothing is known of what is in it."""
    return Exposure(as_sprayed_mg_l=None, spilled_mg_l=None, share_reaching_water=1.0, volume_l=None, of="product")


def joined_grade(verdicts: Iterable[Verdict]) -> Grade:
    """The grade of a mix: the strictest of what is in it."""
    return strictest(verdict.grade for verdict in verdicts)
