"""Readings: added once, in a fixed order, corrected by new rows."""

from __future__ import annotations

import math
import random

import msgspec
import pytest

from triage.errors import UsageError
from triage.journal import Journal
from triage.model.quantity import Reading


def ph(value: float, on: str = "2026-05-03", *, point: str = "", time: str = "") -> Reading:
    low, high = value - 0.1, value + 0.1
    return Reading(quantity="ph", value=value, step=0.2, low=low, high=high, on=on, point=point, time=time)


TAN_AT_MOST = Reading(
    quantity="tan", value=0.25, unit="mg/L", bound="<=", low=-math.inf, high=0.25, on="2026-05-03", kit="card"
)
IRON_OFF_THE_CHART = Reading(
    quantity="iron", value=5.0, unit="mg/L", bound=">=", low=5.0, high=math.inf, on="2026-05-03", note="dark red"
)


def test_counts_what_was_really_added(journal: Journal) -> None:
    assert journal.add_readings([ph(7.2), TAN_AT_MOST, ph(7.2)]) == 2
    assert journal.add_readings([ph(7.2), IRON_OFF_THE_CHART]) == 1
    assert journal.add_readings([]) == 0
    assert journal.readings() == (IRON_OFF_THE_CHART, ph(7.2), TAN_AT_MOST)


@pytest.mark.parametrize(
    "change",
    [
        {"quantity": "kh"},
        {"value": 0.2},
        {"bound": "<"},
        {"unit": "ppm"},
        {"on": "2026-05-04"},
        {"time": "08:30"},
        {"kit": "drops"},
        {"point": "sump"},
    ],
)
def test_another_measurement_is_another_reading(journal: Journal, change: dict[str, object]) -> None:
    other = msgspec.structs.replace(TAN_AT_MOST, **change)
    assert journal.add_readings([TAN_AT_MOST, other]) == 2


def test_another_system_has_its_own(journal: Journal) -> None:
    journal.add_readings([ph(7.2)])
    assert journal.add_readings([ph(7.2)], system="nursery") == 1
    assert journal.readings(system="nursery") == (ph(7.2),)
    assert journal.latest_readings(system="greenhouse") == ()


def test_since_and_quantity(journal: Journal) -> None:
    journal.add_readings([ph(7.0, "2026-04-01"), ph(7.1, "2026-05-01"), TAN_AT_MOST])
    assert journal.readings(since="2026-05-01") == (ph(7.1, "2026-05-01"), TAN_AT_MOST)
    assert journal.readings(quantity="ph") == (ph(7.0, "2026-04-01"), ph(7.1, "2026-05-01"))
    assert journal.readings(quantity="ph", since="2026-05-02") == ()
    with pytest.raises(UsageError, match="not a day"):
        journal.readings(since="last week")


def test_the_order_does_not_hang_on_the_order_of_adding(journal: Journal) -> None:
    many = [ph(7.0 + k / 10, f"2026-05-{day:02d}", point=f"p{k}") for k in range(4) for day in range(1, 6)]
    expected = tuple(sorted(many, key=lambda reading: (reading.on, reading.point)))
    random.Random(4).shuffle(many)
    journal.add_readings(many)
    assert journal.readings() == expected


def test_the_latest_of_each_quantity_at_each_point(journal: Journal) -> None:
    sump, tank = ph(7.4, "2026-05-02", point="sump"), ph(6.9, "2026-05-01", point="fish-tank")
    evening = ph(7.0, "2026-05-02", point="sump", time="19:00")
    journal.add_readings([evening, sump, tank, TAN_AT_MOST, ph(6.0, "2026-01-01", point="sump")])
    assert journal.latest_readings() == (tank, evening, TAN_AT_MOST)


def test_a_correction_stands_in_and_the_mistake_is_kept(journal: Journal) -> None:
    journal.add_readings([ph(72.0), TAN_AT_MOST])
    wrong = journal.reading_history()[0]
    new_id = journal.correct_reading(wrong.id, ph(7.2), "comma forgotten")
    assert journal.readings(quantity="ph") == (ph(7.2),)
    assert journal.latest_readings()[0] == ph(7.2)
    history = {entry.id: entry for entry in journal.reading_history()}
    assert history[wrong.id].reading == ph(72.0)
    assert (history[wrong.id].fate, history[wrong.id].replaced_by) == ("replaced", new_id)
    assert history[wrong.id].why == "comma forgotten"
    assert history[new_id].fate == ""


