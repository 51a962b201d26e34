"""The compiled book: JSON keyed by the content of the YAML, so that an unchanged book is never parsed again.

Names, sizes and times of the files are looked at first; only when they differ is the content hashed. Nothing here
imports yaml on a hit. A damaged, foreign or unwritable cache is ignored: the book is then read from its files.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from pathlib import Path

import msgspec

from .. import __version__
from ..model.book import Book
from ..model.rule import Rule
from ..model.way import Schedule
from .kept import decode_book, encode_book
from .places import built_in_knowledge

FORMAT = 9


class Key(msgspec.Struct, frozen=True):
    """What a compiled book was made from: its files as they stood, and the hash of their content."""

    stands: str
    content: str


MakeSchedule = Callable[[Mapping[str, Rule]], Schedule]


def open_book(
    own: Path | None = None, cache: Path | None = None, make_schedule: MakeSchedule | None = None, language: str = ""
) -> Book:
    """The built-in book with the author's folder ``own`` laid over it, from the cache when that is fresh.

    ``cache`` is the folder of compiled books; None means no cache. ``make_schedule`` makes the rules ready for the
    engine when a book is compiled. ``language`` is that of its texts ('': English). Errors: KnowledgeError when a
    file has faults.
    """
    folders = [built_in_knowledge()]
    form = f"{'scheduled' if make_schedule is not None else 'plain'}{language}"
    if own is not None and own.is_dir():
        folders.append(own)
    if cache is None:
        return _load(folders, make_schedule, language)
    path = cache / _file_name(folders, language)
    read = [*folders, *_of_language(folders, language)]
    stands = f"{form} {_stands(read)}"
    found = _read(path)
    if found is not None:
        key, body = found
        if key.stands == stands or key.content == f"{form} {_content(read)}":
            book = decode_book(body)
            if book is not None:
                if key.stands != stands:
                    _write(path, Key(stands, key.content), body)
                return book
    book = _load(folders, make_schedule, language)
    _write(path, Key(stands, f"{form} {_content(read)}"), encode_book(book))
    return book


def _load(folders: list[Path], make_schedule: MakeSchedule | None, language: str) -> Book:
    from .load import load_book

    book = load_book(*folders)
    if language:
        from .languages import translate_book

        book = translate_book(book, folders, language)
    return msgspec.structs.replace(book, schedule=make_schedule(book.rules)) if make_schedule is not None else book


def _file_name(folders: list[Path], language: str) -> str:
    parts = ["book", *(_short(str(folder.resolve())) for folder in folders[1:]), *([language] if language else [])]
    return f"{'-'.join(parts)}.json"


def _of_language(folders: list[Path], language: str) -> list[Path]:
    """The folders that hold the texts of a language; none for English."""
    found = [folder / "languages" / language for folder in folders if language]
    return [folder for folder in found if folder.is_dir()]


def _short(text: str) -> str:
    import hashlib

    return hashlib.sha256(text.encode()).hexdigest()[:12]


def _content(folders: list[Path]) -> str:
    """Hash of the names and bytes of every file, of the records they become, and of the format."""
    from .load import hash_folders

    return f"{FORMAT} {__version__} {_code()} {hash_folders(folders)}"


def _stands(folders: list[Path]) -> str:
    """Every file with its size and time of change, and the records' code, as one text."""
    files = [file for folder in folders for file in _yaml_files(str(folder))]
    return f"{FORMAT} {__version__} {_code()} " + "\n".join(files)


def _code() -> str:
    """Changes of the records, and of the words and rules made ready from them, change the cache, too."""
    root = os.path.dirname(os.path.dirname(__file__))
    rooms = (os.path.join(root, room) for room in ("model", "words", "rules"))
    found = [entry for room in rooms for entry in os.scandir(room) if entry.name.endswith(".py")]
    return ",".join(sorted(f"{entry.name}:{entry.stat().st_size}" for entry in found))


def _yaml_files(folder: str) -> list[str]:
    found: list[str] = []
    for entry in os.scandir(folder):
        if entry.is_dir():
            found += _yaml_files(entry.path) if entry.name != "languages" else []
        elif entry.name.endswith((".yaml", ".yml")):
            state = entry.stat()
            found.append(f"{entry.path} {state.st_size} {state.st_mtime_ns}")
    return sorted(found)


def _read(path: Path) -> tuple[Key, memoryview] | None:
    """The key line and the body of a compiled book; None if there is none to be read."""
    try:
        data = path.read_bytes()
        end = data.index(b"\n")
        return msgspec.json.decode(data[:end], type=Key), memoryview(data)[end + 1 :]
    except (OSError, ValueError):  # no file, no line, no key
        return None


def _write(path: Path, key: Key, body: bytes | memoryview) -> None:
    """Write beside and rename, so that no reader ever sees half a book."""
    import tempfile

    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.NamedTemporaryFile(dir=path.parent, delete=False) as file:
            file.write(msgspec.json.encode(key) + b"\n" + body)
        os.replace(file.name, path)
    except OSError:
        return
