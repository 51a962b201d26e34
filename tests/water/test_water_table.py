"""What a line of a table becomes: each cell where it belongs, and each fault in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from triage.errors import UsageError
from triage.model.quantity import Quantity, Reading
from triage.water.table import Asked, Table, read_table

Book = Mapping[str, Quantity]
TODAY = "2026-06-01"


def _read(quantities: Book, text: str, **asked: Any) -> Table:
    return read_table(text, quantities, Asked(**{"today": TODAY, **asked}))


def _one(quantities: Book, heading: str, line: str, **asked: Any) -> Reading:
    (reading,) = _read(quantities, f"{heading}\n{line}\n", **asked).readings
    return reading


def _why(quantities: Book, heading: str, line: str, **asked: Any) -> tuple[str, ...]:
    (refused,) = _read(quantities, f"{heading}\n{line}\n", **asked).refused
    return refused.why


def test_an_exported_line_comes_back_as_it_was(quantities: Book) -> None:
    heading = "date,time,quantity,value,unit,bound,value_from,value_to,kit_step,kit,point,reading_note"
    line = "2026-05-03,8:30,iron,0.5,mg/L,<=,0.1,0.6,0.25,Card,Fish Tank,total iron"
    found = _one(quantities, heading, line)
    assert (found.on, found.time, found.quantity, found.value, found.bound) == (
        "2026-05-03",
        "08:30",
        "iron",
        0.5,
        "<=",
    )
    assert (found.low, found.high, found.step, found.kit) == (0.1, 0.6, 0.25, "card")
    assert (found.point, found.note) == ("fish-tank", "total iron")


def test_what_a_line_leaves_empty_stays_as_the_reading_has_it(quantities: Book) -> None:
    heading = "date,ph,value_from,value_to,kit_step,kit,point,reading_note"
    plain = _one(quantities, heading, "2026-05-03,7.2,,,,,,")
    assert (plain.low, plain.high, plain.step, plain.kit, plain.point, plain.note, plain.time) == (
        7.2, 7.2, 0.0, "", "", "", "",
    )  # fmt: skip
    only_low = _one(quantities, heading, "2026-05-03,7.2,7,-,-0.2,,,")
    assert (only_low.low, only_low.high, only_low.step) == (7.0, 7.2, 0.2)
    assert _one(quantities, "date,ph,value_to", "2026-05-03,7.2,7.4").high == 7.4


def test_a_note_is_freed_of_its_guard_and_of_what_cannot_be_printed(quantities: Book) -> None:
    assert _one(quantities, "date,ph,reading_note", "2026-05-03,7.2,'=sump").note == "=sump"
    assert _one(quantities, "date,ph,reading_note", "2026-05-03,7.2,a\x07 b").note == "a b"
    kept = _one(quantities, "date,nitrate", "2026-05-03,10")
    assert kept.note  # what the program itself notes of an open form stays where the table has no column for it


def test_ends_are_in_the_unit_of_the_cell(quantities: Book) -> None:
    found = _one(quantities, "date,quantity,value,unit,value_from,value_to", "2026-05-03,kh,4,dKH,3,5")
    assert (found.quantity, round(found.low, 1), round(found.high, 1)) == ("alkalinity", 53.5, 89.2)
    comma = _one(quantities, "date;ph;value_from;value_to", "2026-05-03;7,2;7,1;7,3", decimal="comma")
    assert (comma.low, comma.high) == (7.1, 7.3)


def test_ends_upside_down_are_refused(quantities: Book) -> None:
    assert _why(quantities, "date,ph,value_from,value_to", "2026-05-03,7.2,8,7") == (
        "ph: nothing lies from 8 to 7 (write the lower value first)",
    )


def test_what_was_asked_for_the_whole_table_holds_where_a_line_says_nothing(quantities: Book) -> None:
    asked = {"on": "2026-05-01", "kit": "Card", "point": "Fish tank"}
    found = _one(quantities, "date,ph,kit,point", ",7.2,,", **asked)
    assert (found.on, found.kit, found.point) == ("2026-05-01", "card", "fish-tank")
    own = _one(quantities, "date,ph,kit,point", "2026-05-03,7.2,drops,sump", **asked)
    assert (own.on, own.kit, own.point) == ("2026-05-03", "drops", "sump")
    assert _one(quantities, "ph", "7.2", on="2026-05-02").on == "2026-05-02"


def test_the_column_of_the_time_goes_before_the_time_in_the_date(quantities: Book) -> None:
    assert _one(quantities, "date,time,ph", "2026-05-03 09:15,10:45,7.2").time == "10:45"
    assert _one(quantities, "date,time,ph", "2026-05-03 9:15,,7.2").time == "09:15"


def test_a_unit_in_the_cell_goes_before_that_of_the_heading(quantities: Book) -> None:
    assert round(_one(quantities, "date,temperature (F)", "2026-05-03,77").value, 1) == 25.0
    assert _one(quantities, "date,temperature (F)", "2026-05-03,25 °C").value == 25.0
    assert round(_one(quantities, "date,quantity,value,unit", "2026-05-03,temperature,77,F").value, 1) == 25.0
    assert _one(quantities, "date,quantity,value,unit", "2026-05-03,temperature,25 C,F").value == 25.0


def test_a_value_without_a_quantity_is_refused(quantities: Book) -> None:
    (said,) = _why(quantities, "date,quantity,value", "2026-05-03,,7.2")
    assert said.startswith("no reading ''")


def test_empty_cells_beyond_the_headings_are_no_fault(quantities: Book) -> None:
    assert _one(quantities, "date,ph", "2026-05-03,7.2,, ").value == 7.2
    assert _why(quantities, "date,ph", "2026-05-03,7.2,,9") == ("4 cells under 2 headings",)
    short = _read(quantities, "date,ph,iron\n2026-05-03,7.2\n")
    assert [reading.quantity for reading in short.readings] == ["ph"]


def test_a_line_without_any_reading_is_neither_taken_nor_refused(quantities: Book) -> None:
    table = _read(quantities, "date,ph\n2026-05-03,\n,,\n2026-05-04,7\n")
    assert ([row.line for row in table.rows], table.refused) == ([4], ())


@pytest.mark.parametrize(
    ("text", "asked", "said"),
    [
        ("03.05.26", {"dates": "dmy"}, "'03.05.26' is not a date (write the year with four digits)"),
        ("May 3", {}, "'May 3' is not a date (write it as 2026-05-03)"),
        ("", {}, "no date"),
        ("03.05.2026", {"dates": "ymd"}, "'03.05.2026' does not begin with the year"),
        ("31.02.2026", {"dates": "dmy"}, "'31.02.2026' is not a day of any month"),
        ("2026-06-02", {}, "'2026-06-02' is in the future"),
    ],
)
def test_what_is_wrong_with_a_date(quantities: Book, text: str, asked: dict[str, str], said: str) -> None:
    assert _why(quantities, "date,ph", f"{text},7.2", **asked) == (said,)


def test_today_is_not_the_future_and_without_a_today_nothing_is(quantities: Book) -> None:
    assert _one(quantities, "date,ph", f"{TODAY},7.2").on == TODAY
    assert _one(quantities, "date,ph", "2030-01-01,7.2", today="").on == "2030-01-01"


@pytest.mark.parametrize(
    ("cell", "decimal", "value"),
    [
        ("1.250,5", "comma", 1250.5), ("1250,5", "comma", 1250.5), ("12", "comma", 12), ("1.250", "comma", 1250),
        ('"1,250.5"', "point", 1250.5), ('"1,250"', "point", 1250), ("1250.5", "point", 1250.5), ("12", None, 12),
        ("1250.5", None, 1250.5),
    ],
)  # fmt: skip
def test_numbers_by_the_mark_that_was_told(quantities: Book, cell: str, decimal: str | None, value: float) -> None:
    mark = ";" if decimal == "comma" else ","
    assert _one(quantities, f"date{mark}feed", f"2026-05-03{mark}{cell}", decimal=decimal).value == value


@pytest.mark.parametrize(
    ("cell", "decimal"), [("1.25,5", "comma"), ("1,2,3", "comma"), ("1,5.2", "comma"), ("7.25", "comma")]
)
def test_numbers_that_do_not_fit_the_mark(quantities: Book, cell: str, decimal: str) -> None:
    (said,) = _why(quantities, "date;feed", f"2026-05-03;{cell}", decimal=decimal)
    assert said == f"'{cell}' does not fit decimals written with a comma"


@pytest.mark.parametrize(("cell", "shown"), [('"12,50"', "12,50"), ('"1,2.5,0"', "1,2.5,0"), ('"1.2,5"', "1.2,5")])
def test_numbers_that_do_not_fit_a_point(quantities: Book, cell: str, shown: str) -> None:
    (said,) = _why(quantities, "date,feed", f"2026-05-03,{cell}", decimal="point")
    assert said == f"'{shown}' does not fit decimals written with a point"


def test_the_line_that_can_be_read_in_two_ways_is_named(quantities: Book) -> None:
    with pytest.raises(UsageError) as caught:
        _read(quantities, "date;ph\n2026-05-03;7\n2026-05-04;7,2\n")
    assert str(caught.value) == "line 3: '7,2' can be read in two ways (say --decimal comma or --decimal point)"
    with pytest.raises(UsageError) as caught:
        _read(quantities, "date;ph;value_from\n2026-05-03;7;6,5\n")
    assert str(caught.value).startswith("line 2: '6,5' can be read in two ways")
