"""What is known of the findings in one case, and what follows from it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from typing import NamedTuple

import msgspec

from triage.model.case import Case
from triage.model.finding import Finding


class Evidence(msgspec.Struct, frozen=True, kw_only=True):
    """Findings by state. ``set_aside`` (options not chosen in a pick-one question) says nothing; the rest is unknown.

    Raises ValueError when one finding is in two states.
    """

    seen: frozenset[str] = frozenset()
    absent: frozenset[str] = frozenset()
    unsure: frozenset[str] = frozenset()
    set_aside: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        twice = (self.seen & self.absent) | (self.seen & self.unsure) | (self.absent & self.unsure)
        if twice:
            raise ValueError(f"in two states at once: {', '.join(sorted(twice))}")

    @classmethod
    def of_case(cls, case: Case) -> Evidence:
        """The evidence of a case as told."""
        return cls(seen=case.seen, absent=case.absent, unsure=case.unsure, set_aside=case.set_aside)

    @property
    def known(self) -> frozenset[str]:
        """Everything that was answered one way or another."""
        return self.seen | self.absent | self.unsure | self.set_aside


class Contradiction(msgspec.Struct, frozen=True, kw_only=True, order=True):
    """A seen finding implies or excludes another, and the other was said to be otherwise."""

    finding: str
    implies: bool  # False: excludes
    other: str


def close_evidence(evidence: Evidence, findings: Mapping[str, Finding]) -> tuple[Evidence, tuple[Contradiction, ...]]:
    """Add what the seen and absent findings imply or exclude, never overriding what was said.

    Only unknown findings get a state. Seen ones imply first, then exclude (in both directions); what implies an absent
    finding is absent too. Contradictions are returned in the order of the finding ids.
    """
    seen, clashes = _implied(evidence, findings)
    known = evidence.known | seen
    excluded = {other for one in seen for other in findings[one].excludes} if seen else set()
    excluded |= {name for one in seen for name in backwards(findings).excluded_by.get(one, ())}
    clashes |= _excluded_but_seen(seen, findings)
    absent = _without(evidence.absent | (excluded - known), known, findings)
    closed = Evidence(seen=seen, absent=absent, unsure=evidence.unsure, set_aside=evidence.set_aside)
    return closed, tuple(sorted(clashes))


def _implied(evidence: Evidence, findings: Mapping[str, Finding]) -> tuple[frozenset[str], set[Contradiction]]:
    """Everything seen, said or implied, and what was said to be absent all the same."""
    seen, clashes = set(evidence.seen), set()
    todo = sorted(seen)
    while todo:
        one = todo.pop()
        for other in findings[one].implies:
            if other in evidence.absent:
                clashes.add(Contradiction(finding=one, implies=True, other=other))
            elif other not in seen and other not in evidence.known:
                seen.add(other)
                todo.append(other)
    return frozenset(seen), clashes


def _excluded_but_seen(seen: frozenset[str], findings: Mapping[str, Finding]) -> set[Contradiction]:
    return {
        Contradiction(finding=one, implies=False, other=other)
        for one in seen
        for other in findings[one].excludes
        if other in seen and other != one
    }


def _without(absent: frozenset[str], known: frozenset[str], findings: Mapping[str, Finding]) -> frozenset[str]:
    """The absent findings with every unknown one that would imply an absent one."""
    implied_by = backwards(findings).implied_by
    grown, todo = set(absent), list(absent)
    while todo:
        more = set(implied_by.get(todo.pop(), ())) - known - grown
        grown |= more
        todo += more
    return frozenset(grown)


class Backwards(NamedTuple):
    """By finding: those that imply it, and those that exclude it."""

    implied_by: dict[str, list[str]]
    excluded_by: dict[str, list[str]]


#: The findings that were asked for last, and their links backwards: one book is asked again and again.
_last: tuple[Mapping[str, Finding], Backwards] | None = None


def backwards(findings: Mapping[str, Finding]) -> Backwards:
    """The links of the findings, seen from the other end."""
    global _last
    if _last is None or _last[0] is not findings:
        implied_by: defaultdict[str, list[str]] = defaultdict(list)
        excluded_by: defaultdict[str, list[str]] = defaultdict(list)
        for name, finding in findings.items():
            for other in finding.implies:
                implied_by[other].append(name)
            for other in finding.excludes:
                excluded_by[other].append(name)
        _last = findings, Backwards(dict(implied_by), dict(excluded_by))
    return _last[1]
