"""Phrases found in a sentence: their words near each other, rightly bound, and no longer phrase around them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import msgspec

from ..model.finding import Finding
from ..model.speech import Phrase, Speech
from .around import organs_before, organs_near, said_of_another
from .bind import WHERE, as_said, bound, closest, leaning, near, other_colour
from .english import COLOURS, HEALTHY, NOT, NOUNS, SOFT
from .organs import ORGAN, WHERE_THEY_STAND, organs_of
from .pack import PARTIAL, unpack_phrases
from .sentence import Sentence

#: Share of its weight that a phrase with a word missing must still have.
ENOUGH = 0.62
#: Kinds that speak of how the plant is kept rather than of what it shows.
KEPT = ("condition", "change")


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
        understood = sentence.understood = {
            sentence.clause_of[place] for hit in found if hit.score == 1 for place in hit.places
        }
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
                _silences(other, hit, kinds[other] in KEPT)
                for other in hits
                if denied[hit] >= denied[other]
                and (kinds[hit] != "condition" or kinds[other] in KEPT or len(hit.phrase.needs) > 1)
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
        lists = [places[token] for token in present]
        if len(phrase.needs) == 1 and phrase.lean:
            return self._placed(phrase, leaning(phrase, places, sentence), score, sentence)
        hit = self._placed(phrase, closest(lists), score, sentence)
        if hit is None and any(len(each) > 1 for each in lists):
            hit = self._placed(phrase, as_said(lists), score, sentence)
        return hit

    def _placed(self, phrase: Phrase, used: tuple[int, ...], score: float, sentence: Sentence) -> Hit | None:
        """The phrase at these places, if the words there belong together and to what it speaks of."""
        if not used or not near(phrase, used, sentence) or not bound(phrase, used, sentence):
            return None
        return None if self._elsewhere(phrase, used, sentence) else Hit(phrase, used, score)

    def _partial(self, phrase: Phrase, present: Sequence[str], places: Mapping[str, object]) -> float:
        strong = sum(token not in SOFT for token in present)
        if len(phrase.needs) < PARTIAL or strong < PARTIAL - 1 or phrase.absent or NOT in phrase.needs:
            return 0.0
        lost = next(token for token in phrase.needs if token not in present)
        if lost in ORGAN or lost in COLOURS or lost in NOUNS:
            return 0.0
        share = 1 - self._speech.weights[lost] / phrase.weight
        return share if share >= ENOUGH else 0.0

    def _elsewhere(self, phrase: Phrase, used: Sequence[int], sentence: Sentence) -> bool:
        """Whether the words speak of another part, or of another colour, than the finding is a symptom of."""
        if said_of_another(phrase, used, sentence):
            return True
        finding = self._findings[phrase.finding]
        fits = organs_of(finding)
        if not fits:
            return False
        if other_colour(used, self._speech.colours.get(phrase.finding, ""), sentence):
            return True
        if any(token in ORGAN for token in phrase.needs):
            return False
        spoken = organs_near(used, sentence)
        if not spoken and finding.place == "leaf":
            spoken = organs_before(used, sentence)
        spoken -= WHERE_THEY_STAND
        return bool(spoken) and spoken.isdisjoint(fits)


def _silences(other: Hit, hit: Hit, kept: bool) -> bool:
    if other.phrase.finding == hit.phrase.finding or other.phrase.absent or (other.score < 1 and hit.score == 1):
        return False
    where = all(token in WHERE for token in hit.phrase.needs)
    if where and hit.score == 1 and not kept and HEALTHY not in other.phrase.needs:
        return False
    mine, its = set(hit.places), set(other.places)
    return mine < its or (mine <= its and hit.score < 1 and other.score == 1)
