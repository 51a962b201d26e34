"""The tables, as a list of named migrations. A released migration is never edited: add the next one.

Every table keeps what was typed and when, has a number of its own (``id``), and is append-only: a correction is a new
row. Column names avoid SQL's own words (``day`` is a record's ``on``). Lowest and highest value of a reading are NULL
where there is no end.
"""

from __future__ import annotations

from typing import NamedTuple

#: Marks the file as ours (PRAGMA application_id): the letters "tria".
APPLICATION_ID = int.from_bytes(b"tria", "big")


class Migration(NamedTuple):
    """One step of the file's history: its name and its statements, run in one transaction."""

    name: str
    statements: tuple[str, ...]


def append_only(table: str) -> tuple[str, str]:
    """The two triggers that make a table append-only."""

    def trigger(verb: str) -> str:
        refusal = f"SELECT RAISE(ABORT, '{table} is append-only')"
        return f"CREATE TRIGGER {table}_no_{verb} BEFORE {verb.upper()} ON {table} BEGIN {refusal}; END"

    return trigger("update"), trigger("delete")


_SYSTEMS = """CREATE TABLE systems (
    id INTEGER PRIMARY KEY, name TEXT NOT NULL, at TEXT NOT NULL, record TEXT NOT NULL)"""
_READINGS = """CREATE TABLE readings (
    id INTEGER PRIMARY KEY, system TEXT NOT NULL, at TEXT NOT NULL,
    quantity TEXT NOT NULL, value REAL NOT NULL, unit TEXT NOT NULL, bound TEXT NOT NULL, step REAL NOT NULL,
    low REAL, high REAL, day TEXT NOT NULL, time TEXT NOT NULL, kit TEXT NOT NULL, point TEXT NOT NULL,
    note TEXT NOT NULL, derived INTEGER NOT NULL CHECK (derived IN (0, 1)))"""
_CORRECTIONS = """CREATE TABLE reading_corrections (
    id INTEGER PRIMARY KEY, reading_id INTEGER NOT NULL UNIQUE REFERENCES readings (id),
    by_id INTEGER UNIQUE REFERENCES readings (id), at TEXT NOT NULL, why TEXT NOT NULL,
    CHECK (by_id IS NULL OR by_id > reading_id))"""
_CASES = """CREATE TABLE cases (
    id INTEGER PRIMARY KEY, at TEXT NOT NULL, day TEXT NOT NULL, crop TEXT NOT NULL, plant TEXT NOT NULL,
    system TEXT NOT NULL)"""
_ANSWERS = """CREATE TABLE answers (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), seq INTEGER NOT NULL, at TEXT NOT NULL,
    question TEXT NOT NULL, kind TEXT NOT NULL, payload TEXT NOT NULL, undoes INTEGER,
    UNIQUE (case_id, seq), UNIQUE (case_id, undoes),
    FOREIGN KEY (case_id, undoes) REFERENCES answers (case_id, seq),
    CHECK ((kind = 'back') = (undoes IS NOT NULL)), CHECK (undoes IS NULL OR undoes < seq))"""
# The report comes last: it is long, and what stands before it is read without it.
_REPORTS = """CREATE TABLE reports (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL,
    book_version TEXT NOT NULL, book_hash TEXT NOT NULL, summary TEXT NOT NULL, report TEXT NOT NULL)"""
_ABANDONED = """CREATE TABLE abandoned (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL UNIQUE REFERENCES cases (id), at TEXT NOT NULL)"""
_ACTIONS = """CREATE TABLE actions (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL,
    what TEXT NOT NULL, day TEXT NOT NULL, note TEXT NOT NULL)"""
_CLOSINGS = """CREATE TABLE closings (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL,
    outcome TEXT NOT NULL, note TEXT NOT NULL)"""

