"""No simulated grower is asked too much, twice, or for a lens before a glance: a sample, the script does all."""

from __future__ import annotations

from accuracy_cases import load_cases
from series_watched import GROWERS, STARTS, Watched, follows, note, run_watched

from triage.model.book import Book
from triage.model.outcome import NextQuestion
from triage.ranking.evidence import Evidence
from triage.reasoning import Engines
from triage.screens.series import LONGEST
from triage.session import Session, Told


def test_series_are_short_and_ask_nothing_twice(book: Book) -> None:
    engines = Engines(book)
    for case in load_cases("tune")[::20]:
        for start in STARTS:
            for grower in GROWERS:
                watched = run_watched(case, engines, start, grower)
                assert len(watched.asked) <= LONGEST == 15, case["id"]
                assert not watched.faults, case["id"]


def faults(book: Book, id_: str, *told: Told, knows: Evidence | None = None) -> list[str]:
    """What is wrong with a question put after some things were told."""
    session = Session(book, on="2026-05-04")
    for one in told:
        session.tell(one)
    step = NextQuestion(id=id_, why="", bits=0.1, about=())
    seen = Watched("x", "words", "tells")
    note(seen, session, step, session.question_line(step), knows or Evidence())
    return seen.faults


def test_a_question_whose_answer_is_known_is_found(book: Book) -> None:
    newest = Told(kind="finding", question="which-leaves-first", seen=("newest-leaves-first",))
    assert "newest-leaves-first" in faults(book, "which-leaves-first", newest)[0]
    aside = Told(kind="finding", seen=("newest-leaves-first",), set_aside=("middle-leaves-first",))
    assert any("another answer" in fault for fault in faults(book, "which-leaves-first", aside))
    assert faults(book, "which-leaves-first") == []


def test_a_lens_is_found_where_a_glance_would_decide(book: Book) -> None:
    told = Told(kind="crop", question="crop", crop="cucumber"), Told(kind="finding", seen=("pale-stippling",))
    knows = Evidence(seen=frozenset({"spreading-from-a-spot", "air-hot-dry", "leaves-dry-up", "heat-wave"}))
    assert "lens, though a glance would decide" in faults(book, "mites-under-lens", *told, knows=knows)[0]
    assert faults(book, "mites-under-lens", *told) == []


def test_what_follows_is_walked_both_ways(book: Book) -> None:
    implied = [(a, b) for a, one in book.findings.items() for b in one.implies]
    excluded = [(a, b) for a, one in book.findings.items() for b in one.excludes]
    assert implied
    assert excluded
    for first, second in (*implied, *excluded):
        assert second in follows([first], [], book.findings)
    for first, second in implied:
        assert first in follows([], [second], book.findings)


def test_being_sent_back_is_counted() -> None:
    seen = Watched("x", "words", "tells", places=["leaf", "leaf", "root", "leaf", "bed", "root"])
    assert seen.returns == 2
    assert Watched("x", "words", "tells", places=["leaf", "root"]).returns == 0
