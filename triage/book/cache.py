"""The compiled book: JSON keyed by the content of the YAML, so that an unchanged book is never parsed again.

Nothing here imports yaml. A damaged, foreign or unwritable cache is ignored: the book is then read from its files.
"""

from __future__ import annotations

import hashlib
import os
import tempfile
from pathlib import Path

import msgspec

from ..model.book import Book
from .places import built_in_knowledge

FORMAT = 1


def open_book(own: Path | None = None, cache: Path | None = None) -> Book:
    """The built-in book with the author's folder ``own`` laid over it, from the cache when that is fresh.

    ``cache`` is the folder of compiled books; None means no cache. Errors: KnowledgeError when a file has faults.
    """
    folders = [built_in_knowledge()]
    if own is not None and own.is_dir():
        folders.append(own)
    if cache is None:
        return _load(folders)
    pointer = cache / f"at-{_signature(folders)}.json"
    found = _read(pointer)
    if found is not None:
        return found
    book = _load(folders)
    _write(pointer, book)
    return book


def _load(folders: list[Path]) -> Book:
    from .load import load_book

    return load_book(*folders)


def _signature(folders: list[Path]) -> str:
    """Hash of every file's name and content; about two milliseconds for a few hundred files."""
    digest = hashlib.sha256(f"{FORMAT} {_code_signature()}".encode())
    for folder in folders:
        for path in _yaml_files(str(folder)):
            digest.update(path.encode() + b"\0")
            with open(path, "rb") as file:
                digest.update(file.read() + b"\0")
    return digest.hexdigest()[:32]


def _code_signature() -> str:
    """Changes of the records change the cache, too."""
    model = Path(__file__).resolve().parent.parent / "model"
    return ",".join(f"{entry.name}:{entry.stat().st_size}" for entry in sorted(os.scandir(model), key=lambda e: e.name))


def _yaml_files(folder: str) -> list[str]:
    found: list[str] = []
    for entry in os.scandir(folder):
        if entry.is_dir():
            found += _yaml_files(entry.path)
        elif entry.name.endswith((".yaml", ".yml")):
            found.append(entry.path)
    return sorted(found)


def _read(path: Path) -> Book | None:
    try:
        return msgspec.json.decode(path.read_bytes(), type=Book)
    except (OSError, msgspec.DecodeError):
        return None


def _write(path: Path, book: Book) -> None:
    """Write beside and rename, so that no reader ever sees half a book; older compiled books go."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(dir=path.parent, delete=False) as file:
            file.write(msgspec.json.encode(book))
        os.replace(file.name, path)
        for old in path.parent.glob("at-*.json"):
            if old != path:
                old.unlink(missing_ok=True)
    except OSError:
        return
