"""Finding entries by words, by id, and the way back to their sources."""

from __future__ import annotations

import pytest

from triage.book.find import find_by_id, find_entries, named_by, sources_of
from triage.model.book import Book


@pytest.mark.parametrize(
    ("words", "first"),
    [("spider mites", "two-spotted-spider-mite"), ("iron shortage", "iron-deficiency"), ("Aphids", "aphids")],
)
def test_the_cause_comes_first(book: Book, words: str, first: str) -> None:
    assert find_entries(book, words)[0].id == first


def test_all_words_must_fit(book: Book) -> None:
    assert find_entries(book, "spider xylophone") == []
    assert find_entries(book, "") == []


def test_every_number_of_a_substance_leads_to_a_source(book: Book) -> None:
    ((_, entry),) = [hit for hit in find_by_id(book, "permethrin") if hit[0] == "substances"]
    listed = {source.source for source in sources_of(book, entry)}
    assert {row.source for row in entry.toxicity} <= listed


def test_sources_know_what_rests_on_them(book: Book) -> None:
    uses = named_by(book)
    assert any(use.startswith("rules ") for use in uses["epa2013"])
