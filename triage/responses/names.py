"""Words on a label → substances of the book: names, words that mean several, several actives in one bottle."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

import msgspec

from ..model.book import Book
from ..words.nearest import nearest_names

#: Words that say how a thing is sold or used, not what is in it.
_HOW_SOLD = (
    "spray sprays sprayed solution powder powdered dust granule concentrate concentrated concentration liquid "
    "ready use rtu organic pure diluted dilute undiluted home made homemade household garden plant leaf "
    "foliar active ingredient contain contains containing content based product water insecticide "
    "insecticidal fungicide herbicide miticide acaricide pesticide systemic drench treatment nutrient"
)
_UNITS = "a an the of in to for g l ml kg mg percent vol"
_SMALL = frozenset(_UNITS.split())  # small words and units, which no name hangs on
_NOISE = frozenset(_HOW_SOLD.split())
_SPLIT = r"(?i)\s*(?:[,;+&|]|\s/\s|\b(?:and|with|plus|containing|contains|und|mit|et|avec|y|con|e)\b)\s*"
_TOKEN = r"[a-z0-9]+(?:[.,]\d+)?"
#: How many nearest names are shown.
_NEAR = 4


class Named(msgspec.Struct, frozen=True, kw_only=True):
    """What some words mean. ``ids`` holds several substances where the words do not say which (``group`` names the
    word, if the book has it); ``treatment`` is a treatment without any substance; all empty: not in the book."""

    words: str
    ids: tuple[str, ...] = ()
    group: str = ""
    treatment: str = ""
    near: tuple[str, ...] = ()


class Names:
    """Every name of every substance, group and treatment of a book, ready to be looked up."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._groups: dict[str, str] = {}
        self._substances: dict[str, dict[str, None]] = {}
        self._treatments: dict[str, str] = {}
        self._shown: dict[str, str] = {}
        for group in book.substance_groups.values():
            self._note(group.name, group.group, group.name, *group.also, into=self._groups)
        for one in book.substances.values():
            for name in (one.substance, one.name, _name_and_other(one.name)[0], *one.also):
                for key in (plain_name(name), _bare(name)):
                    self._substances.setdefault(key, {})[one.substance] = None
                self._shown.setdefault(name.lower(), one.name)
        for treatment in book.treatments.values():
            names = (treatment.name, *_name_and_other(treatment.name), *treatment.also)
            self._note(treatment.name, treatment.treatment, *names, into=self._treatments)

    def _note(self, shown: str, id_: str, *names: str, into: dict[str, str]) -> None:
        for name in (id_, *names):
            into.setdefault(plain_name(name), id_)
            self._shown.setdefault(name.lower(), shown)

    def read(self, words: str) -> tuple[Named, ...]:
        """What the words mean, one entry for each thing in the bottle; never a guess."""
        whole = self._find(words)
        if whole is not None:
            return (whole,)
        parts = [part for part in re.split(_SPLIT, _without_brackets(words)) if _without_noise(part)]
        if len(parts) < 2:
            return self._alone(parts) or self._in_a_row(words) or (Named(words=words.strip(), near=self._near(words)),)
        return tuple(self._find(part) or Named(words=part, near=self._near(part)) for part in dict.fromkeys(parts))

    def _find(self, words: str) -> Named | None:
        open_words = _without_brackets(words)
        whole = (plain_name(words), _bare(words), _bare(open_words))
        for key in (*whole, " ".join(_without_noise(open_words))):
            if key in self._groups:
                group = self._groups[key]
                return Named(words=words.strip(), ids=tuple(self._book.substance_groups[group].members), group=group)
            if key in self._substances:
                return Named(words=words.strip(), ids=tuple(self._substances[key]))
            if key in self._treatments and key in whole:  # a spray against ladybirds is no ladybird
                treatment = self._book.treatments[self._treatments[key]]
                known = tuple(name for name in treatment.substances if name in self._book.substances)
                return Named(words=words.strip(), ids=known, treatment="" if known else treatment.treatment)
        return None

    def _alone(self, parts: list[str]) -> tuple[Named, ...]:
        """The one part that tells what it is ('soap and water'); empty if the book has no substance for it."""
        return tuple(named for part in parts if (named := self._find(part)) is not None and named.ids)

    def _in_a_row(self, words: str) -> tuple[Named, ...]:
        """Substances named one after the other without a comma ('pyrethrum soap'); empty if a word is left over."""
        tokens, found = _without_brackets(words).split(), list[Named]()
        while tokens:
            starts = ((end, self._find(" ".join(tokens[:end]))) for end in range(len(tokens), 0, -1))
            end, named = next(((end, named) for end, named in starts if named is not None and named.ids), (0, None))
            if named is None:
                return ()
            found.append(named)
            tokens = tokens[end:]
        return tuple(found)

    def _near(self, words: str) -> tuple[str, ...]:
        found = dict.fromkeys(self._shown[name] for name in nearest_names(words, self._shown))
        return tuple(found)[:_NEAR]


def plain_name(text: str) -> str:
    """A name without case, accents, hyphens, plural and the two spellings of sulphur.

    >>> plain_name("Iron Sulphates"), plain_name("Jabón potásico"), plain_name("Fe-EDDHA")
    ('iron sulfate', 'jabon potasico', 'fe eddha')
    """
    bare = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(letter for letter in bare if not unicodedata.combining(letter)).replace("sulph", "sulf")
    return " ".join(_singular(token) for token in re.findall(_TOKEN, bare))


def _name_and_other(name: str) -> tuple[str, ...]:
    """A name without what stands in brackets, then that.

    >>> _name_and_other("Lacewing larvae"), _name_and_other("Minute pirate bugs (Orius)")
    (('Lacewing larvae',), ('Minute pirate bugs', 'Orius'))
    """
    first, _, other = name.partition(" (")
    return (first, other.rstrip(")")) if other else (first,)


def _without_brackets(text: str) -> str:
    return re.sub(r"\s*\([^)]*\)", "", text)


def _singular(word: str) -> str:
    ends = word.endswith("s") and not word.endswith(("ss", "us", "is"))
    return word[:-1] if ends and len(word) > 3 else word


def _bare(text: str) -> str:
    """A name without small words, figures and units."""
    return " ".join(_telling(plain_name(text).split(), _SMALL))


def _without_noise(text: str) -> list[str]:
    """The words that tell what it is: nothing about how it is sold or used."""
    return list(_telling(plain_name(text).split(), _SMALL | _NOISE))


def _telling(tokens: list[str], dropped: frozenset[str]) -> Iterator[str]:
    return (token for token in tokens if token not in dropped and not token.replace(".", "").isdigit())
