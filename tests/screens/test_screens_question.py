"""What may be typed at a question."""

from __future__ import annotations

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.errors import UsageError
from triage.model.book import Book
from triage.report.case_report import OptionLine, QuestionLine
from triage.screens.question import (
    nothing_typed,
    parse_answer,
    parse_choice,
    parse_yes_or_no,
    prompt_of,
    shortened,
    show_question,
)
from triage.screens.style import build_console


def question(*options: str, pick: str = "any") -> QuestionLine:
    lines = tuple(OptionLine(id=option, name=option.capitalize()) for option in options)
    return QuestionLine(id="q", ask="What is it?", look="Look close.", pick=pick, options=lines, why="", bits=0.1)


def shown(line: QuestionLine, width: int = 60) -> str:
    out = io.StringIO()
    show_question(line, build_console(width=width, file=out, colour=False), 7)
    return out.getvalue()


@pytest.mark.parametrize(
    ("typed", "seen", "unsure"),
    [("2", [1], []), ("1 3", [0, 2], []), ("1,3", [0, 2], []), ("3, 1", [2, 0], []), ("2?", [], [1]), ("2 ?", [], [1]),
     ("1 2?", [0], [1]), ("0", [], []), ("1 1", [0], []), ("2 2?", [1], []), ("1.", [0], [])],
)  # fmt: skip
def test_numbers_are_read(typed: str, seen: list[int], unsure: list[int]) -> None:
    assert parse_choice(typed, 3, one=False) == (seen, unsure)


@pytest.mark.parametrize(
    ("typed", "says"),
    [("4", "'4'"), ("-1", "'-1'"), ("x", "'x'"), ("1 x", "'x'"), ("0 2", "alone"), ("", "numbers from 0 to 3"),
     ("9" * 5000, "..."), ("²", "'²'"), ("some words", "'some words'")],
)  # fmt: skip
def test_what_is_no_number_here_is_said_with_what_is_allowed(typed: str, says: str) -> None:
    with pytest.raises(UsageError, match="from 0 to 3") as refused:
        parse_choice(typed, 3, one=False)
    assert says in str(refused.value)
    assert len(str(refused.value)) < 160


def test_only_one_where_only_one_can_be() -> None:
    assert parse_choice("2", 3, one=True) == ([1], [])
    with pytest.raises(UsageError, match="only one can be true"):
        parse_choice("1 2", 3, one=True)


@given(st.text(max_size=30), st.integers(1, 12), st.booleans())
def test_whatever_is_typed_is_read_or_refused(typed: str, options: int, one: bool) -> None:
    try:
        seen, unsure = parse_choice(typed, options, one=one)
    except UsageError:
        return
    assert all(0 <= number < options for number in (*seen, *unsure))
    assert not set(seen) & set(unsure)
    assert len(seen) + len(unsure) <= (1 if one else options)


@pytest.mark.parametrize(
    ("typed", "answer"),
    [("y", ([0], [])), ("Yes", ([0], [])), ("1", ([0], [])), ("n", ([], [])), ("no.", ([], [])), ("0", ([], [])),
     ("?", ([], [0])), ("maybe", ([], [0]))],
)  # fmt: skip
def test_yes_and_no(typed: str, answer: tuple[list[int], list[int]]) -> None:
    assert parse_yes_or_no(typed) == answer


FISH = question("fish look as always", "fish gasp at the surface", "fish gasp at dawn", "shrimp lie still")


@pytest.mark.parametrize(
    ("typed", "seen", "unsure"),
    [("look", [0], []), ("Fish l", [0], []), ("s", [3], []), ("shrimp?", [], [3]), ("gasp at d", [2], []),
     ("none", [], []), ("none of these", [], []), ("no", [], [])],
)  # fmt: skip
def test_first_letters_pick_an_answer(typed: str, seen: list[int], unsure: list[int]) -> None:
    ids = [option.id for option in FISH.options]
    assert parse_answer(typed, FISH) == ([ids[n] for n in seen], [ids[n] for n in unsure])


@pytest.mark.parametrize(("typed", "says"), [("gasp", "2 or 3"), ("fish", "1, 2 or 3"), ("surface", "no answer here")])
def test_letters_that_fit_several_answers_or_none_pick_nothing(typed: str, says: str) -> None:
    with pytest.raises(UsageError, match=says):
        parse_answer(typed, FISH)


def test_anything_else_is_neither_yes_nor_no() -> None:
    with pytest.raises(UsageError, match="y, n, \\?"):
        parse_yes_or_no("2")


def test_a_single_option_is_asked_by_yes_and_no() -> None:
    line = question("crust", pick="one")
    text = shown(line)
    assert "y yes: Crust" in text
    assert "n no" in text
    assert " 0 " not in text
    assert prompt_of(line).startswith("y, n")
    assert nothing_typed(line).startswith("Type y or n")
    assert parse_answer("y", line) == (["crust"], [])


def test_options_carry_numbers_and_the_way_out() -> None:
    text = shown(question("holes", "spots"))
    assert text.splitlines()[1] == "7. What is it?"
    assert "   1 Holes" in text
    assert "   0 none of these" in text
    assert "   t can't tell" in text
    assert parse_answer("2 1?", question("holes", "spots")) == (["spots"], ["holes"])


def test_long_typed_text_is_said_back_short() -> None:
    assert shortened("a" * 100) == "a" * 40 + "..."
    assert shortened("short") == "short"


def test_every_question_of_the_book_can_be_taken_in_at_a_glance(book: Book) -> None:
    long = {id_: len(question.options) for id_, question in book.questions.items() if len(question.options) > 10}
    assert long == {}
