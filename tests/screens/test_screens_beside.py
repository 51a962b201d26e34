"""Pictures and suspects beside a question: where they help, nowhere else, and never so that they pull an answer."""

from __future__ import annotations

import io

import pytest
from rich.console import Console

from triage.model.book import Book
from triage.model.outcome import NextQuestion
from triage.report.build import build_question
from triage.report.case_report import QuestionLine
from triage.screens import wording
from triage.screens.beside import has_pictures, pictures_for, pictures_on_request, shows_pictures, whisper
from triage.screens.style import build_console


def put(book: Book, id_: str) -> QuestionLine:
    line = build_question(book, NextQuestion(id=id_, why="", bits=0.1, about=()))
    assert line is not None
    return line


def window(width: int = 80, height: int = 45, **how: object) -> tuple[Console, io.StringIO]:
    out = io.StringIO()
    console = build_console(width=width, file=out, **({"colour": True} | how))  # type: ignore[arg-type]
    console.height = height
    return console, out


def test_pictures_stand_where_the_question_has_room_for_them(book: Book) -> None:
    console, out = window()
    pictures_for(put(book, "which-leaves-first"), "basil", console, book)
    assert out.getvalue().count("\n") > 10
    low, hint = window(height=20)
    pictures_for(put(book, "which-leaves-first"), "basil", low, book)
    assert wording.PICTURES_ASKED in hint.getvalue()
    assert hint.getvalue().count("\n") == 1


@pytest.mark.parametrize("how", [{"width": 59}, {"colour": False}, {"spoken": True}])
def test_no_pictures_where_they_would_not_help(book: Book, how: dict[str, int]) -> None:
    """Too narrow a window, a pipe or file, a screen that is read aloud."""
    console, out = window(**how)
    assert not shows_pictures(console)
    pictures_for(put(book, "which-leaves-first"), "basil", console, book)
    assert out.getvalue() == ""


@pytest.mark.parametrize("how", [{"width": 59}, {"colour": False}, {"spoken": True}])
def test_asked_for_they_come_in_words_there(book: Book, how: dict[str, int]) -> None:
    console, out = window(**how)
    pictures_on_request(put(book, "which-leaves-first"), "basil", console, book)
    assert " 1 " in out.getvalue()
    assert " 4 " in out.getvalue()
    assert "▀" not in out.getvalue()


def test_asked_for_they_come_however_much_room_they_take(book: Book) -> None:
    console, out = window(height=10)
    pictures_on_request(put(book, "leaf-marks"), "basil", console, book)
    assert out.getvalue().count("\n") > 20


def test_a_question_without_pictures_says_so_when_asked_and_nothing_else(book: Book) -> None:
    console, out = window()
    pictures_for(put(book, "fish-now"), "basil", console, book)
    assert out.getvalue() == ""
    pictures_on_request(put(book, "fish-now"), "basil", console, book)
    pictures_on_request(None, "basil", console, book)
    assert out.getvalue().count(wording.NO_PICTURES) == 2


def test_what_has_pictures_is_known_without_painting_any(book: Book) -> None:
    from triage.screens.pictures.show import lines_beside

    console, _ = window()
    for id_ in book.questions:
        shown = put(book, id_)
        if len(shown.options) < 5:  # the others take long to paint
            painted = lines_beside([option.id for option in shown.options], "basil", console, book=book)
            assert bool(painted) == has_pictures(shown, book), id_


def test_suspects_stand_by_the_alphabet_and_without_a_degree() -> None:
    names = {"mites": "Spider mites", "age": "Old leaves", "iron": "Iron shortage", "thrips": "Thrips"}
    console, out = window(colour=False)
    whisper({"mites": 0.9, "age": 0.3, "iron": 0.5, "thrips": 0.1}, names, console)
    assert out.getvalue().strip() == "(so far: iron shortage; old leaves; spider mites)"
    for likely in ({"mites": 0.1}, {}):
        console, out = window(colour=False)
        whisper(likely, names, console)
        assert out.getvalue() == ""
    console, out = window(spoken=True)
    whisper({"mites": 0.9}, names, console)
    assert out.getvalue() == ""
