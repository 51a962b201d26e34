"""Tables of readings: nothing is guessed, a bad row goes alone, and the same file twice adds nothing."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from triage.cli import triage
from triage.errors import UsageError
from triage.model.quantity import Quantity
from triage.water.columns import read_columns
from triage.water.table import Asked, Table, read_table

Book = Mapping[str, Quantity]
TODAY = "2026-06-01"


def read(text: str, quantities: Book, **more: Any) -> Table:
    return read_table(text, quantities, Asked(today=TODAY, **more))


def told(table: Table) -> list[tuple[str, str, float]]:
    return [(reading.on, reading.quantity, round(reading.value, 3)) for reading in table.readings]


def why(table: Table) -> dict[int, str]:
    return {row.line: "; ".join(row.why) for row in table.refused}


def test_usual_headings(quantities: Book) -> None:
    headers = ["Date", "pH", "Temp °C", "NO3 (mg/L NO3)", "KH [dKH]", "Ammonia mg/L N", "DO", "Sample point", "Remarks"]
    columns = read_columns(headers, quantities)
    assert [(column.role, column.quantity, column.unit) for column in columns] == [
        ("date", "", ""), ("reading", "ph", ""), ("reading", "temperature", "°C"), ("reading", "nitrate", "mg/L NO3"),
        ("reading", "kh", "dKH"), ("reading", "ammonia", "mg/L N"), ("reading", "oxygen", ""), ("point", "", ""),
        ("unread", "", ""),
    ]  # fmt: skip


def test_a_column_for_each_quantity(quantities: Book) -> None:
    table = read("date,pH,KH (dKH),tan\n2026-05-03,7.2,4,<=0.25\n2026-05-10,7.4,,\n", quantities)
    assert told(table) == [
        ("2026-05-03", "ph", 7.2), ("2026-05-03", "alkalinity", 71.392), ("2026-05-03", "tan", 0.25),
        ("2026-05-10", "ph", 7.4),
    ]  # fmt: skip
    assert table.readings[2].bound == "<="


def test_a_line_for_each_reading(quantities: Book) -> None:
    text = "date,quantity,value,unit,kit\n2026-05-03,nitrate,9,mg/L N,card\n2026-05-03,iron,0.5,,card\n"
    table = read(text, quantities)
    assert told(table) == [("2026-05-03", "nitrate", 39.84), ("2026-05-03", "iron", 0.5)]
    assert {reading.kit for reading in table.readings} == {"card"}


def test_decimals_with_a_comma_are_asked_for(quantities: Book) -> None:
    text = "date;ph\n2026-05-03;7,2\n"
    with pytest.raises(UsageError, match=r"line 2: '7,2' can be read in two ways \(say --decimal comma"):
        read(text, quantities)
    assert told(read(text, quantities, decimal="comma")) == [("2026-05-03", "ph", 7.2)]
    assert "does not fit" in why(read(text, quantities, decimal="point"))[2]
    assert "does not fit" in why(read("date;ph\n2026-05-03;7.2\n", quantities, decimal="comma"))[2]


def test_thousands(quantities: Book) -> None:
    assert told(read("date;feed\n2026-05-03;1.250,5\n", quantities, decimal="comma")) == [
        ("2026-05-03", "feed", 1250.5)
    ]
    assert told(read('date;feed\n2026-05-03;"1,250"\n', quantities, decimal="point")) == [("2026-05-03", "feed", 1250)]


def test_the_order_of_dates_is_asked_for(quantities: Book) -> None:
    text = "date,ph\n03/05/2026,7.2\n"
    with pytest.raises(UsageError, match=r"line 2: '03/05/2026' can be read in two ways \(say --dates dmy"):
        read(text, quantities)
    assert told(read(text, quantities, dates="dmy"))[0][0] == "2026-05-03"
    assert told(read(text, quantities, dates="mdy"))[0][0] == "2026-03-05"
    assert told(read("date,ph\n2026/05/03 8:30,7.2\n", quantities))[0][0] == "2026-05-03"
    assert read("date,ph\n2026-05-03T08:30:00,7.2\n", quantities).readings[0].time == "08:30"


def test_a_bad_row_goes_alone_and_whole(quantities: Book) -> None:
    text = (
        "date,ph,temperature\n2026-05-01,7.2,24\n2026-05-02,17,24\n2026-02-31,7.2,24\n2026-05-04,seven,24\n"
        "2027-05-05,7.2,24\n06/05/26,7.2,24\n,7.2,24\n2026-05-08,7.3,24,5\n2026-05-09,7.4,24\n"
    )
    table = read(text, quantities)
    assert [on for on, _, _ in told(table)] == ["2026-05-01"] * 2 + ["2026-05-09"] * 2
    reasons = why(table)
    assert list(reasons) == [3, 4, 5, 6, 7, 8, 9]
    for line, said in zip(reasons, ("17", "31", "seven", "future", "four digits", "no date", "4 cells"), strict=True):
        assert said in reasons[line], line


def test_every_reason_of_a_row_is_named(quantities: Book) -> None:
    (row,) = read("date,ph,iron,kit\n2026-05-40,99,-3,card\n", quantities).refused
    assert len(row.why) == 3
    assert "'2026-05-40'" in row.why[0]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "empty"),
        ("date,colour\n2026-05-03,red\n", "no column is a reading"),
        ("ph\n7.2\n", "no column is a date"),
        ("date,ph,pH value,PH\n2026-05-03,7,7,7\n", "two columns are ph"),
    ],
)
def test_files_that_cannot_be_read(quantities: Book, text: str, said: str) -> None:
    with pytest.raises(UsageError, match=said):
        read(text, quantities)


def test_the_form_of_nitrate_stays_open_where_the_heading_leaves_it(quantities: Book) -> None:
    (reading,) = read("date,nitrate\n2026-05-03,10\n", quantities).readings
    assert (reading.low, round(reading.high, 1)) == (10, 44.3)


@given(values=st.lists(st.floats(5, 9).map(lambda value: round(value, 2)), min_size=1, max_size=8))
@settings(max_examples=30)
def test_both_marks_tell_the_same(quantities: Book, values: list[float]) -> None:
    rows = [f"2026-05-{day:02d};{value:.2f}" for day, value in enumerate(values, start=1)]
    points = read("date;ph\n" + "\n".join(rows), quantities)
    commas = read("date;ph\n" + "\n".join(row.replace(".", ",") for row in rows), quantities, decimal="comma")
    assert points.readings == commas.readings


def test_through_the_command(tmp_path: Path) -> None:
    file = tmp_path / "readings.csv"
    file.write_text(
        "Datum;pH;KH (dKH)\n03.05.2026;7,2;4\n10.05.2026;7,4;99999\n17.05.2026;7,5;5\n", encoding="utf-8-sig"
    )
    home = tmp_path / "home"

    def run(*words: str, code: int = 1) -> str:
        done = CliRunner().invoke(triage, ["water", "import", str(file), "--home", str(home), *words])
        assert done.exit_code == code, done.output
        return done.stdout

    settings_ = ("--decimal", "comma", "--dates", "dmy")
    seen = run(*settings_, "--preview")
    assert "Would be recorded: 4 readings from 2 rows" in seen
    assert not (home / "journal.sqlite3").exists()
    first = json.loads(run(*settings_, "--json"))
    assert (first["added"], first["known"]) == (4, 0)
    assert [row["line"] for row in first["refused"]] == [3]
    again = json.loads(run(*settings_, "--json"))
    assert (again["added"], again["known"]) == (0, 4)
    file.write_text("date,pH\n2026-05-24,7.1\n", encoding="utf-8")
    assert "1 recorded" in run(code=0)


def test_what_is_no_table(tmp_path: Path) -> None:
    (tmp_path / "leaf.csv").write_bytes(b"\xff\xfe\x00leaf")
    for name in ("leaf.csv", "nowhere.csv"):
        done = CliRunner().invoke(triage, ["water", "import", str(tmp_path / name), "--home", str(tmp_path)])
        assert isinstance(done.exception, UsageError)
