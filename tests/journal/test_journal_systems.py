"""Systems: the latest counts, the earlier ones are kept."""

from __future__ import annotations

import math

import pytest

from triage.errors import UsageError
from triage.journal import Journal
from triage.model.case import System

GLASSHOUSE = System(volume_l=1200.0, animals=("tilapia", "shrimp"), crops=("pak-choi", "basil"), beds="media")


def export_of(journal: Journal) -> list[str]:
    lines: list[str] = []
    journal.export_lines(lines.append)
    return lines


def test_nothing_saved_is_none(journal: Journal) -> None:
    assert journal.load_system() is None
    assert journal.list_systems() == ()


def test_the_latest_counts_and_the_earlier_is_kept(journal: Journal) -> None:
    smaller = System(volume_l=1000.0, animals=("tilapia",))
    journal.save_system(GLASSHOUSE)
    journal.save_system(smaller)
    assert journal.load_system() == smaller
    kept = [line for line in export_of(journal) if '"systems"' in line]
    assert len(kept) == 2
    assert "1200.0" in kept[0]


def test_saving_the_same_again_adds_nothing(journal: Journal) -> None:
    journal.save_system(GLASSHOUSE)
    before = export_of(journal)
    journal.save_system(GLASSHOUSE)
    assert export_of(journal) == before


def test_systems_by_name(journal: Journal) -> None:
    nursery = System(name="nursery", volume_l=80.0)
    journal.save_system(nursery)
    journal.save_system(GLASSHOUSE)
    assert journal.load_system("nursery") == nursery
    assert journal.list_systems() == ("main", "nursery")


@pytest.mark.parametrize("number", [math.inf, -math.inf, math.nan])
def test_a_volume_must_be_finite(journal: Journal, number: float) -> None:
    with pytest.raises(UsageError, match="number"):
        journal.save_system(System(volume_l=number))
    assert journal.load_system() is None
