"""Which treatments to offer, in which order, and which to leave alone, with the reason."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

import msgspec

from ..model.cause import Cause
from ..model.outcome import Avoided, Response, Suspect
from ..model.record import Read
from ..model.rule import GRADES, Grade
from ..model.treatment import Treatment, TreatmentKind
from .dose import Refused
from .fit import Circumstances, misfit
from .grade import NOT_OFFERED, joined_grade, unknown_verdict
from .treat import Treated
from .wording import cautions_of, conflict_cautions, harvest_wait, sources_of, why_of

#: A suspect leads while it is at least this share as likely as the first; so many lead at most (judgement).
_LEADING_SHARE = 1 / 3
_MOST_LEADING = 3

_KIND_ORDER: tuple[TreatmentKind, ...] = ("by-hand", "biological", "housekeeping", "water", "spray")
_WORKS = {"well": 1.0, "partly": 0.5, "little": 0.1}
#: How many of a kind are named instead of a spray.
_PER_KIND = 2
_EVIDENCE: tuple[Read, ...] = ("seen", "partly", "practice", "memory", "computed")

Reasons = Mapping[str, tuple[str, ...]]


class Candidate(msgspec.Struct, frozen=True, kw_only=True):
    """A treatment that could help, with what it could help against (cause id → probability)."""

    treatment: Treatment
    causes: dict[str, float]
    treated: Treated
    place: int  # in the lists of the causes, earliest

    @property
    def grade(self) -> Grade:
        return joined_grade(self.treated.verdicts)

    @property
    def benefit(self) -> float:
        """Probability of the causes it works against, weighed by how well it works."""
        known = {cause: self.treatment.against.get(cause) for cause in self.causes}
        return sum(self.causes[cause] * _WORKS[a.works] if a else 0.0 for cause, a in known.items())


def leading_suspects(suspects: Sequence[Suspect]) -> tuple[Suspect, ...]:
    """The suspects worth acting on: the first and those nearly as likely."""
    ranked = sorted(suspects, key=lambda suspect: (-suspect.probability, suspect.cause))
    if not ranked or ranked[0].probability <= 0:
        return ()
    least = ranked[0].probability * _LEADING_SHARE
    return tuple(suspect for suspect in ranked if suspect.probability >= least)[:_MOST_LEADING]


def list_candidates(
    suspects: Sequence[Suspect],
    causes: Mapping[str, Cause],
    treatments: Mapping[str, Treatment],
    offered: Iterable[str] = (),
) -> tuple[str, ...]:
    """The treatments to be graded: those named for the leading suspects, those a rule offers, and those that are said
    to work against them (tempting ones are told apart from good ones by their grade)."""
    leading = leading_suspects(suspects)
    named = [t for suspect in leading if suspect.cause in causes for t in causes[suspect.cause].respond]
    wanted = {suspect.cause for suspect in leading}
    tempting = sorted(id_ for id_, treatment in treatments.items() if not treatment.against.keys().isdisjoint(wanted))
    return tuple(id_ for id_ in dict.fromkeys([*named, *offered, *tempting]) if id_ in treatments)


def choose_responses(
    suspects: Sequence[Suspect],
    causes: Mapping[str, Cause],
    treatments: Mapping[str, Treatment],
    treated: Mapping[str, Treated],
    here: Circumstances,
    *,
    offered: Reasons | None = None,
    set_aside: Reasons | None = None,
) -> tuple[tuple[Response, ...], tuple[Avoided, ...]]:
    """Responses, best first, and what to leave alone.

    ``treated`` holds the grades of ``list_candidates``; a treatment that is missing there counts as unknown.
    ``offered`` and ``set_aside`` are what rules said of treatments, with their reasons. What helps against the leading
    cause comes before what only helps against a weaker one; by hand first, then biological, housekeeping, water, and
    the mildest spray that works. A fault of the water is mended in the order of its own list: the fish come first. What
    is graded never or unknown is left alone.
    """
    offered, set_aside = offered or {}, set_aside or {}
    candidates = _candidates(suspects, causes, treatments, treated, offered)
    named = {t for suspect in leading_suspects(suspects) for t in _respond(causes, suspect.cause)} | set(offered)
    reasons = {c.treatment.treatment: _against(c, here, set_aside) for c in candidates}
    good = [c for c in candidates if c.treatment.treatment in named and not reasons[c.treatment.treatment]]
    bad = [c for c in candidates if reasons[c.treatment.treatment] and _worth_a_word(c, named)]
    leading = next((suspect.cause for suspect in leading_suspects(suspects)), "")
    as_listed = leading in causes and causes[leading].kind == "water"
    ordered = sorted(good, key=lambda c: _order(c, leading, here, as_listed=as_listed))
    responses = _respond_with(ordered, causes, here, offered)
    avoided = [_avoid(c, reasons[c.treatment.treatment]) for c in sorted(bad, key=_temptation)]
    return final_check(responses, avoided, treated)


def final_check(
    responses: Sequence[Response], avoided: Sequence[Avoided], treated: Mapping[str, Treated]
) -> tuple[tuple[Response, ...], tuple[Avoided, ...]]:
    """Once more, outside of everything that chose: nothing graded never or unknown leaves as a response.

    A response that is missing in ``treated`` counts as unknown.
    """
    kept, moved = [], []
    for response in responses:
        known = treated.get(response.treatment)
        grade = joined_grade(known.verdicts) if known is not None else "unknown"
        if known is None or _must_not(known) or response.grade in NOT_OFFERED:
            why = tuple(reason for verdict in (known.verdicts if known else ()) for reason in verdict.why)
            moved.append(Avoided(treatment=response.treatment, name=response.name, grade=grade, why=why))
        else:
            kept.append(response)
    return tuple(kept), (*avoided, *moved)


def choose_instead(
    substance: str, treatments: Mapping[str, Treatment], most: int = 4, *, dosed: bool = False
) -> tuple[str, ...]:
    """Treatments without any substance that work against what sprays (or doses) of this substance are used for.

    By hand first, then biological, then housekeeping, at most ``_PER_KIND`` of each; what is meant for just these
    causes goes before what is good for nearly anything.
    """
    users = [t for t in treatments.values() if substance in t.substances and (t.kind == "water") == dosed]
    targets = {cause for treatment in users for cause in treatment.against}
    scored = []
    for id_ in sorted(treatments):
        treatment = treatments[id_]
        score = sum(_WORKS[treatment.against[cause].works] for cause in targets & set(treatment.against))
        if score > 0 and not treatment.substances:
            scored.append((-score / math.sqrt(len(treatment.against)), treatment.kind, id_))
    chosen: list[str] = []
    for kind in _KIND_ORDER:
        chosen += [id_ for _, of, id_ in sorted(scored) if of == kind][:_PER_KIND]
    return tuple(chosen[:most])


def _respond(causes: Mapping[str, Cause], cause: str) -> list[str]:
    return causes[cause].respond if cause in causes else []


def _candidates(
    suspects: Sequence[Suspect],
    causes: Mapping[str, Cause],
    treatments: Mapping[str, Treatment],
    treated: Mapping[str, Treated],
    offered: Reasons,
) -> list[Candidate]:
    leading = leading_suspects(suspects)
    order = {id_: place for place, id_ in enumerate(list_candidates(suspects, causes, treatments, offered))}
    found = []
    for id_, place in order.items():
        treatment = treatments[id_]
        helps = {
            s.cause: s.probability for s in leading if id_ in _respond(causes, s.cause) or s.cause in treatment.against
        }
        known = treated.get(id_) or Treated(verdicts=(unknown_verdict(treatment.name),))
        found.append(Candidate(treatment=treatment, causes=helps, treated=known, place=place))
    return found


def _against(candidate: Candidate, here: Circumstances, set_aside: Reasons) -> tuple[str, ...]:
    """Why not to offer it; nothing if it may be offered."""
    id_ = candidate.treatment.treatment
    reasons = list(set_aside.get(id_, ()))
    if _must_not(candidate.treated):
        reasons += [why for v in candidate.treated.verdicts if v.grade == candidate.grade for why in v.why]
    if isinstance(candidate.treated.dose, Refused) and candidate.treated.dose.pointless:
        reasons.append(candidate.treated.dose.why)
    return tuple(dict.fromkeys([*reasons, *misfit(candidate.treatment, here)]))


def _must_not(treated: Treated) -> bool:
    """Never, unknown, or meant for the water and not good for it as reckoned."""
    grade = joined_grade(treated.verdicts)
    return grade in NOT_OFFERED or (treated.dosed and grade != "ok")


def _worth_a_word(candidate: Candidate, named: set[str]) -> bool:
    """Named for the suspect and then refused, or tempting and dangerous."""
    return candidate.treatment.treatment in named or candidate.grade in NOT_OFFERED


def _order(candidate: Candidate, leading: str, here: Circumstances, *, as_listed: bool) -> tuple[object, ...]:
    """What helps against the leading cause first (and what a rule offers), then by kind (or as its cause lists it), by
    how well it works at all, the milder grade, what is at hand, how much it helps, how well that is known, and how soon
    one may harvest."""
    treatment = candidate.treatment
    known = [treatment.against[cause] for cause in candidate.causes if cause in treatment.against]
    only_little = bool(known) and all(against.works == "little" for against in known)
    evidence = min((_EVIDENCE.index(against.read) for against in known), default=len(_EVIDENCE))
    return (
        bool(candidate.causes) and leading not in candidate.causes,
        candidate.place if as_listed else _KIND_ORDER.index(treatment.kind), only_little,
        GRADES.index(candidate.grade), not here.at_hand(treatment), -round(candidate.benefit, 9), evidence,
        harvest_wait(treatment, here.substances) or 0, candidate.place, treatment.treatment,
    )  # fmt: skip


def _temptation(candidate: Candidate) -> tuple[float, int, str]:
    return -round(candidate.benefit, 9), -GRADES.index(candidate.grade), candidate.treatment.treatment


def _respond_with(
    good: Sequence[Candidate], causes: Mapping[str, Cause], here: Circumstances, offered: Reasons
) -> list[Response]:
    chosen = [candidate.treatment for candidate in good]
    return [
        Response(
            treatment=c.treatment.treatment, name=c.treatment.name, grade=c.grade, works_for=tuple(c.causes),
            why=why_of(c.treatment, tuple(c.causes), causes, c.treated, here, offered.get(c.treatment.treatment, ())),
            dose=None if isinstance(c.treated.dose, Refused) else c.treated.dose, steps=tuple(c.treatment.steps),
            cautions=(*cautions_of(c.treatment, c.treated, here), *conflict_cautions(c.treatment, chosen)),
            harvest_wait_days=harvest_wait(c.treatment, here.substances),
            sources=sources_of(c.treatment, c.treated),
        )
        for c in good
    ]  # fmt: skip


def _avoid(candidate: Candidate, reasons: tuple[str, ...]) -> Avoided:
    treatment = candidate.treatment
    return Avoided(treatment=treatment.treatment, name=treatment.name, grade=candidate.grade, why=reasons)
