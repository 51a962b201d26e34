"""What was written or typed → a Case: units, bounds, names, each fault with its line and what is allowed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

import msgspec

from .errors import Fault, KnowledgeError, UsageError, nearest
from .model.book import Book
from .model.case import Case, System
from .model.crop import Animal, Crop
from .model.quantity import Bound, Quantity, Reading
from .responses.amounts import parse_volume
from .water.readings import BOUNDS, make_reading

if TYPE_CHECKING:  # a question series reads no YAML, so it is spared the library until a name is looked up
    from .book.casefile import CaseFile, ReadingInput, SystemInput

#: What the parts of a system may be called.
BEDS = ("media", "raft", "channel", "wicking", "mixed")
TOP_UP = ("mains", "rain", "well", "mixed")
PLACES = ("greenhouse", "outdoors", "indoors")


def build_case(file: CaseFile, book: Book, *, today: str, saved: System | None = None) -> Case:
    """The case a file describes; readings without a date are of the day of the look.

    Errors: KnowledgeError with every fault (unknown ids, quantities, units, impossible values) by line.
    """
    from .book.casefile import check_case, find_named

    faults = check_case(file, book)
    written = file.case
    on = _day(file, written.on or today, faults)
    readings = [
        reading for n, item in enumerate(written.readings) if (reading := _reading(file, n, item, book, on, faults))
    ]
    system = saved or System()
    if written.system is not None:
        system = _system(file, written.system, book, faults)
    words = [written.words] if isinstance(written.words, str) else written.words
    seen = frozenset((*written.seen, *written.changes))
    for name in sorted(seen & frozenset(written.absent)):
        faults.append(file.fault(("absent",), f"'{name}' is both seen and absent (keep it in one list)"))
    if faults:
        raise KnowledgeError(faults)
    return Case(
        on=on, crop=(find_named(written.crop, book.crops) or "") if written.crop else "", system=system, seen=seen,
        absent=frozenset(written.absent), unsure=frozenset(written.unsure) - seen - frozenset(written.absent),
        words=tuple(clean_text(text) for text in words if text.strip()), readings=tuple(readings), plant=written.plant,
    )  # fmt: skip


def _day(file: CaseFile, on: str, faults: list[Fault]) -> str:
    from datetime import date

    try:
        return date.fromisoformat(on).isoformat()
    except ValueError:
        faults.append(file.fault(("on",), f"'{on}' is not a date (write it as 2026-05-04)"))
        return "2000-01-01"


def _reading(
    file: CaseFile, number: int, item: ReadingInput, book: Book, on: str, faults: list[Fault]
) -> Reading | None:
    try:
        return reading_from(item, book.quantities, on=on)
    except UsageError as error:
        faults.append(file.fault(("readings", number), str(error)))
        return None


def reading_from(item: ReadingInput, quantities: Mapping[str, Quantity], *, on: str) -> Reading:
    """A reading as written, in its quantity's own unit. Errors: UsageError."""
    bound: Bound | None = None
    if item.bound:
        bound = next((known for known in BOUNDS if known == item.bound), None)
        if bound is None:
            raise UsageError(f"{item.quantity}: no bound '{item.bound}' (allowed: {', '.join(BOUNDS)})")
    return make_reading(
        item.quantity, item.value, quantities, unit=item.unit, bound=bound, kit=item.kit, step=item.step,
        on=item.on or on, time=item.time, point=item.point,
    )  # fmt: skip


def _system(file: CaseFile, written: SystemInput, book: Book, faults: list[Fault]) -> System:
    from .book.casefile import find_named

    volume = None
    if written.volume is not None:
        try:
            volume = volume_litres(written.volume)
        except UsageError as error:
            faults.append(file.fault(("system", "volume"), str(error)))
    return System(
        name=written.name, volume_l=volume,
        animals=tuple(dict.fromkeys(id_ for name in written.animals if (id_ := find_named(name, book.animals)))),
        crops=tuple(dict.fromkeys(id_ for name in written.crops if (id_ := find_named(name, book.crops)))),
        beds=written.beds, filter=written.filter, top_up=written.top_up, place=written.place,
        altitude_m=written.altitude, shelf=tuple(written.shelf),
    )  # fmt: skip


def volume_litres(volume: float | str) -> float:
    """Litres of a volume as written; a bare number is litres. Errors: UsageError.

    >>> volume_litres("1 m3"), volume_litres(600)
    (1000.0, 600.0)
    """
    text = str(volume).strip()
    return parse_volume(f"{text} L" if text.replace(".", "", 1).isdigit() else text)


def named_ids(names: Sequence[str], entries: Mapping[str, Animal] | Mapping[str, Crop], what: str) -> tuple[str, ...]:
    """Ids of animals or crops named on a command line. Errors: UsageError with the nearest match."""
    from .book.casefile import find_named

    found = []
    for name in names:
        id_ = find_named(name, entries)
        if id_ is None:
            known = [n for key, entry in entries.items() for n in (key, entry.name.lower(), *entry.also)]
            raise UsageError(f"no {what} '{name}' in the book{nearest(name, known)} (allowed: {', '.join(entries)})")
        found.append(id_)
    return tuple(dict.fromkeys(found))


def system_as_asked(book: Book, saved: System, *, volume: str | None, animals: str | None) -> System:
    """The saved system with the volume and the animals (with commas) said now. Errors: UsageError for either."""
    if volume is not None:
        saved = msgspec.structs.replace(saved, volume_l=volume_litres(volume))
    if animals is not None:
        names = [name.strip() for name in animals.split(",") if name.strip()]
        saved = msgspec.structs.replace(saved, animals=named_ids(names, book.animals, "animal"))
    return saved


def clean_text(text: str) -> str:
    """Typed text without control characters, so that nothing typed can drive a terminal later.

    >>> clean_text(" web\\x1b[31mbing\\t")
    'web[31mbing'
    """
    return "".join(c if c.isprintable() else " " if c in "\t\n" else "" for c in text).strip()
