"""The golden table of sprays: every figure follows by hand from the sources beside it, and is what the tool says.

The table is shared/treatments/golden_sprays.csv. ``value`` is what the source prints, ``in_water`` the same as mg/L of
what is counted in this water, ``divisor`` the margin between animals (knowledge/margins.yaml), ``share`` what reaches
the water (knowledge/exposure.yaml).
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from triage.book.load import load_book
from triage.model.book import Book
from triage.report.spray_report import SprayReport
from triage.spraying import Asked, answer_spray
from triage.water.readings import make_reading

TABLE = Path(__file__).parents[2] / "shared" / "treatments" / "golden_sprays.csv"
ON = "2026-05-04"
Row = dict[str, str]


def _rows() -> list[Row]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


ROWS = _rows()
each = pytest.mark.parametrize("row", ROWS, ids=lambda row: str(row["case"]))


@pytest.fixture(scope="module")
def book() -> Book:
    return load_book()


@pytest.fixture(scope="module")
def reports(book: Book) -> dict[str, SprayReport]:
    return {row["case"]: _ask(book, row) for row in ROWS}


def _ask(book: Book, row: Row) -> SprayReport:
    quantity, value = row["readings"].split("=")
    asked = Asked(
        words=row["words"], strength=row["strength"] or None, amount=row["amount"], cover=row["cover"],
        volume=f"{row['volume_l']} L", animals=row["animals"],
    )  # fmt: skip
    readings = [make_reading(quantity, float(value), book.quantities, on=ON)]
    return answer_spray(book, asked, None, readings, on=ON)


def _sprayed(row: Row) -> float:
    return float(row["grams"]) * 1000 * float(row["share"]) / float(row["volume_l"])


def _spilled(row: Row) -> float:
    return float(row["grams"]) * 1000 / float(row["volume_l"])


@each
def test_levels_are_grams_times_share_over_litres(reports: dict[str, SprayReport], row: Row) -> None:
    report = reports[row["case"]]
    assert report.use is not None
    assert report.use.grams == pytest.approx(float(row["grams"]))
    assert report.exposure.share_reaching_water == float(row["share"])
    assert report.exposure.as_sprayed_mg_l == pytest.approx(_sprayed(row))
    assert report.exposure.spilled_mg_l == pytest.approx(_spilled(row))


@each
def test_quotients_are_levels_over_the_value_and_its_margin(reports: dict[str, SprayReport], row: Row) -> None:
    fish = reports[row["case"]].harms.fish
    assert fish is not None
    counts = float(row["in_water"]) / float(row["divisor"])
    assert fish.printed == f"{float(row['value']):g} {row['value_unit']}"
    assert fish.source == row["value_source"]
    assert fish.value_mg_l == pytest.approx(float(row["in_water"]), rel=1e-5)
    assert fish.counts_mg_l == pytest.approx(counts, rel=1e-5)
    assert fish.quotient_as_sprayed == pytest.approx(_sprayed(row) / counts, rel=1e-5)
    assert fish.quotient_spilled == pytest.approx(_spilled(row) / counts, rel=1e-5)


@each
def test_grades(reports: dict[str, SprayReport], row: Row) -> None:
    report = reports[row["case"]]
    harms = report.harms
    assert harms.fish is not None
    assert harms.filter is not None
    assert harms.water is not None
    found = (harms.fish.grade, harms.filter.grade, harms.water.grade, report.grade)
    assert found == (row["fish"], row["filter"], row["water"], row["grade"])


@each
def test_oxygen_drawn(reports: dict[str, SprayReport], row: Row) -> None:
    if not row["oxygen_g_per_g"]:
        return
    times = _spilled(row) * float(row["oxygen_g_per_g"]) / float(row["oxygen_mg_l"])
    water = reports[row["case"]].harms.water
    assert water is not None
    told = [float(why.split("draw ")[1].split()[0]) for why in water.why if why.startswith("Spilled, bacteria")]
    assert told == [pytest.approx(times, rel=2e-3)]


@each
def test_sources_are_in_the_book(book: Book, row: Row) -> None:
    named = [row["share_source"], row["value_source"], *([row["oxygen_source"]] if row["oxygen_source"] else [])]
    assert set(named) <= set(book.sources)
    cover = book.cover_shares[row["cover"]]
    assert (cover.share, cover.source) == (float(row["share"]), row["share_source"])


def test_copper_between_the_two_tested_waters_by_hand() -> None:
    """A straight line from alkalinity 16 (0.05 mg/L) to 240 (0.98): straus-catfish-cu; copper is 0.2545 of crystals."""
    for row in ROWS:
        if row["value_source"] == "straus-catfish-cu":
            alkalinity = float(row["readings"].split("=")[1])
            copper = 0.05 + (0.98 - 0.05) * (alkalinity - 16) / (240 - 16)
            assert float(row["in_water"]) == pytest.approx(copper / 0.2545, rel=1e-5)


def test_alcohol_by_hand() -> None:
    """70 % by volume of a litre at 0.785 g/mL; C3H8O takes 4.5 O2: 144 / 60.1 g per g (stoichiometry)."""
    row = next(row for row in ROWS if row["case"].startswith("alcohol"))
    assert float(row["grams"]) == pytest.approx(700 * 0.785)
    assert float(row["oxygen_g_per_g"]) == pytest.approx(4.5 * 31.998 / 60.096, abs=0.005)


@pytest.mark.parametrize(
    "covers", [("soap over an open bed", "soap over a covered bed", "soap on a plant moved and rinsed")]
)
def test_a_better_cover_brings_less_into_the_water(reports: dict[str, SprayReport], covers: tuple[str, ...]) -> None:
    levels = [reports[case].exposure.as_sprayed_mg_l or 0 for case in covers]
    assert levels == sorted(levels, reverse=True)
    assert not reports[covers[0]].acceptable
    assert reports[covers[1]].acceptable
    assert reports[covers[2]].acceptable
