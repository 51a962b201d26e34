"""Words that no phrase was found in, by their meaning: the nearest way to say a finding, and only perhaps.

The vectors come from the optional library ``wordllama``, whose wheel carries its weights; without it nothing is heard.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from importlib.util import find_spec
from typing import Any, Protocol

from ..model.finding import Finding
from ..model.outcome import Heard
from .english import NEGATIONS, WEAK_NEGATIONS
from .normalise import is_content, split_words
from .phrases import written_out

#: How like (cosine) the nearest wording must be, and how far ahead of every other finding's; chosen on made-up cases.
ALIKE = 0.70
AHEAD = 0.05
#: A text of fewer words with a meaning is like too many things.
LEAST_WORDS = 2


class Likeness(Protocol):
    """Knows some texts and says how like another is to each of them, at most 1."""

    def to_each(self, text: str) -> Sequence[float]:
        """One number for each text, in their order."""


class Embedder(Protocol):
    """Makes texts ready to be compared."""

    def __call__(self, texts: Sequence[str]) -> Likeness:
        """What compares with these texts."""


class MeaningReader:
    """Hears findings by their meaning; build it once."""

    def __init__(self, findings: Mapping[str, Finding], embedder: Embedder) -> None:
        spoken = {id_: finding for id_, finding in findings.items() if finding.phrases}
        ways = [
            (id_, text)
            for id_, finding in spoken.items()
            for text in (finding.name, *(text for phrase in finding.phrases for text in written_out(phrase)))
        ]
        self._findings = [id_ for id_, _ in ways]
        self._likeness = embedder([text for _, text in ways])

    def add_to(self, heard: tuple[Heard, ...], unread: tuple[str, ...]) -> tuple[tuple[Heard, ...], tuple[str, ...]]:
        """What was heard with what unread parts mean, and the parts that still say nothing."""
        known = {item.finding: item for item in heard}
        left = []
        for text in unread:
            item = self.hear(text)
            if item is None or known.setdefault(item.finding, item) is not item:
                left.append(text)
        return tuple(known.values()), tuple(left)

    def hear(self, text: str) -> Heard | None:
        """The finding that some words most likely mean, as unsure; None if none is near enough or they deny it."""
        words = split_words(text)
        if not (NEGATIONS | WEAK_NEGATIONS).isdisjoint(words) or sum(map(is_content, words)) < LEAST_WORDS:
            return None
        best: dict[str, float] = {}
        for finding, likeness in zip(self._findings, self._likeness.to_each(text), strict=True):
            best[finding] = max(best.get(finding, -1.0), float(likeness))
        order = sorted(best, key=lambda id_: (-best[id_], id_))
        if not order or best[order[0]] < ALIKE:
            return None
        first = order[0]
        if best[first] - max((best[id_] for id_ in order[1:2]), default=-1.0) < AHEAD:
            return None
        return Heard(words=text, finding=first, state="unsure", score=round(best[first], 3), by_meaning=True)


@cache
def installed_embedder() -> Embedder | None:
    """The vectors of ``wordllama``, from its own folder and without the network; None if it is not installed."""
    spec = find_spec("wordllama")
    if spec is None or spec.origin is None:
        return None
    import logging
    from pathlib import Path

    root = logging.getLogger()
    kept, level = list(root.handlers), root.level
    from wordllama import WordLlama

    root.handlers[:] = kept  # the library sets up logging for everybody when it is imported
    root.setLevel(level)
    vectors: Any = WordLlama.load(cache_dir=Path(spec.origin).parent)
    return lambda texts: _Vectors(vectors, texts)


class _Vectors:
    def __init__(self, vectors: Any, texts: Sequence[str]) -> None:
        self._vectors = vectors
        self._known = vectors.embed(list(texts), norm=True)

    def to_each(self, text: str) -> Sequence[float]:
        found: list[float] = (self._known @ self._vectors.embed([text], norm=True)[0]).tolist()
        return found