_FIRST = Migration(
    "first",
    (
        f"PRAGMA application_id = {APPLICATION_ID}",
        _SYSTEMS,
        _READINGS,
        _CORRECTIONS,
        _CASES,
        _ANSWERS,
        _REPORTS,
        _ABANDONED,
        _ACTIONS,
        _CLOSINGS,
        "CREATE INDEX systems_by_name ON systems (name)",
        "CREATE INDEX readings_by_quantity ON readings (system, quantity, point, day, time, value)",
        "CREATE INDEX readings_by_day ON readings (system, day, time)",
        "CREATE INDEX cases_by_day ON cases (day)",
        "CREATE INDEX reports_by_case ON reports (case_id)",
        "CREATE INDEX actions_by_case ON actions (case_id)",
        "CREATE INDEX closings_by_case ON closings (case_id)",
        *append_only("systems"),
        *append_only("readings"),
        *append_only("reading_corrections"),
        *append_only("cases"),
        *append_only("answers"),
        *append_only("reports"),
        *append_only("abandoned"),
        *append_only("actions"),
        *append_only("closings"),
    ),
)

_BEDS = """CREATE TABLE beds (
    id INTEGER PRIMARY KEY, at TEXT NOT NULL, system TEXT NOT NULL, name TEXT NOT NULL, record TEXT NOT NULL)"""
_PLANTS = """CREATE TABLE plants (
    id INTEGER PRIMARY KEY, at TEXT NOT NULL, system TEXT NOT NULL, name TEXT NOT NULL, record TEXT NOT NULL)"""
_PLACES = """CREATE TABLE case_places (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL,
    bed TEXT NOT NULL, plant TEXT NOT NULL)"""
# A recheck takes its answers from the case's own list: those that come after the first ``after``.
_RECHECKS = """CREATE TABLE rechecks (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL, day TEXT NOT NULL,
    after INTEGER NOT NULL CHECK (after >= 0))"""
_RECHECK_REPORTS = """CREATE TABLE recheck_reports (
    id INTEGER PRIMARY KEY, recheck_id INTEGER NOT NULL UNIQUE REFERENCES rechecks (id), at TEXT NOT NULL,
    verdict TEXT NOT NULL, book_version TEXT NOT NULL, book_hash TEXT NOT NULL, summary TEXT NOT NULL,
    report TEXT NOT NULL)"""
_PHOTOS = """CREATE TABLE photos (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL, day TEXT NOT NULL,
    path TEXT NOT NULL, sha256 TEXT NOT NULL CHECK (length(sha256) = 64), size INTEGER NOT NULL, note TEXT NOT NULL)"""
_OUTCOMES = """CREATE TABLE outcomes (
    id INTEGER PRIMARY KEY, case_id INTEGER NOT NULL REFERENCES cases (id), at TEXT NOT NULL, day TEXT NOT NULL,
    causes TEXT NOT NULL, how TEXT NOT NULL)"""
_ACTION_CORRECTIONS = """CREATE TABLE action_corrections (
    id INTEGER PRIMARY KEY, action_id INTEGER NOT NULL UNIQUE REFERENCES actions (id),
    by_id INTEGER UNIQUE REFERENCES actions (id), at TEXT NOT NULL, why TEXT NOT NULL,
    CHECK (by_id IS NULL OR by_id > action_id))"""
_SETTINGS = """CREATE TABLE settings (
    id INTEGER PRIMARY KEY, at TEXT NOT NULL, name TEXT NOT NULL, value TEXT NOT NULL)"""

_GARDEN = Migration(
    "garden",
    (
        _BEDS,
        _PLANTS,
        _PLACES,
        _RECHECKS,
        _RECHECK_REPORTS,
        _PHOTOS,
        _OUTCOMES,
        _ACTION_CORRECTIONS,
        _SETTINGS,
        "ALTER TABLE actions ADD COLUMN treatment TEXT NOT NULL DEFAULT ''",
        "CREATE INDEX beds_by_name ON beds (system, name)",
        "CREATE INDEX plants_by_name ON plants (system, name)",
        "CREATE INDEX case_places_by_case ON case_places (case_id)",
        "CREATE INDEX rechecks_by_case ON rechecks (case_id)",
        "CREATE INDEX photos_by_case ON photos (case_id)",
        "CREATE INDEX outcomes_by_case ON outcomes (case_id)",
        *append_only("beds"),
        *append_only("plants"),
        *append_only("case_places"),
        *append_only("rechecks"),
        *append_only("recheck_reports"),
        *append_only("photos"),
        *append_only("outcomes"),
        *append_only("action_corrections"),
        *append_only("settings"),
    ),
)

MIGRATIONS: tuple[Migration, ...] = (_FIRST, _GARDEN)
