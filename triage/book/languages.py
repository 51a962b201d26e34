"""The book in another language: its texts laid over the entries; a sentence that has none is marked as English.

A translation is a folder ``languages/<code>`` of the knowledge. Below it, files are named like those of the knowledge
and hold mappings from ids to texts, in the shape of the entry; ``screens/<module>.yaml`` holds those of the screens.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path as FilePath
from typing import Any

import msgspec

from ..errors import Fault, KnowledgeError
from ..model.book import Book
from .layout import SHELVES, Shelf
from .load import Place, knowledge_files, read_document
from .yaml_tree import Path

FOLDER = "languages"
SCREENS = "screens"
#: Says what the language is called, and how a text that is there only in English is marked.
ABOUT = "language"
#: Texts of entries by shelf: first those that every translation must have (if the entry has them), then the others.
REQUIRED: dict[str, tuple[str, ...]] = {
    "findings": ("name", "look"), "questions": ("ask", "look"), "causes": ("name",), "quantities": ("name",),
    "crops": ("name",), "animals": ("name",), "substances": ("name",), "treatments": ("name",),
}  # fmt: skip
SENTENCES: dict[str, tuple[str, ...]] = {
    "findings": (), "questions": (), "crops": (), "animals": (),
    "causes": ("plain", "settle", "look", "new-leaves", "old-leaves", "how"),
    "rules": ("because", "say", "do"),
    "quantities": ("how",),
    "substances": ("what", "people"),
    "substance_groups": ("name", "note"),
    "treatments": ("plain", "steps", "cautions", "why", "stage", "expect", "product", "note"),
    "advice": ("say",),
    "aftermath": ("because",),
    "pictures": ("says",),
}  # fmt: skip
#: Not marked where they are missing: names in the trade, and words that only help to find an entry.
UNMARKED = ("name", "term", "also", "phrases", "stage", "product")
#: Added to the English ones, which stay good for typing.
ADDED = ("also", "phrases")


@dataclass
class Translation:
    """What the folders of one language held: texts by shelf and id, their places, and every fault."""

    language: str
    texts: dict[str, dict[str, Any]] = field(default_factory=dict)
    places: dict[tuple[str, str], Place] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)

    @property
    def name(self) -> str:
        """What the language calls itself."""
        return str(self.texts.get(ABOUT, {}).get("name", self.language))

    @property
    def mark(self) -> str:
        """What stands before a sentence that is there only in English."""
        return str(self.texts.get(ABOUT, {}).get("only-english", "[English]"))


def list_languages(folders: list[FilePath]) -> list[str]:
    """The languages beside English, by their codes."""
    found = [folder / FOLDER for folder in folders if (folder / FOLDER).is_dir()]
    return sorted({entry.name for folder in found for entry in folder.iterdir() if entry.is_dir()})


def load_translation(folders: list[FilePath], language: str) -> Translation:
    """Every text of a language; what a later folder says of an entry replaces what an earlier one says."""
    translation = Translation(language)
    for folder in folders:
        base = folder / FOLDER / language
        for relative, path in knowledge_files(base):
            _load_file(translation, relative, path, f"{folder.name}/{FOLDER}/{language}/{relative}")
    return translation


def _load_file(translation: Translation, relative: str, path: FilePath, name: str) -> None:
    first, _, rest = relative.removesuffix(".yaml").partition("/")
    shelf = ABOUT if relative == f"{ABOUT}.yaml" else SCREENS if first == SCREENS else _shelf_name(first)
    if not shelf:
        allowed = ", ".join([f"{ABOUT}.yaml", SCREENS, *(_stem(s) for s in SHELVES if s.name in SENTENCES)])
        translation.faults.append(Fault(name, 1, "error", "KB108", f"no texts are kept here (allowed: {allowed})"))
        return
    document = read_document(path, name, translation.faults)
    if document is None:
        return
    if not isinstance(document.data, dict):
        translation.faults.append(Fault(name, 1, "error", "KB103", "expected a mapping from ids to texts"))
        return
    texts = translation.texts.setdefault(shelf, {})
    if shelf in (ABOUT, SCREENS):
        texts.update(document.data if shelf == ABOUT else {rest: document.data})
        translation.places[(shelf, rest)] = Place(name, document, ())
        return
    for id_, data in document.data.items():
        texts[id_] = data
        translation.places[(shelf, id_)] = Place(name, document, (id_,))


def _stem(shelf: Shelf) -> str:
    return shelf.path.removesuffix(".yaml")


def _shelf_name(first: str) -> str:
    return next((shelf.name for shelf in SHELVES if _stem(shelf) == first and shelf.name in SENTENCES), "")


def texts_by_english(english: Book, translated: Book) -> dict[str, str]:
    """Every text of a book in another language, by the English one: for what was kept in English."""
    known: dict[str, str] = {}
    for shelf in SENTENCES:
        keys = tuple(key for key in keys_of(shelf) if key not in ADDED)
        for entry, other in zip(getattr(english, shelf).values(), getattr(translated, shelf).values(), strict=True):
            both = (msgspec.to_builtins(one) for one in (entry, other))
            for (_, text), (_, said) in zip(*(walk_texts(data, keys) for data in both), strict=True):
                known.update(zip(text, said, strict=True) if isinstance(text, list) else [(text, said)])
    return known


def retell(data: Any, texts: Mapping[str, str]) -> Any:
    """Plain data with every text that is known replaced; what was put together from figures stays as it was.

    >>> retell({"id": "iron-deficiency", "name": "Iron shortage", "for": []}, {"Iron shortage": "Eisenmangel"})
    {'id': 'iron-deficiency', 'name': 'Eisenmangel', 'for': []}
    """
    if isinstance(data, dict):
        return {key: retell(part, texts) for key, part in data.items()}
    return [retell(part, texts) for part in data] if isinstance(data, list) else texts.get(data, data)


# -- laying it over ------------------------------------------------------------------------------------------------


def translate_book(book: Book, folders: list[FilePath], language: str) -> Book:
    """The book in another language. Errors: KnowledgeError when a file cannot be read."""
    translation = load_translation(folders, language)
    if translation.faults:
        raise KnowledgeError(translation.faults)
    shelves = {
        shelf: {id_: _entry(entry, translation, shelf, id_) for id_, entry in getattr(book, shelf).items()}
        for shelf in SENTENCES
    }
    screens = translation.texts.get(SCREENS, {})
    return msgspec.structs.replace(book, language=language, screens=screens, **shelves)


def _entry(entry: msgspec.Struct, translation: Translation, shelf: str, id_: str) -> msgspec.Struct:
    texts = translation.texts.get(shelf, {}).get(id_, {})
    keys = keys_of(shelf)
    data = lay_over(msgspec.to_builtins(entry), texts if isinstance(texts, dict) else {}, keys, translation.mark)
    if {"name", "also"} <= set(entry.__struct_fields__):
        data["also"] = [*data.get("also", ()), getattr(entry, "name")]  # noqa: B009 - not every record has one
    return msgspec.convert(data, type(entry))


def keys_of(shelf: str) -> tuple[str, ...]:
    """The keys of a shelf's entries that hold texts, at any depth."""
    return ("term", *ADDED, *REQUIRED.get(shelf, ()), *SENTENCES[shelf])


