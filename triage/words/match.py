"""Phrases found in a sentence: their words near each other, rightly bound, and no longer phrase around them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

import msgspec

from ..model.finding import Finding
from ..model.speech import Phrase, Speech
from .english import COLOURS, LEAN, LIKE_COLOURS, NOT, NOUNS, PROPS, SOFT, words_of
from .normalise import is_content
from .organs import ORGAN, organs_of
from .pack import PARTIAL, unpack_phrases
from .sentence import Sentence

#: How many other words with a meaning may stand between two words of a phrase, on average.
SLACK = 2
#: Share of its weight that a phrase with a word missing must still have.
ENOUGH = 0.62
#: How many words with a meaning may stand between a single word and the common word it leans on, when it comes after
#: that word and when it comes before.
AFTER = 3
BEFORE = 0
#: Stands after a colour that something took on ("yellowing", "turns brown").
ALTER = "alter"
#: What is said of a part of the plant to set it apart; never of a part named in another clause.
HEALTHY = "healthy"
#: Where on the plant: said beside whatever else is said of the leaves there.
WHERE = words_of("newest oldest midleaf")
#: A part of the plant named so many words away no longer belongs to a phrase.
NEAR = 3
_COORDINATE = words_of("or and to then not very almost first alter up later")
_PARTS = words_of("with but though because after when while as than")


class Hit(msgspec.Struct, frozen=True):
    """A phrase and the places of its words in the sentence; ``score`` below 1: a word is missing."""

    phrase: Phrase
    places: tuple[int, ...]
    score: float

    def clauses(self, sentence: Sentence) -> set[int]:
        """The clauses it stands in."""
        return {sentence.clause_of[place] for place in self.places}

    def own(self, sentence: Sentence) -> list[int]:
        """The places of its own "not"; all of its clauses, as in "neither new nor old leaves"."""
        if NOT not in self.phrase.needs:
            return []
        here = self.clauses(sentence)
        return [p for p, token in enumerate(sentence.tokens) if token == NOT and sentence.clause_of[p] in here]

    @property
    def weight(self) -> float:
        """How much was heard."""
        return self.phrase.weight * self.score


class Matcher:
    """Finds phrases of a compiled book."""

    def __init__(self, speech: Speech, findings: Mapping[str, Finding]) -> None:
        self._speech = speech
        self._findings = findings
        self._phrases: dict[str, list[Phrase]] = {}

    def hits(self, sentence: Sentence) -> list[Hit]:
        """The best hit of each finding (said or denied), in the order of the text."""
        places: dict[str, list[int]] = {}
        for place, token in enumerate(sentence.tokens):
            places.setdefault(token, []).append(place)
        found = [hit for phrase in self._tried(places) if (hit := self._hit(phrase, places, sentence)) is not None]
        understood = {sentence.clause_of[place] for hit in found if hit.score == 1 for place in hit.places}
        return self._best(
            [hit for hit in found if hit.score == 1 or understood.isdisjoint(hit.clauses(sentence))], sentence
        )

    def _tried(self, places: Iterable[str]) -> list[Phrase]:
        """The phrases of which the rarest word, or with a word missing the next rarest, is there."""
        for token in places:
            if token not in self._phrases:
                packed = self._speech.phrases.get(token, ""), self._speech.second.get(token, "")
                self._phrases[token] = [*unpack_phrases(packed[0]), *unpack_phrases(packed[1])]
        tried = {phrase: None for token in places for phrase in self._phrases[token]}
        return list(tried)

    def _best(self, hits: Sequence[Hit], sentence: Sentence) -> list[Hit]:
        """The best hit of each finding, without those whose words a longer whole hit of another finding has, too.

        What is denied silences only what is denied with it ("spots without halo" are spots), and what the plant shows
        does not silence how it is kept ("wilting seedlings" are seedlings).
        """
        best: dict[str, Hit] = {}
        for hit in sorted(hits, key=lambda h: (h.score < 1, -h.weight, h.places, h.phrase.finding)):
            best.setdefault(hit.phrase.finding, hit)
        denied = {hit: bool(sentence.said_of(hit.places, hit.own(sentence))) for hit in hits}
        kinds = {hit: self._findings[hit.phrase.finding].kind for hit in hits}
        kept = [
            hit
            for hit in best.values()
            if not any(
                _silences(other, hit)
                for other in hits
                if denied[hit] >= denied[other] and (kinds[hit] != "condition" or kinds[other] == "condition")
            )
        ]
        return sorted(kept, key=lambda h: (h.places, h.phrase.finding))

    def _hit(self, phrase: Phrase, places: Mapping[str, list[int]], sentence: Sentence) -> Hit | None:
        present = [token for token in phrase.needs if token in places]
        missing = len(phrase.needs) - len(present)
        if missing > 1:
            return None
        score = 1.0
        if missing:
            score = self._partial(phrase, present, places)
            if not score:
                return None
        used = _closest([places[token] for token in present])
        if len(phrase.needs) == 1 and phrase.lean:
            used = _leaning(phrase, places, sentence)
        if not used or not _near(phrase, used, sentence) or not _bound(phrase, used, sentence):
            return None
        return None if self._elsewhere(phrase, used, sentence) else Hit(phrase, used, score)

    def _partial(self, phrase: Phrase, present: Sequence[str], places: Mapping[str, object]) -> float:
        if len(phrase.needs) < PARTIAL or phrase.absent or NOT in phrase.needs:
            return 0.0
        lost = next(token for token in phrase.needs if token not in present)
        if lost in COLOURS and any(token in places for token in COLOURS):
            return 0.0
        share = 1 - self._speech.weights[lost] / phrase.weight
        return share if share >= ENOUGH else 0.0

    def _elsewhere(self, phrase: Phrase, used: Sequence[int], sentence: Sentence) -> bool:
        """Whether the words around speak of another part than the finding is a symptom of."""
        fits = organs_of(self._findings[phrase.finding])
        if not fits or any(token in ORGAN for token in phrase.needs):
            return False
        spoken = _organs_near(used, sentence)
        return bool(spoken) and spoken.isdisjoint(fits)


def _closest(lists: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """One place of each list, as near to each other as a walk from each place of the first finds; sorted."""
    best: tuple[int, ...] = ()
    for anchor in lists[0]:
        chosen = sorted(min(places, key=lambda place: (abs(place - anchor), place)) for places in lists)
        if not best or chosen[-1] - chosen[0] < best[-1] - best[0]:
            best = tuple(chosen)
    return best


def _leaning(phrase: Phrase, places: Mapping[str, Sequence[int]], sentence: Sentence) -> tuple[int, ...]:
    """The place of a single word that has one of its common words close by, or what stands for a leaf or plant.

    "Yellow leaves", "the leaves, old ones above all, turn yellow", but not "yellow spots on the leaves".
    """
    tokens = sentence.tokens
    props = {place for place, token in enumerate(tokens) if token in phrase.lean and token != ALTER}
    if "leaf" in phrase.lean or "plant" in phrase.lean:
        props |= {place for place, token in enumerate(tokens) if token in PROPS}
    for place in places[phrase.needs[0]]:
        if ALTER in phrase.lean and tokens[place + 1 : place + 2] == [ALTER]:
            return (place,)
        for prop in props:
            low, high = sorted((place, prop))
            if NOUNS.isdisjoint(tokens[low + 1 : high]) and sum(_parts(token) for token in tokens[low + 1 : high]) <= (
                AFTER if prop < place else BEFORE
            ):
                return (place,)
    return ()


def _parts(token: str) -> bool:
    """Whether a word stands between its neighbours."""
    return is_content(token) and token not in LEAN and token not in SOFT


def _near(phrase: Phrase, used: Sequence[int], sentence: Sentence) -> bool:
    """Whether few other words stand between; a comma counts as one, a "but" as three.

    Words that mean little by themselves must stand side by side, and so must "not" and what it denies.
    """
    if len(used) == 1:
        return True
    tokens = sentence.tokens
    clauses = range(sentence.clause_of[used[0]] + 1, sentence.clause_of[used[-1]] + 1)
    others = sum(_parts(tokens[place]) for place in range(used[0], used[-1] + 1) if place not in used)
    others += 0 if phrase.spans else sum(1 + 2 * (clause in sentence.hard) for clause in clauses)
    if clauses and any(tokens[place] == HEALTHY for place in used):
        return False
    if all(tokens[place] in SOFT or tokens[place] in LEAN for place in used):
        return not others
    if any(tokens[place] == NOT for place in used):
        return others <= len(used) - 2
    strong = sum(tokens[place] not in SOFT for place in used)
    return others <= SLACK * (strong - 1)


def _bound(phrase: Phrase, used: Sequence[int], sentence: Sentence) -> bool:
    """Whether the colours of a phrase belong to its other words in this sentence.

    "Yellow leaves with brown edges" has no yellow edges; "yellow or brown edges" has. "Veins and brown tips"
    has no brown veins.
    """
    tokens = sentence.tokens
    for left, right in pairwise(used):
        if tokens[left] in COLOURS or tokens[right] in COLOURS:
            colour = left if tokens[left] in COLOURS else right
            if any(_rival(place, colour, phrase, tokens) for place in range(left + 1, right)):
                return False
    return not any(_belongs_elsewhere(place, used, phrase, sentence) for place in used if tokens[place] in LIKE_COLOURS)


def _rival(place: int, colour: int, phrase: Phrase, tokens: Sequence[str]) -> bool:
    """Whether another colour stands at ``place`` that is not said in one breath with the one of the phrase."""
    if tokens[place] not in COLOURS or tokens[place] in phrase.needs:
        return False
    low, high = sorted((colour, place))
    return any(token not in _COORDINATE and token not in COLOURS for token in tokens[low + 1 : high])


def _belongs_elsewhere(colour: int, used: Sequence[int], phrase: Phrase, sentence: Sentence) -> bool:
    """Whether the next word is a thing that the phrase does not speak of, as in "black spots" for "leaves go black"."""
    tokens = sentence.tokens
    here = sentence.clause_of[colour]
    after = next(
        (p for p in range(colour + 1, len(tokens)) if tokens[p] not in LIKE_COLOURS and tokens[p] not in PROPS), 0
    )
    if tokens[colour] == "dark" and tokens[colour + 1 : colour + 2] and tokens[colour + 1] in COLOURS - {*phrase.needs}:
        return True
    if not after or sentence.clause_of[after] != here or tokens[after] in phrase.needs or tokens[after] not in NOUNS:
        return False
    others = [place for place in used if tokens[place] not in LIKE_COLOURS]
    return not others or min(abs(place - colour) for place in others) > 1


def _organs_near(used: Sequence[int], sentence: Sentence) -> frozenset[str]:
    """The parts named nearest to some places in their clause; parts joined by "and" count together."""
    tokens, clause_of = sentence.tokens, sentence.clause_of
    found: list[tuple[int, int]] = []
    for place, token in enumerate(tokens):
        if token in ORGAN and clause_of[used[0]] <= clause_of[place] <= clause_of[used[-1]]:
            start, end = min(
                ((u, place) if u < place else (place, u) for u in used), key=lambda pair: pair[1] - pair[0]
            )
            between = tokens[start + 1 : end]
            steps = sum(is_content(word) and word not in ORGAN for word in between)
            if steps <= NEAR and not _PARTS.intersection(between):
                found.append((steps, place))
    if not found:
        return frozenset()
    _, nearest = min(found)
    group = {nearest}
    for step in (-1, 1):
        place = nearest + step
        while 0 <= place < len(tokens) and (tokens[place] in ORGAN or tokens[place] in ("and", "or", "on")):
            group.add(place)
            place += step
    return frozenset(ORGAN[tokens[place]] for place in group if tokens[place] in ORGAN)


def _silences(other: Hit, hit: Hit) -> bool:
    if other.phrase.finding == hit.phrase.finding or other.phrase.absent or (other.score < 1 and hit.score == 1):
        return False
    if hit.score == 1 and all(token in WHERE for token in hit.phrase.needs) and HEALTHY not in other.phrase.needs:
        return False
    mine, its = set(hit.places), set(other.places)
    return mine < its or (mine <= its and hit.score < 1 and other.score == 1)
