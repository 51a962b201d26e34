"""Every way to say a finding is heard as that finding."""

from __future__ import annotations

import pytest

from triage.model.book import Book
from triage.model.finding import Finding
from triage.words.pack import unpack_phrases
from triage.words.phrases import compile_speech, written_out
from triage.words.reader import WordReader
from triage.words.talk import with_talk


def finding(id_: str, *phrases: str, denials: tuple[str, ...] = ()) -> Finding:
    return Finding(
        finding=id_, kind="symptom", name=id_, place="leaf", phrases=list(phrases), denials=list(denials), sources=["x"]
    )


@pytest.fixture(scope="module")
def reader(book: Book) -> WordReader:
    return WordReader(book.findings, book.speech)


def test_every_phrase_of_the_book_is_heard(book: Book, reader: WordReader) -> None:
    spoken = [phrase for lines in book.speech.phrases.values() for phrase in unpack_phrases(lines)]
    hinted = {phrase.finding for phrase in spoken if phrase.hint}
    deaf = [
        (id_, text)
        for id_, entry in book.findings.items()
        for phrase in entry.phrases
        for text in written_out(phrase)
        if {(id_, "seen"), (id_, "unsure" if id_ in hinted else "seen")}.isdisjoint(said(reader, text).items())
    ]
    assert deaf == []


def said(reader: WordReader, text: str) -> dict[str, str]:
    return {heard.finding: heard.state for heard in reader.read([text]).heard}


def test_one_word_said_of_many_things_only_hints_at_a_telling_finding(reader: WordReader) -> None:
    assert said(reader, "leaves with rings")["ring-or-oak-leaf-patterns"] == "unsure"
    assert said(reader, "yellow rings on the leaves")["ring-or-oak-leaf-patterns"] == "seen"
    assert said(reader, "webbing") == {"webbing": "seen"}


def test_every_denial_of_the_book_is_heard(book: Book, reader: WordReader) -> None:
    deaf = [
        (id_, text)
        for id_, entry in book.findings.items()
        for phrase in entry.denials
        for text in written_out(phrase)
        if (id_, "absent") not in {(heard.finding, heard.state) for heard in reader.read([text]).heard}
    ]
    assert deaf == []


def test_choices_are_written_out() -> None:
    assert list(written_out("brown/dry edges/tips")) == ["brown edges", "brown tips", "dry edges", "dry tips"]


def test_a_phrase_of_words_without_meaning_is_dropped() -> None:
    speech = compile_speech({"a": finding("a", "it is like that", "leaf", "leaf curl")}, {})
    assert [phrase.needs for lines in speech.phrases.values() for phrase in unpack_phrases(lines)] == [("curl",)]


def test_a_compiled_book_is_the_same_however_often_it_is_made(book: Book) -> None:
    again = with_talk(compile_speech(book.findings, book.synonyms), book.findings, book.causes)
    assert again == book.speech
    assert list(again.phrases) == list(book.speech.phrases)
