"""The setup keeps every answer at once, reads what people type, and refuses with what is allowed."""

from __future__ import annotations

import io
from typing import Any

import pytest

from triage.errors import UsageError
from triage.model.book import Book
from triage.model.case import System
from triage.screens import setup_words
from triage.screens.setup import NEEDED, ask_system, parse_part, say_part
from triage.screens.style import build_console


class Asked:
    """A setup in which these lines are typed."""

    def __init__(self, book: Book, *typed: str, old: System | None = None, **how: Any) -> None:
        self.out = io.StringIO()
        self.typed = list(typed)
        self.kept: list[System] = []
        console = build_console(width=80, file=self.out, colour=False)
        self.system = ask_system(old or System(), book, console, self.ask, self.kept.append, **how)

    def ask(self, prompt: str) -> str:
        self.out.write(prompt)
        if not self.typed:
            raise EOFError
        return self.typed.pop(0)


def test_each_answer_is_kept_at_once(book: Book) -> None:
    asked = Asked(book, "1 m3", "tilapia, shrimp")
    assert [system.volume_l for system in asked.kept] == [1000.0, 1000.0]
    assert asked.kept[-1] == asked.system
    assert len(asked.system.animals) == 2


def test_enter_keeps_what_stands_and_writes_nothing(book: Book) -> None:
    old = System(volume_l=800, animals=("tilapia",), beds="raft", shelf=("soap",), altitude_m=500.0)
    asked = Asked(book, *[""] * len(setup_words.ASKS), old=old)
    assert asked.system == old
    assert asked.kept == []
    for shown in ("[800 L]", "[tilapia]", "[raft]", "[soap]", "[500]"):
        assert shown in asked.out.getvalue()


def test_all_parts_are_asked(book: Book) -> None:
    typed = ("500L", "trout", "basil, chard", "me", "a barrel", "rain", "outdoors", "250 m", "neem oil, soap")
    system = Asked(book, *typed).system
    assert system.volume_l == 500
    assert system.crops == ("basil", "chard")
    assert (system.beds, system.filter, system.top_up, system.place) == ("media", "a barrel", "rain", "outdoors")
    assert system.altitude_m == 250
    assert system.shelf == ("neem oil", "soap")


def test_what_cannot_be_read_is_asked_again(book: Book) -> None:
    asked = Asked(book, "much", "700")
    assert "much" in asked.out.getvalue()
    assert asked.system.volume_l == 700


def test_only_what_doses_need(book: Book) -> None:
    asked = Asked(book, "700", "tilapia", "basil", parts=NEEDED)
    assert asked.typed == ["basil"]
    assert (asked.system.volume_l, asked.system.animals) == (700, ("tilapia",))


@pytest.mark.parametrize(
    ("part", "typed"),
    [("volume_l", "much"), ("animals", "dragon"), ("crops", ","), ("beds", "feather"), ("top_up", "m?"),
     ("place", ""), ("altitude_m", "high"), ("altitude_m", "90000"), ("altitude_m", "nan")],
)  # fmt: skip
def test_refusals_say_what_is_allowed(book: Book, part: str, typed: str) -> None:
    with pytest.raises(UsageError) as refused:
        parse_part(part, typed, book)
    assert len(str(refused.value)) > 10


def test_names_are_said_not_ids(book: Book) -> None:
    assert say_part("crops", ("pak-choi",), book) == "pak choi"
    assert say_part("crops", ("gone",), book) == "gone"
    assert say_part("volume_l", None, book) == ""
