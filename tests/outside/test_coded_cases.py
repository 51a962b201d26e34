"""The published cases and their coded findings fit the book and each other."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from triage.book.casefile import find_named
from triage.model.book import Book
from triage.ranking.evidence import Evidence, close_evidence
from triage.water.readings import make_reading

Strictly = Callable[[str], list[dict[str, Any]]]
KEYS = {"id", "crop", "seen", "absent", "unsure", "place", "readings", "uncovered"}


@pytest.fixture(scope="module")
def coded(strictly: Strictly) -> list[dict[str, Any]]:
    return strictly("signs/coded.yaml")


@pytest.fixture(scope="module")
def vignettes(strictly: Strictly) -> dict[str, dict[str, Any]]:
    return {case["id"]: case for case in strictly("signs/vignettes.yaml") if case["verified"] == "seen"}


def evidence_of(case: dict[str, Any]) -> Evidence:
    return Evidence(**{state: frozenset(case[state]) for state in ("seen", "absent", "unsure")})


def test_every_case_that_was_read_is_coded_once(
    coded: list[dict[str, Any]], vignettes: dict[str, dict[str, Any]]
) -> None:
    assert [case["id"] for case in coded] == list(vignettes)


def test_crops_are_those_of_the_cases(coded: list[dict[str, Any]], vignettes: dict[str, dict[str, Any]]) -> None:
    assert {case["id"]: case["crop"] for case in coded} == {id_: case["crop"] for id_, case in vignettes.items()}


def test_all_findings_exist_and_none_stands_twice(coded: list[dict[str, Any]], book: Book) -> None:
    for case in coded:
        ticked = [*case["seen"], *case["absent"], *case["unsure"]]
        assert set(case) <= KEYS, case["id"]
        assert [finding for finding in ticked if finding not in book.findings] == [], case["id"]
        assert len(set(ticked)) == len(ticked), case["id"]


def test_no_case_contradicts_itself(coded: list[dict[str, Any]], book: Book) -> None:
    clashes = {case["id"]: close_evidence(evidence_of(case), book.findings)[1] for case in coded}
    assert {id_: found for id_, found in clashes.items() if found} == {}


def test_every_case_says_something(coded: list[dict[str, Any]]) -> None:
    assert [case["id"] for case in coded if not (case["seen"] or case["unsure"] or case.get("readings"))] == []


def test_readings_and_places_can_be_typed(coded: list[dict[str, Any]], book: Book) -> None:
    for case in coded:
        assert case.get("place", "") in ("", "greenhouse", "outdoors", "indoors"), case["id"]
        for quantity, value in case.get("readings", {}).items():
            assert make_reading(quantity, value, book.quantities, on="2026-05-04").quantity == quantity


def test_crops_that_the_book_grows_are_found(coded: list[dict[str, Any]], book: Book) -> None:
    """A source may speak of a crop that nobody grows on fish water; those few are coded all the same."""
    strange = {case["crop"] for case in coded if case["crop"] and not find_named(case["crop"], book.crops)}
    assert strange <= {"tobacco"}
