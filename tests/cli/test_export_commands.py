"""`triage water export` and `triage case export`: out, and in again as it was."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from triage.errors import UsageError
from triage.model.book import Book
from triage.model.quantity import Reading
from triage.recall.sheet import measured_line
from triage.report.tables import readings_csv
from triage.water.kits import EXACT, STEPPED
from triage.water.readings import BOUNDS, POINTS, make_reading
from triage.water.table import Asked, read_table

Run = Callable[..., "CompletedProcess[str]"]


def table_of(done: CompletedProcess[str]) -> list[dict[str, str]]:
    assert done.returncode == 0, done.stderr
    return list(csv.DictReader(io.StringIO(done.stdout)))


@pytest.fixture
def kept(triage: Run) -> Run:
    for words in (
        ["ph=7.2", "iron<=0.1", "nitrate=40", "kh=4dKH", "--on", "2026-05-03", "--kit", "card", "--time", "08:30"],
        ["ph=7.4", "temperature=77F", "tan=0.25", "--on", "2026-05-10", "--kit", "drops"],
        ["ph=7.9", "chlorine=0.5", "--on", "2026-05-10", "--point", "top-up"],
    ):
        assert triage("water", "add", *words).returncode == 0
    return triage


def test_the_table_comes_back_as_it_was(kept: Run, tmp_path: Path) -> None:
    assert kept("water", "export", "--out", "water.csv").returncode == 0
    said = kept("water", "import", "water.csv", "--json", "--home", "second")
    assert said.returncode == 0, said.stdout
    assert json.loads(said.stdout)["refused"] == []
    again = kept("water", "export", "--home", "second")
    assert again.stdout == (tmp_path / "water.csv").read_text(encoding="utf-8")
    assert kept("water", "export", "--json", "--home", "second").stdout == kept("water", "export", "--json").stdout
    assert json.loads(kept("water", "import", "water.csv", "--json").stdout)["added"] == 0


def test_only_some_readings(kept: Run) -> None:
    assert {row["quantity"] for row in table_of(kept("water", "export", "PH", "kh"))} == {"ph", "alkalinity"}
    late = table_of(kept("water", "export", "--since", "2026-05-04"))
    assert {row["date"] for row in late} == {"2026-05-10"}
    assert len(table_of(kept("water", "export", "--until", "2026-05-04"))) == 4
    latest = json.loads(kept("water", "export", "ph", "--latest", "--json").stdout)
    assert latest["format"] == "triage-readings-export/1"
    assert [(r["value"], r["point"]) for r in latest["readings"]] == [(7.4, ""), (7.9, "top-up")]


def test_cases_as_they_stand(kept: Run) -> None:
    kept("plant", "--on", "2026-05-04", typed="1\nbasil\nyellow between the veins of new leaves\nq\n")
    kept("case", "place", "1", "--bed", "=bed", "--plant", "-row")
    kept("case", "did", "1", "iron", "chelate", "--on", "2026-05-05")
    kept("case", "close", "1", "--outcome", "@well")
    (row,) = table_of(kept("case", "export"))
    assert (row["case"], row["crop"], row["bed"], row["plant"]) == ("1", "basil", "'=bed", "'-row")
    assert (row["state"], row["outcome"], row["last_done"]) == ("closed", "'@well", "2026-05-05")
    told = json.loads(kept("case", "export", "--json").stdout)
    assert told["format"] == "triage-cases-export/1"
    assert told["cases"][0]["bed"] == "=bed"
    assert set(row) == set(told["cases"][0])
    (shared,) = table_of(kept("case", "export", "--share"))
    assert (shared["bed"], shared["plant"], shared["outcome"], shared["cause"]) == ("", "", "", row["cause"])


def test_wrong_use_of_exports(kept: Run, tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text("precious")
    for words, says in (
        (["water", "export", "--out", "a.csv"], "already"),
        (["water", "export", "phosphor"], "no reading 'phosphor'"),
        (["water", "export", "--since", "may"], "not a date"),
        (["case", "export", "--csv", "--json"], "two forms"),
        (["case", "export", "--home", "nowhere"], "nothing is kept"),
    ):
        done = kept(*words)
        assert (done.returncode, done.stdout) == (2, "")
        (line,) = done.stderr.splitlines()
        assert says in line
    assert (tmp_path / "a.csv").read_text() == "precious"


@st.composite
def readings(draw: st.DrawFn, book: Book) -> Reading | None:
    """A reading as a person may type it; None where the book refuses it."""
    quantity = book.quantities[draw(st.sampled_from([id_ for id_, q in book.quantities.items() if not q.derived]))]
    unit = draw(st.sampled_from(["", quantity.unit, *quantity.units]))
    least, most = quantity.likely or quantity.possible
    value: Any = draw(st.floats(least, most)) if draw(st.booleans()) else round(draw(st.floats(least, most)), 2)
    try:
        return make_reading(
            quantity.quantity, value, book.quantities, unit=unit, bound=draw(st.sampled_from(BOUNDS)),
            kit=draw(st.sampled_from(["", *STEPPED, *EXACT])), on=draw(st.dates()).isoformat(),
            time=draw(st.sampled_from(["", "08:30"])), point=draw(st.sampled_from(["", *POINTS])),
        )  # fmt: skip
    except UsageError:
        return None


@settings(max_examples=300)
@given(data=st.data())
def test_every_reading_comes_back_as_it_was(book: Book, data: st.DataObject) -> None:
    reading = data.draw(readings(book))
    if reading is None:
        return
    table = read_table(readings_csv([measured_line(book, reading)]), book.quantities, Asked())
    assert table.refused == ()
    assert table.readings == (reading,)


def test_a_span_upside_down_or_impossible_is_refused(book: Book) -> None:
    for cells in ("7.2,7.1,7.0", "7.2,7.1,99", "7.2,a,7.3"):
        text = f"date,quantity,value,value_from,value_to\n2026-05-03,ph,{cells}\n"
        table = read_table(text, book.quantities, Asked())
        assert table.readings == ()
        assert len(table.refused) == 1


def test_the_ranges_of_a_laboratory_are_no_span(book: Book) -> None:
    text = "date,quantity,value,low,high\n2026-05-03,ph,7.9,6.0,7.0\n"
    (reading,) = read_table(text, book.quantities, Asked()).readings
    assert (reading.low, reading.high) == (7.9, 7.9)
