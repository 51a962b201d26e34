"""Acid, oxygen and ammonia from feed, and what salt costs each crop, against published figures."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from triage.book.load import load_book
from triage.water.balance import RETURNED_PER_G_N
from triage.water.formulas import RAFT_G_PER_M2
from triage.water.molar import alkalinity_per_gram
from triage.water.nitrogen import (
    ALKALINITY_RETURNED_PER_G_N,
    OXYGEN_PER_G_N,
    alkalinity_consumed,
    alkalinity_to_add,
    tan_from_biomass,
    tan_from_feed,
    tan_from_feed_consultancy,
)
from triage.water.salts import yield_percent

SHARED = Path(__file__).parents[2] / "shared" / "water"
Row = dict[str, str]


def seen(name: str) -> list[Row]:
    with (SHARED / name).open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["verified"] == "seen"]


ROWS = {(row["quantity"], row["source"]): row for row in seen("stoichiometry.csv")}


def number(quantity: str, source: str, end: str = "low") -> float:
    return float(ROWS[quantity, source][end])


#: What a function of ours gives for a row, and by how much it may differ.
OURS: dict[tuple[str, str], tuple[float, float]] = {
    ("alkalinity consumed", "filter-maker-alkalinity"): (alkalinity_consumed(1), 1e-9),
    ("alkalinity consumed", "bft-ras-paper"): (alkalinity_consumed(1), 0.011),
    ("sodium bicarbonate equivalent", "filter-maker-alkalinity"): (
        alkalinity_consumed(1) / alkalinity_per_gram("NaHCO3"), 0.05),
    ("oxygen consumed", "filter-maker-alkalinity"): (OXYGEN_PER_G_N["filter-maker-alkalinity"], 1e-9),
    ("oxygen consumed", "gujer-jenkins"): (OXYGEN_PER_G_N["gujer-jenkins"], 1e-9),
    ("alkalinity returned in theory", "denit-handbook"): (ALKALINITY_RETURNED_PER_G_N["theory"], 1e-9),
    ("alkalinity returned as observed", "denit-handbook"): (ALKALINITY_RETURNED_PER_G_N["observed"], 1e-9),
    ("TAN per feed x protein", "ksu2021"): (tan_from_feed(1, 1), 1e-9),
    ("same, with 64 % of feed N lost", "web-consultancy-tan"): (tan_from_feed_consultancy(1, 1), 1e-9),
    ("TAN share of feed mass at 32 % protein", "ksu2021"): (100 * tan_from_feed(1, 0.32), 0.06),  # "about 3"
    ("ammonia per fish biomass", "fisheries-blog"): (1000 * tan_from_biomass(1, 100), 1e-9),
}  # fmt: skip


@pytest.mark.parametrize("key", OURS, ids=" / ".join)
def test_published_figures(key: tuple[str, str]) -> None:
    ours, within = OURS[key]
    assert ours == pytest.approx(number(*key), abs=within)


def test_no_row_is_left_out() -> None:
    others = {
        ("sodium hydroxide equivalent", "filter-maker-alkalinity"), ("residual alkalinity to leave", "weat-alk101"),
        ("ammonia per feed at 30-40 % protein", "fisheries-blog"), ("raft system", "rakocy2007"),
    }  # fmt: skip
    assert set(ROWS) == set(OURS) | others


def test_printed_lye_is_wrong() -> None:
    # molar masses: 5.71
    lye = alkalinity_consumed(1) / alkalinity_per_gram("NaOH")
    assert lye > 1.4 * number("sodium hydroxide equivalent", "filter-maker-alkalinity")


def test_rival_rule_of_thumb_is_lower() -> None:
    # 25 mg for each gram of feed is below both rules at 32 % of protein
    thumb = number("ammonia per feed at 30-40 % protein", "fisheries-blog")
    assert thumb < 1000 * tan_from_feed(1, 0.32) < 1000 * tan_from_feed_consultancy(1, 0.32)


def test_residual_alkalinity_is_left() -> None:
    for end in ("low", "high"):
        left = number("residual alkalinity to leave", "weat-alk101", end)
        assert 100 + alkalinity_to_add(25, 100, left) - alkalinity_consumed(25) == pytest.approx(left)


def test_ranges_of_the_balance_and_the_rafts() -> None:
    returned = [number(f"alkalinity returned {how}", "denit-handbook") for how in ("as observed", "in theory")]
    assert [RETURNED_PER_G_N.low, RETURNED_PER_G_N.high] == returned
    assert tuple(number("raft system", "rakocy2007", end) for end in ("low", "high")) == RAFT_G_PER_M2


@pytest.mark.parametrize("row", [r for r in seen("crop_salt_tolerance.csv") if r["book_crop"]], ids=lambda r: r["crop"])
def test_salt_and_each_crop(row: Row) -> None:
    crop, threshold = load_book().crops[row["book_crop"]], float(row["threshold_ds_m"])
    assert (crop.salt_threshold_ds_m, crop.salt_slope_percent) == (threshold, float(row["slope_percent"]))
    assert yield_percent(threshold, threshold, float(row["slope_percent"])) == 100
