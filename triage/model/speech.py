"""How findings are spoken of, made ready once so that reading a text is only looking up."""

from __future__ import annotations

import msgspec


class Phrase(msgspec.Struct, frozen=True, array_like=True):
    """One way to say a finding, or to say that it is absent.

    ``needs`` are the words that must be there, the rarest first; ``lean`` are words so common that one of them only has
    to be there when ``needs`` is a single word.
    """

    finding: str
    needs: tuple[str, ...]
    lean: tuple[str, ...] = ()
    weight: float = 0.0
    absent: bool = False


class Run(msgspec.Struct, frozen=True, array_like=True):
    """Several words in a row and the words that stand for them; ``gap``: up to two words may stand before the last."""

    words: tuple[str, ...]
    meant: tuple[str, ...]
    gap: bool = False


class Speech(msgspec.Struct, frozen=True):
    """Words that mean the same (in just that form, and by their stem), runs of words by their first, and the phrases by
    their rarest and next rarest word."""

    exact: dict[str, tuple[str, ...]] = {}
    words: dict[str, tuple[str, ...]] = {}
    runs: dict[str, tuple[Run, ...]] = {}
    phrases: tuple[Phrase, ...] = ()
    rarest: dict[str, tuple[int, ...]] = {}
    second: dict[str, tuple[int, ...]] = {}
    weights: dict[str, float] = {}
