"""A table as a whole: the mark between its columns, what it is refused for, and what is kept of a refused line."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from triage.errors import UsageError
from triage.model.interval import Interval
from triage.model.quantity import Quantity, Reading
from triage.water.readings import parse_assignment
from triage.water.table import Asked, read_table
from triage.water.terms import Term, share
from triage.water.trend import change_per_day

Book = Mapping[str, Quantity]


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_the_mark_between_columns_is_found_in_the_first_line(quantities: Book, mark: str) -> None:
    lines = [["date", "ph", "weather"], ["2026-05-03", "7.2", "a, b; c, d; e"], ["2026-05-04", "7.3", ",,,;;;"]]
    text = "\n".join(mark.join(cells if mark == "\t" else [*cells[:2], f'"{cells[2]}"']) for cells in lines)
    table = read_table(text, quantities, Asked())
    assert [(reading.on, reading.value) for reading in table.readings] == [("2026-05-03", 7.2), ("2026-05-04", 7.3)]
    assert [column.role for column in table.columns] == ["date", "reading", "unread"]


def test_many_marks_further_down_do_not_count(quantities: Book) -> None:
    table = read_table("date,ph\n2026-05-03,7.2\n;;;;;;,\n", quantities, Asked())
    assert [reading.value for reading in table.readings] == [7.2]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "the file is empty (its first line heads the columns)"),
        ("\n", "the file is empty (its first line heads the columns)"),
        (" , \ndate,ph\n2026-05-03,7", "the file is empty (its first line heads the columns)"),
        ("ph\n7", "no column is a date (head one 'date', or say --on DAY for all of them)"),
    ],
)
def test_why_a_file_is_refused(quantities: Book, text: str, says: str) -> None:
    with pytest.raises(UsageError) as refused:
        read_table(text, quantities, Asked())
    assert str(refused.value) == says


def test_what_csv_cannot_read_is_said(quantities: Book) -> None:
    with pytest.raises(UsageError, match=r"^this is not a table in CSV \(.+\)$"):
        read_table("date,ph\n2026-05-03," + "7" * 200_000, quantities, Asked())


def test_a_refused_line_is_kept_whole_with_every_reason(quantities: Book) -> None:
    table = read_table("date,ph,iron\n2026-05-03,99,-1,more\n", quantities, Asked())
    (refused,) = table.refused
    assert (refused.line, refused.text) == (2, "2026-05-03, 99, -1, more")
    assert refused.why[0] == "4 cells under 3 headings"
    assert [why.split(":")[0] for why in refused.why[1:]] == ["ph", "iron"]


def test_a_line_may_be_shorter_than_the_headings(quantities: Book) -> None:
    table = read_table("date,ph,iron\n2026-05-03,7.2\n", quantities, Asked())
    assert [(reading.quantity, reading.value) for reading in table.readings] == [("ph", 7.2)]


def test_a_quantity_that_begins_like_a_sampling_point_is_no_point(quantities: Book) -> None:
    reading = parse_assignment("top-up-per-day=5", quantities)
    assert (reading.quantity, reading.point) == ("top-up-per-day", "")


def test_a_share_of_what_may_be_nothing_is_not_said() -> None:
    some = Term(1.0, Interval(1.0, 1.0))
    assert share(some, Term(0.5, Interval(0.0, 1.0))) is None
    assert share(some, Term(0.5, Interval(-0.5, 1.0))) is None
    little = share(some, Term(0.5, Interval(0.25, 1.0)))
    assert little is not None
    assert (little.value, little.span) == (2.0, Interval(1.0, 4.0))


def test_the_change_of_few_days_is_that_of_the_window_asked_for(quantities: Book) -> None:
    def ph(value: float, on: str) -> Reading:
        return Reading(quantity="ph", value=value, low=value, high=value, on=on)

    old = [ph(5.0 + place, f"2026-04-0{1 + place}") for place in range(3)]
    new = [ph(7.0, "2026-04-29"), ph(6.8, "2026-04-30")]
    found = change_per_day([*old, *new], quantities["ph"], "2026-05-01", window_days=5)
    assert found is not None
    assert found[0] == pytest.approx(-0.2)
