"""Beds and plants, where a case is, and photos. The last entry of a name holds; the ones before are kept."""

from __future__ import annotations

import hashlib
import os
import sqlite3
from pathlib import Path
from typing import TypeVar

import msgspec

from triage.errors import UsageError
from triage.model.garden import Bed, Plant

from .cases import check_known, convert_row
from .records import CasePlace, Photo
from .values import check_day

Named = TypeVar("Named", Bed, Plant)
_TABLES: dict[type[Bed] | type[Plant], str] = {Bed: "beds", Plant: "plants"}


def save_named(sql: sqlite3.Connection, entry: Named, system: str, at: str) -> None:
    """Keep a bed or a plant as it is now, unless nothing about it changed."""
    if not entry.name.strip():
        raise UsageError("a bed or a plant needs a name")
    for day in (getattr(entry, "planted", ""), entry.gone):
        if day:
            check_day(day)
    if load_named(sql, type(entry), system, entry.name) != entry:
        row = (at, system, entry.name, msgspec.json.encode(entry).decode())
        sql.execute(f"INSERT INTO {_TABLES[type(entry)]} (at, system, name, record) VALUES (?, ?, ?, ?)", row)


def load_named(sql: sqlite3.Connection, kind: type[Named], system: str, name: str) -> Named | None:
    """The bed or plant of that name as last saved."""
    query = f"SELECT record FROM {_TABLES[kind]} WHERE system = ? AND name = ? ORDER BY id DESC LIMIT 1"
    row = sql.execute(query, (system, name)).fetchone()
    return msgspec.json.decode(row["record"], type=kind) if row else None


def list_named(sql: sqlite3.Connection, kind: type[Named], system: str) -> tuple[Named, ...]:
    """Every bed or plant as last saved, those that are gone too, in the order in which they were first named."""
    table = _TABLES[kind]
    query = f"""SELECT record FROM {table} AS t WHERE system = ? AND id = (
        SELECT max(id) FROM {table} WHERE system = t.system AND name = t.name)
        ORDER BY (SELECT min(id) FROM {table} WHERE system = t.system AND name = t.name)"""
    return tuple(msgspec.json.decode(row["record"], type=kind) for row in sql.execute(query, (system,)))


def place_case(sql: sqlite3.Connection, case_id: int, place: CasePlace, at: str) -> None:
    """Say where the case is."""
    check_known(sql, case_id)
    row = (case_id, at, place.bed, place.plant)
    sql.execute("INSERT INTO case_places (case_id, at, bed, plant) VALUES (?, ?, ?, ?)", row)


def find_place(sql: sqlite3.Connection, case_id: int) -> CasePlace:
    """Where the case is, as last said."""
    check_known(sql, case_id)
    query = "SELECT bed, plant FROM case_places WHERE case_id = ? ORDER BY id DESC LIMIT 1"
    row = sql.execute(query, (case_id,)).fetchone()
    return convert_row(row, CasePlace) if row else CasePlace()


def list_places(sql: sqlite3.Connection) -> dict[int, CasePlace]:
    """Where each case is, as last said, by its number."""
    query = "SELECT case_id, bed, plant FROM case_places ORDER BY id"  # a later one takes the place of an earlier
    return {row["case_id"]: convert_row(row, CasePlace) for row in sql.execute(query)}


def add_photo(sql: sqlite3.Connection, case_id: int, path: Path, on: str, note: str, at: str) -> int:
    """Keep where a photo lies and its checksum; the photo itself is not copied. The number of the row."""
    check_known(sql, case_id)
    checksum, size = checksum_of(path)
    row = (case_id, at, check_day(on), os.path.abspath(path), checksum, size, note)
    columns = "case_id, at, day, path, sha256, size, note"
    cursor = sql.execute(f"INSERT INTO photos ({columns}) VALUES (?, ?, ?, ?, ?, ?, ?)", row)
    return int(cursor.lastrowid or 0)


def list_photos(sql: sqlite3.Connection, case_id: int) -> tuple[Photo, ...]:
    """The photos of the case, by day."""
    check_known(sql, case_id)
    query = 'SELECT *, day AS "on" FROM photos WHERE case_id = ? ORDER BY day, id'
    return tuple(convert_row(row, Photo) for row in sql.execute(query, (case_id,)))


def checksum_of(path: Path) -> tuple[str, int]:
    """SHA-256 of a file and its size in bytes. UsageError if it cannot be read."""
    try:
        with path.open("rb") as file:
            digest = hashlib.file_digest(file, "sha256").hexdigest()
            return digest, file.tell()
    except OSError as error:
        raise UsageError(f"{path} cannot be read: {error.strerror or error}") from error


def photo_state(photo: Photo) -> str:
    """Whether the file is still the one that was recorded: same | changed | missing."""
    path = Path(photo.path)
    if not path.is_file():
        return "missing"
    return "same" if checksum_of(path)[0] == photo.sha256 else "changed"


def set_setting(sql: sqlite3.Connection, name: str, value: str, at: str) -> None:
    """Keep a choice of the grower's; the last one holds."""
    if find_setting(sql, name) != value:
        sql.execute("INSERT INTO settings (at, name, value) VALUES (?, ?, ?)", (at, name, value))


def find_setting(sql: sqlite3.Connection, name: str) -> str:
    """A choice as last made; '' if it never was."""
    row = sql.execute("SELECT value FROM settings WHERE name = ? ORDER BY id DESC LIMIT 1", (name,)).fetchone()
    return str(row["value"]) if row else ""
