"""Words to their plain form."""

from __future__ import annotations

import pytest

from triage.model.book import Book, Synonyms
from triage.words.normalise import Normaliser, split_words, stem
from triage.words.phrases import compile_speech


def normaliser(*entries: Synonyms) -> Normaliser:
    return Normaliser(compile_speech({}, {entry.word: entry for entry in entries}))


@pytest.mark.parametrize(
    ("forms", "plain"),
    [
        (("leaf", "leaves", "leafs"), "leaf"),
        (("yellow", "yellowing", "yellowed", "yellowish", "yellows"), "yellow"),
        (("spot", "spots", "spotted", "spotting", "spotty"), "spot"),
        (("patch", "patches"), "patch"),
        (("hide", "hides", "hiding"), "hide"),
        (("berry", "berries"), "ber"),
        (("fizz", "fizzes", "fizzed", "fizzing"), "fiz"),
        (("fertilize", "fertilise", "fertilized", "fertilising"), "fertilis"),
        (("sticky", "stickiness"), "stick"),
        (("wither", "withered", "withering", "withers"), "wither"),
        (("black", "blacken", "blackened", "blackening"), "black"),
    ],
)
def test_plural_and_verb_forms_are_one(forms: tuple[str, ...], plain: str) -> None:
    assert {stem(form) for form in forms} == {plain}


@pytest.mark.parametrize(
    ("one", "other"), [("fin", "fine"), ("hop", "hope"), ("not", "note"), ("web", "weed"), ("leg", "leak")]
)
def test_other_words_stay_apart(one: str, other: str) -> None:
    assert stem(one) != stem(other)


def test_a_text_is_split_at_marks_and_hyphens_and_keeps_decimals() -> None:
    assert split_words("Water-soaked spots, 1.5 mm; tip/edge & rim — dry.") == [
        "water", "soaked", "spots", ",", "1.5", "mm", ";", "tip", "or", "edge", "and", "rim", "—", "dry", ".",
    ]  # fmt: skip


def test_accents_and_curly_apostrophes_are_taken_off() -> None:
    assert split_words("Courgètte isn’t") == ["courgette", "isn't"]


def test_a_space_hyphen_space_is_a_pause() -> None:
    assert split_words("webbing - none") == ["webbing", ",", "none"]


def test_words_that_mean_the_same_become_one_with_their_forms() -> None:
    plain = normaliser(Synonyms(word="wilt", also=["droop", "hang down"]))
    assert plain.tokens(["drooping"]) == plain.tokens(["hanging", "down"]) == plain.tokens(["wilted"]) == ["wilt"]


def test_an_exact_form_does_not_take_its_relatives_along() -> None:
    plain = normaliser(Synonyms(word="bronze", also=[], exactly=["coppery"]))
    assert plain.tokens(["coppery"]) == ["bronze"]
    assert plain.tokens(["copper"]) == ["copper"]


def test_an_open_run_lets_two_words_in_and_keeps_them() -> None:
    plain = normaliser(Synonyms(word="newest", also=["young .. leaf"]))
    assert plain.tokens(["young", "leaves"]) == ["newest"]
    assert plain.tokens(["young", "pepper", "leaves"]) == ["newest", "pepper"]
    assert plain.tokens(["young", "and", "old", "leaves"])[0] == "young"


def test_the_run_that_spans_most_wins(book: Book) -> None:
    plain = Normaliser(book.speech)
    assert plain.tokens(["lower", "leaf", "surface"])[0] == "underside"
    assert plain.tokens(["lower", "leaves"]) == ["oldest"]


@pytest.mark.parametrize(
    ("british", "american"),
    [("colour", "color"), ("grey", "gray"), ("mould", "mold"), ("centre", "center"), ("fertiliser", "fertilizer"),
     ("neighbour", "neighbor"), ("odour", "odor"), ("vapour", "vapor"), ("faeces", "feces")],
)  # fmt: skip
def test_both_spellings_are_one(book: Book, british: str, american: str) -> None:
    plain = Normaliser(book.speech)
    assert plain.tokens([british]) == plain.tokens([american])
