"""Laws that hold for any text."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.book import Book
from triage.words.normalise import split_words
from triage.words.numbers import read_numbers
from triage.words.reader import WordReader

TELLING = ("leaves", "roots", "yellow", "brown", "spots", "mites", "webbing")
WORDS = st.sampled_from(
    (
        *TELLING, "no", "not", "without", "between", "veins", "maybe", "or", "and", "but", ",", ".", ";", ":", "(", ")",
        "-", "than", "unlike", "rather", "instead", "of", "only", "nothing", "looked", "under", "never", "fine", "old",
        "healthy", "new", "lower", "edges", "tips", "14x", "7.5", "fish", "water",
    )
)  # fmt: skip


@pytest.fixture(scope="module")
def reader(book: Book) -> WordReader:
    return WordReader(book.findings, book.speech)


@given(text=st.text())
def test_any_text_can_be_read(reader: WordReader, text: str) -> None:
    read = reader.read([text])
    assert all(heard.state in ("seen", "absent", "unsure") and 0 < heard.score <= 1 for heard in read.heard)


@given(words=st.lists(WORDS, max_size=30))
def test_any_mixture_of_telling_words_can_be_read(reader: WordReader, words: list[str]) -> None:
    read = reader.read([" ".join(words)])
    assert len({heard.finding for heard in read.heard}) == len(read.heard)


@given(words=st.lists(WORDS, max_size=20))
def test_the_same_text_is_read_the_same(reader: WordReader, book: Book, words: list[str]) -> None:
    text = " ".join(words)
    assert reader.read([text]) == WordReader(book.findings, book.speech).read([text]) == reader.read([text])


@given(words=st.lists(WORDS, max_size=20, unique=True))
def test_every_clause_is_heard_or_given_back(reader: WordReader, words: list[str]) -> None:
    read = reader.read([" ".join(words)])
    said = " ".join((*read.unread, *(heard.words for heard in read.heard)))
    telling = [word for word in words if word in TELLING]
    assert all(word in said for word in telling)


@given(text=st.text(alphabet=st.characters(categories=["Cc", "Cf", "Zl", "Zp", "Co", "So"]), max_size=40))
def test_control_characters_say_nothing(reader: WordReader, text: str) -> None:
    assert reader.read([text]).heard == ()


@pytest.mark.parametrize("control", ["\x1b[31m", "\x00", "\x07", "\u202e", "\ufeff", "\u200b"])
def test_control_characters_do_no_harm(reader: WordReader, control: str) -> None:
    heard = reader.read([f"fine webs{control} on the leaves"]).heard
    assert [item.finding for item in heard] == ["webbing"]
    assert all(control not in item.words for item in heard)


@given(text=st.text())
def test_words_are_lower_case_and_printable(text: str) -> None:
    assert all(word == "\n" or (word.isprintable() and word == word.lower()) for word in split_words(text))


@given(text=st.text(alphabet="phironaklty 0123456789.,<>=≤≥°-ſK\n"))
def test_numbers_never_raise_and_lose_nothing_but_readings(book: Book, text: str) -> None:
    found, rest = read_numbers(text, book.quantities)
    assert all(number.words in text for number in found)
    assert found or rest == text
