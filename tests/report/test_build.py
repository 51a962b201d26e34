"""A report from what the engines gave."""

from __future__ import annotations

import pytest

from triage.model.book import Book
from triage.model.case import Case
from triage.model.facts import RulesOutcome
from triage.model.outcome import Ranking
from triage.report.build import Look, build_report


def unexplained(book: Book, finding: str) -> tuple[str, ...]:
    ranking = Ranking(suspects=(), none_in_book=0.9, together=(), unexplained=(finding,))
    look = Look(
        case=Case(on="2026-05-04", seen=frozenset({finding})), heard=(), unread=(), contradictions=(), readings=(),
        outcome=RulesOutcome(), ranking=ranking, question=None, responses=(), avoided=(),
    )  # fmt: skip
    return build_report(book, look).unexplained


@pytest.mark.parametrize("by_itself", ["seldom", "hardly-ever", "not-otherwise"])
def test_what_hardly_stands_for_itself_is_a_riddle_when_nothing_explains_it(book: Book, by_itself: str) -> None:
    finding = next(id_ for id_, entry in book.findings.items() if entry.by_itself == by_itself)
    assert unexplained(book, finding) == (finding,)


@pytest.mark.parametrize("by_itself", ["often", "sometimes"])
def test_what_is_often_there_by_itself_is_none(book: Book, by_itself: str) -> None:
    finding = next(id_ for id_, entry in book.findings.items() if entry.by_itself == by_itself)
    assert unexplained(book, finding) == ()
