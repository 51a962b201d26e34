"""What growers say, collected from published pages (shared/signs/lay_phrases.csv), is heard as the right finding."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from triage.model.book import Book
from triage.words.reader import WordReader

TABLE = Path(__file__).resolve().parents[2] / "shared" / "signs" / "lay_phrases.csv"
#: Share of the findings that must be heard, and share of what is heard that must be meant (measured 0.99 and 0.80).
HEARD = 0.93
MEANT = 0.75


@pytest.fixture(scope="module")
def rows() -> list[tuple[str, frozenset[str]]]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        return [(row["lay_phrase"], frozenset(row["findings"].split())) for row in csv.DictReader(file)]


def test_the_table_names_findings_of_the_book(rows: list[tuple[str, frozenset[str]]], book: Book) -> None:
    assert len(rows) == 74
    assert all(findings <= book.findings.keys() for _, findings in rows)


def test_growers_are_understood(rows: list[tuple[str, frozenset[str]]], book: Book) -> None:
    reader = WordReader(book.findings, book.speech)
    meant = heard = right = 0
    for text, findings in rows:
        seen = {item.finding for item in reader.read([text]).heard if item.state == "seen"}
        implied = {other for finding in seen for other in book.findings[finding].implies}
        meant += len(findings)
        heard += len(seen) if findings else 0
        right += len(findings & (seen | implied))
    assert right / meant >= HEARD
    assert right / heard >= MEANT
