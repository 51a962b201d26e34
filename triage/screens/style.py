"""Style names and the console: content knows names, never colours; colour never says anything alone."""

from __future__ import annotations

import os
from typing import IO, TYPE_CHECKING

from . import wording
from .page import PlainPage, terminal_width

if TYPE_CHECKING:
    from rich.console import Console

    from .page import Page

#: Only bold and the eight colours every terminal has, of those the ones that can be read on light and on dark.
STYLES = {
    "triage.heading": "bold",
    "triage.alarm": "bold red reverse",
    "triage.name": "bold",
    "triage.quiet": "none",
    "triage.sure": "italic",
    "triage.grade.ok": "green",
    "triage.grade.keep-off-water": "bold magenta",
    "triage.grade.away-from-system": "bold magenta",
    "triage.grade.never": "bold red",
    "triage.grade.unknown": "bold red",
    "triage.prompt": "bold",
}
WIDEST = 100  # longer lines are hard to read
NARROWEST = 20


def build_console(
    *, width: int | None = None, file: IO[str] | None = None, colour: bool | None = None, spoken: bool = False
) -> Console:
    """The console for people: no markup, no emoji codes, no guessing; ``colour`` None asks the terminal.

    ``spoken``: the screen is read aloud, so there is neither colour nor picture, and signs are words.
    """
    from rich.console import Console
    from rich.theme import Theme

    colour = False if spoken else colour
    console = Console(
        theme=Theme(STYLES), width=width, file=file, no_color=None if colour is None else not colour,
        force_terminal=colour, color_system="standard" if colour else "auto", highlight=False, markup=False,
        emoji=False,
    )  # fmt: skip
    console.spoken = spoken  # type: ignore[attr-defined]
    return console


def is_spoken(console: Page) -> bool:
    """Whether the screen is read aloud."""
    return bool(getattr(console, "spoken", False))


def columns(console: Page) -> int:
    """Columns to fill now; asked anew for each line, because a window may be resized between two questions."""
    wide = console.width
    if console.is_dumb_terminal and not os.environ.get("COLUMNS"):
        wide = terminal_width()  # rich takes 80 for granted there
    return max(NARROWEST, min(wide, WIDEST))


def heading(console: Page, words: str, style: str = "triage.heading", *, bullet: str = "") -> None:
    """A heading with a blank line before it; a bullet (a number) hangs."""
    console.print()
    line(console, (words, style), indent=0, bullet=bullet)


def run_in(console: Page, words: str, *parts: str | tuple[str, str]) -> None:
    """A short section: its heading and its paragraph in one, with a blank line before it."""
    console.print()
    line(console, (f"{words}: ", "triage.heading"), *parts, indent=0)


def line(console: Page, *parts: str | tuple[str, str], indent: int = 2, bullet: str = "") -> None:
    """One paragraph, indented; a part is text, or (text, style name). A bullet hangs in the indent."""
    if is_spoken(console):
        bullet = wording.SPOKEN.get(bullet, bullet)
    hang = len(bullet) + 1 if bullet else 0
    width = max(NARROWEST, columns(console) - indent - hang)
    lead, below = " " * indent + (f"{bullet} " if bullet else ""), " " * (indent + hang)
    if isinstance(console, PlainPage):
        console.paragraph("".join(part if isinstance(part, str) else part[0] for part in parts), width, lead, below)
        return
    from rich.text import Text

    text = Text.assemble(*parts)
    for number, wrapped in enumerate(text.wrap(console, width)):  # type: ignore[arg-type]
        wrapped.rstrip()
        console.print(Text.assemble(below if number else lead, wrapped), soft_wrap=True)
