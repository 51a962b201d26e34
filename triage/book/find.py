"""`book find|show|sources`: look things up by words, by id, and back to their sources."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from ..model.book import Book
from ..model.record import Source
from .layout import SHELVES
from .records import texts_of

_WORD = re.compile(r"[a-z0-9]+")


@dataclass(frozen=True)
class Hit:
    """One entry found: its shelf, id and name, and how well it fits (higher is better)."""

    shelf: str
    id: str
    name: str
    score: float


def entry_name(entry: Any) -> str:
    """What people call an entry."""
    for key in ("name", "ask", "title", "because", "rule", "word"):
        if value := getattr(entry, key, ""):
            return str(value)
    return ""


def all_entries(book: Book) -> Iterator[tuple[str, str, Any]]:
    """Every entry as (shelf, id, entry), in book order."""
    for shelf in SHELVES:
        for id_, entry in getattr(book, shelf.name).items():
            yield shelf.name, id_, entry


def find_entries(book: Book, words: str, most: int = 20) -> list[Hit]:
    """Entries whose id, name or other names hold the words; best first, then by id."""
    wanted = _WORD.findall(words.lower())
    hits = []
    for shelf, id_, entry in all_entries(book):
        if shelf in ("synonyms", "pictures"):
            continue
        name = entry_name(entry)
        score = _score(wanted, [id_, name], [*getattr(entry, "also", []), getattr(entry, "term", "")])
        if score > 0:
            hits.append(Hit(shelf, id_, name, score))
    order = {shelf.name: number for number, shelf in enumerate(SHELVES)}
    last = len(order)
    return sorted(hits, key=lambda h: (-h.score, last if h.shelf == "sources" else order[h.shelf], h.id))[:most]


def _score(wanted: list[str], main: list[str], other: list[str]) -> float:
    main_text, other_text = (" ".join(texts).lower() for texts in (main, other))
    exact = any(_WORD.findall(text.lower()) == wanted for text in (*main, *other))
    found = sum((2.0 if word in main_text else 1.0 if word in other_text else 0.0) for word in wanted)
    missing = any(word not in main_text and word not in other_text for word in wanted)
    return 0.0 if missing or not wanted else found / len(main_text) ** 0.25 + 5.0 * exact


def find_by_id(book: Book, id_: str) -> list[tuple[str, Any]]:
    """Every entry with exactly this id, as (shelf, entry)."""
    return [(shelf, entry) for shelf, known, entry in all_entries(book) if known == id_]


def sources_of(book: Book, entry: Any) -> list[Source]:
    """Every source that an entry names anywhere, in the order of naming."""
    words = dict.fromkeys(texts_of(entry))
    return [book.sources[word] for word in words if word in book.sources]


def named_by(book: Book) -> dict[str, list[str]]:
    """For each source, the entries that name it, as 'shelf id'."""
    uses: dict[str, list[str]] = {}
    for shelf, id_, entry in all_entries(book):
        if shelf != "sources":
            for source in dict.fromkeys(word for word in texts_of(entry) if word in book.sources):
                uses.setdefault(source, []).append(f"{shelf} {id_}")
    return uses
