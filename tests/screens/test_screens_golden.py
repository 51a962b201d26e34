"""Whole series as people see them in a terminal, with back, why, not sure, so far, Ctrl-C and a window resized.

After a wanted change: pytest tests/screens --rewrite-golden, and read the difference.
"""

from __future__ import annotations

import io
import os
import re
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

import pexpect
import pytest

from triage.book.casefile import load_case
from triage.intake import build_case
from triage.journal import open_journal
from triage.model.book import Book
from triage.model.case import Case
from triage.reasoning import Engines
from triage.report.names import Names
from triage.screens import wording
from triage.screens.answer import render_answer
from triage.screens.grower import WrittenGrower
from triage.screens.series import Series
from triage.screens.style import build_console
from triage.session import Session

ROOT = Path(__file__).resolve().parents[2]
GOLDEN = ROOT / "tests" / "golden"
CASES = {
    "iron": GOLDEN / "cases" / "iron.yaml",
    "mites": GOLDEN / "cases" / "mites.yaml",
    "two": GOLDEN / "cases" / "two.yaml",
    "well": GOLDEN / "cases" / "well.yaml",
    "fish": ROOT / "demo" / "gasping.yaml",
}
#: What is typed at a question (by its place among the prompts) before its answer: an answer may be taken back (b), the
#: window narrowed or widened, the series left with Ctrl-C and taken up again.
BESIDES: Mapping[str, Mapping[int, Sequence[str]]] = {
    "iron": {1: ["w"], 4: ["b", "again"], 5: ["p", "w", "s"]},
    "mites": {3: ["wider"], 4: ["as before"], 5: ["w", "p"]},
    "two": {2: ["Ctrl-C"], 5: ["s", "Ctrl-C"]},
    "well": {0: ["h"], 5: ["w"], 8: ["b", "again"]},
    "fish": {4: ["b", "again"], 5: ["s"]},
}
ESCAPED = re.compile(r"\x1b\[\?2004[hl]|\x1b\[\?1034h|[\r\x07]")
COLOUR = re.compile(r"\x1b\[[0-9;]*m")


def case_of(name: str, book: Book) -> Case:
    return build_case(load_case(CASES[name]), book, today="2026-05-04")


def played(
    case: Case, book: Book, engines: Engines, colour: bool, width: int = 80
) -> tuple[list[tuple[str, str]], str]:
    """A series answered as the case says: each prompt with what was typed, and the screen with its answer."""
    session = Session(book, on=case.on, system=case.system, readings=case.readings, engines=engines)
    out = io.StringIO()
    console = build_console(width=80, file=out, colour=colour)
    console.height = 12  # no room for pictures
    grower, said = WrittenGrower(case), []

    def ask(prompt: str) -> str:
        typed = grower.ask(prompt)
        said.append((prompt, typed))
        return typed

    grower.series = Series(session, console, ask, record=lambda told: None, forget=lambda: None)
    render_answer(grower.series.run(), console, Names(book), heard=False)
    return said, out.getvalue()


class Window:
    """A terminal in which the command runs, and everything it has shown."""

    def __init__(self, home: Path, cache: Path, case: Case, width: int, colour: bool) -> None:
        kept = {key: value for key, value in os.environ.items() if not key.startswith(("COL", "LINES", "NO_C", "LC_"))}
        plain = {} if colour else {"NO_COLOR": "1"}
        self.environment = kept | plain | {
            "PYTHONPATH": str(ROOT), "TRIAGE_CACHE": str(cache), "TERM": "xterm-256color", "INPUTRC": os.devnull,
            "LANG": "C.UTF-8", "LANGUAGE": "",
        }  # fmt: skip
        self.command = ["-m", "triage", "plant", "--on", case.on, "--home", str(home)]
        self.width, self.shown = width, ""
        self.start()

    def start(self) -> None:
        self.child = pexpect.spawn(
            sys.executable, self.command, env=self.environment, dimensions=(45, self.width), encoding="utf-8",
            timeout=30,
        )  # fmt: skip

    def show(self, *more: str) -> None:
        self.shown += ESCAPED.sub("", "".join((str(self.child.before), *more)))

    def answer(self, prompt: str, typed: str) -> None:
        """Wait for a prompt and type a line; how the terminal echoes it is not kept."""
        self.child.expect_exact(prompt)
        self.show(prompt, typed, "\n")
        self.child.sendline(typed)
        self.child.expect_exact("\r\n")

    def resize(self, prompt: str, width: int) -> None:
        """Another width while a question waits; Enter then puts it anew."""
        self.child.expect_exact(prompt)
        self.show(f"{prompt}\n[the window is {width} columns wide now]\n")
        self.child.setwinsize(45, width)
        self.child.sendline("")
        self.child.expect_exact("\r\n")

    def stop(self, prompt: str) -> None:
        """Ctrl-C at a prompt, and the same command once more, which offers to go on."""
        self.child.expect_exact(prompt)
        self.show(prompt, "^C\n")
        self.child.sendintr()
        self.end()
        self.shown += "$ triage plant\n"
        self.start()
        self.answer(wording.RESUME_PROMPT, "y")

    def end(self) -> None:
        self.child.expect(pexpect.EOF)
        self.show()
        self.child.close()


def acted(window: Window, said: Sequence[tuple[str, str]], besides: Mapping[int, Sequence[str]]) -> None:
    """Type what was said, and what is done besides."""
    for place, (prompt, typed) in enumerate(said):
        for word in besides.get(place, ()):
            if word == "Ctrl-C":
                window.stop(prompt)
            elif word in ("wider", "as before"):
                window.resize(prompt, window.width + (40 if word == "wider" else 0))
            elif word == "again":
                window.answer(*said[place - 1])
            else:
                window.answer(prompt, word)
        window.answer(prompt, typed)
    window.end()


@pytest.mark.parametrize("colour", [False, True], ids=["plain", "colour"])
@pytest.mark.parametrize("width", [60, 80])
@pytest.mark.parametrize("name", CASES)
def test_a_whole_series_looks_as_it_did(
    name: str, width: int, colour: bool, book: Book, engines: Engines, cache: Path, tmp_path: Path,
    request: pytest.FixtureRequest,
) -> None:  # fmt: skip
    case = case_of(name, book)
    with open_journal(tmp_path, now=lambda: f"{case.on}T10:00:00") as journal:
        journal.save_system(case.system)
        journal.add_readings(case.readings)
    window = Window(tmp_path, cache, case, width, colour)
    try:
        acted(window, played(case, book, engines, colour=False)[0], BESIDES[name])
    finally:
        window.child.close(force=True)
    golden = GOLDEN / f"{name}-{width}-{'colour' if colour else 'plain'}.txt"
    if request.config.getoption("--rewrite-golden"):
        golden.write_text(window.shown, encoding="utf-8")
    assert window.shown == golden.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", CASES)
def test_colour_says_nothing_that_is_not_written(name: str, book: Book, engines: Engines) -> None:
    case = case_of(name, book)
    plain, coloured = (played(case, book, engines, colour)[1] for colour in (False, True))
    assert "\x1b" not in plain
    assert "\x1b" in coloured
    hint = f"  {wording.PICTURES_ASKED}\n"
    assert COLOUR.sub("", coloured).replace(hint, "") == plain
