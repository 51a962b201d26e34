"""What is not known yet of what moves a quantity."""

from __future__ import annotations

from typing import Any

import pytest

from triage.model.quantity import Quantity, Reading
from triage.water.lacks import Lack, find_lacks

ON = "2026-05-30"
EFFORTS = {"feed": "glance", "top-up-per-day": "glance", "base-per-day": "close-look", "lime-per-day": "close-look"}
NEEDS = ["ph", "alkalinity", "feed", "tan", "top-up-per-day", "base-per-day", "lime-per-day", "iron", "unheard-of"]


def _quantity(name: str, **told: Any) -> Quantity:
    base: dict[str, Any] = {
        "name": f"The {name}", "unit": "", "possible": [0, 1000], "sources": [], "how": f"Look at {name}.",
        "effort": EFFORTS.get(name, "laboratory" if name == "iron" else "test-kit"),
    }  # fmt: skip
    return Quantity(quantity=name, **{**base, **told})


BOOK = {name: _quantity(name) for name in [*NEEDS[1:-1], "hardness"]}
PH = _quantity("ph", needs=NEEDS)


def _reading(quantity: str, on: str = ON, value: float = 5.0, **told: Any) -> Reading:
    return Reading(quantity=quantity, value=value, low=value, high=value, on=on, **told)


def _lacks(*readings: Reading, quantity: Quantity = PH) -> dict[tuple[str, str], tuple[int, int]]:
    return {(one.quantity, one.point): (one.have, one.want) for one in find_lacks(quantity, BOOK, readings, ON)}


def test_where_nothing_is_known_everything_lacks_the_cheapest_first() -> None:
    found = find_lacks(PH, BOOK, [], ON)
    assert [one.quantity for one in found] == [
        "feed", "top-up-per-day", "base-per-day", "lime-per-day", "ph", "alkalinity", "tan", "iron",
    ]  # fmt: skip
    assert [(one.have, one.want) for one in found] == [(0, 1)] * 4 + [(0, 4), (0, 2), (0, 2), (0, 1)]
    assert found[-1] == Lack(quantity="iron", name="The iron", have=0, want=1, effort="laboratory", how="Look at iron.")


def test_the_quantity_itself_is_asked_for_as_often_as_a_trend_needs_it() -> None:
    days = ["2026-05-01", "2026-05-10", "2026-05-20", "2026-05-30"]
    for known in range(4):
        assert _lacks(*(_reading("ph", on) for on in days[:known]))[("ph", "")] == (known, 4)
    assert ("ph", "") not in _lacks(*(_reading("ph", on) for on in days))
    again = [*days[:2], "2026-05-10"]
    assert _lacks(*(_reading("ph", on) for on in again))[("ph", "")] == (2, 4)  # twice a day is one day


def test_what_is_followed_needs_two_days_and_what_is_told_once() -> None:
    once = _lacks(_reading("alkalinity"), _reading("feed"))
    assert once[("alkalinity", "")] == (1, 2)
    assert ("feed", "") not in once
    assert ("alkalinity", "") not in _lacks(_reading("alkalinity"), _reading("alkalinity", "2026-05-20"))


@pytest.mark.parametrize(
    ("on", "counts"),
    [("2026-05-30", True), ("2026-03-31", True), ("2026-03-30", False), ("2026-05-31", False), ("", True)],
)
def test_only_the_last_sixty_days_count(on: str, counts: bool) -> None:
    assert (("feed", "") not in _lacks(_reading("feed", on))) is counts


def test_who_pours_in_water_is_asked_what_it_carries() -> None:
    poured = _lacks(_reading("top-up-per-day", value=20.0))
    assert poured[("alkalinity", "top-up")] == poured[("hardness", "top-up")] == (0, 1)
    assert poured[("alkalinity", "")] == (0, 2)
    sample = _lacks(_reading("top-up-per-day", value=0.5), _reading("alkalinity", point="top-up"))
    assert ("alkalinity", "top-up") not in sample
    assert sample[("alkalinity", "")] == (0, 2)  # a sample of the tap says nothing of the tank
    tank = _lacks(_reading("top-up-per-day", value=20.0), _reading("hardness", point="fish-tank"))
    assert tank[("hardness", "top-up")] == (0, 1)


def test_who_pours_in_none_or_did_not_say_is_not_asked() -> None:
    for readings in ((), (_reading("top-up-per-day", value=0.0),), (_reading("feed", value=20.0),)):
        assert not any(point == "top-up" for _, point in _lacks(*readings))
    dry = _quantity("ph", needs=["feed"])
    assert not any(point for _, point in _lacks(_reading("top-up-per-day", value=20.0), quantity=dry))
    range_ = Reading(quantity="top-up-per-day", value=0.0, low=0.0, high=10.0, on=ON)
    assert ("hardness", "top-up") in _lacks(range_)


@pytest.mark.parametrize("base", ["base-per-day", "lime-per-day"])
def test_who_told_of_one_base_is_not_asked_for_the_other(base: str) -> None:
    found = _lacks(_reading(base, value=0.0))
    assert not {("base-per-day", ""), ("lime-per-day", "")} & set(found)
    assert ("feed", "") in found


def test_what_the_book_does_not_hold_is_not_asked() -> None:
    few = {"feed": BOOK["feed"]}
    found = find_lacks(PH, few, [_reading("top-up-per-day", value=9.0)], ON)
    assert [one.quantity for one in found] == ["feed", "ph"]


def test_of_equal_effort_the_order_of_the_needs_counts() -> None:
    turned = _quantity("ph", needs=["tan", "alkalinity", "lime-per-day", "base-per-day"])
    assert [one.quantity for one in find_lacks(turned, BOOK, [], ON)] == [
        "lime-per-day", "base-per-day", "ph", "tan", "alkalinity",
    ]  # fmt: skip
