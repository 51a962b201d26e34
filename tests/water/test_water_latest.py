"""Which readings speak for today."""

from __future__ import annotations

import msgspec

from triage.model.quantity import Bound, Reading
from triage.water.latest import current_readings


def made(value: float, on: str = "", *, time: str = "", point: str = "", quantity: str = "ph", bound: Bound = "=",
         step: float = 0.0) -> Reading:  # fmt: skip
    return Reading(quantity=quantity, value=value, low=value, high=value, on=on, time=time, point=point, bound=bound,
                   step=step)  # fmt: skip


def values(*readings: Reading, on: str = "2026-05-04") -> list[float]:
    return [current.reading.value for current in current_readings(readings, on)]


def test_latest_by_date_then_time_then_place() -> None:
    assert values(made(1, "2026-05-03"), made(2, "2026-05-01")) == [1]
    assert values(made(1, "2026-05-03", time="09:00"), made(2, "2026-05-03", time="08:00")) == [1]
    assert values(made(1, "2026-05-03"), made(2, "2026-05-03")) == [2]


def test_one_for_each_quantity_in_order_of_ids() -> None:
    given = [made(1, quantity="tan"), made(2, quantity="iron"), made(3, quantity="ph")]
    assert [current.reading.quantity for current in current_readings(given, "2026-05-04")] == ["iron", "ph", "tan"]


def test_a_reading_without_date_is_of_the_day() -> None:
    assert values(made(1, "2026-05-03"), made(2)) == [2]
    assert current_readings([made(2)], "2026-05-04")[0].age_days is None


def test_later_and_very_old_readings_are_left_out() -> None:
    assert values(made(1, "2026-05-05")) == []
    assert values(made(1, "2026-01-01")) == []
    assert values(made(1, "2026-01-01"), on="") == [1]


def test_age_is_said_after_a_week() -> None:
    (week,) = current_readings([made(1, "2026-04-27")], "2026-05-04")
    (more,) = current_readings([made(1, "2026-04-26")], "2026-05-04")
    assert (week.age_days, week.stale, week.note) == (7, False, "")
    assert (more.age_days, more.stale, more.note) == (8, True, "8 days old")


def test_kit_and_bound_are_said() -> None:
    assert "limit" in current_readings([made(1, bound="<=")], "2026-05-04")[0].note
    assert "kit" in current_readings([made(1, step=0.2)], "2026-05-04")[0].note


def test_top_up_water_is_not_the_systems() -> None:
    assert values(made(1, "2026-05-03", point="fish-tank"), made(8, "2026-05-04", point="top-up")) == [1]


def test_what_is_left_out_does_not_hide_what_comes_after_it() -> None:
    left_out = [made(8, point="top-up"), made(1, "2026-05-05"), made(1, "2026-01-01")]
    assert values(*left_out, made(7, "2026-05-03")) == [7]


def test_the_day_itself_and_the_sixtieth_count() -> None:
    assert values(made(1, "2026-05-04")) == [1]
    assert values(made(1, "2026-03-05")) == [1]
    assert values(made(1, "2026-03-04")) == []
    assert current_readings([made(1, "2026-05-04")], "2026-05-04")[0].age_days == 0
    assert current_readings([made(1, "2026-05-01")], "2026-05-04", 2) == ()
    assert current_readings([made(1, "2026-05-01")], "2026-05-04", stale_after_days=2)[0].stale


def test_everything_that_weakens_a_reading_is_said_in_order() -> None:
    old = msgspec.structs.replace(made(1, "2026-04-01", bound="<=", step=0.2), note="total, not dissolved")
    (current,) = current_readings([old], "2026-05-04")
    assert current.note == "total, not dissolved; 33 days old; a limit, not a number"
    assert current.reading == old
    coarse = msgspec.structs.replace(made(1, "2026-05-04", step=0.2), note="")
    assert current_readings([coarse], "2026-05-04")[0].note == "only as fine as the kit"
    assert current_readings([made(1, "2026-05-04")], "2026-05-04")[0].note == ""
