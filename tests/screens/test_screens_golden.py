"""Whole series and answers as people see them. After a wanted change: pytest tests/screens --rewrite-golden, and read
the difference."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest

from triage.book.casefile import load_case
from triage.intake import build_case
from triage.model.book import Book
from triage.reasoning import Engines
from triage.report.build import names_of
from triage.screens.answer import render_answer
from triage.screens.grower import WrittenGrower
from triage.screens.series import Series
from triage.screens.style import build_console
from triage.session import Session

GOLDEN = Path(__file__).resolve().parents[1] / "golden"
DEMO = Path(__file__).resolve().parents[2] / "demo"
CASES = {
    "iron": DEMO / "iron.yaml",
    "mites": DEMO / "mites.yaml",
    "two": GOLDEN / "cases" / "two.yaml",
    "well": GOLDEN / "cases" / "well.yaml",
    "fish": DEMO / "gasping.yaml",
}


def screen(case_file: Path, book: Book, engines: Engines, width: int, colour: bool) -> str:
    """A series answered as the case says, and the answer."""
    case = build_case(load_case(case_file), book, today="2026-05-04")
    session = Session(book, on=case.on, system=case.system, readings=case.readings, engines=engines)
    out = io.StringIO()
    console = build_console(width=width, file=out, colour=colour)
    grower = WrittenGrower(case)

    def ask(prompt: str) -> str:
        typed = grower.ask(prompt)
        out.write(f"{prompt}{typed}\n")
        return typed

    grower.series = Series(session, console, ask, record=lambda told: None, forget=lambda: None)
    report = grower.series.run()
    render_answer(report, console, names_of(book), heard=False)
    return out.getvalue()


@pytest.mark.parametrize("colour", [False, True], ids=["plain", "colour"])
@pytest.mark.parametrize("width", [60, 80])
@pytest.mark.parametrize("name", CASES)
def test_a_whole_series_looks_as_it_did(
    name: str, width: int, colour: bool, book: Book, engines: Engines, request: pytest.FixtureRequest
) -> None:
    golden = GOLDEN / f"{name}-{width}-{'colour' if colour else 'plain'}.txt"
    shown = screen(CASES[name], book, engines, width, colour)
    if request.config.getoption("--rewrite-golden"):
        golden.write_text(shown, encoding="utf-8")
    assert shown == golden.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", CASES)
def test_colour_says_nothing_that_is_not_written(name: str, book: Book, engines: Engines) -> None:
    plain, coloured = (screen(CASES[name], book, engines, 80, colour) for colour in (False, True))
    assert "\x1b" not in plain
    assert "\x1b" in coloured
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == plain
