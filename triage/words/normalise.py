"""Words to their plain form: lower case, a small stemmer, and words that mean the same made one."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

from ..model.book import Synonyms

_WORD = re.compile(r"[a-z]+(?:'[a-z]+)?|\d+|[.,;:!?()\n]")
_IRREGULAR = {
    "leaves": "leaf", "leafs": "leaf", "lice": "louse", "larvae": "larva", "pupae": "pupa", "hyphae": "hypha",
    "dying": "die", "died": "die", "dies": "die", "dead": "die", "fungi": "fungus", "thrips": "thrips", "feet": "foot",
    "fed": "feed", "ate": "eat", "eaten": "eat", "fell": "fall", "fallen": "fall", "grew": "grow", "grown": "grow",
    "growth": "grow", "lost": "lose", "broke": "break", "broken": "break", "tore": "tear", "torn": "tear",
    "ph": "ph", "species": "species", "less": "less", "moss": "moss", "gas": "gas", "this": "this", "iris": "iris",
    "virus": "virus", "glass": "glass", "grass": "grass", "bass": "bass", "evening": "evening", "morning": "morning",
    "string": "string", "ring": "ring", "rings": "ring", "spring": "spring", "king": "king", "red": "red", "bed": "bed",
    "beds": "bed", "seed": "seed", "weed": "weed", "feed": "feed", "during": "during", "thing": "thing",
    "webbing": "web",
    "webs": "web", "webbed": "web", "cobweb": "web", "dried": "dry", "drier": "dry", "dries": "dry", "fly": "fly",
    "flies": "fly", "flew": "fly", "bigger": "big", "biggest": "big", "larger": "large", "largest": "large",
    "smaller": "small", "smallest": "small", "thinner": "thin", "paler": "pale", "palest": "pale", "darker": "dark",
    "lighter": "light", "whiter": "white", "tender": "tender", "damping": "damping",
}  # fmt: skip
_PLURALS = (("ies", "y"), ("sses", "ss"), ("shes", "sh"), ("ches", "ch"), ("xes", "x"), ("zes", "z"))
#: Words that carry no sign by themselves.
STOP = frozenset(
    (
        "a",
        "an",
        "the",
        "of",
        "and",
        "or",
        "is",
        "are",
        "was",
        "were",
        "be",
        "been",
        "being",
        "it",
        "its",
        "they",
        "them",
        "their",
        "there",
        "this",
        "that",
        "these",
        "those",
        "with",
        "have",
        "has",
        "had",
        "having",
        "my",
        "our",
        "your",
        "his",
        "her",
        "i",
        "we",
        "you",
        "he",
        "she",
        "to",
        "for",
        "as",
        "at",
        "by",
        "from",
        "into",
        "than",
        "then",
        "so",
        "too",
        "very",
        "quite",
        "rather",
        "some",
        "any",
        "all",
        "also",
        "just",
        "only",
        "more",
        "most",
        "much",
        "many",
        "can",
        "could",
        "will",
        "would",
        "do",
        "does",
        "did",
        "get",
        "gets",
        "got",
        "getting",
        "go",
        "goes",
        "going",
        "like",
        "looks",
        "look",
        "looking",
        "looked",
        "seem",
        "seems",
        "appear",
        "appears",
        "appearing",
        "become",
        "becomes",
        "becoming",
        "turn",
        "turns",
        "turned",
        "turning",
        "show",
        "shows",
        "showing",
        "shown",
        "see",
        "sees",
        "seeing",
        "seen",
        "saw",
        "find",
        "found",
        "finding",
        "when",
        "where",
        "which",
        "who",
        "what",
        "while",
        "about",
        "around",
        "but",
        "if",
        "because",
        "after",
        "before",
        "now",
        "still",
        "already",
        "again",
        "here",
        "up",
        "out",
        "off",
        "over",
        "in",
        "on",
    )
)
#: Cues of negation become this one token.
NOT = "not"
_NEGATIONS = frozenset(
    (
        "no",
        "not",
        "without",
        "never",
        "none",
        "nor",
        "neither",
        "cannot",
        "lacks",
        "lacking",
        "isn't",
        "aren't",
        "wasn't",
        "doesn't",
        "don't",
        "didn't",
        "haven't",
        "hasn't",
        "won't",
        "can't",
        "couldn't",
        "rarely",
        "hardly",
        "seldom",
        "scarcely",
    )
)


def _has_vowel(stem: str) -> bool:
    return any(letter in "aeiouy" for letter in stem)


def _undouble(stem: str) -> str:
    return stem[:-1] if len(stem) > 3 and stem[-1] == stem[-2] and stem[-1] not in "ls" else stem


@lru_cache(maxsize=8192)
def stem(word: str) -> str:
    """The plain form of one lower-case word; the same for its plural and verb forms.

    >>> [stem(word) for word in ("leaves", "yellowing", "spotted", "patches", "slimy", "slime")]
    ['leaf', 'yellow', 'spot', 'patch', 'slim', 'slim']
    """
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    word = word.removesuffix("'s")
    for ending, replacement in (
        ("ies", "y"),
        ("sses", "ss"),
        ("shes", "sh"),
        ("ches", "ch"),
        ("xes", "x"),
        ("zes", "z"),
    ):
        if word.endswith(ending) and len(word) > len(ending) + 1:
            word = word.removesuffix(ending) + replacement
            break
    else:
        if word.endswith("s") and not word.endswith(("ss", "us", "is")) and len(word) > 3:
            word = word[:-1]
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    for ending in ("ing", "ed", "ish", "ly"):
        base = word.removesuffix(ending)
        if base != word and len(base) >= 3 and _has_vowel(base) and not word.endswith("eed"):
            word = _undouble(base)
            break
    if len(word) > 4 and word.endswith("y") and word[-2] not in "aeiou":
        word = _undouble(word[:-1])
    return word[:-1] if len(word) > 4 and word.endswith("e") else word


def plain_form(word: str) -> str:
    """The token of one word: a negation is ``not``, a stop word stays, anything else is stemmed."""
    if word in _NEGATIONS:
        return NOT
    return word if word in STOP else stem(word)


def split_words(text: str) -> list[str]:
    """Lower-case words and punctuation marks of a text, accents taken off, in order."""
    plain = unicodedata.normalize("NFKD", text).replace("’", "'").lower()
    plain = "".join(character for character in plain if not unicodedata.combining(character))
    return _WORD.findall(plain)


class Normaliser:
    """Texts to plain tokens, with the synonyms of the book."""

    def __init__(self, synonyms: Mapping[str, Synonyms]) -> None:
        self._single: dict[str, str] = {}
        self._several: dict[str, list[tuple[tuple[str, ...], str]]] = {}
        for entry in synonyms.values():
            target = " ".join(plain_form(word) for word in split_words(entry.word)).replace(" ", "_")
            for other in (entry.word, *entry.also):
                self._add(tuple(plain_form(word) for word in split_words(other)), target)
        for ways in self._several.values():
            ways.sort(key=lambda way: (-len(way[0]), way[0]))

    def _add(self, words: tuple[str, ...], target: str) -> None:
        if len(words) == 1:
            self._single.setdefault(words[0], target)
        elif words:
            self._several.setdefault(words[0], []).append((words, target))

    def tokens(self, words: Sequence[str]) -> list[str]:
        """Stems with synonyms made one; negations become ``not``; stop words and punctuation stay."""
        stems = [plain_form(word) for word in words]
        found: list[str] = []
        place = 0
        while place < len(stems):
            for sequence, target in self._several.get(stems[place], ()):
                if tuple(stems[place : place + len(sequence)]) == sequence:
                    found.append(target)
                    place += len(sequence)
                    break
            else:
                found.append(self._single.get(stems[place], stems[place]))
                place += 1
        return found

    def content(self, text: str) -> list[str]:
        """The content tokens of a short phrase."""
        return [token for token in self.tokens(split_words(text)) if is_content(token)]


def is_content(token: str) -> bool:
    """Whether a token carries meaning (no stop word, no punctuation)."""
    return token not in STOP and (token.replace("_", "").isalnum())


def unique(tokens: Iterable[str]) -> tuple[str, ...]:
    """Tokens without repeats, in order."""
    return tuple(dict.fromkeys(tokens))