def lay_over(value: Any, text: Any, keys: tuple[str, ...], mark: str, key: str = "") -> Any:
    """The value with its texts replaced; a sentence that has none, or a misshapen one, is marked.

    >>> lay_over({"name": "Basil", "settle": ["Look."], "base": "rare"}, {"name": "Kraut"}, ("name", "settle"), "[en]")
    {'name': 'Kraut', 'settle': ['[en] Look.'], 'base': 'rare'}
    """
    if isinstance(value, dict) and key not in keys:
        inner = text if isinstance(text, dict) else {}
        return {name: lay_over(part, inner.get(name), keys, mark, name) for name, part in value.items()} | {
            name: inner[name] for name in ADDED if name in inner and name not in value
        }
    if key not in keys:
        return _parts(value, text, keys, mark) if isinstance(value, list) else value
    if key in ADDED:
        return [*value, *(text if isinstance(text, list) else ())]
    if same_shape(value, text):
        return text
    if key in UNMARKED:
        return value
    return [f"{mark} {part}" for part in value] if isinstance(value, list) else f"{mark} {value}"


def _parts(value: list[Any], text: Any, keys: tuple[str, ...], mark: str) -> list[Any]:
    """The parts of a list of mappings, in order."""
    texts = text if isinstance(text, list) and len(text) == len(value) else [None] * len(value)
    return [lay_over(part, inner, keys, mark) for part, inner in zip(value, texts, strict=True)]


def same_shape(value: Any, text: Any) -> bool:
    """Whether a text may stand where ``value`` does: a text for a text, as many texts for a list of texts."""
    if isinstance(value, list):
        return isinstance(text, list) and len(text) == len(value) and all(isinstance(part, str) for part in text)
    return isinstance(value, str) and isinstance(text, str)


def walk_texts(value: Any, keys: tuple[str, ...], path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Every text of an entry or of its translation (plain data) with its path; a list of texts as one."""
    for name, part in value.items() if isinstance(value, dict) else enumerate(value):
        if name in keys and isinstance(part, str | list):
            yield (*path, name), part
        elif isinstance(part, dict | list):
            yield from walk_texts(part, keys, (*path, name))