def test_a_second_import_does_not_bring_the_mistake_back(journal: Journal) -> None:
    journal.add_readings([ph(72.0)])
    journal.correct_reading(1, ph(7.2))
    assert journal.add_readings([ph(72.0)]) == 0
    assert journal.readings() == (ph(7.2),)


def test_what_was_withdrawn_can_be_added_again(journal: Journal) -> None:
    journal.add_readings([ph(7.2)])
    journal.withdraw_reading(1, "wrong tank")
    assert journal.readings() == ()
    assert journal.latest_readings() == ()
    assert journal.add_readings([ph(7.2)]) == 1
    assert [entry.fate for entry in journal.reading_history()] == ["withdrawn", ""]


def test_corrections_of_corrections(journal: Journal) -> None:
    journal.add_readings([ph(7.2)])
    second = journal.correct_reading(1, ph(7.4))
    third = journal.correct_reading(second, ph(7.2))
    assert journal.readings() == (ph(7.2),)
    with pytest.raises(UsageError, match="corrected already"):
        journal.correct_reading(second, ph(7.0))
    with pytest.raises(UsageError, match="no reading number 99"):
        journal.withdraw_reading(99)
    journal.withdraw_reading(third)
    assert journal.readings() == ()


@pytest.mark.parametrize(
    "wrong",
    [
        {"value": math.nan},
        {"value": math.inf},
        {"value": 10**400},
        {"step": math.nan},
        {"low": math.nan},
        {"low": math.inf, "high": math.inf},
        {"low": 2.0, "high": 1.0},
        {"low": -math.inf, "high": -math.inf},
        {"on": ""},
        {"on": "3 May"},
        {"on": "2026-02-30"},
        {"on": "20260503"},
    ],
)
def test_one_impossible_reading_refuses_them_all(journal: Journal, wrong: dict[str, object]) -> None:
    with pytest.raises(UsageError):
        journal.add_readings([ph(7.2), msgspec.structs.replace(TAN_AT_MOST, **wrong)])
    assert journal.readings() == ()


def test_a_meter_is_read_once_a_day(journal: Journal) -> None:
    """Every ten minutes for a week is more than a person tests; what a person tested is all there."""
    logged = [
        Reading(quantity="ph", value=hour, low=hour, high=hour, on=f"2026-05-{day:02d}", time=f"{hour:02d}:{ten}0")
        for day in range(4, 11)
        for hour in range(24)
        for ten in range(6)
    ]
    typed = [
        Reading(quantity="iron", value=n / 10, low=n / 10, high=n / 10, on="2026-05-04", time=f"{n:02d}:00")
        for n in range(8, 12)
    ]
    other = [Reading(quantity="ph", value=8.0, low=8.0, high=8.0, on="2026-05-04", time="09:00", point="sump")]
    assert journal.add_readings([*logged, *typed, *other]) == len(logged) + 5
    found = journal.readings_by_day("2026-05-05")
    assert [(each.on, each.time) for each in found] == [(f"2026-05-{day:02d}", "23:50") for day in range(5, 11)]
    whole = journal.readings_by_day("2026-05-04")
    assert [each for each in whole if each.quantity == "iron"] == typed
    assert [each for each in whole if each.point] == other
    assert list(whole) == sorted(whole, key=lambda r: (r.on, r.time, r.quantity, r.point))
    assert journal.latest_readings()[-2] == whole[-1]


def test_a_corrected_reading_of_a_meter_stands_for_its_day(journal: Journal) -> None:
    times = [f"{n // 60:02d}:{n % 60:02d}" for n in range(600)]
    on = "2026-05-04"
    journal.add_readings([Reading(quantity="ph", value=7.0, low=7.0, high=7.0, on=on, time=time) for time in times])
    last = journal.reading_history()[-1]
    right = Reading(quantity="ph", value=7.5, low=7.5, high=7.5, on=on, time=last.reading.time)
    journal.correct_reading(last.id, right)
    assert journal.readings_by_day(on) == (right,)
    journal.withdraw_reading(journal.reading_history()[-1].id)
    assert [each.time for each in journal.readings_by_day(on)] == [times[-2]]


def test_what_a_person_tests_is_all_there(journal: Journal) -> None:
    some = [Reading(quantity="ph", value=7.0, low=7.0, high=7.0, on="2026-05-04", time=f"{n:02d}:00") for n in range(9)]
    journal.add_readings(some)
    assert journal.readings_by_day("2026-05-04") == journal.readings(since="2026-05-04") == tuple(some)
