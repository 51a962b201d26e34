"""Where published figures contradict each other, both are in the book and the strict one counts.

The table is shared/treatments/contradictions.csv.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from triage.book.load import load_book
from triage.model.book import Book
from triage.model.substance import Toxicity
from triage.responses.amounts import Amount
from triage.responses.grade import Guard, grade_substance
from triage.responses.setting import Assumptions, Plan, Water
from triage.responses.toxicity import Lookup, choose_value, lowest_known
from triage.rules.run import RuleRunner

TABLE = Path(__file__).parents[2] / "shared" / "treatments" / "contradictions.csv"
Row = dict[str, str]


def _rows() -> list[Row]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


ROWS = _rows()
each = pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['substance']}-{row['group']}-{row['low']}")
dissolved = pytest.mark.parametrize(
    "row", [row for row in ROWS if row["unit"] == "mg/L"], ids=lambda row: f"{row['substance']}-{row['low']}"
)


@pytest.fixture(scope="module")
def book() -> Book:
    return load_book()


@pytest.fixture(scope="module")
def guard(book: Book) -> Guard:
    return RuleRunner({id_: rule for id_, rule in book.rules.items() if rule.grade is not None}).run_guard


def _has(book: Book, row: Row, which: str) -> bool:
    def fits(one: Toxicity) -> bool:
        return (one.group, one.value, one.source) == (row["group"], float(row[which]), row[f"{which}_source"])

    return any(fits(one) for one in book.substances[row["substance"]].toxicity) or (
        row["group"] == "worm" and any(fits(one) for s in book.substances.values() for one in s.toxicity)
    )


@each
def test_both_figures_are_kept(book: Book, row: Row) -> None:
    assert _has(book, row, "low")
    assert _has(book, row, "high")


@dissolved
def test_nothing_milder_than_the_low_one_is_the_lowest_known(book: Book, row: Row) -> None:
    kind = "fish" if row["group"] == "fish" else "crustacean"
    lowest = lowest_known(book.substances[row["substance"]], kind)
    assert lowest is not None
    assert lowest[0] <= float(row["low"])


@dissolved
def test_the_low_one_counts_for_an_animal_nobody_tested(book: Book, row: Row) -> None:
    """Nothing is known of the animal, so the strictest of its kind counts, and only a part of that."""
    animal = book.animals["any-fish" if row["group"] == "fish" else "any-crustacean"]
    lookup = Lookup(
        substance=book.substances[row["substance"]], water=Water(volume_l=1000, animals=(animal,)),
        assumed=Assumptions.from_book(book),
    )  # fmt: skip
    chosen = choose_value(lookup, animal.kind)
    assert chosen is not None
    share = book.substances[row["substance"]].element_share
    low = float(row["low"]) / (share.value if share and row["low_source"] == "straus-catfish-cu" else 1)
    assert chosen.effective_mg_l <= low / 5


@dissolved
def test_the_grade_is_that_of_the_low_one(book: Book, guard: Guard, row: Row) -> None:
    """Enough of it to reach the low figure in the water is never, whatever the high one says."""
    animal = book.animals["any-fish" if row["group"] == "fish" else "any-crustacean"]
    water = Water(volume_l=1000, animals=(animal,), oxygen_mg_l=8)
    plan = Plan(amount=Amount(grams=float(row["low"]) * 1000), cover="drench")
    graded = grade_substance(book.substances[row["substance"]], plan, water, Assumptions.from_book(book), guard)
    kept = next(harm for harm in graded.harms if harm.harm == ("fish" if row["group"] == "fish" else "crustaceans"))
    assert kept.grade == "never"
