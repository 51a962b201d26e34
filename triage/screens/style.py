"""Style names and the console: content knows names, never colours; colour never says anything alone."""

from __future__ import annotations

from typing import IO

from rich.console import Console
from rich.text import Text
from rich.theme import Theme

THEME = Theme(
    {
        "triage.heading": "bold",
        "triage.alarm": "bold reverse",
        "triage.name": "bold",
        "triage.quiet": "dim",
        "triage.sure": "italic",
        "triage.grade.ok": "bold",
        "triage.grade.keep-off-water": "bold",
        "triage.grade.away-from-system": "bold",
        "triage.grade.never": "bold reverse",
        "triage.grade.unknown": "bold reverse",
        "triage.prompt": "bold",
    },
    inherit=True,
)


def build_console(*, width: int | None = None, file: IO[str] | None = None, plain: bool = False) -> Console:
    """The console for people: 80 columns where nothing else is known, no markup, no emoji codes, no guessing."""
    console = Console(
        theme=THEME, width=width, file=file, no_color=plain or None, highlight=False, markup=False, emoji=False
    )
    if console.width > 100:
        console.width = 100
    return console


def heading(console: Console, words: str, style: str = "triage.heading") -> None:
    """A heading with a blank line before it."""
    console.print()
    console.print(Text(words, style=style))


def line(console: Console, *parts: str | tuple[str, str], indent: int = 2, bullet: str = "") -> None:
    """One paragraph, indented; a part is text, or (text, style name). A bullet hangs in the indent."""
    text = Text()
    for part in parts:
        if isinstance(part, str):
            text.append(part)
        else:
            text.append(part[0], style=part[1])
    hang = len(bullet) + 1 if bullet else 0
    for number, wrapped in enumerate(text.wrap(console, max(20, console.width - indent - hang))):
        wrapped.rstrip()
        lead = " " * indent + (f"{bullet} " if bullet and not number else " " * hang)
        console.print(Text.assemble(lead, wrapped), soft_wrap=True)
