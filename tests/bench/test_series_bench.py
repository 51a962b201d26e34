"""No simulated grower is asked too much, twice, or for a lens before a glance: a sample, the script does all."""

from __future__ import annotations

from accuracy_cases import load_cases
from series_watched import GROWERS, STARTS, run_watched

from triage.model.book import Book
from triage.reasoning import Engines
from triage.screens.series import LONGEST


def test_series_are_short_and_ask_nothing_twice(book: Book) -> None:
    engines = Engines(book)
    for case in load_cases("tune")[::20]:
        for start in STARTS:
            for grower in GROWERS:
                watched = run_watched(case, engines, start, grower)
                assert len(watched.asked) <= LONGEST == 15, case["id"]
                assert not watched.faults, case["id"]
