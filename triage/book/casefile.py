"""CASE.yaml: one look at one plant, written down; every fault with file, line and what is allowed."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path as FilePath
from typing import Any

from ..errors import Fault, KnowledgeError, nearest
from ..model.book import Book
from ..model.record import Record
from .plain_yaml import read_plain
from .records import build_record
from .yaml_tree import Document, Path


class ReadingInput(Record, frozen=True, kw_only=True):
    """One reading as written: ``value`` is a number, or text with a bound ("<= 0.1")."""

    quantity: str
    value: float | str
    unit: str = ""
    bound: str = ""
    kit: str = ""
    step: float | None = None
    on: str = ""
    time: str = ""
    point: str = ""


class SystemInput(Record, frozen=True, kw_only=True):
    """The system as written; volume with its unit ("1000 L"), a bare number is litres."""

    name: str = "main"
    volume: float | str | None = None
    animals: list[str] = []
    crops: list[str] = []
    beds: str = ""
    filter: str = ""
    top_up: str = ""
    place: str = ""
    altitude: float | None = None
    shelf: list[str] = []


class CaseInput(Record, frozen=True, kw_only=True):
    """A case as written."""

    crop: str = ""
    system: SystemInput | None = None
    seen: list[str] = []
    absent: list[str] = []
    unsure: list[str] = []
    words: str | list[str] = []
    changes: list[str] = []
    readings: list[ReadingInput] = []
    on: str = ""
    plant: str = ""


class CaseFile:
    """A case file read without a fault in its form; ids are checked against a book by ``checked``."""

    def __init__(self, name: str, document: Document, case: CaseInput) -> None:
        self.name = name
        self.document = document
        self.case = case

    def fault(self, path: Path, message: str) -> Fault:
        return Fault(self.name, self.document.line(path), "error", "CASE", message)


def parse_case(text: str, name: str) -> CaseFile:
    """Read the text of a case file. Errors: KnowledgeError with every fault of form."""
    document = read_plain(text, name) or _parse_with_library(text, name)
    data = document.data if document.data is not None else {}
    if not document.faults:
        record = build_record(CaseInput, data, document, (), name)
        if record is not None:
            return CaseFile(name, document, record)
    raise KnowledgeError(document.faults)


def _parse_with_library(text: str, name: str) -> Document:
    from .strict_yaml import parse_yaml

    return parse_yaml(text, name)


def load_case(path: FilePath) -> CaseFile:
    """Read a case file. Errors: KnowledgeError (form), or with one fault if the file cannot be read."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        reason = error.strerror if isinstance(error, OSError) else "not UTF-8 text"
        raise KnowledgeError([Fault(str(path), 1, "error", "KB007", f"cannot be read: {reason}")]) from error
    return parse_case(text, str(path))


def check_case(file: CaseFile, book: Book) -> list[Fault]:
    """Faults of ids: findings that are not in the book, changes that are not changes, unknown crops and animals."""
    changes = {id_: f for id_, f in book.findings.items() if f.kind == "change"}
    faults: list[Fault] = []
    for key, known in (("seen", book.findings), ("absent", book.findings), ("unsure", book.findings)):
        faults += _unknown(file, (key,), getattr(file.case, key), known, "finding")
    faults += _unknown(file, ("changes",), file.case.changes, changes, "change")
    system = file.case.system
    if system is not None:
        faults += _unknown_names(file, ("system", "animals"), system.animals, book.animals, "animal")
        faults += _unknown_names(file, ("system", "crops"), system.crops, book.crops, "crop")
    if file.case.crop and find_named(file.case.crop, book.crops) is None:
        faults.append(file.fault(("crop",), _says(file.case.crop, _all_names(book.crops), "crop")))
    return faults


def _unknown(file: CaseFile, path: Path, ids: list[str], known: Mapping[str, Any], what: str) -> list[Fault]:
    return [file.fault((*path, number), _says(id_, known, what)) for number, id_ in enumerate(ids) if id_ not in known]


def _unknown_names(file: CaseFile, path: Path, names: list[str], known: Mapping[str, Any], what: str) -> list[Fault]:
    return [
        file.fault((*path, number), _says(name, _all_names(known), what))
        for number, name in enumerate(names)
        if find_named(name, known) is None
    ]


def _says(word: str, known: Any, what: str) -> str:
    return f"no {what} '{word}' in the book (see: triage book find WORDS{nearest(word, known)})"


def _all_names(entries: Mapping[str, Any]) -> list[str]:
    return [name for id_, entry in entries.items() for name in (id_, entry.name.lower(), *entry.also)]


def find_named(word: str, entries: Mapping[str, Any]) -> str | None:
    """The id of the entry with this id, name or other name, upper and lower case alike; None if there is none."""
    if word in entries:
        return word
    wanted = " ".join(word.lower().replace("_", " ").replace("-", " ").split())
    for id_, entry in entries.items():
        for name in (id_, entry.name, *entry.also):
            plain = " ".join(name.lower().replace("-", " ").split())
            if wanted in (plain, f"{plain}s", f"{plain}es") or f"{wanted}s" == plain:
                return id_
    return None
