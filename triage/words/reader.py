"""A grower's own words → findings: order-free phrases, denial, doubt; what was not understood is given back."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

import msgspec

from ..model.finding import Finding
from ..model.outcome import Heard
from ..model.speech import Speech
from .english import ENDS, ORDINARY, SOFT
from .match import Hit, Matcher
from .normalise import Normaliser, is_content, speaks, split_words
from .sentence import Sentence
from .spelling import Speller

_RANK = {"seen": 2, "absent": 1, "unsure": 0}


class WordsRead(msgspec.Struct, frozen=True, kw_only=True):
    """What was heard, in the order of the text, and the parts that said nothing to the reader.

    ``said``: every plain word that says something by itself and is not denied (see ``words.gist``).
    """

    heard: tuple[Heard, ...]
    unread: tuple[str, ...]
    said: tuple[str, ...]


class WordReader:
    """Reads texts against the findings of a book; build it once."""

    def __init__(self, findings: Mapping[str, Finding], speech: Speech) -> None:
        """``speech``: what the compiled book keeps of the findings' phrases."""
        speller = Speller({*speech.words, *speech.weights}, ORDINARY)
        self._normaliser = Normaliser(speech, speller.spelled)
        self._matcher = Matcher(speech, findings)

    def read(self, texts: Iterable[str]) -> WordsRead:
        """Findings in ``texts``: each once, a plain statement winning over a denial elsewhere, and that over doubt."""
        heard: dict[str, Heard] = {}
        unread: list[str] = []
        said: list[str] = []
        for text in texts:
            for sentence in self._sentences(text):
                hits = self._matcher.hits(sentence)
                for item in filter(None, (_heard(sentence, hit) for hit in hits)):
                    known = heard.get(item.finding)
                    if known is None or _RANK[item.state] > _RANK[known.state]:
                        heard[item.finding] = item
                unread += _left(sentence, hits)
                said += _said(sentence)
        return WordsRead(
            heard=tuple(heard.values()), unread=tuple(dict.fromkeys(unread)), said=tuple(dict.fromkeys(said))
        )

    def _sentences(self, text: str) -> Iterator[Sentence]:
        words: list[str] = []
        for word in [*split_words(text), "."]:
            if word not in ENDS:
                words.append(word)
            elif words:
                yield Sentence(words, self._normaliser)
                words = []


def _said(sentence: Sentence) -> list[str]:
    """The words that say something by themselves and are not denied."""
    return [
        token
        for place, token in enumerate(sentence.tokens)
        if speaks(token) and sentence.said_of((place,)) not in ("denied", "unlooked")
    ]


def _heard(sentence: Sentence, hit: Hit) -> Heard | None:
    """What a hit says; None if nobody looked or it is only named for contrast."""
    said = sentence.said_of(hit.places, hit.own(sentence))
    if said in ("unlooked", "contrast", "torn") or (said == "denied" and (hit.phrase.absent or hit.score < 1)):
        return None
    state = "absent" if said == "denied" or hit.phrase.absent else "seen"
    if state == "seen" and (hit.score < 1 or hit.phrase.hint or sentence.doubted(hit.places)):
        state = "unsure"
    return Heard(words=sentence.text(hit.places), finding=hit.phrase.finding, state=state, score=round(hit.score, 3))


def _left(sentence: Sentence, hits: Sequence[Hit]) -> list[str]:
    """Clauses with meaning in which nothing was understood."""
    used = {clause for hit in hits if _heard(sentence, hit) is not None for clause in hit.clauses(sentence)}
    mute = {clause for hit in hits if _heard(sentence, hit) is None for clause in hit.clauses(sentence)}
    used |= sentence.understood - mute
    spoken = {
        clause
        for clause, token in zip(sentence.clause_of, sentence.tokens, strict=True)
        if is_content(token) and token not in SOFT
    }
    return [sentence.clauses[clause] for clause in sorted(spoken - used)]
