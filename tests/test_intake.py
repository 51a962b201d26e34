"""CASE.yaml and typed words → a case: every fault with its line, nothing lost."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from triage.book.casefile import find_named, parse_case
from triage.errors import KnowledgeError, UsageError
from triage.intake import build_case, clean_text, named_ids, volume_litres
from triage.model.book import Book
from triage.model.case import Case, System


def case_of(text: str, book: Book, saved: System | None = None) -> Case:
    return build_case(parse_case(text, "case.yaml"), book, today="2026-05-04", saved=saved)


def faults_of(text: str, book: Book) -> list[tuple[int, str]]:
    with pytest.raises(KnowledgeError) as caught:
        case_of(text, book)
    return [(fault.line, fault.message) for fault in caught.value.faults]


def test_the_documented_case_is_read(book: Book) -> None:
    case = case_of(
        "crop: basil\nsystem: {volume: 1000 L, animals: [tilapia], beds: media}\nseen: [yellow-between-veins]\n"
        "absent: [webbing]\nwords: tiny yellow dots on top of the leaf\nchanges: [new-stones]\nreadings:\n"
        "  - {quantity: ph, value: 7.4, on: 2026-05-03}\n"
        '  - {quantity: iron, value: "<= 0.1", unit: mg/L, kit: card, on: 2026-05-03}\non: 2026-05-04\n',
        book,
    )
    assert case.crop == "basil"
    assert case.system.volume_l == 1000
    assert case.seen == {"yellow-between-veins", "new-stones"}
    assert case.absent == {"webbing"}
    assert [(r.quantity, r.value, r.bound, r.on) for r in case.readings] == [
        ("ph", 7.4, "=", "2026-05-03"), ("iron", 0.1, "<=", "2026-05-03"),
    ]  # fmt: skip
    assert case.on == "2026-05-04"


def test_an_empty_file_is_an_empty_case(book: Book) -> None:
    assert case_of("", book) == Case(on="2026-05-04")


def test_the_saved_system_serves_where_the_file_has_none(book: Book) -> None:
    saved = System(volume_l=800, animals=("tilapia",))
    assert case_of("crop: basil\n", book, saved).system == saved
    assert case_of("system: {volume: 300}\n", book, saved).system.volume_l == 300


def test_every_fault_has_its_line(book: Book) -> None:
    found = faults_of(
        "crop: basill\nseen: [webing]\nreadings:\n  - {quantity: ph, value: 19}\n  - {quantity: fe, value: 1 furlong}\n"
        "system:\n  volume: a lot\n  animals: [unicorn]\non: soon\n",
        book,
    )
    assert sorted({line for line, _ in found}) == [1, 2, 4, 5, 7, 8, 9]


def test_unknown_keys_and_wrong_kinds_are_named(book: Book) -> None:
    with pytest.raises(KnowledgeError) as caught:
        parse_case("crops: basil\nseen: webbing\n", "case.yaml")
    assert [fault.code for fault in caught.value.faults] == ["KB101", "KB103"]


def test_seen_and_absent_at_once_is_a_fault(book: Book) -> None:
    ((line, message),) = faults_of("seen: [webbing]\nabsent: [webbing]\n", book)
    assert (line, "both seen and absent" in message) == (2, True)


@pytest.mark.parametrize(("text", "litres"), [("1000 L", 1000), ("1 m3", 1000), ("600", 600), (350, 350)])
def test_volumes(text: str | float, litres: float) -> None:
    assert volume_litres(text) == pytest.approx(litres)


def test_names_are_found_in_other_spellings(book: Book) -> None:
    assert find_named("Pak Choi", book.crops) == "pak-choi"
    assert find_named("STRAWBERRIES", book.crops) == "strawberry"
    assert find_named("moon flower", book.crops) is None
    with pytest.raises(UsageError, match="nearest"):
        named_ids(["tilapa"], book.animals, "animal")


@given(st.text(max_size=80))
def test_clean_text_holds_nothing_that_drives_a_terminal(text: str) -> None:
    assert all(character.isprintable() for character in clean_text(text))


@settings(deadline=None, max_examples=150)
@given(st.text(alphabet="crop:seenabsword-[]{}\n\"' 0123456789.<>=#&*!|%@`", max_size=120))
def test_any_file_gives_a_case_or_faults(book: Book, text: str) -> None:
    faults = []
    try:
        on = case_of(text, book).on
    except KnowledgeError as error:
        faults = error.faults
    assert faults or on == "2026-05-04" or "on:" in text
