"""The phrases of all findings, indexed by their rarest word, so that a text is matched without trying them all."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping

import msgspec

from ..model.finding import Finding
from .normalise import NOT, Normaliser, unique

Spoken = tuple[tuple[str, tuple[str, ...]], ...]

#: A single word says a finding only if no more findings than this use it.
TELLING = 3


class Phrase(msgspec.Struct, frozen=True):
    """One way to say a finding: its content tokens, their weights, and whether it is a denial itself."""

    finding: str
    tokens: tuple[str, ...]
    weight: float
    denies: bool


class PhraseIndex:
    """Every phrase, name and term of the findings, by token."""

    def __init__(self, spoken: Spoken) -> None:
        counts = Counter(token for _, tokens in spoken for token in tokens)
        total = len(spoken) + 1
        self.weights = {token: math.log(total / count) + 0.3 for token, count in counts.items()}
        self.by_token: dict[str, list[Phrase]] = {}
        users: dict[str, set[str]] = {}
        for finding, tokens in spoken:
            for token in tokens:
                users.setdefault(token, set()).add(finding)
        for finding, tokens in spoken:
            if len(tokens) == 1 and len(users[tokens[0]]) > TELLING:
                continue
            phrase = Phrase(finding, tokens, sum(self.weights[token] for token in tokens), NOT in tokens)
            for token in tokens:
                self.by_token.setdefault(token, []).append(phrase)
        self.words = sorted(counts)


def spoken_phrases(findings: Mapping[str, Finding], normaliser: Normaliser) -> Spoken:
    """(finding, tokens) of every way to say a finding, each once, in book order."""
    found: dict[tuple[str, tuple[str, ...]], None] = {}
    for id_, finding in findings.items():
        for text in (finding.name, finding.term, *finding.phrases):
            tokens = unique(normaliser.content(text)) if text else ()
            if tokens and tokens != (NOT,):
                found[(id_, tokens)] = None
    return tuple(found)
