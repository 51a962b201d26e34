"""Causes that come back: outbreaks with a quiet time between them."""

from __future__ import annotations

from triage.followup.returning import list_returning, same_season
from triage.followup.standing import Standing
from triage.model.book import Book


def a_case(number: int, on: str, cause: str = "aphids", **said: object) -> Standing:
    known = {"state": "closed", "crop": "basil", "bed": "wall", "last_look": on, "suspects": {cause: 0.8}}
    return Standing(number=number, on=on, **(known | said))  # type: ignore[arg-type]


def test_cases_close_together_are_one_outbreak(book: Book) -> None:
    cases = [a_case(1, "2025-05-01"), a_case(2, "2025-06-20"), a_case(3, "2026-05-03", bed="door")]
    (line,) = list_returning(book, cases)
    assert [outbreak.cases for outbreak in line.outbreaks] == [(1, 2), (3,)]
    assert (line.cause, line.same_season, line.same_bed) == ("aphids", True, "")


def test_a_case_looked_at_for_long_reaches_that_far(book: Book) -> None:
    assert list_returning(book, [a_case(1, "2025-05-01", last_look="2025-07-01"), a_case(2, "2025-08-20")]) == ()


def test_once_is_not_coming_back(book: Book) -> None:
    assert list_returning(book, [a_case(1, "2025-05-01"), a_case(2, "2026-05-03", cause="oedema")]) == ()


def test_what_was_proven_counts_and_what_was_unlikely_does_not(book: Book) -> None:
    cases = [
        a_case(1, "2025-05-01", cause="oedema", proven=("aphids",)),
        a_case(2, "2025-10-01", suspects={"aphids": 0.3}),
        a_case(3, "2026-05-01", proven=()),
        a_case(4, "2026-08-01"),
    ]
    (line,) = list_returning(book, cases)
    assert [outbreak.cases for outbreak in line.outbreaks] == [(1,), (4,)]
    assert [outbreak.proven for outbreak in line.outbreaks] == [1, 0]
    assert line.same_bed == "wall"


def test_harmless_things_may_come_as_often_as_they_like(book: Book) -> None:
    harmless = next(id_ for id_, cause in book.causes.items() if cause.kind == "harmless")
    assert list_returning(book, [a_case(1, "2025-05-01", harmless), a_case(2, "2026-05-01", harmless)]) == ()


def test_the_turn_of_the_year_is_one_season() -> None:
    assert same_season(["2024-12-28", "2026-01-05"])
    assert not same_season(["2024-03-01", "2025-06-01", "2026-03-01"])
    assert not same_season(["2026-05-01", "2026-06-01"])  # the same year
