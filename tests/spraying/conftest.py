"""The built-in book and a judge for a small glasshouse."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from triage.book.load import load_book
from triage.model.book import Book
from triage.model.case import System
from triage.spraying import Judge
from triage.water.readings import make_reading

ON = "2026-05-04"
MakeJudge = Callable[..., Judge]


@pytest.fixture(scope="session")
def spray_book() -> Book:
    return load_book()


@pytest.fixture(scope="session")
def make_judge(spray_book: Book) -> MakeJudge:
    """A judge for so many litres, these animals and these readings (name and value)."""

    def make(volume_l: float | None = 1000, animals: tuple[str, ...] = ("tilapia",), **readings: float) -> Judge:
        measured = [make_reading(name, value, spray_book.quantities, on=ON) for name, value in sorted(readings.items())]
        return Judge(spray_book, System(volume_l=volume_l, animals=animals), measured, on=ON)

    return make


@pytest.fixture(scope="session")
def judge(make_judge: MakeJudge) -> Judge:
    """A thousand litres, tilapia, fair water."""
    return make_judge(1000, ("tilapia",), oxygen=8.3, alkalinity=80, ph=7.0, temperature=25)
