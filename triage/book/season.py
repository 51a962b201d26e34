"""A season written down: what was measured, seen, done and asked, day by day."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path as FilePath

from ..errors import Fault, KnowledgeError
from ..model.record import Record
from .casefile import CaseFile, CaseInput, SystemInput
from .records import build_record
from .strict_yaml import parse_yaml
from .yaml_tree import Document, Path


class BedInput(Record, frozen=True, kw_only=True):
    """A bed as written."""

    name: str
    kind: str = ""
    crops: list[str] = []
    beside: list[str] = []


class WhyInput(Record, frozen=True, kw_only=True):
    """A question why a quantity drifts, with findings seen, and looked for and absent."""

    quantity: str
    seen: list[str] = []
    absent: list[str] = []


class SprayInput(Record, frozen=True, kw_only=True):
    """A question whether something may be sprayed here, as it is asked."""

    words: str
    amount: str = ""
    cover: str = ""
    strength: str = ""


class Event(Record, frozen=True, kw_only=True):
    """What happened on a day; what is there of it happened in the order in which it stands here.

    ``readings`` are as on a command line (ph=6.8). ``case`` is a word by which later days mean this look: ``look`` is
    the first one, ``again`` a later one. ``bed`` is where it stands. ``proved`` is what it turned out to be, ``how``
    how one knows. ``due``: what is due is asked for.
    """

    day: str
    says: str = ""
    system: SystemInput | None = None
    beds: list[BedInput] = []
    readings: list[str] = []
    kit: str = ""
    point: str = ""
    case: str = ""
    bed: str = ""
    look: CaseInput | None = None
    did: str = ""
    treatment: str = ""
    again: CaseInput | None = None
    proved: list[str] | None = None
    how: str = ""
    closed: str = ""
    why: WhyInput | None = None
    spray: SprayInput | None = None
    due: bool = False


class _Part(CaseFile):
    """A case that stands inside a longer file."""

    def __init__(self, name: str, document: Document, case: CaseInput, at: Path) -> None:
        super().__init__(name, document, case)
        self.at = at

    def fault(self, path: Path, message: str) -> Fault:
        return super().fault((*self.at, *path), message)


class Written:
    """An event with the place where it is written."""

    def __init__(self, name: str, document: Document, number: int, event: Event) -> None:
        self.name, self.document, self.number, self.event = name, document, number, event

    def case(self, case: CaseInput, *part: str) -> CaseFile:
        """A look of this event as a case file; ``part`` is the key under which it stands."""
        return _Part(self.name, self.document, case, (self.number, *part))

    def fault(self, key: str, message: str) -> Fault:
        """A fault of this event."""
        return Fault(self.name, self.document.line((self.number, key)), "error", "CASE", message)


def load_season(folder: FilePath) -> list[Written]:
    """Every event of the files of a folder, in the order of their names. Errors: KnowledgeError with every fault."""
    written: list[Written] = []
    faults: list[Fault] = []
    for path in sorted(folder.glob("*.yaml")):
        document = parse_yaml(path.read_text(encoding="utf-8"), path.name)
        for number, data in enumerate(document.data or []):
            event = build_record(Event, data, document, (number,), path.name)
            if event is not None:
                written.append(Written(path.name, document, number, event))
        faults += document.faults
    faults = faults or list(_out_of_order(written))
    if faults:
        raise KnowledgeError(faults)
    return written


def _out_of_order(written: list[Written]) -> Iterator[Fault]:
    before = ""
    for item in written:
        try:
            day = date.fromisoformat(item.event.day).isoformat()
        except ValueError:
            yield item.fault("day", f"'{item.event.day}' is not a date (write it as 2026-05-03)")
            continue
        if day < before:
            yield item.fault("day", f"{day} comes after {before} in the files (write events in their order)")
        before = day
