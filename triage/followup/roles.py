"""Which findings of the book say what the follow-up needs to know."""

from __future__ import annotations

from collections.abc import Collection
from typing import Literal

from ..errors import UsageError
from ..model.aftermath import RoleName
from ..model.book import Book
from ..model.finding import Question

Verdict = Literal["better", "same", "worse", ""]
VERDICTS: tuple[RoleName, ...] = ("better", "same", "worse")


def finding_of(book: Book, role: RoleName) -> str:
    """The finding that has this role. Errors: UsageError if the book names none."""
    if role not in book.roles:
        raise UsageError(f"no finding of the book says '{role}' (roles.yaml)")
    return book.roles[role].finding


def verdict_of(book: Book, seen: Collection[str]) -> Verdict:
    """better | same | worse, as seen; '' if nobody said."""
    for role in VERDICTS:
        if role in book.roles and book.roles[role].finding in seen:
            return role  # type: ignore[return-value]
    return ""


def look_questions(book: Book) -> tuple[Question, ...]:
    """The questions of a later look, in the order of the book: those that make sense only then, and can be answered."""
    before = finding_of(book, "looked-before")
    return tuple(q for q in book.questions.values() if before in q.after and before not in q.options)


def look_findings(book: Book) -> frozenset[str]:
    """Every finding that speaks of a later look only."""
    own = {finding_of(book, "looked-before"), finding_of(book, "nothing-done")}
    return frozenset(own.union(*(question.options for question in look_questions(book))))
