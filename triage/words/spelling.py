"""Words spelt nearly right."""

from __future__ import annotations

from collections.abc import Iterable

#: Shorter words are taken as they stand; from ``LONG`` letters on, two slips are forgiven.
SHORT = 5
LONG = 8


class Speller:
    """Knows the book's words by first letter and length; loads the comparison only for a word that may be a slip."""

    def __init__(self, known: Iterable[str]) -> None:
        self._known = sorted(known)
        self._shelves: dict[tuple[str, int], list[str]] = {}
        self._answers: dict[str, str] = {}

    def spelled(self, word: str) -> str:
        """The known word that ``word`` nearly is, or ``word`` itself."""
        if len(word) < SHORT:
            return word
        if not self._shelves:
            for known in self._known:
                self._shelves.setdefault((known[0], len(known)), []).append(known)
        if word not in self._answers:
            self._answers[word] = self._nearest(word)
        return self._answers[word]

    def _nearest(self, word: str) -> str:
        slips = 1 if len(word) < LONG else 2
        near = []
        for length in range(len(word) - slips, len(word) + slips + 1):
            for known in self._shelves.get((word[0], length), ()):
                if len(known) >= SHORT - 1 and len(set(known) ^ set(word)) <= 2 * slips:
                    near.append(known)
        if word in near or not near:
            return word
        from rapidfuzz.distance import OSA

        slip, best = min((OSA.distance(word, known), known) for known in near)
        return best if slip <= slips else word
