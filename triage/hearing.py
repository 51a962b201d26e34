"""What a grower wrote or said → findings and readings: numbers first, phrases, then what else means something."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import msgspec

from .errors import UsageError
from .model.book import Book
from .model.case import Case
from .model.outcome import Heard
from .model.quantity import Reading
from .water.readings import make_reading

if TYPE_CHECKING:
    from .words.meaning import Embedder, MeaningReader
    from .words.reader import WordReader, WordsRead

#: Texts whose reading is kept: those of one session, and more.
KEPT_TEXTS = 500


class Hearing:
    """Reads words for one book; each reader is made when it is first needed."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self._heard: dict[str, WordsRead] = {}
        self._spoken: dict[tuple[str, str], tuple[tuple[Reading, ...], str]] = {}
        self._reader: WordReader | None = None
        self._meaning: MeaningReader | None = None
        self.embedder: Embedder | None = None  # None: the one that is installed, if any

    def read(self, text: str) -> tuple[tuple[Heard, ...], tuple[str, ...]]:
        """Findings heard in some words, and what was not understood."""
        found = self._whole(text)
        return found.heard, found.unread

    def _whole(self, text: str) -> WordsRead:
        if text not in self._heard:
            _make_room(self._heard)
            self._heard[text] = self._read(text)
        return self._heard[text]

    def _read(self, text: str) -> WordsRead:
        from .words.reader import WordReader

        if self._reader is None:
            self._reader = WordReader(self.book.findings, self.book.speech)
        found = self._reader.read([self._numbers(text, "")[1]])
        if not found.unread:
            return found
        heard, unread = self._by_meaning(found.heard, found.unread)
        return msgspec.structs.replace(found, heard=heard, unread=unread)

    def gist(self, case: Case) -> dict[str, float]:
        """What all that was told sounds like, at a later look before it: what that does to the odds of every cause.

        What was heard in words has been said in those, and what follows from a finding is said with it.
        """
        from .words.gist import sounds_like

        case = self.book.here.told or case
        texts = [self._whole(text) for text in case.words]
        said = [word for text in texts for word in text.said]
        with_others = {heard.finding for text in texts for heard in text.heard}
        known = (self.book.findings[finding] for finding in case.seen if finding in self.book.findings)
        with_others.update(one for finding in known for one in finding.implies)
        ticked, perhaps = sorted(case.seen - with_others), sorted(case.unsure - with_others)
        return sounds_like(self.book.speech, said, ticked, perhaps)

    def _by_meaning(
        self, heard: tuple[Heard, ...], unread: tuple[str, ...]
    ) -> tuple[tuple[Heard, ...], tuple[str, ...]]:
        """What was heard, and of what was not understood the parts that mean something like a finding."""
        from .words.meaning import MeaningReader, installed_embedder

        embedder = self.embedder or installed_embedder()
        if embedder is None:
            return heard, unread
        self._meaning = self._meaning or MeaningReader(self.book.findings, embedder)
        return self._meaning.add_to(heard, unread)

    def read_all(self, texts: Sequence[str]) -> tuple[tuple[Heard, ...], tuple[str, ...]]:
        """The same over several texts, each finding once."""
        heard: dict[str, Heard] = {}
        unread: list[str] = []
        for text in texts:
            for item in self.read(text)[0]:
                heard.setdefault(item.finding, item)
            unread += self.read(text)[1]
        return tuple(heard.values()), tuple(unread)

    def spoken(self, text: str, on: str) -> tuple[Reading, ...]:
        """Readings that stand in some words."""
        return self._numbers(text, on)[0]

    def _numbers(self, text: str, on: str) -> tuple[tuple[Reading, ...], str]:
        from .words.numbers import read_numbers

        key = (text, on)
        if key not in self._spoken:
            found, rest = read_numbers(text, self.book.quantities)
            readings = []
            for number in found:
                try:
                    readings.append(
                        make_reading(
                            number.quantity,
                            number.value,
                            self.book.quantities,
                            unit=number.unit,
                            bound=number.bound,
                            on=on,
                        )
                    )
                except UsageError:  # a number that cannot be this quantity goes back to the words
                    rest = f"{rest} {number.words}"
            _make_room(self._spoken)
            self._spoken[key] = (tuple(readings), rest)
        return self._spoken[key]


def _make_room(kept: dict[Any, Any]) -> None:
    """Forget everything now and then, so that ten thousand cases take no more room than one."""
    if len(kept) >= KEPT_TEXTS:
        kept.clear()
