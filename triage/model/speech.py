"""How findings are spoken of, made ready once so that reading a text is only looking up."""

from __future__ import annotations

import msgspec

#: Of a bit, in what the talk of causes gains.
PARTS = 100


class Phrase(msgspec.Struct, frozen=True):
    """One way to say a finding, or to say that it is absent.

    ``needs`` are the words that must be there, as they follow each other; ``lean`` are words so common that one of them
    only has to be there when ``needs`` is a single word. ``spans``: it says "but" itself, so its words may stand on
    both sides. ``hint``: its one word is said of many other things, too, and the finding would tell much: it is heard
    as unsure.
    """

    finding: str
    needs: tuple[str, ...]
    lean: tuple[str, ...] = ()
    weight: float = 0.0
    absent: bool = False
    spans: bool = False
    hint: bool = False


class Run(msgspec.Struct, frozen=True):
    """Several words in a row and the words that stand for them; ``gap``: up to two words may stand before the last."""

    words: tuple[str, ...]
    meant: tuple[str, ...]
    gap: bool = False


class Speech(msgspec.Struct, frozen=True):
    """What the reader of words looks up, packed into texts so that a compiled book opens fast.

    ``exact`` and ``words`` (by stem): the words that one word stands for. ``runs`` by their first word; ``phrases`` by
    their rarest word, ``second`` by the next rarest: one line each (see ``words.pack``). ``weights``: how much a word
    of a phrase tells. ``colours`` that a finding is said to have, by its id. ``words_say`` and ``signs_say``: what a
    word or a ticked finding says for the causes of ``spoken_of`` as all of it sounds, in pairs of the cause's place
    there and the hundredths of a bit it gains (see ``words.talk``).
    """

    exact: dict[str, str] = {}
    words: dict[str, str] = {}
    runs: dict[str, str] = {}
    phrases: dict[str, str] = {}
    second: dict[str, str] = {}
    weights: dict[str, float] = {}
    colours: dict[str, str] = {}
    words_say: dict[str, str] = {}
    signs_say: dict[str, str] = {}
    spoken_of: tuple[str, ...] = ()
