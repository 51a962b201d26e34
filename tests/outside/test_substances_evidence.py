"""Every published toxicity value is in the book, once, as its source prints it.

The table is shared/treatments/toxicity.csv; each line names its source (ids of knowledge/sources.yaml).
"""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

from triage.book.load import load_book
from triage.model.book import Book
from triage.model.substance import Substance, Toxicity

TABLE = Path(__file__).parents[2] / "shared" / "treatments" / "toxicity.csv"
#: How the units of the table are written in the book: unit, and what was weighed where that is not the active.
WEIGHED = {
    "mg/L of product": "product", "mg/L of 1% product": "product", "mg/L product": "product",
    "mg/L nominal product": "product", "mg/L of solvent extract of culture": "product",
    "mL/L of 20% product": "product", "microlitres/L of 30% EC": "product", "microlitres/L of 5% EC": "product",
    "mg/L as Cu": "metal", "mg Zn/L": "metal", "mg Zn/L soluble": "metal", "mg Mn/L": "metal", "mg Fe/L": "metal",
    "mg Mo/L": "metal", "mg B/L": "element", "mg NO3-N/L": "element", "mg SO4/L": "element",
    "mg/L garlic powder": "plant-material", "mg/L aqueous extract": "plant-material",
    "mg/L tobacco leaf dust": "plant-material",
}  # fmt: skip
UNITS = ("mg/kg soil", "microlitres/L", "mL/L", "pH")
Row = dict[str, str]


def _rows(read: str) -> list[Row]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["read"] == read]


def _label(row: Row) -> str:
    return f"{row['treatment']} {row['organism']} {row['value']} {row['source']}"


SEEN, RECALLED = _rows("seen"), _rows("memory")


@pytest.fixture(scope="module")
def book() -> Book:
    return load_book()


def _substance(book: Book, name: str) -> Substance:
    found = [s for s in book.substances.values() if name.lower() in {n.lower() for n in (s.name, *s.also)}]
    assert found, f"no substance is called {name}"
    assert len(found) == 1, f"{name} is a name of {[s.substance for s in found]}"
    return found[0]


def _numbers(value: str) -> tuple[str, float, float | None]:
    match = re.fullmatch(r"([<>]?)([\d.]+)(?:-([\d.]+))?", value)
    assert match, f"{value} is no number"
    return match[1], float(match[2]), float(match[3]) if match[3] else None


def _unit(printed: str) -> str:
    return next((unit for unit in UNITS if printed.startswith(unit)), "mg/L")


def _matching(substance: Substance, row: Row) -> list[Toxicity]:
    _, low, high = _numbers(row["value"])
    return [
        entry
        for entry in substance.toxicity
        if (entry.organism, entry.source, entry.unit) == (row["organism"], row["source"], _unit(row["unit"]))
        and (entry.value, entry.high) == (low, high)
        and row["quantity"].split("_")[0] == entry.test.split()[0]
    ]


@pytest.mark.parametrize("row", SEEN, ids=_label)
def test_published_value_is_in_the_book_once(book: Book, row: Row) -> None:
    found = _matching(_substance(book, row["treatment"]), row)
    assert len(found) == 1
    assert found[0].read == "seen"
    bound = _numbers(row["value"])[0]
    assert found[0].bound == bound if bound else found[0].bound in ("=", ">=")
    if row["unit"] in WEIGHED:
        assert found[0].basis == WEIGHED[row["unit"]]


@pytest.mark.parametrize("row", RECALLED, ids=_label)
def test_recalled_value_says_so(book: Book, row: Row) -> None:
    found = _matching(_substance(book, row["treatment"]), row)
    assert [entry.read for entry in found] == ["memory"]


@pytest.mark.parametrize("row", SEEN, ids=_label)
def test_hours_of_the_test_are_kept(book: Book, row: Row) -> None:
    match = re.fullmatch(r".+_(?:\d+-)?(\d+)(h|d|min)", row["quantity"])
    if match:
        hours = float(match[1]) * {"h": 1.0, "d": 24.0, "min": 1 / 60}[match[2]]
        assert _matching(_substance(book, row["treatment"]), row)[0].hours == pytest.approx(hours)
