"""Folders of YAML → one Book, an author's folder laid over the built-in one, all faults collected."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass, field
from pathlib import Path as FilePath
from typing import Any

import msgspec

from .. import __version__
from ..errors import Fault, KnowledgeError
from ..model.book import Book
from ..model.garden import Here
from ..model.way import Schedule
from ..words.phrases import compile_speech
from ..words.talk import with_talk
from .layout import SHELVES, Shelf, shelf_of
from .records import build_record
from .strict_yaml import parse_yaml
from .yaml_tree import Document, Path

_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*$")


@dataclass(frozen=True)
class Place:
    """Where an entry stands: its file, and its path inside the document."""

    file: str
    document: Document
    base: Path

    def line(self, *path: str | int) -> int:
        return self.document.line((*self.base, *path))


@dataclass
class Loaded:
    """What the folders held: entries and their places by shelf and id, and every fault."""

    entries: dict[str, dict[str, Any]] = field(default_factory=lambda: {shelf.name: {} for shelf in SHELVES})
    places: dict[tuple[str, str], Place] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    hash: str = ""

    def fault(self, shelf: str, entry: str, path: Path, code: str, message: str, severity: str = "error") -> None:
        """Note a fault at a path inside an entry."""
        place = self.places[(shelf, entry)]
        self.faults.append(Fault(place.file, place.line(*path), severity, code, message))

    def book(self) -> Book:
        """The book as loaded, whatever its faults."""
        findings = self.entries["findings"]
        speech = with_talk(compile_speech(findings, self.entries["synonyms"]), findings, self.entries["causes"])
        return Book(
            version=__version__, hash=self.hash, language="", screens={}, speech=speech, here=Here(),
            schedule=Schedule(), **self.entries,
        )  # fmt: skip


def knowledge_files(folder: FilePath) -> list[tuple[str, FilePath]]:
    """Every YAML file below ``folder`` as (relative path, path), sorted by relative path; translations are apart."""
    found = [*folder.rglob("*.yaml"), *folder.rglob("*.yml")]
    files = sorted((path.relative_to(folder).as_posix(), path) for path in found if path.is_file())
    return [(relative, path) for relative, path in files if not relative.startswith("languages/")]


def hash_folders(folders: list[FilePath]) -> str:
    """Content hash of all knowledge files (names and bytes), as hex; reads but does not parse."""
    digest = hashlib.sha256(__version__.encode())
    for folder in folders:
        for relative, path in knowledge_files(folder):
            digest.update(relative.encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()


def load_folders(folders: list[FilePath]) -> Loaded:
    """Read every file of every folder; a later folder's entry replaces an earlier one's with the same id."""
    loaded = Loaded()
    for folder in folders:
        mine: dict[tuple[str, str], Place] = {}
        for relative, path in knowledge_files(folder):
            _load_file(loaded, mine, relative, path, f"{folder.name}/{relative}")
        loaded.places.update(mine)
    loaded.hash = hash_folders(folders)
    return loaded


def _load_file(loaded: Loaded, mine: dict[tuple[str, str], Place], relative: str, path: FilePath, name: str) -> None:
    shelf = shelf_of(relative)
    if shelf is None or path.suffix == ".yml":
        allowed = ", ".join(f"{s.path}" for s in SHELVES)
        loaded.faults.append(
            Fault(name, 1, "error", "KB108", f"no knowledge is kept here (allowed: {allowed}; *.yaml)")
        )
        return
    document = read_document(path, name, loaded.faults)
    if document is not None:
        for base, data in _entries(shelf, document, name):
            _load_entry(loaded, mine, shelf, document, base, data, name, relative)
        loaded.faults.extend(document.faults)


def read_document(path: FilePath, name: str, faults: list[Fault]) -> Document | None:
    """One file read strictly; None, and its faults noted, if that cannot be done."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        faults.append(Fault(name, 1, "error", "KB007", f"cannot be read as UTF-8 text: {error}"))
        return None
    document = parse_yaml(text, name)
    faults.extend(document.faults)
    return None if document.faults else document


def _entries(shelf: Shelf, document: Document, name: str) -> list[tuple[Path, Any]]:
    if shelf.single:
        return [((), document.data)]
    if not isinstance(document.data, list):
        document.faults.append(Fault(name, 1, "error", "KB103", f"expected a list of entries (- {shelf.key}: …)"))
        return []
    return [((number,), data) for number, data in enumerate(document.data)]


def _load_entry(
    loaded: Loaded, mine: dict[tuple[str, str], Place], shelf: Shelf, document: Document, base: Path, data: Any,
    name: str, relative: str,
) -> None:  # fmt: skip
    entry = build_record(shelf.record, data, document, base, name)
    if entry is None:
        return
    id_ = getattr(entry, shelf.key)
    place = Place(name, document, base)
    for code, key, message in _id_faults(shelf, entry, id_, relative):
        document.faults.append(Fault(name, place.line(key), "error", code, message))
    if (shelf.name, id_) in mine:
        first = mine[(shelf.name, id_)]
        document.faults.append(
            Fault(name, place.line(shelf.key), "error", "KB107", f"'{id_}' is already at {first.file}:{first.line()}")
        )
    mine[(shelf.name, id_)] = place
    loaded.entries[shelf.name][id_] = entry


def _id_faults(shelf: Shelf, entry: msgspec.Struct, id_: str, relative: str) -> list[tuple[str, str, str]]:
    found = []
    if not _ID.match(id_) and shelf.name != "synonyms":
        found.append(("KB106", shelf.key, f"'{id_}' is not an id (lower-case words joined by hyphens)"))
    parts = relative.removesuffix(".yaml").split("/")
    if shelf.single and parts[-1] != id_:
        found.append(
            ("KB104", shelf.key, f"'{id_}' stands in a file named {parts[-1]}.yaml (name the file {id_}.yaml)")
        )
    if shelf.by_kind and parts[1] != getattr(entry, "kind", parts[1]):
        kind = getattr(entry, "kind", "")
        found.append(
            ("KB105", "kind", f"kind '{kind}' stands in folder {parts[1]} (move the file, or change the kind)")
        )
    return found


def load_book(*folders: FilePath) -> Book:
    """Load folders strictly; the built-in book if none is named.

    Errors: KnowledgeError with every fault if a file cannot be read, an entry is wrong, or an id leads nowhere. Whether
    the knowledge makes sense is the business of ``check``.
    """
    from .check_links import check_links
    from .places import built_in_knowledge

    loaded = load_folders(list(folders) or [built_in_knowledge()])
    if not loaded.faults:
        check_links(loaded)
    if loaded.faults:
        raise KnowledgeError(loaded.faults)
    return loaded.book()
