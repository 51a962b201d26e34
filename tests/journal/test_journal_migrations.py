"""Earlier files open with all they hold; a step that fails changes nothing; a later file is left alone."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from triage.errors import JournalError
from triage.journal import JOURNAL_FILE, Journal, check_journal, open_journal, schema
from triage.journal.schema import Migration, append_only
from triage.model.case import System
from triage.model.quantity import Reading

#: A journal as each version left it (dumped by sqlite3's ``iterdump``); never to be changed. The later ones hold what
#: the first one held, and more.
VERSIONS = ("first_version.sql", "second_version.sql")
HUTS = Migration(
    "huts",
    (
        "CREATE TABLE huts (id INTEGER PRIMARY KEY, at TEXT NOT NULL, name TEXT NOT NULL)",
        "ALTER TABLE cases ADD COLUMN hut_id INTEGER REFERENCES huts (id)",
        *append_only("huts"),
    ),
)
BROKEN = Migration("broken", ("CREATE TABLE pots (id INTEGER PRIMARY KEY)", "ALTER TABLE nowhere ADD COLUMN x"))
TEARING = Migration(
    "tearing",
    (
        "CREATE TABLE leaves (case_id INTEGER REFERENCES cases (id) DEFERRABLE INITIALLY DEFERRED)",
        "INSERT INTO leaves (case_id) VALUES (77)",
    ),
)


def clock() -> str:
    return "2027-01-01T08:00:00"


def make_home(home: Path, version: str) -> Path:
    """A home with the journal of an earlier version."""
    home.mkdir()
    sql = sqlite3.connect(home / JOURNAL_FILE)
    sql.executescript(Path(__file__).with_name(version).read_text())
    sql.close()
    return home


@pytest.fixture(params=VERSIONS)
def old_home(home: Path, request: pytest.FixtureRequest) -> Path:
    """A home with the journal of every earlier version."""
    return make_home(home, request.param)


@pytest.fixture
def with_huts(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(schema, "MIGRATIONS", (*schema.MIGRATIONS, HUTS))


def look_at_everything(journal: Journal) -> None:
    """All that the file of version 1 holds."""
    assert journal.load_system() == System(volume_l=1200.0, animals=("tilapia", "shrimp"), beds="media")
    ph = Reading(quantity="ph", value=7.4, step=0.2, low=7.3, high=7.5, on="2026-05-03", point="sump", kit="drops")
    assert journal.readings(quantity="ph") == (ph,)
    assert [entry.fate for entry in journal.reading_history()] == ["replaced", "", "withdrawn", ""]
    case = journal.load_case(1)
    assert (case.crop, case.plant, case.state, case.outcome) == ("strawberry", "row 2", "closed", "cured")
    assert [answer.kind for answer in journal.answer_history(1)][:5] == ["crop", "words", "finding", "back", "finding"]
    assert [answer.payload for answer in case.answers][-1] == '{"seen":["newest-leaves-first"]}'
    report = journal.case_report(1)
    assert report is not None
    assert (report.summary, report.book_hash, report.report) == ("Iron shortage", "f00d", '{"suspects":[]}')
    assert journal.case_actions(1)[0].note == "20 g, a glass of water"
    assert [line.id for line in journal.unfinished_cases()] == [2]
    assert [line.state for line in journal.list_cases()] == ["unfinished", "closed", "abandoned"]


def version_of(home: Path) -> int:
    sql = sqlite3.connect(home / JOURNAL_FILE)
    version = sql.execute("PRAGMA user_version").fetchone()[0]
    sql.close()
    return int(version)


def test_every_version_has_its_file() -> None:
    assert len(VERSIONS) == len(schema.MIGRATIONS)


def test_what_the_second_version_brought(home: Path) -> None:
    with open_journal(make_home(home, "second_version.sql"), now=clock) as journal:
        assert [(bed.name, bed.crops) for bed in journal.beds()] == [("wall", ("strawberry", "basil"))]
        assert [(plant.name, plant.planted) for plant in journal.plants()] == [("row 2", "2026-03-01")]
        assert journal.case_place(1).bed == "wall"
        assert [photo.note for photo in journal.case_photos(1)] == ["top leaf"]
        assert [look.verdict for look in journal.case_rechecks(1)] == ["better", ""]
        assert [len(look.answers) for look in journal.case_rechecks(1)] == [1, 1]
        assert [action.what for action in journal.case_actions(1)] == ["iron-chelate-dtpa", "iron, 20 g"]
        assert journal.outcomes()[1].causes == ("iron-deficiency",)
        assert journal.setting("own-rates") == "off"


def test_every_version_opens(old_home: Path) -> None:
    with open_journal(old_home, now=clock) as journal:
        look_at_everything(journal)
    assert version_of(old_home) == len(schema.MIGRATIONS)
    assert check_journal(old_home) == []


@pytest.mark.usefixtures("with_huts")
def test_a_step_to_a_later_version(old_home: Path) -> None:
    before = version_of(old_home)
    with open_journal(old_home, now=clock) as journal:
        look_at_everything(journal)
        with journal._database.read() as sql:
            steps = [tuple(row) for row in sql.execute("SELECT name, at FROM migrations ORDER BY id")]
    assert steps[0] == ("first", "2026-05-04T10:00:00")
    assert steps[-1] == ("huts", clock())
    assert version_of(old_home) > before
    assert check_journal(old_home) == []


@pytest.mark.usefixtures("with_huts")
def test_reading_only_brings_up_to_date_in_memory(old_home: Path) -> None:
    before = (old_home / JOURNAL_FILE).read_bytes()
    with open_journal(old_home, now=clock, read_only=True) as journal:
        look_at_everything(journal)
    assert check_journal(old_home) == []
    assert (old_home / JOURNAL_FILE).read_bytes() == before


def test_a_step_that_fails_changes_nothing(old_home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with open_journal(old_home, now=clock):
        pass
    known = schema.MIGRATIONS
    monkeypatch.setattr(schema, "MIGRATIONS", (*known, HUTS, BROKEN))
    with pytest.raises(JournalError, match="nowhere"):
        open_journal(old_home, now=clock)
    assert version_of(old_home) == len(known) + 1  # the step before the broken one was whole
    monkeypatch.setattr(schema, "MIGRATIONS", (*known, HUTS))
    with open_journal(old_home, now=clock) as journal:
        look_at_everything(journal)


def test_a_step_that_would_tear_entries_apart_is_refused(old_home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    known = schema.MIGRATIONS
    with open_journal(old_home, now=clock):
        pass
    monkeypatch.setattr(schema, "MIGRATIONS", (*known, TEARING))
    with pytest.raises(JournalError, match=r"'tearing'.*nothing was changed"):
        open_journal(old_home, now=clock)
    assert version_of(old_home) == len(known)


def test_a_later_version_is_named_and_left_alone(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    known = schema.MIGRATIONS
    with monkeypatch.context() as later:
        later.setattr(schema, "MIGRATIONS", (*known, HUTS))
        open_journal(home, now=clock).close()
    before = (home / JOURNAL_FILE).read_bytes()
    expected = (
        f"later version of this program.*format {len(known) + 1}, this one reads up to {len(known)}.*use the later"
    )
    for read_only in (False, True):
        with pytest.raises(JournalError, match=expected):
            open_journal(home, now=clock, read_only=read_only)
    assert "later version" in check_journal(home)[0]
    assert (home / JOURNAL_FILE).read_bytes() == before
