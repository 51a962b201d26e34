"""Published cases as a grower would bring them: in words, or as findings ticked."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from triage.book.casefile import find_named
from triage.book.strict_yaml import parse_yaml
from triage.errors import UsageError
from triage.model.book import Book
from triage.model.case import Case, System
from triage.model.quantity import Reading
from triage.water.readings import make_reading

SIGNS = Path(__file__).resolve().parents[2] / "shared" / "signs"
DAY = "2026-05-04"
PARTS = ("tune", "check")
MODES = ("words", "coded")
#: What the cases call a quantity, and what the book calls it; soil and media are left out.
QUANTITIES = {"ph": "ph", "ec": "ec", "do": "oxygen", "temperature": "air-temperature", "humidity": "humidity"}
_LIMIT = re.compile(r"(above|below) ([\d.]+)(?: C| percent)?(?: average)?$")
_SPAN = re.compile(r"([\d.]+) to ([\d.]+)(?: C)?$")

Vignette = dict[str, Any]


def load_cases(part: str = "") -> list[Vignette]:
    """Cases whose text was read, of one part or of both, each with its coded findings under ``coded``."""
    return _read("vignettes.yaml", "coded.yaml", part)


def load_fresh(part: str = "") -> list[Vignette]:
    """The same of the cases that were read later."""
    return _read("fresh.yaml", "fresh_coded.yaml", part)


def _read(name: str, ticked: str, part: str) -> list[Vignette]:
    coded = {case["id"]: case for case in _strictly(ticked)}
    seen = [case for case in _strictly(name) if case["verified"] == "seen" and part in ("", case["part"])]
    return [case | {"coded": coded[case["id"]]} for case in seen]


def _strictly(name: str) -> list[Vignette]:
    document = parse_yaml((SIGNS / name).read_text(encoding="utf-8"), name)
    if document.faults:
        raise SystemExit(str(document.faults[0]))
    return list(document.data)


def case_of(vignette: Vignette, book: Book, mode: str) -> Case:
    """The whole case as a grower would tell it: ``words`` (the facts as text) or ``coded`` (the findings ticked)."""
    if mode == "words":
        return Case(
            on=DAY, crop=crop_of(vignette, book), words=words_of(vignette), readings=readings_of(vignette, book)
        )
    coded = vignette["coded"]
    return bare_case(vignette, book, tuple(coded["seen"]), tuple(coded["absent"]), tuple(coded["unsure"]))


def bare_case(
    vignette: Vignette, book: Book, seen: tuple[str, ...] = (), absent: tuple[str, ...] = (),
    unsure: tuple[str, ...] = (),
) -> Case:  # fmt: skip
    """Crop, place and readings of a case, with the findings given."""
    coded = vignette["coded"]
    typed = [make_reading(name, value, book.quantities, on=DAY) for name, value in coded.get("readings", {}).items()]
    known = {reading.quantity for reading in typed}
    told = (reading for reading in readings_of(vignette, book) if reading.quantity not in known)
    return Case(
        on=DAY, crop=crop_of(vignette, book), system=System(place=coded.get("place", "")), readings=(*typed, *told),
        seen=frozenset(seen), absent=frozenset(absent), unsure=frozenset(unsure),
    )  # fmt: skip


def words_of(vignette: Vignette) -> tuple[str, ...]:
    """The facts, each as one thing said."""
    return tuple(vignette["facts"])


def crop_of(vignette: Vignette, book: Book) -> str:
    """Id of the crop, empty where the source names none or one that the book does not grow."""
    named = vignette.get("crop", "")
    return find_named(named, book.crops) or "" if named else ""


def readings_of(vignette: Vignette, book: Book) -> tuple[Reading, ...]:
    """Readings of water and air that the source gives as a number, a limit or a range."""
    found = []
    for name, text in vignette["readings"].items():
        if name in QUANTITIES:
            try:
                found.append(make_reading(QUANTITIES[name], typed_as(str(text)), book.quantities, on=DAY))
            except UsageError:  # told in words only
                continue
    return tuple(found)


def typed_as(text: str) -> str:
    """A value in a source's words as one types it.

    >>> typed_as("above 7.5"), typed_as("below 15 C average"), typed_as("1 to 10 C"), typed_as("low")
    ('>7.5', '<15', '1-10', 'low')
    """
    if limit := _LIMIT.match(text):
        return f"{'>' if limit[1] == 'above' else '<'}{limit[2]}"
    return f"{span[1]}-{span[2]}" if (span := _SPAN.match(text)) else text


def right_ones(vignette: Vignette) -> frozenset[str]:
    """The cause that the source gives, and those that it says look alike."""
    return frozenset((vignette["expected"], *vignette["acceptable"]))
