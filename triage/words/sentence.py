"""One sentence of a text: its plain tokens, where its clauses end, and what is denied, doubted or set apart in it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from . import english
from .english import ADJECTIVES, BREAKS, ENDS_DENIAL, NOT, PAUSES, UNLIKE
from .normalise import Normaliser, is_content
from .organs import ORGAN

#: How many words with a meaning a denial and a contrast reach at most.
DENIES = 6
CONTRASTS = 3
_CUES = frozenset((NOT, UNLIKE, "than"))
_LOOKS_AT = english.words_of("at under into inside yet for closely properly underside root")


class Sentence:
    """Tokens with the number of their clause; clauses keep their words for a person to read."""

    def __init__(self, words: Sequence[str], normaliser: Normaliser) -> None:
        self.clauses: list[str] = []
        self.tokens: list[str] = []
        self.clause_of: list[int] = []
        self.hard: set[int] = set()  # clauses that a word such as "but" begins
        self.understood: set[int] = set()  # clauses in which a whole phrase was found
        self.organs: list[int] = []  # places of words that name a part
        self._scopes: dict[int, tuple[str, frozenset[int]]] | None = None
        clause: list[str] = []
        for word in [*words, ","]:
            if word not in PAUSES and word not in BREAKS:
                clause.append(word)
                continue
            if clause:
                self._close(clause, normaliser)
                clause = []
            if word in BREAKS:
                self.hard.add(len(self.clauses))

    def _goes_on(self, tokens: Sequence[str]) -> bool:
        """Whether the comma before ``tokens`` only parts two adjectives of one thing."""
        if not self.tokens or not tokens or tokens[0] not in ADJECTIVES or len(self.clauses) in self.hard:
            return False
        if all(token in ADJECTIVES for token in tokens[:-1]) and tokens[-1] in ADJECTIVES:
            return False
        before = len(self.tokens)
        while before and self.tokens[before - 1] in ADJECTIVES and self.clause_of[before - 1] == len(self.clauses) - 1:
            before -= 1
        first = before == 0 or self.clause_of[before - 1] != len(self.clauses) - 1
        return before < len(self.tokens) and (first or not is_content(self.tokens[before - 1]))

    def _close(self, clause: Sequence[str], normaliser: Normaliser) -> None:
        tokens = normaliser.tokens(clause)
        if self._goes_on(tokens):
            self.organs += [len(self.tokens) + place for place, token in enumerate(tokens) if token in ORGAN]
            self.tokens += tokens
            self.clause_of += [len(self.clauses) - 1] * len(tokens)
            self.clauses[-1] += ", " + " ".join(clause)
            return
        self.organs += [len(self.tokens) + place for place, token in enumerate(tokens) if token in ORGAN]
        self.tokens += tokens
        self.clause_of += [len(self.clauses)] * len(tokens)
        self.clauses.append(" ".join(clause))

    def text(self, places: Iterable[int]) -> str:
        """The clauses that some places stand in, as written."""
        return ", ".join(self.clauses[clause] for clause in dict.fromkeys(self.clause_of[place] for place in places))

    def doubted(self, places: Iterable[int]) -> bool:
        """Whether a clause says maybe."""
        spoken = f" {self.text(places)} "
        return any(f" {doubt} " in spoken for doubt in english.DOUBT)

    def said_of(self, places: Sequence[int], own: Iterable[int] = ()) -> str:
        """What is said of words at some places: '' | denied | unlooked | contrast | torn. ``own``: their own cues.

        Torn: a denial before them ends between them ("no food taken and pellets floating").
        """
        if self._scopes is None:
            self._scopes = {place: self._scope(place) for place, token in enumerate(self.tokens) if token in _CUES}
        kinds = {
            "torn" if kind == "denied" and cue < places[0] and places[-1] not in reach else kind
            for cue, (kind, reach) in self._scopes.items()
            if cue not in own and (reach.issuperset(places) if kind == "contrast" else not reach.isdisjoint(places))
        }
        return next((kind for kind in ("unlooked", "contrast", "torn", "denied") if kind in kinds), "")

    def _scope(self, cue: int) -> tuple[str, frozenset[int]]:
        after = self.tokens[cue + 1 : cue + 4]
        if self.tokens[cue] != NOT:
            return "contrast", self._reach(cue, CONTRASTS, english.ENDS_CONTRAST)
        if self._after_the_thing(cue, after):
            return "denied", self._before(cue)
        if any(token in english.GRANTED for token in after[:2]) or after[:1] in (["only"], ["just"]):
            return "", frozenset()
        if any(token in english.NOT_KNOWN for token in after[:2]):
            return (
                ("", frozenset()) if any(token in english.ASKS for token in after) else ("unlooked", self._reach(cue))
            )
        if self._nobody_looked(after):
            return "unlooked", self._reach(cue, ends=frozenset())
        return "denied", self._reach(cue)

    def _nobody_looked(self, after: Sequence[str]) -> bool:
        for place, token in enumerate(after[:2]):
            if token in ("look", "looked"):
                return after[place + 1 : place + 2] == [] or after[place + 1] in _LOOKS_AT
            if token in english.NOT_LOOKED:
                return True
        return False

    def _after_the_thing(self, cue: int, after: Sequence[str]) -> bool:
        clause = self.clause_of[cue]
        here = [token for token, of in zip(after, self.clause_of[cue + 1 : cue + 4], strict=False) if of == clause]
        if (
            not here
            or here[0] in english.EXISTS
            or (len(here) > 1 and here[0] in ("be", "been", "yet") and here[1] in english.EXISTS)
        ):
            return not any(is_content(token) for token in here)
        return False

    def _before(self, cue: int) -> frozenset[int]:
        clause = self.clause_of[cue]
        alone = all(
            not is_content(token) or token == NOT
            for token, of in zip(self.tokens, self.clause_of, strict=True)
            if of == clause
        )
        found = []
        for place in range(cue - 1, -1, -1):
            if self.clause_of[place] != clause - alone or self.tokens[place] in ENDS_DENIAL:
                if self.clause_of[place] != clause or not alone:
                    break
                continue
            found.append(place)
        return frozenset(found)

    def _reach(self, cue: int, most: int = DENIES, ends: frozenset[str] = ENDS_DENIAL) -> frozenset[int]:
        """The places after a cue that it speaks of: to the end of its clause, on through a list that ends with "or"."""
        last = self._last_of_list(self.clause_of[cue])
        found: list[int] = []
        for place in range(cue + 1, len(self.tokens)):
            token = self.tokens[place]
            if self.clause_of[place] > last or token in ends or token in (NOT, UNLIKE) or most == 0:
                break
            found.append(place)
            most -= is_content(token)
        return frozenset(found)

    def _last_of_list(self, clause: int) -> int:
        """The clause that ends the list begun in ``clause`` ("no webs, eggs or mites"); itself if there is no list."""
        for number in range(clause + 1, len(self.clauses)):
            tokens = [token for token, of in zip(self.tokens, self.clause_of, strict=True) if of == number]
            if number in self.hard or sum(is_content(token) for token in tokens) > 4 or NOT in tokens:
                break
            if "or" in tokens or "nor" in tokens:
                return number
        return clause
