"""What seen and absent findings imply or exclude, without overriding what was said."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.case import Case
from triage.model.finding import Finding
from triage.ranking import Contradiction, Evidence, close_evidence


def finding(name: str, implies: list[str] | None = None, excludes: list[str] | None = None) -> Finding:
    return Finding(
        finding=name,
        kind="symptom",
        name=name,
        place="leaf",
        implies=implies or [],
        excludes=excludes or [],
        sources=["our-judgement"],
    )


BOOK = {
    each.finding: each
    for each in (
        finding("webbing", implies=["threads"]),
        finding("threads", implies=["something-on-the-leaf"]),
        finding("something-on-the-leaf", excludes=["clean-leaf"]),
        finding("clean-leaf"),
        finding("newest-first", excludes=["oldest-first"]),
        finding("oldest-first"),
    )
}


def said(*, seen: str = "", absent: str = "", unsure: str = "", set_aside: str = "") -> Evidence:
    sets = (frozenset(each.split()) for each in (seen, absent, unsure, set_aside))
    return Evidence(**dict(zip(("seen", "absent", "unsure", "set_aside"), sets, strict=True)))


def test_seen_implies_in_steps_and_then_excludes() -> None:
    closed, clashes = close_evidence(said(seen="webbing"), BOOK)
    assert closed == said(seen="webbing threads something-on-the-leaf", absent="clean-leaf")
    assert clashes == ()


def test_excluding_goes_both_ways() -> None:
    assert close_evidence(said(seen="oldest-first"), BOOK)[0].absent == {"newest-first"}
    assert close_evidence(said(seen="newest-first"), BOOK)[0].absent == {"oldest-first"}


def test_what_would_imply_an_absent_finding_is_absent() -> None:
    assert close_evidence(said(absent="something-on-the-leaf"), BOOK)[0].absent == {
        "something-on-the-leaf", "threads", "webbing",
    }  # fmt: skip


def test_nothing_that_was_said_is_overridden() -> None:
    evidence = said(seen="webbing newest-first", unsure="threads", set_aside="oldest-first", absent="clean-leaf")
    closed, clashes = close_evidence(evidence, BOOK)
    assert closed == evidence
    assert clashes == ()


def test_contradictions_are_named() -> None:
    closed, clashes = close_evidence(said(seen="webbing oldest-first newest-first", absent="threads"), BOOK)
    assert clashes == (
        Contradiction(finding="newest-first", implies=False, other="oldest-first"),
        Contradiction(finding="webbing", implies=True, other="threads"),
    )
    assert closed.absent == {"threads"}
    assert closed.seen == {"webbing", "oldest-first", "newest-first"}


@given(
    states=st.dictionaries(st.sampled_from(sorted(BOOK)), st.sampled_from(("seen", "absent", "unsure", "set_aside")))
)
def test_closing_twice_adds_nothing_and_closing_keeps_all(states: dict[str, str]) -> None:
    sets = {state: frozenset(name for name in states if states[name] == state) for state in set(states.values())}
    evidence = Evidence(**sets)
    closed, clashes = close_evidence(evidence, BOOK)
    assert evidence.seen <= closed.seen
    assert evidence.absent <= closed.absent
    assert (closed.unsure, closed.set_aside) == (evidence.unsure, evidence.set_aside)
    assert close_evidence(closed, BOOK) == (closed, clashes)


def test_a_finding_in_two_states_is_refused() -> None:
    with pytest.raises(ValueError, match="in two states at once: webbing"):
        said(seen="webbing", absent="webbing")


def test_a_case_gives_its_evidence() -> None:
    case = Case(on="2026-05-04", seen=frozenset({"a"}), absent=frozenset({"b"}), set_aside=frozenset({"c"}))
    assert Evidence.of_case(case) == said(seen="a", absent="b", set_aside="c")
    assert Evidence.of_case(case).known == {"a", "b", "c"}
