"""Words to their plain form: lower case, a small stemmer, and words that mean the same made one."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache

from ..model.speech import Run, Speech
from .english import ARTICLES, HEALTHY, IRREGULAR, NEGATIONS, NOT, NOUNS, SOFT, STOP, WEAK_NEGATIONS
from .pack import unpack_runs

_WORD = re.compile(r"[a-z]+(?:'[a-z]+)?|\d+(?:[.,]\d+)?[a-z]*|[.,;:!?()\n–—/&]| - ")
_JOINED = {"/": "or", "&": "and", " - ": ","}
_ENDINGS = (("ies", "y"), ("sses", "ss"), ("shes", "sh"), ("ches", "ch"), ("xes", "x"), ("zes", "z"))
#: How many words may stand inside a run with a gap, and words that may not.
GAP = 2
_NO_GAP = frozenset(("and", "or", NOT, "with", "but", "to", "on", "in", "side", "surfac"))


def _has_vowel(stem: str) -> bool:
    return any(letter in "aeiouy" for letter in stem)


def _undouble(stem: str) -> str:
    return stem[:-1] if len(stem) > 3 and stem[-1] == stem[-2] and stem[-1] not in "ls" else stem


def _clipped(base: str) -> bool:
    """Whether three letters have most likely lost an "e": rising, hiding, but not eating or fixing."""
    return base[0] not in "aeiou" and base[1] in "aeiou" and base[2] not in "aeiouwxy"


def _singular(word: str) -> str:
    for ending, replacement in _ENDINGS:
        if word.endswith(ending) and len(word) > len(ending) + 1:
            return word.removesuffix(ending) + replacement
    return word[:-1] if word.endswith("s") and not word.endswith(("ss", "us", "is")) and len(word) > 3 else word


@lru_cache(maxsize=8192)
def stem(word: str) -> str:
    """The plain form of one lower-case word; the same for its plural and verb forms.

    >>> [stem(word) for word in ("leaves", "yellowing", "spotted", "patches", "slimy", "slime", "galvanized")]
    ['leaf', 'yellow', 'spot', 'patch', 'slim', 'slim', 'galvanis']
    """
    if word in IRREGULAR:
        return _without_e(IRREGULAR[word])
    word = _singular(word.removesuffix("'s"))
    if word in IRREGULAR:
        return _without_e(IRREGULAR[word])
    for ending in ("iness", "ness", "ing", "ed", "ish", "ly"):
        base = word.removesuffix(ending)
        if base != word and len(base) >= 3 and _has_vowel(base) and not word.endswith("eed"):
            word = base + "e" if len(base) == 3 and _clipped(base) else base
            break
    if len(word) > 4 and word.endswith("y") and word[-2] not in "aeiou":
        word = word[:-1]
    if "iz" in word[4:]:
        word = word[:4] + word[4:].replace("iz", "is")
    return _without_e(_undouble(word))


def _without_e(word: str) -> str:
    return word[:-1] if len(word) > 4 and word.endswith("e") else word


def split_words(text: str) -> list[str]:
    """Lower-case words, numbers and punctuation marks of a text, accents taken off, in order."""
    if not text.isascii():
        import unicodedata

        plain = unicodedata.normalize("NFKD", text.replace("’", "'"))
        text = "".join(character for character in plain if not unicodedata.combining(character))
    return [_JOINED.get(word, word) for word in _WORD.findall(text.lower())]


def is_content(token: str) -> bool:
    """Whether a token carries meaning: no stop word, no punctuation, no number but a magnification."""
    return token not in STOP and (token[0].isalpha() or token[-1] == "x")


def speaks(token: str) -> bool:
    """Whether a token alone says something of a plant: a word with a meaning that is not common and denies nothing."""
    return is_content(token) and token not in SOFT and token not in (NOT, HEALTHY)


def _same(word: str) -> str:
    return word


class Normaliser:
    """Texts to plain tokens, with the words that mean the same in the book."""

    def __init__(
        self, speech: Speech, spelled: Callable[[str], str] = _same,
    ) -> None:  # fmt: skip
        """``spelled`` turns the stem of a word that nobody knows into one that is known."""
        self._exact = speech.exact
        self._words = speech.words
        self._packed = speech.runs
        self._runs: dict[str, list[Run]] = {}
        self._spelled = spelled

    def single(self, word: str) -> tuple[str, ...]:
        """The tokens of one word: denial, stop word, or the stem with synonyms made one; none for an article."""
        if word in ARTICLES:
            return ()
        if word in self._exact:
            return tuple(self._exact[word].split())
        if word in NEGATIONS:
            return (NOT,)
        if word in STOP or word in SOFT or word in WEAK_NEGATIONS or not word[0].isalpha():
            return (word,)
        plain = stem(word)
        if plain not in self._words:
            plain = self._spelled(plain)
        return tuple(self._words[plain].split()) if plain in self._words else (plain,)

    def tokens(self, words: Iterable[str]) -> list[str]:
        """Plain tokens, runs of words made one; stop words stay, articles go."""
        plain = [token for word in words for token in self.single(word)]
        found: list[str] = []
        while plain:
            run, length = self._run(plain)
            if run is not None:
                found += run.meant
                plain[:length] = plain[len(run.words) - 1 : length - 1] if run.gap else []
            else:
                found.append(NOT if plain[0] in WEAK_NEGATIONS else plain[0])
                del plain[0]
        return found

    def _run(self, plain: Sequence[str]) -> tuple[Run | None, int]:
        """The run at the start of ``plain`` that spans most, and how many tokens it spans."""
        best: tuple[Run | None, int] = (None, 0)
        if plain[0] not in self._packed:
            return best
        if plain[0] not in self._runs:
            self._runs[plain[0]] = unpack_runs(self._packed[plain[0]])
        for run in self._runs[plain[0]]:
            span = _span(run, plain)
            if span > best[1]:
                best = (run, span)
        return best


def _span(run: Run, plain: Sequence[str]) -> int:
    """How many tokens a run takes up at the start of ``plain``; none if it is not there."""
    count = len(run.words)
    if not run.gap:
        return count if tuple(plain[:count]) == run.words else 0
    if tuple(plain[: count - 1]) == run.words[:-1]:
        for place in range(count - 1, min(count + GAP, len(plain))):
            if plain[place] == run.words[-1]:
                return place + 1
            if plain[place] in _NO_GAP or plain[place] in NOUNS or not plain[place][0].isalnum():
                break
    return 0


def unique(tokens: Iterable[str]) -> tuple[str, ...]:
    """Tokens without repeats, in order."""
    return tuple(dict.fromkeys(tokens))
