"""Screens in another language: nothing is left out, nothing is copied before it is spoken, English comes back."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from triage.book.check_languages import placeholders
from triage.book.languages import REQUIRED, load_translation, translate_book
from triage.book.places import built_in_knowledge
from triage.model.book import Book
from triage.screens import wording
from triage.screens.speech import CATALOGUE, english_texts, fitted, speak

SCREENS = Path(wording.__file__).parent
KNOWLEDGE = [built_in_knowledge()]


@pytest.fixture(scope="module")
def german(book: Book) -> Book:
    return translate_book(book, KNOWLEDGE, "de")


@pytest.fixture
def in_german(german: Book) -> Iterator[Book]:
    """German screens for one test."""
    speak(german.screens)
    yield german
    speak({})


def test_every_text_of_the_screens_is_said_in_german(german: Book) -> None:
    missing = [
        f"{module}.{name}"
        for module, texts in english_texts().items()
        for name in texts
        if name not in german.screens.get(module, {})
    ]
    assert missing == []


def test_every_finding_question_and_name_is_said_in_german(book: Book, german: Book) -> None:
    said = load_translation(KNOWLEDGE, "de").texts
    for shelf, keys in REQUIRED.items():
        entries = getattr(book, shelf)
        assert entries
        for id_, entry in entries.items():
            for key in keys:
                if getattr(entry, key):
                    assert said[shelf][id_][key] == getattr(getattr(german, shelf)[id_], key)


def test_placeholders_are_the_same(book: Book, german: Book) -> None:
    for id_, rule in book.rules.items():
        assert placeholders(rule.because) == placeholders(german.rules[id_].because), id_
    for module, texts in english_texts().items():
        for name, text in texts.items():
            said = fitted(text, german.screens[module][name])
            flat = [sorted(set(placeholders(_flat(one)))) for one in (text, said)]
            assert flat[0] == flat[1], f"{module}.{name}"


def _flat(text: object) -> list[str]:
    if isinstance(text, dict):
        return [part for inner in text.values() for part in _flat(inner)]
    return [part for inner in text for part in _flat(inner)] if isinstance(text, tuple) else [str(text)]


def test_ids_numbers_and_tables_are_those_of_the_english_book(book: Book, german: Book) -> None:
    assert german.hash == book.hash
    for shelf in ("findings", "questions", "causes", "rules", "treatments", "substances", "crops", "animals"):
        assert list(getattr(german, shelf)) == list(getattr(book, shelf))
    for id_, cause in book.causes.items():
        assert (german.causes[id_].shows, german.causes[id_].base) == (cause.shows, cause.base)
        assert len(german.causes[id_].settle) == len(cause.settle)
    assert "Basil" in german.crops["basil"].also  # what was typed in English is still understood


def test_what_is_there_only_in_english_says_so(book: Book, german: Book) -> None:
    said = load_translation(KNOWLEDGE, "de").texts
    for id_, rule in book.rules.items():
        text = said.get("rules", {}).get(id_, {}).get("because", f"[nur englisch] {rule.because}")
        assert german.rules[id_].because == text


def test_a_language_is_spoken_and_given_up_again(german: Book) -> None:
    english = wording.SETTLE
    speak(german.screens)
    assert (wording.SETTLE, wording.count(3, "day"), wording.sure_words(0.9)) == (
        german.screens["wording"]["SETTLE"], "3 Tage", "sehr wahrscheinlich",
    )  # fmt: skip
    assert wording.inside("Eisenmangel") == "Eisenmangel"
    assert wording.inside("Die Fische sehen aus wie immer") == "die Fische sehen aus wie immer"
    speak({})
    assert (wording.SETTLE, wording.count(3, "day"), wording.inside("Iron shortage")) == (
        english, "3 days", "iron shortage",
    )  # fmt: skip


def test_every_module_of_words_can_be_translated() -> None:
    held = {f"screens{name}" if not name.startswith("..") else name[2:] for name in CATALOGUE.values()}
    found = {f"screens.{path.relative_to(SCREENS).with_suffix('').as_posix().replace('/', '.')}"
             for path in [*SCREENS.rglob("*words.py"), SCREENS / "wording.py"]}  # fmt: skip
    assert found <= held


def test_no_screen_copies_a_text_before_it_is_spoken() -> None:
    texts = english_texts()
    copied = []
    for path in sorted(SCREENS.rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in _at_import(tree):
            if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
                module = node.value.id
                if module in ("wording", "words") and any(node.attr in names for names in texts.values()):
                    copied.append(f"{path.name}:{node.lineno} {module}.{node.attr}")
            if isinstance(node, ast.ImportFrom) and (node.module or "").endswith(("wording", "words")):
                copied += [f"{path.name}:{node.lineno} {name.name}" for name in node.names if name.name.isupper()]
    assert copied == ["setup.py:28 words.ASKS"]  # the parts to be asked for, which are ids in any language


def _at_import(tree: ast.Module) -> Iterator[ast.AST]:
    """What runs when a module is imported: everything outside bodies of functions, and defaults."""
    waiting: list[ast.AST] = list(tree.body)
    while waiting:
        node = waiting.pop()
        yield node
        if isinstance(node, ast.FunctionDef):
            waiting += [*node.args.defaults, *(default for default in node.args.kw_defaults if default is not None)]
        elif not isinstance(node, ast.Lambda):
            waiting += ast.iter_child_nodes(node)
