"""What was told sounds like as a whole: which causes are spoken of like this, whatever else was heard in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import log2

from ..model.odds import STRENGTH, WEIGHT
from ..model.speech import PARTS, Speech

#: The cause that all sounds like most gains no more than this; what goes beyond is taken from all causes alike, but not
#: more than this either: several causes at once share the talk, and each sounds like less.
MOST_BITS = log2(STRENGTH["somewhat"])


def sounds_like(
    speech: Speech, said: Iterable[str], seen: Iterable[str] = (), unsure: Iterable[str] = ()
) -> dict[str, float]:
    """What plain words that were said, and findings that were ticked, do to the odds of every cause.

    Empty where they say nothing.

    >>> speech = Speech(spoken_of=("mites", "spots"), words_say={"dot": "0 56 1 80"}, signs_say={"webbing": "0 95"})
    >>> {cause: round(factor, 2) for cause, factor in sounds_like(speech, ["dot", "dot"], ["webbing"]).items()}
    {'mites': 2.85, 'spots': 1.74}
    """
    gained = [0.0] * len(speech.spoken_of)
    told = ((said, speech.words_say, 1.0), (seen, speech.signs_say, WEIGHT["seen"]))
    for each, say, weight in (*told, (unsure, speech.signs_say, WEIGHT["unsure"])):
        for one in dict.fromkeys(each):
            _gain(gained, say, one, weight)
    most = max(gained, default=0.0)
    if not most:
        return {}
    beyond = max(0.0, most / PARTS - MOST_BITS)
    bits = [max(parts / PARTS - beyond, -MOST_BITS) for parts in gained]
    return {cause: 2.0**each for cause, each in zip(speech.spoken_of, bits, strict=True)}


def _gain(gained: list[float], say: Mapping[str, str], one: str, weight: float) -> None:
    packed = list(map(int, say.get(one, "").split()))
    for number, parts in zip(packed[::2], packed[1::2], strict=True):
        gained[number] += weight * parts
