"""What every command shares: the home, the book, the console, `--json`."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from datetime import date
from functools import lru_cache
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from ..book.cache import open_book
from ..errors import UsageError
from ..model.book import Book
from ..report.case_report import encode_json, report_as_data

if TYPE_CHECKING:
    from rich.console import Console

    from ..journal import Journal
    from ..model.case import System
    from ..model.quantity import Reading
    from ..model.rule import Rule
    from ..model.way import Schedule
    from ..screens.page import Page

Command = TypeVar("Command", bound=Callable[..., Any])


def home_option(command: Command) -> Command:
    """`--home DIR` after the command's name, as well as before it."""
    return click.option(
        "--home", type=click.Path(file_okay=False), help="Where the journal and your own knowledge live."
    )(command)


def json_option(command: Command) -> Command:
    """`--json`: one JSON object on standard output, no questions."""
    return click.option("--json", "as_json", is_flag=True, help="Print one JSON object; ask nothing.")(command)


def plain_option(command: Command) -> Command:
    """`--plain` after the command's name, as well as before it."""

    def note(ctx: click.Context, _: click.Parameter, said: bool) -> None:
        if said:
            ctx.find_root().obj["plain"] = True

    return click.option(
        "--plain", is_flag=True, expose_value=False, callback=note,
        help="For screen readers: no colours, no pictures, words for signs.",
    )(command)  # fmt: skip


def home_folder(home: str | None) -> Path:
    """The folder of the journal and the grower's own knowledge: as said, or the platform's user-data folder."""
    said = home or click.get_current_context().find_root().obj.get("home")
    if said:
        return Path(said)
    from platformdirs import user_data_path

    return user_data_path("triage", appauthor=False)


def cache_folder() -> Path | None:
    """Where compiled books are kept; TRIAGE_CACHE='' turns the cache off."""
    said = os.environ.get("TRIAGE_CACHE")
    if said is not None:
        return Path(said) if said else None
    from platformdirs import user_cache_path

    return user_cache_path("triage", appauthor=False)


def open_own_book(home: Path) -> Book:
    """The built-in book with the grower's own folder (HOME/knowledge) laid over it, in the language a person reads."""
    book = open_book_in(home, spoken_language())
    if book.language or "triage.screens.speech" in sys.modules:
        from ..screens.speech import speak

        speak(book.screens)
    return book


@lru_cache(maxsize=2)
def open_book_in(home: Path, language: str) -> Book:
    """The same in a language ('': English); read once a command."""
    return open_book(home / "knowledge", cache_folder(), _make_schedule, language)


def spoken_language() -> str:
    """The language a person reads in; '' for English, in which programs (``--json``) and the journal are spoken to."""
    context = click.get_current_context(silent=True)
    if context is None or context.params.get("as_json"):
        return ""
    return str(context.find_root().obj.get("language", ""))


def speak_here() -> None:
    """Let the screens speak that language; they do so in English from the start."""
    if spoken_language():
        open_own_book(home_folder(click.get_current_context().params.get("home")))


def own_book_here(home: Path, on: str) -> Book:
    """The same with what this home's journal knew on a day."""
    from ..recall.garden import book_here

    with open_home_journal(home, read_only=True) as journal:
        return book_here(open_own_book(home), journal, on)


def _make_schedule(rules: Mapping[str, Rule]) -> Schedule:
    from ..rules.plan import make_schedule

    return make_schedule(rules)


@contextmanager
def in_english(home: Path) -> Iterator[Book]:
    """The book in English, and reports in English meanwhile: so the journal is kept, whatever language is read."""
    from ..screens.speech import speak

    speak({})
    try:
        yield open_book_in(home, "")
    finally:
        speak_here()


def retold(home: Path, report: str) -> str:
    """A report as the journal keeps it, in the language that is read."""
    if not spoken_language():
        return report
    from ..book.languages import retell, texts_by_english

    texts = texts_by_english(open_book_in(home, ""), open_own_book(home))
    return json.dumps(retell(json.loads(report), texts))


def open_home_journal(home: Path, *, read_only: bool = False) -> Journal:
    """The journal of this home. Errors: JournalError."""
    from datetime import datetime

    from ..journal import open_journal

    return open_journal(
        home, now=lambda: datetime.now().astimezone().isoformat(timespec="milliseconds"), read_only=read_only
    )


def has_journal(home: Path) -> bool:
    """Whether anything was ever recorded in this home."""
    return (home / "journal.sqlite3").is_file()


def load_saved(home: Path, on: str | None = None) -> tuple[System | None, tuple[Reading, ...]]:
    """The saved system and the readings of the months before a day (today) of this home; nothing is created."""
    if not has_journal(home):
        return None, ()
    from ..recall.readings import readings_until

    with open_home_journal(home, read_only=True) as journal:
        return journal.load_system(), readings_until(journal, on or today())


def today() -> str:
    """The day of the look; the clock is read at the edge only."""
    return date.today().isoformat()


def day(text: str | None) -> str:
    """An ISO date as said, or today. Errors: UsageError."""
    if not text:
        return today()
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise UsageError(f"'{text}' is not a date (write it as 2026-05-03)") from None


def console() -> Console:
    """The console for answers (standard output)."""
    from ..screens.style import build_console

    speak_here()
    return build_console(spoken=is_plain())


def page() -> Page:
    """The page for answers that nobody is asked on: standard output, without rich where nobody sees colours."""
    from ..screens.page import open_page

    speak_here()
    return open_page(spoken=is_plain())


def is_plain() -> bool:
    """Whether the screen is read aloud (``--plain``)."""
    context = click.get_current_context(silent=True)
    return context is not None and bool(context.find_root().obj.get("plain"))


def print_json(value: Any) -> None:
    """One JSON object on standard output."""
    click.echo(encode_report(value))


def on_terminal() -> bool:
    """Whether there is somebody to ask."""
    return sys.stdin.isatty() and sys.stdout.isatty()


def ask(prompt: str) -> str:
    """A line typed by the person; EOFError when nobody is there any more."""
    if on_terminal():
        return _ask_on_terminal(prompt)
    click.echo(prompt, nl=False)
    if isinstance(sys.stdin, TextIOWrapper) and sys.stdin.errors != "replace":
        sys.stdin.reconfigure(errors="replace")  # what is not UTF-8 must not stop a series
    line = sys.stdin.readline()
    click.echo(line.rstrip("\n"))
    if not line:
        raise EOFError
    return line.rstrip("\n")


def _ask_on_terminal(prompt: str) -> str:
    """With the arrow keys where the platform has them, and a dumb terminal can do without."""
    if os.environ.get("TERM", "dumb") != "dumb":
        with suppress(ImportError):
            import readline  # noqa: F401 - input() uses it once it is there
    try:
        return input(prompt)
    except EOFError:
        click.echo()
        raise


def encode_report(report: Any) -> str:
    """JSON text of a report, in the documented shape."""
    return encode_json(report_as_data(report))
