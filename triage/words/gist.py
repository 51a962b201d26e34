"""What a grower's words sound like as a whole: which causes are spoken of in such words, whatever was heard in them.

Each cause has its way of being spoken of: the phrases of what it shows, the oftener the more, and its name. What a word
says for it is the query likelihood of a unigram model mixed with that of all causes together: C. D. Manning,
P. Raghavan, H. Schütze, "Introduction to Information Retrieval" (2008), chapter 12 (recalled, not read again). The words
of a text follow from each other, and those of a phrase that was heard have counted already, so that they keep only a
share of their word.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from math import log2

from ..model.cause import Cause
from ..model.odds import FREQUENCY, STRENGTH
from ..model.speech import Speech

#: The share that the talk of all causes has in a cause's own, and the share of its word that a word keeps; chosen
#: together on the published cases of the tune part.
COMMON, KEEPS = 0.2, 0.3
#: The cause that the words sound like most gains no more than this; what goes beyond is taken from all causes alike.
MOST_BITS = log2(STRENGTH["somewhat"])
#: Bits are kept in hundredths; fewer are not kept.
PARTS, LEAST_PARTS = 100, 5


def ratio_bits(share: float, common: float, mixed: float) -> float:
    """How much a word speaks for a cause, against causes that lack it: ``share`` of its talk, ``common`` of all talk.

    In example 12.3 of the book named above, half and half mixed, "down" is one word in eight of the first document and
    one in sixteen of both; with it "revenue down" is three times as likely for the first as for the second.

    >>> round(2 ** ratio_bits(1 / 8, 1 / 16, mixed=1 / 2), 9)
    3.0
    """
    return log2(1.0 + (1.0 - mixed) / mixed * share / common)


def talk_of(cause: Cause, ways: Mapping[str, Mapping[str, float]], name: Iterable[str]) -> dict[str, float]:
    """Each word's share of the talk of a cause; ``ways``: by finding, how many of its phrases use each word."""
    talk: defaultdict[str, float] = defaultdict(float)
    for finding, often in cause.shows.items():
        for word, used in ways.get(finding, {}).items():
            talk[word] += FREQUENCY[often] * used
    for word in dict.fromkeys(name):
        talk[word] += 1.0
    total = sum(talk.values())
    return {word: weight / total for word, weight in talk.items()}


def pack_sounds(talks: Iterable[Mapping[str, float]]) -> dict[str, str]:
    """By word: number of the cause and hundredths of a bit it gains, one after the other.

    >>> pack_sounds([{"web": 0.5, "dot": 0.5}, {"dot": 1.0}])
    {'dot': '0 46 1 75', 'web': '0 95'}
    """
    known = list(talks)
    common: defaultdict[str, float] = defaultdict(float)
    for talk in known:
        for word, share in talk.items():
            common[word] += share / len(known)
    sounds: defaultdict[str, list[str]] = defaultdict(list)
    for number, talk in enumerate(known):
        for word, share in talk.items():
            parts = round(PARTS * KEEPS * ratio_bits(share, common[word], COMMON))
            if parts >= LEAST_PARTS:
                sounds[word] += [str(number), str(parts)]
    return {word: " ".join(sounds[word]) for word in sorted(sounds)}


def sounds_like(speech: Speech, words: Iterable[str]) -> dict[str, float]:
    """What the plain words of a text do to the odds of every cause, each word once; empty where they say nothing.

    >>> speech = Speech(spoken_of=("mites", "spots"), sounds={"dot": "0 46 1 75", "web": "0 95"})
    >>> {cause: round(factor, 2) for cause, factor in sounds_like(speech, ["web", "dot", "dot"]).items()}
    {'mites': 2.66, 'spots': 1.68}
    """
    gained = [0] * len(speech.spoken_of)
    for word in dict.fromkeys(words):
        packed = speech.sounds.get(word, "").split()
        for number, parts in zip(packed[::2], packed[1::2], strict=True):
            gained[int(number)] += int(parts)
    most = max(gained, default=0)
    if not most:
        return {}
    beyond = max(0.0, most / PARTS - MOST_BITS)
    return {cause: 2.0 ** (parts / PARTS - beyond) for cause, parts in zip(speech.spoken_of, gained, strict=True)}
