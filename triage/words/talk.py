"""How each cause is spoken of, made ready once: what a word, or a finding that was ticked, says for every cause.

Growers mix up findings that are alike, and say much that no phrase foresees. So each cause has its talk: the words of
the phrases of what it shows, the oftener the more, its name, and how growers speak of it besides. What a word says
for a cause is the query likelihood of a unigram model mixed with that of all causes together: C. D. Manning, P.
Raghavan, H. Schütze, "Introduction to Information Retrieval" (2008), chapter 12 (recalled, not read again). A finding
speaks in the words of its phrases.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from math import log2

import msgspec

from ..model.cause import Cause
from ..model.finding import Finding
from ..model.odds import FREQUENCY
from ..model.speech import PARTS, Speech
from .normalise import Normaliser, speaks, split_words, unique
from .phrases import written_out

#: The share that the talk of all causes has in a cause's own, and the share of what it says that a word keeps: words
#: follow from each other, and findings count by themselves already. Chosen on the published cases of the tune parts.
COMMON, KEEPS = 0.2, 0.45
#: Less than this is not kept.
LEAST_PARTS = 0.05 * PARTS
#: The share of a cause's own talk beside that of its signs and name (chosen likewise).
OWN = 0.3

Words = Mapping[str, float]
#: For each word or finding the causes it speaks for, by number, and the hundredths of a bit each gains.
Gains = Mapping[str, Mapping[int, float]]


def with_talk(speech: Speech, findings: Mapping[str, Finding], causes: Mapping[str, Cause]) -> Speech:
    """The speech with what words and findings say."""
    known = Normaliser(speech)
    used = {id_: _used(finding, known) for id_, finding in findings.items()}
    words = word_gains([_talk(cause, used, known) for cause in causes.values()])
    signs = {id_: _together(each, words) for id_, each in used.items()}
    return msgspec.structs.replace(speech, words_say=_pack(words), signs_say=_pack(signs), spoken_of=tuple(causes))


def ratio_bits(share: float, common: float, mixed: float) -> float:
    """How much a word speaks for a cause, against causes that lack it: ``share`` of its talk, ``common`` of all talk.

    In example 12.3 of the book named above, half and half mixed, "down" is one word in eight of the first document and
    one in sixteen of both; with it "revenue down" is three times as likely for the first as for the second.

    >>> round(2 ** ratio_bits(1 / 8, 1 / 16, mixed=1 / 2), 9)
    3.0
    """
    return log2(1.0 + (1.0 - mixed) / mixed * share / common)


def talk_of(cause: Cause, used: Mapping[str, Words], name: Iterable[str], own: Sequence[str] = ()) -> dict[str, float]:
    """Each word's share of the talk of a cause.

    ``used``: by finding, the share of its phrases that use each word. ``name``: the words of its name. ``own``: those
    of its own talk, one for each phrase that uses it.
    """
    signs: defaultdict[str, float] = defaultdict(float)
    for finding, often in cause.shows.items():
        for word, share in used.get(finding, {}).items():
            signs[word] += FREQUENCY[often] * share
    for word in unique(name):
        signs[word] += 1.0
    total, mixed = sum(signs.values()), OWN if own else 0.0
    talk = {word: (1.0 - mixed) * weight / total for word, weight in signs.items()}
    for word, count in Counter(own).items():
        talk[word] = talk.get(word, 0.0) + mixed * count / len(own)
    return talk


def _talk(cause: Cause, used: Mapping[str, Words], known: Normaliser) -> dict[str, float]:
    own = [word for phrase in cause.talk for word in unique(_content(phrase, known))]
    return talk_of(cause, used, _content(cause.name, known), own)


def word_gains(talks: Sequence[Words]) -> dict[str, dict[int, float]]:
    """What each word says for every cause, by its number.

    >>> gains = word_gains([{"web": 0.5, "dot": 0.5}, {"dot": 1.0}])
    >>> {word: {cause: round(parts) for cause, parts in each.items()} for word, each in gains.items()}
    {'web': {0: 143}, 'dot': {0: 84, 1: 120}}
    """
    common: defaultdict[str, float] = defaultdict(float)
    for talk in talks:
        for word, share in talk.items():
            common[word] += share / len(talks)
    gains: defaultdict[str, dict[int, float]] = defaultdict(dict)
    for number, talk in enumerate(talks):
        for word, share in talk.items():
            gains[word][number] = PARTS * KEEPS * ratio_bits(share, common[word], COMMON)
    return gains


def _together(used: Words, words: Gains) -> dict[int, float]:
    """What a finding says: each of its words as far as its phrases use it."""
    gained: defaultdict[int, float] = defaultdict(float)
    for word, share in used.items():
        for number, parts in words.get(word, {}).items():
            gained[number] += share * parts
    return gained


def _pack(gains: Gains) -> dict[str, str]:
    lines = {
        id_: " ".join(f"{number} {parts:.0f}" for number, parts in sorted(each.items()) if parts >= LEAST_PARTS)
        for id_, each in sorted(gains.items())
    }
    return {id_: line for id_, line in lines.items() if line}


def _used(finding: Finding, known: Normaliser) -> dict[str, float]:
    """The share of a finding's phrases that use each word."""
    texts = [text for phrase in finding.phrases for text in written_out(phrase)]
    counts = Counter(word for text in texts for word in unique(_content(text, known)))
    return {word: count / len(texts) for word, count in counts.items()}


def _content(text: str, known: Normaliser) -> list[str]:
    return [token for token in known.tokens(split_words(text)) if speaks(token)]
