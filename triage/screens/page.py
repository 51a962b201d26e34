"""What a screen is written on: a console of rich, or, where nobody sees colours (a pipe, a file), plain text."""

from __future__ import annotations

import os
import sys
import textwrap
from typing import IO, TYPE_CHECKING, Any

if TYPE_CHECKING:
    from typing import Protocol

    class Page(Protocol):
        """A console of rich, or a plain page."""

        @property
        def width(self) -> int: ...

        @property
        def is_dumb_terminal(self) -> bool: ...

        def print(self, *objects: Any, soft_wrap: bool | None = None) -> None: ...


#: Whoever sets one of these wants colour in a pipe, too (rich reads them).
_WANTS_COLOUR = ("FORCE_COLOR", "TTY_COMPATIBLE", "TTY_INTERACTIVE")


class PlainPage:
    """Paragraphs as plain text, wrapped as rich wraps them (but for a word wider than the page).

    Loading rich takes four times as long as starting Python.
    """

    is_dumb_terminal = False

    def __init__(self, file: IO[str] | None = None, width: int | None = None, *, spoken: bool = False) -> None:
        """``spoken``: for whoever has it read aloud."""
        self.file = file or sys.stdout
        self.spoken = spoken
        self.width = width or _window()

    def print(self, *objects: Any, soft_wrap: bool | None = None) -> None:
        print(*objects, file=self.file)

    def paragraph(self, text: str, width: int, lead: str, hang: str) -> None:
        """Text over as many lines as it takes: ``lead`` stands before the first, ``hang`` before the others."""
        for number, line in enumerate(_wrapped(text, width)):
            print(f"{hang if number else lead}{line}", file=self.file)


def open_page(*, spoken: bool = False) -> Page:
    """The page for answers: standard output, in colour where that is a terminal and nobody has it read aloud."""
    if spoken:
        return PlainPage(spoken=True)
    if sys.stdout.isatty() or any(os.environ.get(name) for name in _WANTS_COLOUR):
        from .style import build_console

        return build_console()
    return PlainPage()


def _window() -> int:
    """Columns as COLUMNS says, or of the terminal somebody reads the pipe's end in."""
    said = os.environ.get("COLUMNS", "")
    return int(said) if said.isdigit() and int(said) else terminal_width()


def terminal_width() -> int:
    """Columns of the terminal that a standard stream is on; 80 where there is none."""
    for stream in (0, 1, 2):
        try:
            return os.get_terminal_size(stream).columns or 80
        except OSError:
            continue
    return 80


def _wrapped(text: str, width: int) -> list[str]:
    """Lines of at most ``width`` letters; letters that no terminal shows are left out.

    >>> _wrapped("pull it  up", 7)
    ['pull it', 'up']
    """
    clean = "".join(letter for letter in text if letter.isprintable() or letter == "\n")
    wrap = textwrap.TextWrapper(width, break_on_hyphens=False, replace_whitespace=False)
    return [line for part in clean.split("\n") for line in wrap.wrap(part) or [""]]
