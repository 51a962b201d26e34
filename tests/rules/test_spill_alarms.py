"""Alarms after a spray or a spill: what fish do since then, in words and as findings; first actions in their order."""

from __future__ import annotations

import pytest

from triage.model.book import Book
from triage.model.case import Case
from triage.model.facts import CaseFacts
from triage.model.outcome import AlarmRaised
from triage.rules.run import RuleRunner
from triage.session import Session, Told


def _alarms(book: Book, *seen: str) -> dict[str, AlarmRaised]:
    assert set(seen) <= set(book.findings)
    case = Case(on="2026-05-04", seen=frozenset(seen))
    return {alarm.id: alarm for alarm in RuleRunner(book.rules).run_case(CaseFacts(case=case)).alarms}


def test_fish_that_behave_oddly_after_a_spray(book: Book) -> None:
    assert "spray-near-sick-fish-alarm" in _alarms(book, "sprayed-plants", "fish-behave-oddly")
    assert not _alarms(book, "fish-behave-oddly")


def test_a_spill_does_not_wait_for_the_fish(book: Book) -> None:
    assert set(_alarms(book, "spilled-into-water")) == {"spilled-into-water-alarm"}


@pytest.mark.parametrize(
    ("alarm", "seen"),
    [
        ("spray-near-sick-fish-alarm", ("neighbour-sprayed", "fish-behave-oddly")),
        ("spilled-into-water-alarm", ("spilled-into-water",)),
    ],
)
def test_first_air_then_the_source_water_carbon_no_feed_and_whom_to_tell(
    book: Book, alarm: str, seen: tuple[str, ...]
) -> None:
    steps = " ".join(_alarms(book, *seen)[alarm].do)
    order = ["Air on full first", "stop the pump", "Change a quarter", "carbon", "--spilled", "Test oxygen", "vet"]
    places = [steps.index(step) for step in order]
    assert places == sorted(places)
    assert "dechlorinated and as warm as theirs" in steps
    assert "o not feed" in steps
    assert "authority" in steps


@pytest.mark.parametrize(
    ("words", "alarm"),
    [
        ("fish behave oddly since I sprayed soap yesterday", "spray-near-sick-fish-alarm"),
        ("the fish act strange after the neighbour sprayed his lawn", "spray-near-sick-fish-alarm"),
        ("half a bottle of peroxide spilled into the tank", "spilled-into-water-alarm"),
    ],
)
def test_in_a_growers_words(book: Book, words: str, alarm: str) -> None:
    session = Session(book, on="2026-05-04")
    session.tell(Told(kind="words", question="words", text=words))
    assert alarm in {raised.id for raised in session.look(with_question=False, with_responses=False).alarms}
