"""Lines keep to the window, hang under their bullet, and carry no colour where none is wanted."""

from __future__ import annotations

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.screens import style
from triage.screens.style import build_console, columns, heading, line, run_in


def written(width: int, *parts: str | tuple[str, str], colour: bool = False, **how: object) -> str:
    out = io.StringIO()
    line(build_console(width=width, file=out, colour=colour), *parts, **how)  # type: ignore[arg-type]
    return out.getvalue()


@given(st.text(alphabet="ab c", min_size=1, max_size=300), st.integers(20, 120))
def test_no_line_is_wider_than_the_window(text: str, width: int) -> None:
    wide = max(min(width, style.WIDEST), 4 + style.NARROWEST)  # two to indent, two for the bullet
    assert all(len(one) <= wide for one in written(width, text, bullet="-").splitlines())


def test_text_hangs_under_its_bullet() -> None:
    assert written(24, "one two three four five six", bullet="10").splitlines() == [
        "  10 one two three four", "     five six",
    ]  # fmt: skip


def test_markup_and_emoji_codes_are_left_as_typed() -> None:
    assert written(80, "[bold]x[/bold] :smile:") == "  [bold]x[/bold] :smile:\n"


def test_plain_holds_no_escape_and_colour_does() -> None:
    assert "\x1b" not in written(80, ("NEVER", "triage.grade.never"))
    assert "\x1b[" in written(80, ("NEVER", "triage.grade.never"), colour=True)


def test_every_style_named_is_in_the_theme() -> None:
    assert set(style.STYLES) >= {"triage.heading", "triage.alarm", "triage.grade.ok", "triage.grade.unknown"}


def test_very_wide_windows_are_not_filled() -> None:
    assert columns(build_console(width=300, file=io.StringIO())) == style.WIDEST
    assert columns(build_console(width=5, file=io.StringIO())) == style.NARROWEST


def test_a_dumb_terminal_is_as_wide_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TERM", "dumb")
    monkeypatch.delenv("COLUMNS", raising=False)
    monkeypatch.setattr(style, "terminal_width", lambda: 60)
    console = build_console(file=io.StringIO(), colour=True)
    assert columns(console) == 60


def test_headings_stand_after_a_blank_line() -> None:
    out = io.StringIO()
    console = build_console(width=40, file=out, colour=False)
    heading(console, "Title", bullet="3.")
    run_in(console, "Label", "text")
    assert out.getvalue() == "\n3. Title\n\nLabel: text\n"
