"""What people call things: names by id, looked up in the book when they are needed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from ..model.book import Book


class Names(Mapping[str, str]):
    """What people call each finding, cause, treatment and crop."""

    def __init__(self, book: Book) -> None:
        self._shelves: Sequence[Mapping[str, object]] = (book.crops, book.treatments, book.causes, book.findings)

    def __getitem__(self, id_: str) -> str:
        for shelf in self._shelves:
            if id_ in shelf:
                return str(getattr(shelf[id_], "name", id_))
        raise KeyError(id_)

    def __iter__(self) -> Iterator[str]:
        return iter(dict.fromkeys(id_ for shelf in self._shelves for id_ in shelf))

    def __len__(self) -> int:
        return len(list(iter(self)))
