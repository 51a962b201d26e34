"""Which plants have it, as other looks of these days in the same garden tell: an answer nobody needs to be asked for.

The same trouble on several kinds of crop at once points to what they share, the water first; on one plant among sound
ones, to that plant. What this means for each cause stands in the tables and rules of the book.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import msgspec

from triage.model.aftermath import RoleName
from triage.model.book import Book
from triage.model.case import Case
from triage.model.finding import Finding
from triage.model.garden import OtherLook

from .evidence import Evidence, close_evidence

ROLES: tuple[RoleName, ...] = ("several-crops", "one-crop", "one-plant")
#: Signs that are hardly ever there by themselves: one in common is enough. Of the others it takes two.
_TELLING = ("hardly-ever", "not-otherwise")
_NOTABLE = ("seldom", *_TELLING)
#: So many sound looks at others are needed before their soundness says something.
_SOUND_LOOKS = 2


class Alike(msgspec.Struct, frozen=True, kw_only=True):
    """What other looks tell: the finding of the book that says so, the looks it rests on, and the symptoms meant."""

    role: RoleName
    finding: str
    looks: tuple[OtherLook, ...]
    symptoms: tuple[str, ...]


def close_look(look: OtherLook, findings: Mapping[str, Finding]) -> OtherLook:
    """The look with what its findings imply; findings the book does not know are left out."""
    known = frozenset(findings)
    seen = look.seen & known
    closed, _ = close_evidence(Evidence(seen=seen, absent=look.absent & known - seen), findings)
    return msgspec.structs.replace(look, seen=closed.seen, absent=closed.absent)


def find_alike(book: Book, case: Case, evidence: Evidence) -> Alike | None:
    """What the looks of ``book.here`` tell of which plants have it; None if it was answered or they tell nothing.

    ``evidence`` is that of the case with all that its findings imply.
    """
    roles = {role: book.roles[role].finding for role in ROLES if role in book.roles}
    if len(roles) < len(ROLES) or evidence.known & frozenset(roles.values()) or not case.crop:
        return None
    with_it = [look for look in book.here.looks if look.crop and _has_it(book.findings, evidence, look)]
    others = [look for look in with_it if look.crop != case.crop]
    if others:
        shared = frozenset[str]().union(*(evidence.seen & look.seen for look in others))
        return _alike("several-crops", roles, others, symptoms_of(book.findings, shared))
    own = symptoms_of(book.findings, evidence.seen)
    sound = [look for look in book.here.looks if look.crop and look not in with_it and _is_sound(own, look)]
    same = [look for look in sound if look.crop == case.crop]
    neighbours = [look for look in sound if look.crop != case.crop]
    if len(same) >= _SOUND_LOOKS and not with_it:
        return _alike("one-plant", roles, same, own)
    return _alike("one-crop", roles, neighbours, own) if len(neighbours) >= _SOUND_LOOKS else None


def with_alike(evidence: Evidence, alike: Alike, book: Book) -> Evidence:
    """The evidence with that answer: its finding seen, the other answers set aside."""
    rest = {book.roles[role].finding for role in ROLES} - {alike.finding}
    return Evidence(
        seen=evidence.seen | {alike.finding}, absent=evidence.absent, unsure=evidence.unsure,
        set_aside=evidence.set_aside | rest,
    )  # fmt: skip


def symptoms_of(findings: Mapping[str, Finding], seen: Iterable[str]) -> tuple[str, ...]:
    """What the plant itself shows that is not often there without a cause, by id."""
    return tuple(id_ for id_ in sorted(seen) if findings[id_].kind == "symptom" and findings[id_].by_itself in _NOTABLE)


def _alike(role: RoleName, roles: Mapping[RoleName, str], looks: Sequence[OtherLook], symptoms: Sequence[str]) -> Alike:
    return Alike(role=role, finding=roles[role], looks=tuple(looks), symptoms=tuple(symptoms))


def _has_it(findings: Mapping[str, Finding], evidence: Evidence, look: OtherLook) -> bool:
    """Whether it shows the same, and not because the same creature or mould sits on both."""
    shared = evidence.seen & look.seen
    if look.passes_on or any(findings[id_].kind == "sign" for id_ in shared):
        return False
    symptoms = symptoms_of(findings, shared)
    return len(symptoms) > 1 or any(findings[id_].by_itself in _TELLING for id_ in symptoms)


def _is_sound(symptoms: Sequence[str], look: OtherLook) -> bool:
    """Whether the symptoms were looked for there, as far as anything was, and none was found."""
    return not look.seen.intersection(symptoms) and bool(look.absent.intersection(symptoms))
