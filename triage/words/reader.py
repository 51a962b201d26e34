"""A grower's own words → findings: order-free phrases, negation, doubt; what was not understood is given back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

import msgspec

from ..model.book import Synonyms
from ..model.finding import Finding
from ..model.outcome import Heard
from .normalise import NOT, Normaliser, is_content, split_words
from .phrases import Phrase, PhraseIndex, Spoken, spoken_phrases

#: Share of a phrase's weight that must be there, and how many other content words may stand between its words.
ENOUGH = 0.80
BETWEEN = 1
_ENDS = frozenset(".;!?\n")
_PAUSES = frozenset(",:()")
_BREAKS = frozenset(("but", "although", "though", "however", "while", "whereas"))
_DOUBT = (
    "maybe",
    "perhaps",
    "possibly",
    "might",
    "may be",
    "i think",
    "not sure",
    "unsure",
    "could be",
    "i guess",
    "suspect",
)
_NOT_LOOKED = frozenset(("look", "check", "test", "know", "tell", "notice", "measure", "sure", "certain", "idea"))


class WordsRead(msgspec.Struct, frozen=True, kw_only=True):
    """What was heard, in the order of the text, and the parts that said nothing to the reader."""

    heard: tuple[Heard, ...]
    unread: tuple[str, ...]


class _Hit(msgspec.Struct, frozen=True):
    phrase: Phrase
    places: tuple[int, ...]  # token places used, sorted
    score: float


class Sentence:
    """One sentence: its words, tokens and where its clauses end."""

    def __init__(self, words: Sequence[str], normaliser: Normaliser, index: PhraseIndex) -> None:
        self.clauses: list[str] = []
        self.tokens: list[str] = []
        self.clause_of: list[int] = []
        clause: list[str] = []
        for word in [*words, ","]:
            if word not in _PAUSES and word not in _BREAKS:
                clause.append(word)
            elif clause:
                self._close(clause, normaliser, index)
                clause = []

    def _close(self, clause: list[str], normaliser: Normaliser, index: PhraseIndex) -> None:
        number = len(self.clauses)
        self.clauses.append(" ".join(clause))
        for token in normaliser.tokens(clause):
            self.tokens.append(_spelled(token, index))
            self.clause_of.append(number)


def _spelled(token: str, index: PhraseIndex) -> str:
    """A token as the book spells it: itself, or the one it is nearly."""
    if token in index.weights or not is_content(token) or len(token) < 5 or "_" in token:
        return token
    from rapidfuzz import fuzz, process

    found = process.extractOne(token, index.words, scorer=fuzz.ratio, score_cutoff=84)
    return found[0] if found and found[0][0] == token[0] else token


class WordReader:
    """Reads texts against the findings of a book; build it once."""

    def __init__(self, findings: Mapping[str, Finding], synonyms: Mapping[str, Synonyms], spoken: Spoken = ()) -> None:
        """``spoken``: the phrases of the findings as a compiled book keeps them; made from the findings if empty."""
        self._normaliser = Normaliser(synonyms)
        self._index = PhraseIndex(spoken or spoken_phrases(findings, self._normaliser))

    def read(self, texts: Iterable[str]) -> WordsRead:
        """Findings in ``texts``: each once, a plain statement winning over doubt, and over a denial elsewhere."""
        heard: dict[str, Heard] = {}
        unread: list[str] = []
        rank = {"seen": 2, "absent": 1, "unsure": 0}
        for text in texts:
            for sentence in self._sentences(text):
                hits = self._hits(sentence)
                for item in self._say(sentence, hits):
                    known = heard.get(item.finding)
                    if known is None or rank[item.state] > rank[known.state]:
                        heard[item.finding] = item
                unread += self._left(sentence, hits)
        return WordsRead(heard=tuple(heard.values()), unread=tuple(dict.fromkeys(unread)))

    def _sentences(self, text: str) -> Iterable[Sentence]:
        words: list[str] = []
        for word in [*split_words(text), "."]:
            if word not in _ENDS:
                words.append(word)
            elif words:
                yield Sentence(words, self._normaliser, self._index)
                words = []

    def _hits(self, sentence: Sentence) -> list[_Hit]:
        places: dict[str, list[int]] = {}
        for place, token in enumerate(sentence.tokens):
            if token in self._index.weights:
                places.setdefault(token, []).append(place)
        tried: dict[int, _Hit | None] = {}
        for token in places:
            for phrase in self._index.by_token[token]:
                if id(phrase) not in tried:
                    tried[id(phrase)] = self._match(phrase, places, sentence.tokens)
        return _best([hit for hit in tried.values() if hit is not None])

    def _match(self, phrase: Phrase, places: Mapping[str, list[int]], tokens: Sequence[str]) -> _Hit | None:
        weights = self._index.weights
        present = [token for token in phrase.tokens if token in places]
        share = sum(weights[token] for token in present) / phrase.weight
        missing = len(phrase.tokens) - len(present)
        if share < ENOUGH or missing > 1 or (missing and len(phrase.tokens) < 4) or present == [NOT]:
            return None
        if phrase.denies and NOT not in places:
            return None
        used = _closest([places[token] for token in present])
        between = sum(is_content(token) for token in tokens[used[0] : used[-1] + 1]) - len(present)
        if between > BETWEEN * (len(present) - 1):
            return None
        return _Hit(phrase, used, share)

    def _say(self, sentence: Sentence, hits: Sequence[_Hit]) -> Iterable[Heard]:
        for hit in hits:
            clauses = dict.fromkeys(sentence.clause_of[place] for place in hit.places)
            words = ", ".join(sentence.clauses[clause] for clause in clauses)
            state = _state(sentence, hit, words)
            if state:
                yield Heard(words=words, finding=hit.phrase.finding, state=state, score=round(hit.score, 3))

    def _left(self, sentence: Sentence, hits: Sequence[_Hit]) -> list[str]:
        used = {sentence.clause_of[place] for hit in hits for place in hit.places if _state(sentence, hit, "")}
        spoken = {
            clause for clause, token in zip(sentence.clause_of, sentence.tokens, strict=True) if is_content(token)
        }
        return [sentence.clauses[clause] for clause in sorted(spoken - used)]


def _closest(lists: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """One place of each list, as near to each other as a walk from each anchor finds; sorted."""
    best: tuple[int, ...] = ()
    for anchor in lists[0]:
        chosen = sorted(min(places, key=lambda place: (abs(place - anchor), place)) for places in lists)
        if not best or chosen[-1] - chosen[0] < best[-1] - best[0]:
            best = tuple(chosen)
    return best


def _best(hits: list[_Hit]) -> list[_Hit]:
    """The best hit of each finding, without hits that a longer one of another finding contains whole."""
    by_finding: dict[str, _Hit] = {}
    for hit in sorted(hits, key=lambda h: (-h.phrase.weight * h.score, h.places, h.phrase.finding)):
        by_finding.setdefault(hit.phrase.finding, hit)
    kept = [
        hit
        for hit in by_finding.values()
        if not any(set(hit.places) < set(other.places) for other in by_finding.values())
    ]
    return sorted(kept, key=lambda h: (h.places, h.phrase.finding))


def _state(sentence: Sentence, hit: _Hit, words: str) -> str:
    """seen | absent | unsure, or '' when the words say that nobody looked."""
    first = hit.places[0]
    clause = sentence.clause_of[first]
    before = [place for place in range(first) if sentence.clause_of[place] == clause]
    cue = max((place for place in before if sentence.tokens[place] == NOT), default=None)
    if cue is not None:
        after = [token for token in sentence.tokens[cue + 1 : first + 1] if token]
        if any(token in _NOT_LOOKED for token in after[:2]):
            return ""
        if "only" not in after[:1] and "and" not in after and not hit.phrase.denies:
            return "absent"
    spoken = words or sentence.clauses[clause]
    return "unsure" if any(_holds(spoken, doubt) for doubt in _DOUBT) else "seen"


def _holds(text: str, words: str) -> bool:
    return f" {words} " in f" {text} "
