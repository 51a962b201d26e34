"""Words spelt nearly right."""

from __future__ import annotations

from collections.abc import Iterable

#: Shorter words are taken as they stand; up to ``MIDDLE`` letters a wrong letter makes another word rather than a slip;
#: from ``LONG`` letters on, two slips are forgiven.
SHORT = 5
MIDDLE = 6
LONG = 11


def one_slip(word: str, known: str) -> bool:
    """Whether swapping, dropping or doubling a letter, in longer words also a wrong one, makes ``word`` of ``known``.

    >>> [one_slip("brwon", "brown"), one_slip("yelow", "yellow"), one_slip("heard", "heart")]
    [True, True, False]
    """
    start = 0
    while start < min(len(word), len(known)) and word[start] == known[start]:
        start += 1
    left, right = word[start:], known[start:]
    while left and right and left[-1] == right[-1]:
        left, right = left[:-1], right[:-1]
    if len(left) == 2 or len(word) > MIDDLE:
        return (len(left) <= 1 and len(right) <= 1) or (len(left) == 2 and left == right[::-1])
    return (left == "" and len(right) == 1) or (right == "" and start > 0 and left == word[start - 1])


class Speller:
    """Knows the words of the book and, by first letter and length, which of them a word may have been meant for."""

    def __init__(self, known: Iterable[str], common: frozenset[str] = frozenset()) -> None:
        """``common``: words that are right as they stand, however near they come to a known one."""
        self._known = known
        self._common = common
        self._shelves: dict[tuple[str, int], list[str]] = {}
        self._answers: dict[str, str] = {}

    def spelled(self, word: str) -> str:
        """The known word that ``word`` nearly is, or ``word`` itself."""
        if len(word) < SHORT or word in self._common:
            return word
        if word not in self._answers:
            self._answers[word] = self._nearest(word)
        return self._answers[word]

    def _nearest(self, word: str) -> str:
        if not self._shelves:
            for known in sorted(self._known):
                self._shelves.setdefault((known[0], len(known)), []).append(known)
        if word in self._shelves.get((word[0], len(word)), ()):
            return word
        near = [known for known in self._like(word, 1) if one_slip(word, known)]
        if near or len(word) < LONG:
            return near[0] if near else word
        return _two_slips(word, self._like(word, 2))

    def _like(self, word: str, slips: int) -> list[str]:
        """Known words of about the same length and letters."""
        lengths = sorted(range(len(word) - slips, len(word) + slips + 1), key=lambda length: abs(length - len(word)))
        shelves = (self._shelves.get((word[0], length), ()) for length in lengths)
        letters = set(word)
        return [known for shelf in shelves for known in shelf if len(set(known) ^ letters) <= 2 * slips]


def _two_slips(word: str, near: list[str]) -> str:
    if not near:
        return word
    from rapidfuzz.distance import OSA

    slips, best = min((OSA.distance(word, known), known) for known in near)
    return best if slips <= 2 else word
