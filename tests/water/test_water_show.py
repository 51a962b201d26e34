"""The water as it stands, on the screen, as JSON and as SVG."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest
from click.testing import CliRunner

from triage.cli import triage
from triage.journal import open_journal
from triage.model.book import Book
from triage.model.case import System
from triage.model.quantity import Quantity, Reading
from triage.screens.chart import AT_LEAST, AT_MOST, HEIGHT, POINT, SHADE, SPAN, draw_chart
from triage.watch import show_water
from triage.water.readings import make_reading

ON = "2026-05-31"
Quantities = Mapping[str, Quantity]


def series(quantities: Quantities, id_: str, *values: float | str, every: int = 7, kit: str = "") -> list[Reading]:
    days = [f"2026-{4 + (day * every) // 30:02d}-{1 + (day * every) % 30:02d}" for day in range(len(values))]
    return [make_reading(id_, value, quantities, on=on, kit=kit) for value, on in zip(values, days, strict=True)]


@pytest.mark.parametrize("width", [40, 60, 80])
def test_a_chart_keeps_to_its_width_and_holds_no_escape(quantities: Quantities, width: int) -> None:
    lines = draw_chart(series(quantities, "ph", 6.4, 6.8, 7.2, 7.6), width=width, low=6, high=7.5)
    assert len(lines) == HEIGHT
    assert max(len(line) for line in lines) <= width
    assert "\x1b" not in "".join(lines)


def test_bounds_spans_and_limits_are_told_apart_without_colour(quantities: Quantities) -> None:
    readings = series(quantities, "ph", "<= 6.4", 6.8, ">= 7.4")
    readings += series(quantities, "ph", 7.0, 7.0, kit="card")
    text = "".join(draw_chart(readings, width=60, low=6.5, high=7.3))
    for mark in (POINT, AT_MOST, AT_LEAST, SHADE, SPAN):
        assert mark in text


def test_higher_readings_stand_higher(quantities: Quantities) -> None:
    lines = draw_chart(series(quantities, "ph", 6.4, 7.0, 7.6), width=60)
    rows = [number for number, line in enumerate(lines) for _ in range(line.count(POINT))]
    columns = [line.index(POINT) for line in lines if POINT in line]
    assert rows == sorted(rows)
    assert columns == sorted(columns, reverse=True)  # the latest is the highest


def test_a_gap_stays_empty(quantities: Quantities) -> None:
    early, late = series(quantities, "ph", 7.0, 7.0, every=2), series(quantities, "ph", *[7.0] * 29, every=2)[-2:]
    lines = draw_chart([*early, *late], width=60)
    row = next(line for line in lines if POINT in line)
    assert "                    " in row.strip("│ ")


def test_a_far_limit_does_not_squeeze_the_readings(quantities: Quantities) -> None:
    far = draw_chart(series(quantities, "nitrate", "20mg/L NO3", "30mg/L NO3"), width=60, high=400)
    assert SHADE not in "".join(far)


def test_one_reading_draws_as_well(quantities: Quantities) -> None:
    assert POINT in "".join(draw_chart(series(quantities, "ph", 7.0), width=60))


def test_a_drift_is_told_with_the_days_until_a_limit(book: Book) -> None:
    readings = series(book.quantities, "ph", 8.0, 8.1, 8.2, 8.3, 8.4)
    report = show_water(book, System(animals=("tilapia",)), readings, on=readings[-1].on)
    (drift,) = report.trends
    assert drift.trend.direction == "rising"
    (crossing,) = drift.crosses
    assert (crossing.limit, crossing.source) == (9, "nafis")
    assert crossing.from_days == pytest.approx(0.6 / (0.1 / 7), rel=0.05)


def test_few_readings_tell_no_drift(book: Book) -> None:
    report = show_water(book, System(animals=("tilapia",)), series(book.quantities, "ph", 7.0, 7.9), on=ON)
    assert report.trends[0].trend.direction == "cannot-tell"
    assert report.trends[0].crosses == ()
    assert "temperature" in report.due


@pytest.fixture
def home(tmp_path: Path, book: Book) -> Path:
    with open_journal(tmp_path, now=lambda: "2026-05-31T08:00:00.000+00:00") as journal:
        journal.add_readings(series(book.quantities, "ph", 7.0, 7.2, 7.4, 7.6, every=5))
        journal.add_readings(series(book.quantities, "tan", "<=0.25", 0.5, every=5))
        journal.save_system(System(volume_l=1000, animals=("tilapia", "cherry-shrimp")))
    return tmp_path


def run(home: Path, *words: str) -> str:
    done = CliRunner().invoke(triage, ["water", "show", "--home", str(home), "--on", "2026-04-20", *words])
    assert done.exit_code == 0, done.output
    return done.stdout


def test_the_screen(home: Path) -> None:
    text = run(home)
    assert "rising, +0.28 a week" in text
    assert POINT in text
    assert "Shaded" in text
    assert POINT not in run(home, "--no-charts")
    only = run(home, "ph")
    assert "Due for a test" not in only
    assert POINT in only


def test_json_keeps_what_it_promised_and_adds_drift_and_limits(home: Path) -> None:
    found = json.loads(run(home, "--json"))
    assert found["format"] == "triage-water-show/1"
    assert {"latest", "due", "report", "trends", "limits"} <= set(found)
    assert found["limits"]["ph"]["rows"]


def test_svg_files_are_the_same_every_time(home: Path, tmp_path: Path) -> None:
    for folder in ("one", "two"):
        run(home, "--svg", str(tmp_path / folder))
    files = [(tmp_path / folder / "ph.svg").read_bytes() for folder in ("one", "two")]
    assert files[0] == files[1]
    assert b"<svg" in files[0]
    assert (tmp_path / "one" / "tan.svg").is_file()


def test_plotting_libraries_wait_until_they_are_needed() -> None:
    code = (
        "import sys; import triage.cli.water, triage.watch, triage.screens.water_show, triage.screens.chart, "
        "triage.screens.svg; assert not {'plotext', 'matplotlib', 'numpy'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True, cwd=Path(__file__).parents[2])
