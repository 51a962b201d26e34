"""Screens about sprays as people see them. After a wanted change: pytest tests/screens --rewrite-golden, and read the
difference."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import pytest

from triage.model.book import Book
from triage.model.case import System
from triage.report.names import Names
from triage.report.spray_report import SprayReport
from triage.screens.book import render_entry
from triage.screens.spray import render_spray
from triage.screens.spray_questions import Answers, ask_spray
from triage.screens.spray_spill import render_spill
from triage.screens.spray_table import render_table
from triage.screens.style import build_console
from triage.spraying import Asked, answer_spray, compare_sprays, grade_shelf
from triage.water.readings import make_reading

GOLDEN = Path(__file__).resolve().parents[1] / "golden"
ON = "2026-05-04"
HOUSE = System(
    volume_l=1000, animals=("tilapia", "cherry-shrimp"), shelf=("soap", "neem oil", "mystery tonic", "lacewings")
)
SOAP = {"words": "soap", "strength": "1%", "amount": "1L"}
SCREENS: dict[str, dict[str, str]] = {
    "spray-covered": {**SOAP, "cover": "covered", "animals": "tilapia"},
    "spray-unsaid": {"words": "hydrogen peroxide"},
    "spray-class": {"words": "slug pellets", "amount": "20 g", "cover": "none"},
    "spray-neighbour": {"words": "glyphosate", "cover": "neighbour"},
    "spray-unknown": {"words": "permetrin"},
}


def _readings(book: Book) -> list[Any]:
    told = {"oxygen": 8.0, "alkalinity": 60.0, "ph": 6.9, "temperature": 25.0}
    return [make_reading(name, value, book.quantities, on=ON) for name, value in told.items()]


def _names(book: Book) -> dict[str, str]:
    return {**Names(book), **{id_: animal.name.lower() for id_, animal in book.animals.items()}}


def _report(book: Book, told: dict[str, str], *, spilled: bool = False) -> SprayReport:
    return answer_spray(book, Asked(**told), HOUSE, _readings(book), on=ON, spilled=spilled)  # type: ignore[arg-type]


def screen(name: str, book: Book, width: int, colour: bool = False) -> str:
    """One of the screens, drawn."""
    out = io.StringIO()
    console = build_console(width=width, file=out, colour=colour)
    if name == "spray-spilled":
        render_spill(_report(book, SOAP, spilled=True), console, _names(book))
    elif name == "spray-compare":
        asked = Asked(words="", strength="1%", amount="1L", cover="covered", animals="tilapia")
        listed = ["soap", "neem oil", "pyrethrins", "baking soda", "insecticidal soap and neem oil"]
        render_table(compare_sprays(book, listed, asked, HOUSE, _readings(book), on=ON), console, _names(book))
    elif name == "spray-shelf":
        render_table(grade_shelf(book, Asked(words=""), HOUSE, _readings(book), on=ON), console, _names(book))
    else:
        render_spray(_report(book, SCREENS[name]), console, _names(book))
    return out.getvalue()


ALL = [*SCREENS, "spray-spilled", "spray-compare", "spray-shelf"]


@pytest.mark.parametrize("width", [60, 80])
@pytest.mark.parametrize("name", ALL)
def test_a_screen_looks_as_it_did(name: str, width: int, book: Book, request: pytest.FixtureRequest) -> None:
    golden = GOLDEN / f"{name}-{width}.txt"
    shown = screen(name, book, width)
    if request.config.getoption("--rewrite-golden"):
        golden.write_text(shown, encoding="utf-8")
    assert shown == golden.read_text(encoding="utf-8")


@pytest.mark.parametrize("width", [40, 60, 80])
@pytest.mark.parametrize("name", ALL)
def test_nothing_is_wider_than_the_screen(name: str, width: int, book: Book) -> None:
    widest = max(len(line) for line in screen(name, book, width).splitlines())
    assert widest <= max(width, 59)  # the table has six columns that cannot be narrower


@pytest.mark.parametrize("name", ALL)
def test_colour_says_nothing_that_is_not_written(name: str, book: Book) -> None:
    plain, coloured = screen(name, book, 80), screen(name, book, 80, colour=True)
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == plain


@pytest.mark.parametrize("name", ALL)
def test_label_and_local_law_come_first_on_every_screen(name: str, book: Book) -> None:
    assert "The label and local law come first" in " ".join(screen(name, book, 80).split())


@pytest.mark.parametrize("name", ["spray-covered", "spray-unsaid", "spray-neighbour", "spray-spilled"])
def test_it_can_be_read_on_one_page(name: str, book: Book) -> None:
    assert len(screen(name, book, 80).splitlines()) <= 75


def test_no_source_key_stands_inside_a_sentence(book: Book) -> None:
    """Keys stand after 'Source:' and 'Sources:' only."""
    for name in ALL:
        text = " ".join(screen(name, book, 100).split())
        told = re.sub(r"Sources?: .*?(\.|What each is)", "", text)
        for source in book.sources:
            if any(letter.isdigit() for letter in source):
                assert source not in told, (name, source)


def test_recalled_values_say_so(book: Book) -> None:
    text = " ".join(screen("spray-covered", book, 80).split())
    assert "Source: memory-epa-opp (from memory)." in text


# -- the questions -----------------------------------------------------------------------------------------------------


def _interview(book: Book, *typed: str, saved: System = HOUSE) -> tuple[Answers | None, str]:
    out, left = io.StringIO(), list(typed)

    def ask(prompt: str) -> str:
        out.write(prompt)
        if not left:
            raise EOFError
        return left.pop(0)

    answers = ask_spray(book, saved, build_console(width=80, file=out, colour=False), ask)
    return answers, " ".join(out.getvalue().split())


def test_every_answer_is_taken(book: Book) -> None:
    answers, _ = _interview(book, "soap", "1%", "1L", "2", "800 L", "trout")
    assert answers == Answers(
        asked=Asked(words="soap", strength="1%", amount="1L", cover="covered", volume="800 L", animals="trout")
    )


def test_enter_keeps_the_saved_system_and_leaves_the_rest_unsaid(book: Book) -> None:
    answers, shown = _interview(book, "soap", "", "", "", "", "")
    assert answers == Answers(asked=Asked(words="soap"))
    assert "[1000 L]" in shown
    assert "[tilapia, cherry-shrimp]" in shown


def test_what_cannot_be_read_is_asked_again(book: Book) -> None:
    answers, shown = _interview(
        book, "permetrin", "permethrin", "lots", "1%", "a cup", "1L", "12", "1", "big", "", "cows", ""
    )
    assert answers is not None
    assert answers.asked.words == "permethrin"
    assert (answers.asked.strength, answers.asked.amount, answers.asked.cover) == ("1%", "1L", "none")
    for said in ("Did you mean: Permethrin", "'lots'", "'a cup'", "a number from 1 to 9", "'big'", "no animal 'cows'"):
        assert said in shown


def test_an_unknown_name_may_stay(book: Book) -> None:
    answers, _ = _interview(book, "permetrin", "")
    assert answers is not None
    assert answers.asked.words == "permetrin"


def test_a_word_for_several_is_told(book: Book) -> None:
    _, shown = _interview(book, "slug pellets")
    assert "may be any of 4 substances" in shown


@pytest.mark.parametrize(
    ("typed", "cover", "into_water", "spilled"),
    [
        ("8", None, True, False),
        ("9", None, False, True),
        ("6", "neighbour", False, False),
        ("moved", "moved", False, False),
    ],
)
def test_how_near_it_comes(book: Book, typed: str, cover: str | None, into_water: bool, spilled: bool) -> None:
    answers, _ = _interview(book, "soap", "", "", typed)
    assert answers is not None
    assert (answers.asked.cover, answers.asked.into_water, answers.spilled) == (cover, into_water, spilled)


def test_nothing_named_is_no_question(book: Book) -> None:
    assert _interview(book, "")[0] is None
    assert _interview(book)[0] is None


@pytest.mark.parametrize(
    ("shelf", "id_", "says"),
    [
        ("substances", "pyrethrins", True), ("treatments", "soap-spray", True), ("substance_groups", "wetters", True),
        ("causes", "iron-deficiency", False),
    ],
)  # fmt: skip
def test_entries_of_the_book_say_label_and_law_first(shelf: str, id_: str, says: bool, book: Book) -> None:
    text = io.StringIO()
    render_entry(shelf, getattr(book, shelf)[id_], [], build_console(width=80, file=text))
    assert ("label and local law come first" in " ".join(text.getvalue().split())) is says


def test_the_figures_do_not_say_again_what_a_harm_has_said(triage: Any) -> None:
    done = triage("spray", "neem oil", "--volume", "1000L", "--animals", "tilapia,shrimp", columns=80)
    said = " ".join(done.stdout.split())
    harms, figures = said.split("In figures")
    assert "As planned the water reaches 1.58 times" in harms
    assert "As planned the water reaches 1.58 times" not in figures
