"""The compiled book's body: the JSON of each kind of entry apart, so that an entry is decoded when it is asked for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import Any, TypeVar
from zlib import crc32

import msgspec

from ..model.book import Book
from ..model.speech import Speech
from ..model.way import Schedule, Way
from .layout import SHELVES, Shelf

Entry = TypeVar("Entry")
#: Shelves of which an answer needs a few entries only; the others are walked through in nearly every case.
FEW_NEEDED = frozenset({"sources", "rules", "substances", "substance_groups", "synonyms", "pictures", "advice"})


class Kept(Mapping[str, Entry]):
    """Entries by id, in the book's order, over their JSON."""

    def __init__(self, data: memoryview, record: type[Entry]) -> None:
        """``data``: a JSON object of entries by id, known to be sound."""
        self._data, self._record = data, record
        self._known: dict[str, Entry] = {}

    @cached_property
    def _written(self) -> dict[str, msgspec.Raw]:
        return msgspec.json.decode(self._data, type=dict[str, msgspec.Raw])

    @cached_property
    def _decoder(self) -> msgspec.json.Decoder[Entry]:
        return msgspec.json.Decoder(self._record)

    def __getitem__(self, id_: str) -> Entry:
        if id_ not in self._known:
            self._known[id_] = self._decoder.decode(self._written[id_])
        return self._known[id_]

    def __iter__(self) -> Iterator[str]:
        return iter(self._written)

    def __len__(self) -> int:
        return len(self._written)

    def __contains__(self, id_: object) -> bool:
        return id_ in self._written


def _opened(shelf: Shelf, data: memoryview) -> Mapping[str, Any]:
    if shelf.name in FEW_NEEDED:
        return Kept(data, shelf.record)
    entries: dict[str, Any] = msgspec.json.decode(data, type=dict[str, shelf.record])  # type: ignore[name-defined]
    return entries


class _Rest(msgspec.Struct, frozen=True):
    """What the book holds beside its shelves; of the schedule the ways are kept like a shelf."""

    version: str
    hash: str
    language: str
    screens: dict[str, dict[str, Any]]
    speech: Speech
    schedule: Schedule


class _Contents(msgspec.Struct, frozen=True):
    """Where each shelf begins and ends, the rest under ''; and a checksum of it all."""

    spans: dict[str, tuple[int, int]]
    check: int


def encode_book(book: Book) -> bytes:
    """The body: a line of contents, then the parts one after the other."""
    schedule = msgspec.structs.replace(book.schedule, ways={})
    rest = _Rest(book.version, book.hash, book.language, book.screens, book.speech, schedule)
    parts: dict[str, object] = {shelf.name: dict(getattr(book, shelf.name)) for shelf in SHELVES}
    parts |= {"ways": dict(book.schedule.ways), "": rest}
    spans, data = {}, bytearray()
    for name, part in parts.items():
        start = len(data)
        data += msgspec.json.encode(part)
        spans[name] = start, len(data)
    return msgspec.json.encode(_Contents(spans, crc32(data))) + b"\n" + data


def decode_book(body: memoryview) -> Book | None:
    """The book of a body; None if it is damaged."""
    try:
        end = bytes(body[:4096]).index(b"\n")
        contents, data = msgspec.json.decode(body[:end], type=_Contents), body[end + 1 :]
    except (ValueError, msgspec.DecodeError):
        return None
    if crc32(data) != contents.check:
        return None
    part = {name: data[start:stop] for name, (start, stop) in contents.spans.items()}
    rest = msgspec.json.decode(part[""], type=_Rest)
    shelves: dict[str, Any] = {shelf.name: _opened(shelf, part[shelf.name]) for shelf in SHELVES}
    schedule = msgspec.structs.replace(rest.schedule, ways=Kept(part["ways"], tuple[Way, ...]))
    return Book(
        version=rest.version, hash=rest.hash, language=rest.language, screens=rest.screens, speech=rest.speech,
        schedule=schedule, **shelves,
    )  # fmt: skip
