"""What is asked every day looks up as much in a journal of many years as in a short one: counted, not timed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from triage.journal import Journal, open_journal
from triage.model.book import Book
from triage.model.case import System
from triage.recall.due import due_on
from triage.recall.garden import book_here, garden_on
from triage.recall.listing import Wanted, list_wanted

Ask = Callable[[Book, Journal], object]
ASKED: dict[str, Ask] = {
    "today": lambda book, journal: due_on(book, journal, "2026-05-10"),
    "case list": lambda book, journal: list_wanted(book, journal, Wanted(), limit=20),
    "plant": lambda book, journal: book_here(book, journal, "2026-05-10"),
    "garden": lambda book, journal: garden_on(book, journal, "2026-05-10"),
}


def statements(home: Path, book: Book, closed: int, ask: Ask) -> int:
    """How many statements are run to answer, with three open cases and so many closed and proven ones."""
    with open_journal(home, now=lambda: "2024-05-20T10:00:00") as journal, journal.all_or_nothing():
        for n in range(closed):
            number = journal.begin_case(f"2024-05-{1 + n % 9:02d}", "basil", System())
            journal.finish_case(number, "{}", "0", "0")
            journal.record_action(number, "iron chelate", "2024-05-11")
            journal.record_outcome(number, ["iron-deficiency"], "", "2024-05-12")
            journal.close_case(number, "well again")
        for _ in range(3):
            number = journal.begin_case("2026-05-04", "basil", System())
            journal.finish_case(number, "{}", "0", "0")
    run: list[str] = []
    with open_journal(home, now=lambda: "", read_only=True) as journal:
        journal._database._sql.set_trace_callback(run.append)
        ask(book, journal)
    return len(run)


@pytest.mark.parametrize("name", list(ASKED))
def test_closed_cases_cost_no_further_look_ups(book: Book, tmp_path: Path, name: str) -> None:
    few, many = (statements(tmp_path / str(closed), book, closed, ASKED[name]) for closed in (30, 300))
    assert few == many > 0


def test_what_is_said_is_the_same_however_it_is_looked_up(book: Book, tmp_path: Path) -> None:
    from triage.followup.due import list_due
    from triage.recall.cases import list_open, list_standing

    statements(tmp_path, book, 30, ASKED["today"])
    with open_journal(tmp_path, now=lambda: "2026-05-10T10:00:00") as journal:
        for on in ("2024-05-05", "2024-05-13", "2024-05-21", "2026-05-10"):
            every = list_due(book, list_standing(book, journal, until=on), (), on=on)
            assert list_due(book, list_open(book, journal, on, acted_after="2024-01-01"), (), on=on) == every
            assert due_on(book, journal, on) == every
