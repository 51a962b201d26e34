"""Words heard by their meaning, with vectors made up for the test."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from triage.model.book import Book
from triage.model.finding import Finding
from triage.reasoning import Engines
from triage.words.meaning import MeaningReader


class Shared:
    """Texts are as alike as the share of words that they have in common."""

    def __init__(self, texts: Sequence[str]) -> None:
        self.texts = texts

    def to_each(self, text: str) -> Sequence[float]:
        words = set(text.split())
        return [len(words & set(known.split())) / len(words | set(known.split())) for known in self.texts]


def finding(name: str, *phrases: str) -> Finding:
    return Finding(
        finding=name, kind="symptom", name=name, place="leaf", phrases=list(phrases), sources=["our-judgement"]
    )


FINDINGS = {
    "glow": finding("glow", "leaf glows green"),
    "hum": finding("hum", "leaf hums loudly"),
    "odd": finding("odd"),
}


@pytest.mark.parametrize(
    ("text", "heard"),
    [
        ("leaf glows green", "glow"),
        ("leaf glows green tonight", "glow"),
        ("leaf glows", ""),  # not alike enough
        ("no leaf glows green", ""),  # denied
        ("glows", ""),  # too little said
        ("odd", ""),  # a finding nobody speaks of
    ],
)
def test_the_nearest_wording_is_heard_as_unsure(text: str, heard: str) -> None:
    item = MeaningReader(FINDINGS, Shared).hear(text)
    assert (item.finding if item else "") == heard
    assert item is None or (item.state == "unsure" and item.by_meaning and item.words == text)


def test_two_that_are_as_near_are_both_left() -> None:
    both = {**FINDINGS, "gleam": finding("gleam", "leaf glows green")}
    assert MeaningReader(both, Shared).hear("leaf glows green") is None


def test_only_what_no_phrase_was_found_in_is_read_by_meaning(book: Book) -> None:
    asked: list[str] = []

    class Noted(Shared):
        def to_each(self, text: str) -> Sequence[float]:
            asked.append(text)
            return super().to_each(text)

    engines = Engines(book)
    engines.hearing.embedder = Noted
    heard, unread = engines.hearing.read("webbing on the leaves, the zither was plucked")
    assert [item.finding for item in heard] == ["webbing"]
    assert asked == list(unread) == ["the zither was plucked"]


def test_without_anything_unread_no_vectors_are_made(book: Book) -> None:
    def refuse(texts: Sequence[str]) -> Shared:
        raise AssertionError("not needed")

    engines = Engines(book)
    engines.hearing.embedder = refuse
    assert engines.hearing.read("webbing on the leaves")[1] == ()


def test_what_is_heard_by_meaning_counts_as_unsure_and_says_so(book: Book) -> None:
    class All(Shared):
        def to_each(self, text: str) -> Sequence[float]:
            return [0.9 if known == "webbing" else 0.0 for known in self.texts]

    engines = Engines(book)
    engines.hearing.embedder = All
    heard, unread = engines.hearing.read("zither plucked yonder")
    assert [(item.finding, item.state, item.by_meaning) for item in heard] == [("webbing", "unsure", True)]
    assert unread == ()
