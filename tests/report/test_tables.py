"""Readings and cases as tables: no cell is a formula, every digit is kept, every column is named in the guide."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path

from hypothesis import example, given
from hypothesis import strategies as st

from triage.report.case_sheet import MeasuredLine
from triage.report.own_words import Own
from triage.report.tables import READING_COLUMNS, CaseRow, cases_csv, readings_csv
from triage.water.cells import guard_text, number_text, unguard_text

GUIDE = (Path(__file__).resolve().parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")


def a_case(text: str) -> CaseRow:
    return CaseRow(
        case=1, date="2026-05-04", state="closed", crop="basil", bed=Own(text), plant=Own(text), cause="aphids",
        probability=0.5, second_cause="", second_probability=None, proven=(), looks=1, last_look="2026-05-04",
        verdict="", treatments=("rinse-leaves", "ladybirds"), last_done="", closed="", outcome=Own(text), book="0.1.0",
    )  # fmt: skip


def cells(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text)))


@given(text=st.text())
@example(text="=cmd|'/c x'!A1")
@example(text="＝1+1")
@example(text="'=1")
@example(text="\t=1")
def test_no_text_is_a_formula_and_every_text_comes_back(text: str) -> None:
    guarded = guard_text(text)
    assert guarded[:1] not in [*"=+-@\t\r\n", "＝", "＋", "－", "＠"]
    assert unguard_text(guarded) == text


@given(text=st.text(st.characters(exclude_categories=["C", "Z"])))
@example(text='=HYPERLINK("http://x.example","a")')
@example(text="-1")
def test_own_words_in_a_table_are_guarded_and_stay_in_their_cell(text: str) -> None:
    header, row = cells(cases_csv([a_case(text)]))
    kept = dict(zip(header, row, strict=True))
    assert [unguard_text(kept[name]) for name in ("bed", "plant", "outcome")] == [text] * 3
    assert all(cell[:1] not in set("=+-@＝＋－＠") for cell in row if cell)


@given(value=st.floats(allow_nan=False, allow_infinity=False))
@example(value=5e-324)
@example(value=-0.5)
def test_numbers_keep_every_digit_without_an_exponent(value: float) -> None:
    text = number_text(value)
    assert float(text) == value
    assert re.fullmatch(r"-?\d+(\.\d+)?", text)


def test_a_negative_reading_is_a_number() -> None:
    cold = MeasuredLine(
        quantity="air-temperature", name="Air", on="2026-01-04", time="08:00", value=-1.5, bound="=", unit="°C",
        low=-1.5, high=None, step=0.0, kit="", point="", note=Own("=1"),
    )  # fmt: skip
    header, row = cells(readings_csv([cold]))
    assert dict(zip(header, row, strict=True)) == {
        "date": "2026-01-04", "time": "08:00", "quantity": "air-temperature", "value": "-1.5", "bound": "",
        "unit": "°C", "value_from": "-1.5", "value_to": "", "kit_step": "0", "kit": "", "point": "",
        "reading_note": "'=1",
    }  # fmt: skip


def test_several_in_one_cell_and_nothing_of_the_book() -> None:
    header, row = cells(cases_csv([a_case("x")]))
    kept = dict(zip(header, row, strict=True))
    assert (kept["treatments"], kept["proven"], kept["second_probability"]) == ("rinse-leaves; ladybirds", "none", "")


def test_every_column_is_explained_in_the_guide() -> None:
    explained = set(re.findall(r"`([a-z_]+)`", "".join(re.findall(r"(?m)^\| `[a-z_`, ]+ \|.*$", GUIDE))))
    assert explained >= {*READING_COLUMNS, *CaseRow.__struct_fields__}
