"""A whole series and its answer in German, as people see it. After a wanted change: pytest tests/screens
--rewrite-golden, and read the difference."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

import pytest

from triage.book.casefile import load_case
from triage.book.languages import translate_book
from triage.book.places import built_in_knowledge
from triage.intake import build_case
from triage.model.book import Book
from triage.reasoning import Engines
from triage.report.names import Names
from triage.screens.answer import render_answer
from triage.screens.grower import WrittenGrower
from triage.screens.series import Series
from triage.screens.speech import speak
from triage.screens.style import build_console
from triage.session import Session

TESTS = Path(__file__).resolve().parents[1]
CASES = {
    "iron": TESTS.parent / "demo" / "iron.yaml",
    "fish": TESTS.parent / "demo" / "gasping.yaml",
    "two": TESTS / "golden" / "cases" / "two.yaml",
    "well": TESTS / "golden" / "cases" / "well.yaml",
}
ONLY_ENGLISH = "[nur englisch]"


@pytest.fixture(scope="module")
def german(book: Book) -> Iterator[Book]:
    """The book in German, while the screens speak it."""
    translated = translate_book(book, [built_in_knowledge()], "de")
    speak(translated.screens)
    yield translated
    speak({})


def screen(case_file: Path, book: Book, width: int, *, full: bool = False) -> str:
    """A series answered as the case says, and the answer."""
    case = build_case(load_case(case_file), book, today="2026-05-04")
    session = Session(book, on=case.on, system=case.system, readings=case.readings, engines=Engines(book))
    out = io.StringIO()
    console = build_console(width=width, file=out, colour=False)
    console.height = 12  # no room for pictures
    grower = WrittenGrower(case)

    def ask(prompt: str) -> str:
        typed = grower.ask(prompt)
        out.write(f"{prompt}{typed}\n")
        return typed

    grower.series = Series(session, console, ask, record=lambda told: None, forget=lambda: None)
    render_answer(grower.series.run(), console, Names(book), heard=False, full=full)
    return out.getvalue()


@pytest.mark.parametrize("width", [60, 80])
def test_a_whole_series_looks_as_it_did(width: int, german: Book, request: pytest.FixtureRequest) -> None:
    golden = TESTS / "golden" / f"german-iron-{width}.txt"
    shown = screen(CASES["iron"], german, width)
    if request.config.getoption("--rewrite-golden"):
        golden.write_text(shown, encoding="utf-8")
    assert shown == golden.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("width", [60, 80, 100])
def test_no_line_is_wider_than_the_window(name: str, width: int, german: Book) -> None:
    prompts = {"Tippe", "Eine Zahl", "Name,", "Deine", "j, n"}  # what is typed may run on
    shown = screen(CASES[name], german, width, full=True).splitlines()
    wide = [line for line in shown if len(line) > width and not any(line.startswith(prompt) for prompt in prompts)]
    assert wide == []


@pytest.mark.parametrize("name", CASES)
def test_an_answer_is_german_but_for_what_says_that_it_is_not(name: str, german: Book) -> None:
    shown = " ".join(screen(CASES[name], german, 100).split())
    assert "Was zu tun ist" in shown or "Das ist noch zu wenig" in shown
    for words in ("What ", "Often taken for", "Please note", "Look again", " likely", "none of these"):
        assert words not in shown
