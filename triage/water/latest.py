"""Which readings speak for the water now: the latest of each quantity, with its age."""

from __future__ import annotations

import datetime
from collections.abc import Sequence

import msgspec

from ..model.quantity import Reading

STALE_AFTER_DAYS = 7  # a week-old reading is said to be old (our-judgement)
MAX_AGE_DAYS = 60  # an older one says nothing about the water of today (our-judgement)


class Current(msgspec.Struct, frozen=True, kw_only=True):
    """The latest reading of a quantity; ``note`` says what weakens it (age, kit, form). Age None: no date was given."""

    reading: Reading
    age_days: int | None
    stale: bool
    note: str


def current_readings(
    readings: Sequence[Reading], on: str, max_age_days: int = MAX_AGE_DAYS, *, stale_after_days: int = STALE_AFTER_DAYS
) -> tuple[Current, ...]:
    """The latest reading of each quantity, as seen from a day.

    Args:
        readings: any number, in the order in which they were given.
        on: ISO date of the look; later readings are left out. Empty: ages are unknown and nothing is left out.
        max_age_days: readings older than this are left out.
        stale_after_days: readings older than this are kept and said to be old.

    Returns:
        One per quantity, in the order of their ids. A reading without a date counts as taken on the day of the look;
        of two with the same date and time the one given last counts. Top-up water is not the system's water: readings
        taken there are left out.
    """
    latest: dict[str, tuple[tuple[str, str, int], Reading]] = {}
    for place, reading in enumerate(readings):
        age = _age(reading, on)
        if reading.point == "top-up" or (age is not None and not 0 <= age <= max_age_days):
            continue
        key = (reading.on or on, reading.time, place)
        if reading.quantity not in latest or key > latest[reading.quantity][0]:
            latest[reading.quantity] = (key, reading)
    return tuple(_current(latest[quantity][1], on, stale_after_days) for quantity in sorted(latest))


def _age(reading: Reading, on: str) -> int | None:
    if not reading.on or not on:
        return None
    return (datetime.date.fromisoformat(on) - datetime.date.fromisoformat(reading.on)).days


def _current(reading: Reading, on: str, stale_after_days: int) -> Current:
    age = _age(reading, on)
    stale = age is not None and age > stale_after_days
    notes = [reading.note] if reading.note else []
    if stale:
        notes.append(f"{age} days old")
    if reading.bound != "=":
        notes.append("a limit, not a number")
    elif reading.step:
        notes.append("only as fine as the kit")
    return Current(reading=reading, age_days=age, stale=stale, note="; ".join(notes))
