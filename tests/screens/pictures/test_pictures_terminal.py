"""Pictures in terminals: colours where there are any, letters where there are none, words where neither helps."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from rich.console import Console
from rich.theme import Theme

from triage.model.book import Book
from triage.screens.pictures.catalogue import pictures_of, show
from triage.screens.pictures.palette import INKS
from triage.screens.pictures.raster import Raster
from triage.screens.pictures.show import picture_beside, pictures_beside
from triage.screens.pictures.terminal import bar_line, beside, legend, picture_lines, shows_colours
from triage.screens.style import STYLES

GOLDEN = Path(__file__).resolve().parents[2] / "golden"
ESCAPE = re.compile(r"\x1b\[[0-9;]*m")
COLOURS = re.compile(r"\x1b\[[0-9;]*[34]8;5;(\d+)")
#: Two rows of a picture: nothing, green over nothing, nothing over brown, green over brown.
TINY = Raster(
    4, 2, (None, INKS["green"].rgb, None, INKS["green"].rgb, None, None, INKS["brown"].rgb, INKS["brown"].rgb),
    ("", "green", "", "green", "", "", "brown", "brown"),
)  # fmt: skip


def test_half_blocks_leave_the_ground_of_the_terminal_alone() -> None:
    (line,) = picture_lines(TINY, colours=True)
    assert line.plain == " ▀▄▀"
    styles = [span.style for span in line.spans]
    assert [getattr(style, "bgcolor", None) is None for style in styles] == [True, True, False]


def test_letters_tell_what_is_wrong_before_what_is_sound() -> None:
    (line,) = picture_lines(TINY, colours=False)
    assert line.plain == " :bb"
    assert legend([TINY]) == ": green, b brown"


def test_only_fixed_colours_are_used_and_nothing_else_is_styled(book: Book, screen: Callable[..., Any]) -> None:
    at = screen(80)
    assert picture_beside("brown-leaf-edges", "", at.console, book=book, words_too=False)
    numbers = {int(number) for number in COLOURS.findall(at.text)}
    assert numbers
    assert min(numbers) >= 16  # the first sixteen belong to the user
    assert "▀" in at.text


@pytest.mark.parametrize("how", [{"no_color": True}, {"system": "standard"}, {"system": None}])
def test_without_256_colours_there_are_letters_a_legend_and_no_escapes(
    book: Book, screen: Callable[..., Any], how: dict[str, Any]
) -> None:
    at = screen(80, **how)
    assert not shows_colours(at.console)
    assert picture_beside("brown-leaf-edges", "", at.console, book=book)
    assert "\x1b" not in at.text
    assert "▀" not in at.text
    assert "Letters: : green, ' pale veins of a green leaf, b brown, | stem" in at.text
    assert at.text.isascii()


def test_a_screen_that_cannot_write_blocks_gets_letters() -> None:
    out = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    console = Console(theme=Theme(STYLES), file=out, force_terminal=True, color_system="256", width=80)
    assert not shows_colours(console)


def test_a_dumb_terminal_gets_words_only(
    book: Book, screen: Callable[..., Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TERM", "dumb")
    monkeypatch.setenv("COLUMNS", "80")
    at = screen(80)
    assert picture_beside("fine-veins-stay-green", "", at.console, book=book)
    assert " ".join(at.text.split()) == show(book, "fine-veins-stay-green").says  # type: ignore[union-attr]
    row = screen(80)
    question = book.questions["veins-in-yellow"]
    assert pictures_beside(question.options, "", row.console, book=book) == 3
    assert [line[:5] for line in row.text.splitlines() if line[:4].strip()] == ["   1 ", "   2 ", "   3 "]


@pytest.mark.parametrize("system", ["256", None])
@pytest.mark.parametrize("width", [20, 40, 60, 80, 200])
def test_no_picture_is_wider_than_the_window(
    book: Book, screen: Callable[..., Any], width: int, system: str | None
) -> None:
    for id_ in ("newest-leaves-almost-white", "two-spotted-body", "nitrogen-deficiency", "two-spotted-spider-mite"):
        at = screen(width, system)
        assert picture_beside(id_, "tomato", at.console, book=book, words_too=False)
        # letters are explained in text, which keeps to at least 20 columns
        assert all(len(line.rstrip()) <= max(width, 22) for line in ESCAPE.sub("", at.text).splitlines()), id_


@pytest.mark.parametrize("width", [60, 80])
def test_rows_of_every_question_fit_and_are_numbered_as_the_answers(
    book: Book, screen: Callable[..., Any], width: int
) -> None:
    have = pictures_of(book)
    for question in book.questions.values():
        at = screen(width, None)
        drawn = pictures_beside(question.options, "cucumber", at.console, book=book)
        lines = at.text.splitlines()
        assert all(len(line) <= width for line in lines), question.question
        numbers = [int(n) for line in lines if re.fullmatch(r"[\d ]+", line) for n in line.split()]
        shown = [have.get(id_) for id_ in question.options]
        expected = [n for n, picture in enumerate(shown, 1) if picture is not None and shown.count(picture) == 1]
        assert numbers == (expected if len(expected) > 1 else []), question.question
        assert drawn == len(numbers)


def test_one_picture_alone_is_not_set_beside_answers_in_words(book: Book, screen: Callable[..., Any]) -> None:
    at = screen(80)
    assert pictures_beside(["brown-leaf-edges", "sludge-built-up"], "", at.console, book=book) == 0
    assert at.text == ""


def test_what_has_no_picture_prints_nothing(book: Book, screen: Callable[..., Any]) -> None:
    at = screen(80)
    assert not picture_beside("sludge-built-up", "", at.console, book=book)
    assert at.text == ""


def test_blocks_stand_on_one_ground_line() -> None:
    tall, low = picture_lines(TINY, colours=False) * 3, picture_lines(TINY, colours=False)
    lines = [line.plain for line in beside([tall, low], 2)]
    assert [len(line.rstrip()) for line in lines] == [4, 4, 10]


def test_the_scale_bar_is_as_long_as_asked() -> None:
    assert bar_line(8, "0.1 mm").plain == "|------| 0.1 mm"


@pytest.mark.parametrize("width", [60, 80])
@pytest.mark.parametrize("system", ["256", None])
@pytest.mark.parametrize("cause", ["iron-deficiency", "two-spotted-spider-mite"])
def test_golden_pictures(
    book: Book, screen: Callable[..., Any], request: pytest.FixtureRequest, cause: str, system: str | None, width: int
) -> None:
    at = screen(width, system)
    picture_beside(cause, "", at.console, book=book)
    path = GOLDEN / f"picture-{cause}-{width}-{'colour' if system else 'plain'}.txt"
    if request.config.getoption("--rewrite-golden"):
        path.write_text(at.text, encoding="utf-8")
    assert at.text == path.read_text(encoding="utf-8")
