"""Made-up descriptions (``told.yaml``): wording no phrase was written for must still lead near the right cause."""

from __future__ import annotations

from pathlib import Path

import pytest

from triage.book.strict_yaml import parse_yaml
from triage.model.book import Book
from triage.model.case import Case
from triage.reasoning import Engines
from triage.session import session_from_case

TOLD = Path(__file__).with_name("told.yaml")


@pytest.fixture(scope="module")
def told() -> list[dict[str, str]]:
    document = parse_yaml(TOLD.read_text(encoding="utf-8"), TOLD.name)
    assert document.faults == []
    return list(document.data)


def test_every_description_speaks_of_a_cause_and_a_crop_of_the_book(book: Book, told: list[dict[str, str]]) -> None:
    assert {case["part"] for case in told} == {"open", "kept"}
    assert {case["cause"] for case in told} <= book.causes.keys()
    assert {case["crop"] for case in told} <= {"", *book.crops}
    assert len({case["says"] for case in told}) == len(told)


def test_unseen_wording_leads_near_the_right_cause(book: Book, told: list[dict[str, str]]) -> None:
    engines = Engines(book)
    kept = [case for case in told if case["part"] == "kept"]
    places = [place_of(case, engines) for case in kept]
    assert sum(place == 1 for place in places) / len(kept) >= 0.85
    assert sum(place <= 3 for place in places) / len(kept) >= 0.92


def place_of(told: dict[str, str], engines: Engines) -> int:
    case = Case(on="2026-05-04", crop=told["crop"], words=(told["says"],))
    session = session_from_case(engines.book, case, engines)
    suspects = session.look(with_question=False, with_responses=False).suspects
    return next(
        (place for place, suspect in enumerate(suspects, 1) if suspect.cause == told["cause"]), len(suspects) + 1
    )
