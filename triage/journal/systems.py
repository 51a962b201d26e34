"""Systems as the grower described them; every change is kept."""

from __future__ import annotations

import math
import sqlite3

import msgspec

from triage.errors import UsageError
from triage.model.case import System


def encode_system(system: System) -> str:
    """The system as JSON text; UsageError for a number that is not finite."""
    for number in (system.volume_l, system.altitude_m):
        if number is not None and not math.isfinite(number):
            raise UsageError(f"a system cannot be kept with the number {number}")
    return msgspec.json.encode(system).decode()


def decode_system(text: str) -> System:
    return msgspec.json.decode(text, type=System)


def save_system(sql: sqlite3.Connection, system: System, at: str) -> None:
    """Keep the system as it is now, unless nothing about it changed."""
    if load_system(sql, system.name) != system:
        row = (system.name, at, encode_system(system))
        sql.execute("INSERT INTO systems (name, at, record) VALUES (?, ?, ?)", row)


def load_system(sql: sqlite3.Connection, name: str) -> System | None:
    """The system of that name as last saved."""
    row = sql.execute("SELECT record FROM systems WHERE name = ? ORDER BY id DESC LIMIT 1", (name,)).fetchone()
    return decode_system(row["record"]) if row else None


def list_systems(sql: sqlite3.Connection) -> tuple[str, ...]:
    """Names of the saved systems, sorted."""
    return tuple(row["name"] for row in sql.execute("SELECT DISTINCT name FROM systems ORDER BY name"))
