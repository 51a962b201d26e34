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

#: A journal as version 1 left it (dumped by sqlite3's ``iterdump``); never to be changed.
FIRST_VERSION = Path(__file__).with_name("first_version.sql")
GARDEN = Migration(
    "garden",
    (
        "CREATE TABLE beds (id INTEGER PRIMARY KEY, at TEXT NOT NULL, name TEXT NOT NULL)",
        "ALTER TABLE cases ADD COLUMN bed_id INTEGER REFERENCES beds (id)",
        *append_only("beds"),
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


@pytest.fixture
def old_home(home: Path) -> Path:
    """A home with the journal of version 1."""
    home.mkdir()
    sql = sqlite3.connect(home / JOURNAL_FILE)
    sql.executescript(FIRST_VERSION.read_text())
    sql.close()
    return home


@pytest.fixture
def with_garden(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(schema, "MIGRATIONS", (*schema.MIGRATIONS, GARDEN))


def look_at_everything(journal: Journal) -> None:
    """All that the file of version 1 holds."""
    assert journal.load_system() == System(volume_l=1200.0, animals=("tilapia", "shrimp"), beds="media")
    ph = Reading(quantity="ph", value=7.4, step=0.2, low=7.3, high=7.5, on="2026-05-03", point="sump", kit="drops")
    assert journal.readings(quantity="ph") == (ph,)
    assert [entry.fate for entry in journal.reading_history()] == ["replaced", "", "withdrawn", ""]
    case = journal.load_case(1)
    assert (case.crop, case.plant, case.state, case.outcome) == ("strawberry", "row 2", "closed", "cured")
    assert [answer.kind for answer in journal.answer_history(1)] == ["crop", "words", "finding", "back", "finding"]
    assert [answer.payload for answer in case.answers][-1] == '{"seen":["newest-leaves-first"]}'
    report = journal.case_report(1)
    assert report is not None
    assert (report.summary, report.book_hash, report.report) == ("Iron shortage", "f00d", '{"suspects":[]}')
    assert [action.note for action in journal.case_actions(1)] == ["20 g, a glass of water"]
    assert [line.id for line in journal.unfinished_cases()] == [2]
    assert [line.state for line in journal.list_cases()] == ["unfinished", "closed", "abandoned"]


def version_of(home: Path) -> int:
    sql = sqlite3.connect(home / JOURNAL_FILE)
    version = sql.execute("PRAGMA user_version").fetchone()[0]
    sql.close()
    return int(version)


def test_the_first_version_opens(old_home: Path) -> None:
    with open_journal(old_home, now=clock) as journal:
        look_at_everything(journal)
    assert version_of(old_home) == len(schema.MIGRATIONS)
    assert check_journal(old_home) == []


@pytest.mark.usefixtures("with_garden")
def test_a_step_to_a_later_version(old_home: Path) -> None:
    before = version_of(old_home)
    with open_journal(old_home, now=clock) as journal:
        look_at_everything(journal)
        with journal._database.read() as sql:
            steps = [tuple(row) for row in sql.execute("SELECT name, at FROM migrations ORDER BY id")]
    assert steps[0] == ("first", "2026-05-04T10:00:00")
    assert steps[-1] == ("garden", clock())
    assert version_of(old_home) > before
    assert check_journal(old_home) == []


@pytest.mark.usefixtures("with_garden")
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
    monkeypatch.setattr(schema, "MIGRATIONS", (*known, GARDEN, BROKEN))
    with pytest.raises(JournalError, match="nowhere"):
        open_journal(old_home, now=clock)
    assert version_of(old_home) == len(known) + 1  # the step before the broken one was whole
    monkeypatch.setattr(schema, "MIGRATIONS", (*known, GARDEN))
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
        later.setattr(schema, "MIGRATIONS", (*known, GARDEN))
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
