"""The cases that were read later fit the book, its sources, and the two parts."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from triage.model.book import Book

Strictly = Callable[[str], list[dict[str, Any]]]


@pytest.fixture(scope="module")
def fresh(strictly: Strictly) -> list[dict[str, Any]]:
    return strictly("signs/fresh.yaml")


def test_every_case_is_told_once_and_its_causes_and_crop_are_known(fresh: list[dict[str, Any]], book: Book) -> None:
    assert len({case["id"] for case in fresh}) == len(fresh)
    assert [case["id"] for case in fresh if not case["facts"]] == []
    named = {cause for case in fresh for cause in (case["expected"], *case["acceptable"])}
    assert named - book.causes.keys() == set()
    assert {case["crop"] for case in fresh if "crop" in case} - book.crops.keys() == set()


def test_a_publisher_is_in_one_part_and_was_not_used_before(fresh: list[dict[str, Any]], strictly: Strictly) -> None:
    parts = {part: {case["publisher"] for case in fresh if case["part"] == part} for part in ("tune", "check")}
    assert parts["tune"] & parts["check"] == set()
    assert {case["publisher"] for case in strictly("signs/vignettes.yaml")} & (parts["tune"] | parts["check"]) == set()


def test_each_is_ticked_once_with_findings_of_the_book(
    fresh: list[dict[str, Any]], book: Book, strictly: Strictly
) -> None:
    coded = strictly("signs/fresh_coded.yaml")
    assert [case["id"] for case in coded] == [case["id"] for case in fresh]
    for case in coded:
        ticked = [*case["seen"], *case["absent"], *case["unsure"]]
        assert [finding for finding in ticked if finding not in book.findings] == [], case["id"]
        assert len(set(ticked)) == len(ticked), case["id"]


def test_every_source_is_named(fresh: list[dict[str, Any]], strictly: Strictly) -> None:
    known = {source["source"] for source in strictly("sources.yaml")}
    assert {case["source"] for case in fresh} - known == set()
