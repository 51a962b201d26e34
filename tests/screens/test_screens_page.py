"""A plain page holds what rich would have written without colour."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.screens.page import PlainPage, open_page
from triage.screens.style import build_console, heading, line, run_in

if TYPE_CHECKING:
    from triage.screens.page import Page

WORDS = st.lists(
    st.sampled_from(["pH", "7.4", "is", "two-spotted", "(new)", "a", "x" * 20, "°C", "µS/cm", '"iron"', "–"]),
    min_size=1,
)
TEXT = WORDS.map(" ".join)


def written(page: Page, out: io.StringIO, tell: Callable[[Page], None]) -> str:
    tell(page)
    return out.getvalue()


def both(width: int, tell: Callable[[Page], None]) -> tuple[str, str]:
    plain, rich = io.StringIO(), io.StringIO()
    return (
        written(PlainPage(plain, width), plain, tell),
        written(build_console(width=width, file=rich, colour=False), rich, tell),
    )


@given(text=TEXT, width=st.integers(24, 130), indent=st.integers(0, 4), bullet=st.sampled_from(["", "-", "12"]))
def test_a_plain_page_reads_as_rich_without_colour(text: str, width: int, indent: int, bullet: str) -> None:
    def tell(page: Page) -> None:
        heading(page, "Why")
        line(page, text, " ", (text, "triage.name"), indent=indent, bullet=bullet)
        run_in(page, "Check", text)

    plain, rich = both(width, tell)
    assert plain == rich


@pytest.mark.parametrize("evil", ["\x1b[2J", "\x07", "\r", "\x9b31m", "\u202e"])
def test_nothing_typed_drives_the_terminal(evil: str) -> None:
    out = io.StringIO()
    line(PlainPage(out, 80), f"basil{evil}leaf")
    assert not set(out.getvalue()) & set("\x1b\x07\r\x9b\u202e")


def test_a_pipe_gets_a_plain_page_unless_colour_is_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    assert isinstance(open_page(), PlainPage)
    monkeypatch.setenv("FORCE_COLOR", "1")
    assert not isinstance(open_page(), PlainPage)


@pytest.mark.parametrize(("said", "columns"), [("61", 61), ("", None), ("wide", None), ("0", None)])
def test_columns_say_how_wide_a_page_is(said: str, columns: int | None, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", said)
    assert PlainPage(io.StringIO()).width == columns or (columns is None and PlainPage(io.StringIO()).width >= 1)
