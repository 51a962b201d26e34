"""What readings, doses and drift look like: alarms with their steps, limits with their units, open forms as ranges."""

from __future__ import annotations

from typing import Any

import pytest

from triage.model.book import Book
from triage.water.readings import parse_assignment


def words(done: Any) -> str:
    return " ".join(done.stdout.split())


@pytest.mark.parametrize("columns", [60, 80])
def test_the_alarms_of_a_dose_say_what_to_do(triage: Any, columns: int) -> None:
    asked = ("dose", "iron", "--from", "0.1", "ph=8.6", "tan=5", "temperature=28", "--volume", "1000L")
    done = triage(*asked, columns=columns)
    assert done.stdout.splitlines()[1].startswith("Act on this before anything else")
    assert "- Stop feeding today." in words(done)
    assert max(map(len, done.stdout.splitlines())) <= columns


def test_a_value_whose_form_was_not_said_is_shown_as_a_range(triage: Any) -> None:
    said = words(triage("water", "check", "nitrite=1", "ph=7", "temperature=25", "--animals", "tilapia"))
    assert "Nitrite: 1 to 3.28 mg/L NO2 (form not said" in said
    assert "Nitrite of 1 to 3.28 mg/L NO2 is no longer under" in said
    assert "Nitrite: up to 1 mg/L NO2 (tilapia); OUTSIDE" in said
    assert "Water temperature: from 14 up to 36 °C (tilapia); within" in said


def test_a_yield_falls_and_a_crop_is_not_lost(triage: Any) -> None:
    said = words(triage("water", "check", "ec=3", "--crops", "strawberry"))
    assert "Strawberry: the yield falls from 1 mS/cm on (measured in soil); the water has 3" in said
    assert "% of the yield is left" in said


def test_what_no_kit_measures_has_no_note_about_a_kit(book: Book) -> None:
    assert parse_assignment("feed=60", book.quantities, kit="card").note == ""
    assert "steps of this kit not known" in parse_assignment("ec=0.9", book.quantities, kit="card").note


def test_why_it_moves_names_the_suspects_before_the_sums(triage: Any) -> None:
    for day, ph in (("01", 7.0), ("06", 7.2), ("11", 7.4), ("16", 7.6), ("21", 7.8)):
        triage("water", "add", f"ph={ph}", "kh=4dKH", "feed=60", "protein=32", "--on", f"2026-05-{day}")
    said = words(triage("water", "why", "ph", "--volume", "1000L", "--on", "2026-05-22"))
    assert said.startswith("pH is rising.")
    assert said.index("What may do it") < said.index("The one check") < said.index("The balance of one day")
    assert "; A " not in said


def test_the_history_of_readings_keeps_within_the_window(triage: Any) -> None:
    triage("water", "add", "kh=4dKH", "--on", "2026-05-01")
    triage("water", "correct", "1", "kh=5dKH", "--why", "the bottle was shaken and the drops counted again in daylight")
    done = triage("water", "history", columns=60)
    assert max(map(len, done.stdout.splitlines())) <= 60
    assert "replaced by number 2 (the bottle was shaken" in words(done)


def test_the_history_goes_by_any_name_of_a_quantity(triage: Any) -> None:
    triage("water", "add", "kh=4dKH", "ammonia=0.5mg/L", "ph=7")
    assert "Alkalinity" in words(triage("water", "history", "kh"))
    assert "Total ammonia" in words(triage("water", "history", "ammonia"))
