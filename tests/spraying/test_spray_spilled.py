"""After a spill: first actions in their order, water to change by hand-reckoned figures, when it is over."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.report.spray_report import Spill
from triage.responses.spill import change_for, days_until, times_to_change
from triage.spraying import Asked, Judge, report_on


@pytest.fixture
def spill(judge: Judge) -> Any:
    def run(words: str, **told: Any) -> Spill:
        found = report_on(judge, Asked(words=words, **told), spilled=True).spill
        assert found is not None
        return found

    return run


def _place(lines: tuple[str, ...], begins: str) -> int:
    return next(number for number, line in enumerate(lines) if line.startswith(begins))


@pytest.mark.parametrize(
    "words", ["soap", "permethrin", "neem oil", "wonderglow", "copper sulphate", "urea", "pH down"]
)
def test_first_actions_come_in_their_order(spill: Any, words: str) -> None:
    first = spill(words, amount="1L", strength="1%").first
    order = ["Air first", "Stop the source", "Change water", "Do not feed"]
    assert [_place(first, begins) for begins in order] == sorted(_place(first, begins) for begins in order)


@pytest.mark.parametrize(
    ("words", "holds"),
    [("permethrin", True), ("soap", True), ("salt", False), ("copper sulphate", False), ("metaldehyde", False)],
)
def test_carbon_only_where_it_holds_it(spill: Any, words: str, holds: bool) -> None:
    lines = " ".join(spill(words, amount="100 g").first)
    assert ("activated carbon in the flow" in lines) is holds
    assert ("Carbon does not hold it" in lines) is not holds


def test_how_much_water_by_hand(make_judge: Any) -> None:
    """10 g of soap in 1,000 L are 10 mg/L. 3.6 mg/L count for tilapia (18 / 5); out of danger is half of that, 1.8.
    The oxygen it draws is further over: 10 x 2.55 / 8.3 = 3.07, and 0.3 is the aim: 10.2 times over, four halves."""
    judge = make_judge(1000, ("tilapia",), oxygen=8.3)
    found = report_on(judge, Asked(words="soap", strength="1%", amount="1L"), spilled=True).spill
    danger, rest = found.change
    assert (found.level_mg_l, danger.decides, danger.times, danger.litres) == (
        pytest.approx(10), "oxygen-drawn-share-spilled", 4, 2000,
    )  # fmt: skip
    assert danger.factor == pytest.approx(10 * 2.55 / 8.3 / 0.3)
    assert rest.decides == "fish-quotient-spilled"
    assert rest.factor == pytest.approx(10 / 3.6 / 0.05)
    assert rest.times == math.ceil(math.log2(rest.factor)) == 6
    assert rest.target_mg_l == pytest.approx(0.18)


def test_too_much_for_changing_water(spill: Any) -> None:
    assert "move the animals" in spill("permethrin", strength="0.5 g/L", amount="1L").change_note


def test_little_needs_no_change(spill: Any) -> None:
    found = spill("Epsom salt", amount="1 g")
    assert found.change == ()
    assert "no water has to be changed" in found.change_note


def test_without_any_value_there_is_advice_all_the_same(spill: Any) -> None:
    found = spill("wonderglow")
    assert found.level_mg_l is None
    assert found.change == ()
    assert "half the water" in found.change_note
    assert found.test
    assert found.tell


def test_what_to_test_and_whom_to_tell(spill: Any) -> None:
    assert any("chlorine" in line for line in spill("bleach", strength="5%", amount="100 mL").test)
    assert any("metal" in line for line in spill("copper sulphate", amount="10 g").test)
    tell = " ".join(spill("permethrin", strength="0.5 g/L", amount="1L").tell)
    assert "vet" in tell
    assert "authority" in tell


def test_when_it_is_over(spill: Any) -> None:
    over = " ".join(spill("soap", strength="1%", amount="1L").over)
    assert "eaten as before for three days" in over
    assert "half of it goes in 3 days (recalled" in over


@given(st.floats(1.01, 1e6), st.floats(0.05, 0.9))
def test_changes_reach_the_aim_and_one_less_does_not(factor: float, each: float) -> None:
    times = times_to_change(factor, each)
    assert factor * (1 - each) ** times <= 1 + 1e-6
    assert factor * (1 - each) ** (times - 1) > 1 - 1e-6


@given(st.floats(1, 1e6), st.floats(1, 1e5))
def test_the_change_never_asks_for_less_than_one_draining(factor: float, volume: float) -> None:
    change = change_for(factor, volume, 0.5)
    if change is not None:
        assert change.litres >= change.share * volume * (1 - 1e-9)


def test_fading_by_half_lives() -> None:
    assert days_until(1, 5) == 0
    assert days_until(16, 2.5) == pytest.approx(10)
