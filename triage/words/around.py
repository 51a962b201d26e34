"""Which parts of the plant, or what else, the words around some places speak of."""

from __future__ import annotations

from collections.abc import Sequence

from ..model.speech import Phrase
from .english import words_of
from .normalise import is_content
from .organs import ANYWHERE, ORGAN
from .sentence import Sentence

#: A part named so many words away no longer belongs to a phrase.
NEAR = 3
#: A clause of so few words goes on about the part named before it ("the fruit has a dark, leathery, sunken spot").
SHORT = 2
_PARTS = words_of("with but though because after when while as than")


def organs_near(used: Sequence[int], sentence: Sentence) -> frozenset[str]:
    """The parts named nearest to some places in their clause; parts joined by "and" count together."""
    clause_of = sentence.clause_of
    named = [
        (steps, place)
        for place in sentence.organs
        if clause_of[used[0]] <= clause_of[place] <= clause_of[used[-1]]
        and (steps := _steps(place, used, sentence)) is not None
    ]
    return _group(min(named)[1], sentence) if named else frozenset()


def organs_before(used: Sequence[int], sentence: Sentence) -> frozenset[str]:
    """The parts that a short clause goes on about: those named last before it."""
    clause_of = sentence.clause_of
    clause = clause_of[used[0]]
    inside = [token for token, of in zip(sentence.tokens, clause_of, strict=True) if of == clause]
    before = [place for place in sentence.organs if clause_of[place] == clause - 1]
    if clause in sentence.hard or not before or sum(map(is_content, inside)) > SHORT:
        return frozenset()
    return _group(before[-1], sentence)


def said_of_another(phrase: Phrase, used: Sequence[int], sentence: Sentence) -> bool:
    """Whether some words of a phrase stand in a clause about another part: "leaves mottled, fruit small"."""
    clause_of, tokens = sentence.clause_of, sentence.tokens
    if clause_of[used[0]] == clause_of[used[-1]] or phrase.spans:
        return False
    meant = {ORGAN[tokens[place]] for place in used if tokens[place] in ORGAN} | ANYWHERE
    if len(meant) == len(ANYWHERE):
        return False
    for one in used:
        own = {ORGAN[tokens[place]] for place in sentence.organs if clause_of[place] == clause_of[one] and place < one}
        own -= ANYWHERE
        if own and own.isdisjoint(meant):
            return True
    return False


def _steps(place: int, used: Sequence[int], sentence: Sentence) -> int | None:
    """How many words part an organ from the nearest of some places; None if it belongs to other words."""
    spans = ((min(place, one), max(place, one)) for one in used)
    start, end = min(spans, key=lambda span: span[1] - span[0])
    between = sentence.tokens[start + 1 : end]
    steps = sum(is_content(word) and word not in ORGAN for word in between)
    return steps if steps <= NEAR and _PARTS.isdisjoint(between) else None


def _group(nearest: int, sentence: Sentence) -> frozenset[str]:
    tokens, clause_of = sentence.tokens, sentence.clause_of
    group = {nearest}
    for step in (-1, 1):
        place = nearest + step
        while 0 <= place < len(tokens) and (tokens[place] in ORGAN or tokens[place] in ("and", "or", "on")):
            if clause_of[place] != clause_of[nearest]:
                break
            group.add(place)
            place += step
    return frozenset(ORGAN[tokens[place]] for place in group if tokens[place] in ORGAN)
