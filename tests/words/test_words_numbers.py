"""Readings that stand in a grower's own words."""

from __future__ import annotations

import pytest

from triage.model.book import Book
from triage.words.numbers import read_numbers


@pytest.mark.parametrize(
    ("text", "quantity", "bound", "value"),
    [
        ("pH 7.4", "ph", "=", "7.4"),
        ("the pH is about 7", "ph", "=", "7"),
        ("pH below 6", "ph", "<", "6"),
        ("pH 6 or below", "ph", "<=", "6"),
        ("iron: <= 0.1 mg/L", "iron", "<=", "0.1"),
        ("nitrate over 160 mg/L", "nitrate", ">", "160"),
        ("pH at least 8", "ph", ">=", "8"),
        ("PH=6,5", "ph", "=", "6,5"),
    ],
)
def test_a_reading_is_read_with_its_bound(book: Book, text: str, quantity: str, bound: str, value: str) -> None:
    (found,), _ = read_numbers(text, book.quantities)
    assert (found.quantity, found.bound, found.value) == (quantity, bound, value)


def test_the_rest_of_the_text_stays(book: Book) -> None:
    found, rest = read_numbers("yellow leaves, pH 7.4, iron 0.1 mg/L and fine webs", book.quantities)
    assert [(number.quantity, number.unit) for number in found] == [("ph", ""), ("iron", "mg/L")]
    assert "yellow leaves" in rest
    assert "fine webs" in rest
    assert "7.4" not in rest


@pytest.mark.parametrize(
    "text", ["soil pH 7.9", "media pH 5.4", "pH 6 to 7", "pH 6-7", "graph 7", "no number at all", "3 fish died"]
)
def test_what_is_no_reading_of_the_water_is_left(book: Book, text: str) -> None:
    assert read_numbers(text, book.quantities) == ([], text)


def test_several_readings_of_one_quantity_are_all_kept(book: Book) -> None:
    found, _ = read_numbers("pH 7.4 yesterday, pH 7.1 today", book.quantities)
    assert [number.value for number in found] == ["7.4", "7.1"]
