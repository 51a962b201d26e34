"""Beds, plants, places, photos and settings: the last entry holds, the ones before are kept."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from triage.errors import UsageError
from triage.journal import JOURNAL_FILE, CasePlace, Journal, photo_state
from triage.model.case import System
from triage.model.garden import Bed, Plant


def test_a_bed_as_last_said(journal: Journal) -> None:
    journal.save_bed(Bed(name="wall", kind="media"))
    journal.save_bed(Bed(name="door", crops=("chard",)))
    journal.save_bed(Bed(name="wall", kind="raft", note="rebuilt"))
    journal.save_bed(Bed(name="wall", kind="raft", note="rebuilt"))
    assert journal.beds() == (Bed(name="wall", kind="raft", note="rebuilt"), Bed(name="door", crops=("chard",)))
    assert journal.beds(system="other") == ()


def test_nothing_said_before_is_lost(journal: Journal, home: Path) -> None:
    for kind in ("media", "raft", "raft"):
        journal.save_bed(Bed(name="wall", kind=kind))
    journal.save_plant(Plant(name="row 1", bed="wall", crop="basil", planted="2026-03-01"))
    journal.save_plant(Plant(name="row 1", bed="wall", crop="basil", planted="2026-03-01", gone="2026-06-01"))
    assert [plant.gone for plant in journal.plants()] == ["2026-06-01"]
    sql = sqlite3.connect(home / JOURNAL_FILE)
    assert sql.execute("SELECT count(*) FROM beds").fetchone() == (2,)
    assert sql.execute("SELECT count(*) FROM plants").fetchone() == (2,)
    with pytest.raises(sqlite3.IntegrityError, match="append-only"):
        sql.execute("UPDATE beds SET name = 'x'")
    sql.close()


@pytest.mark.parametrize("entry", [Bed(name=" "), Bed(name="b", gone="May"), Bed(name="b\ud800")])
def test_a_bed_that_cannot_be_kept(journal: Journal, entry: Bed) -> None:
    with pytest.raises(UsageError):
        journal.save_bed(entry)
    assert journal.beds() == ()


def test_a_plant_with_a_day_that_is_none(journal: Journal) -> None:
    with pytest.raises(UsageError, match="not a day"):
        journal.save_plant(Plant(name="row", planted="2026-02-30"))


def test_where_a_case_is(journal: Journal) -> None:
    case_id = journal.begin_case("2026-05-04", "basil", System())
    assert journal.case_place(case_id) == CasePlace()
    journal.place_case(case_id, CasePlace(bed="wall"))
    journal.place_case(case_id, CasePlace(bed="door", plant="row 1"))
    assert journal.case_place(case_id) == CasePlace(bed="door", plant="row 1")
    with pytest.raises(UsageError, match="no case 7"):
        journal.place_case(7, CasePlace(bed="door"))


def test_a_photo_is_known_again(journal: Journal, tmp_path: Path) -> None:
    case_id = journal.begin_case("2026-05-04", "basil", System())
    leaf = tmp_path / "leaf.jpg"
    leaf.write_bytes(b"leaf")
    journal.add_photo(case_id, leaf, "2026-05-04", "top")
    (photo,) = journal.case_photos(case_id)
    # SHA-256 of the four letters, by sha256sum
    assert photo.sha256 == "9f91161f43433e49a6de6db680d79f60159f2e4ac9172621a12846428158440b"
    assert (photo.size, photo.path, photo_state(photo)) == (4, str(leaf), "same")
    leaf.write_bytes(b"lead")
    assert photo_state(photo) == "changed"
    leaf.unlink()
    assert photo_state(photo) == "missing"
    with pytest.raises(UsageError, match="cannot be read"):
        journal.add_photo(case_id, leaf, "2026-05-04")


def test_a_setting_as_last_chosen(journal: Journal) -> None:
    assert journal.setting("own-rates") == ""
    for value in ("off", "on", "on"):
        journal.set_setting("own-rates", value)
    assert journal.setting("own-rates") == "on"


def test_where_all_cases_are(journal: Journal) -> None:
    numbers = [journal.begin_case("2026-05-04", "basil", System()) for _ in range(3)]
    for number, bed in ((numbers[0], "wall"), (numbers[1], "door"), (numbers[0], "window")):
        journal.place_case(number, CasePlace(bed=bed))
    assert {number: place.bed for number, place in journal.places().items()} == {
        numbers[0]: "window",
        numbers[1]: "door",
    }
