"""Whether words of a phrase that stand in a sentence belong together there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import dropwhile, pairwise, takewhile

from ..model.speech import Phrase
from .english import ADJECTIVES, COLOURS, HEALTHY, LEAN, LIKE_COLOURS, NOT, NOUNS, PROPS, SIZES, SOFT, words_of
from .normalise import is_content
from .organs import ANYWHERE, ORGAN
from .sentence import Sentence

#: How many other words with a meaning may stand between two words of a phrase, on average; between a colour and its
#: thing.
SLACK = 2
COLOUR_SLACK = 1
#: How many words with a meaning may stand between a single word and the common word it leans on, when it comes after
#: that word and when it comes before.
AFTER = 3
BEFORE = 0
#: Stands after a colour that something took on ("yellowing", "turns brown").
ALTER = "alter"
#: Where on the plant: said beside whatever else is said of the leaves there.
WHERE = words_of("newest oldest midleaf")
#: Things of which the colour decides what they are.
SPOTS = words_of("spot patch dot")
#: What spots have, as leaves do.
OF_SPOTS = words_of("edge centre middl ring")
DEAD = "dead"
_COORDINATE = words_of("or and to then not very almost first alter up later")


def closest(lists: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """One place of each list, as near to each other as a walk from each place of the shortest finds; sorted."""
    best: tuple[int, ...] = ()
    for anchor in min(lists, key=len):
        chosen = sorted(min(places, key=lambda place: (abs(place - anchor), place)) for places in lists)
        if not best or chosen[-1] - chosen[0] < best[-1] - best[0]:
            best = tuple(chosen)
    return best


def as_said(lists: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """One place of each list, each after the one before, as near to each other as that allows; none if it cannot be.

    >>> as_said([[2], [1, 4], [5]])
    (2, 4, 5)
    """
    best: tuple[int, ...] = ()
    for first in lists[0]:
        chosen = [first]
        for places in lists[1:]:
            chosen += [place for place in places if place > chosen[-1]][:1]
        if len(chosen) == len(lists) and (not best or chosen[-1] - first < best[-1] - best[0]):
            best = tuple(chosen)
    return best


def leaning(phrase: Phrase, places: Mapping[str, Sequence[int]], sentence: Sentence) -> tuple[int, ...]:
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
            between = tokens[low + 1 : high]
            if prop > 1 and tokens[prop - 1] == "of" and tokens[prop - 2] in NOUNS:
                continue  # "the tips of the leaves": the tips are meant
            if NOUNS.isdisjoint(between) and sum(map(_parts, between)) <= (AFTER if prop < place else BEFORE):
                return (place,)
    return ()


def _parts(token: str) -> bool:
    """Whether a word stands between its neighbours."""
    return is_content(token) and token not in LEAN and token not in SOFT


def near(phrase: Phrase, used: Sequence[int], sentence: Sentence) -> bool:
    """Whether few other words stand between; a comma counts as one, a "but" as three.

    Words that mean little by themselves must stand side by side, and so must "not" and what it denies.
    """
    if len(used) == 1:
        return True
    tokens = [sentence.tokens[place] for place in used]
    clauses = range(sentence.clause_of[used[0]] + 1, sentence.clause_of[used[-1]] + 1)
    said = sentence.tokens[used[-1]] in LIKE_COLOURS  # "edges yellow, later brown": what is said before does not part
    others = sum(
        _parts(token) and token not in WHERE and not (said and token in LIKE_COLOURS)
        for place, token in enumerate(sentence.tokens[used[0] : used[-1]], start=used[0])
        if place not in used
    )
    others += 0 if phrase.spans else sum(1 + 2 * (clause in sentence.hard) for clause in clauses)
    if clauses and HEALTHY in tokens:
        return False
    if all(token in SOFT or token in LEAN for token in tokens):
        return not others
    if NOT in tokens:
        return others <= len(used) - 2 and not (len(used) == 2 and phrase.needs[0] == NOT and tokens[0] != NOT)
    strong = [token for token in tokens if token not in SOFT]
    pair = len(strong) == 2 and not COLOURS.isdisjoint(strong) and used[0] + others < used[-1]
    return others <= (COLOUR_SLACK if pair and tokens[0] in COLOURS else SLACK) * (len(strong) - 1)


def bound(phrase: Phrase, used: Sequence[int], sentence: Sentence) -> bool:
    """Whether the colours of a phrase belong to its other words in this sentence.

    "Yellow leaves with brown edges" has no yellow edges; "yellow or brown edges" has. "Veins and brown tips"
    has no brown veins.
    """
    tokens = sentence.tokens
    for number, (left, right) in enumerate(pairwise(used)):
        if tokens[left] in COLOURS or tokens[right] in COLOURS:
            colour = left if tokens[left] in COLOURS else right
            end = next((place for place in used[number + 1 :] if tokens[place] in NOUNS), right)
            if any(_rival(place, colour, phrase, tokens) for place in range(left + 1, end)):
                return False
    if any(_healthy_elsewhere(place, phrase, tokens) for place in used if tokens[place] in (HEALTHY, "green")):
        return False
    if any(_of_a_spot(place, phrase, tokens) for place in used if tokens[place] in OF_SPOTS):
        return False
    like_colours = [place for place in used if tokens[place] in LIKE_COLOURS or tokens[place] in SIZES]
    if any(_belongs_elsewhere(place, used, phrase, sentence) for place in like_colours):
        return False
    return not any(_nearer_organ(left, right, phrase, tokens) for left, right in pairwise(used))


def _healthy_elsewhere(place: int, phrase: Phrase, tokens: Sequence[str]) -> bool:
    """Whether it is another thing that stays healthy: the veins in "old leaves with the veins still green"."""
    skipped = SOFT | {HEALTHY}
    before = next((p for p in range(place - 1, -1, -1) if is_content(tokens[p]) and tokens[p] not in skipped), None)
    if before is None or tokens[before] in PROPS or tokens[before] in phrase.needs:
        return False
    return tokens[before] in NOUNS or tokens[before] in ORGAN


def _of_a_spot(place: int, phrase: Phrase, tokens: Sequence[str]) -> bool:
    """Whether the edge, middle or ring is one of spots that the phrase does not speak of: "spots with brown edges"."""
    if not SPOTS.isdisjoint(phrase.needs):
        return False
    before = place - 1
    while before >= 0 and (tokens[before] in ADJECTIVES or tokens[before] in _COORDINATE):
        before -= 1
    return before > 0 and tokens[before] == "with" and tokens[before - 1] in SPOTS


def _nearer_organ(left: int, right: int, phrase: Phrase, tokens: Sequence[str]) -> bool:
    """Whether another part is named before the one that the phrase means: "rings on leaves, and fruit"."""
    if tokens[right] not in ORGAN or tokens[left] in ORGAN:
        return False
    named = [
        p
        for p in range(left + 1, right)
        if tokens[p] in ORGAN and tokens[p] not in phrase.needs and ORGAN[tokens[p]] not in ANYWHERE
    ]
    return any(
        ORGAN[tokens[p]] != ORGAN[tokens[right]] and {*tokens[p + 1 : right]}.isdisjoint(("and", "or")) for p in named
    )


def _rival(place: int, colour: int, phrase: Phrase, tokens: Sequence[str]) -> bool:
    """Whether another colour stands at ``place`` that is not said in one breath with the one of the phrase."""
    if tokens[place] not in COLOURS or tokens[place] in phrase.needs:
        return False
    low, high = sorted((colour, place))
    return any(token not in _COORDINATE and token not in COLOURS for token in tokens[low + 1 : high])


def _belongs_elsewhere(colour: int, used: Sequence[int], phrase: Phrase, sentence: Sentence) -> bool:
    """Whether the next word is a thing that the phrase does not speak of, as in "black spots" for "leaves go black"."""
    tokens = sentence.tokens
    if tokens[colour] == "dark" and tokens[colour + 1 : colour + 2] and tokens[colour + 1] in COLOURS - {*phrase.needs}:
        return True
    after = _thing(colour, tokens)
    if after is None or sentence.clause_of[after] != sentence.clause_of[colour]:
        return False
    if tokens[after] in phrase.needs:
        rest = phrase.needs[phrase.needs.index(tokens[colour]) + 1 :]
        meant = list(takewhile(NOUNS.__contains__, dropwhile(ADJECTIVES.__contains__, rest)))
        return tokens[after] in NOUNS and bool(meant) and tokens[after] not in meant
    others = [place for place in used if tokens[place] not in LIKE_COLOURS and place != colour]
    thing = tokens[after] in NOUNS or tokens[after] in ORGAN
    return thing and (not others or min(abs(place - colour) for place in others) > 1)


def _thing(colour: int, tokens: Sequence[str]) -> int | None:
    """The place of the word that a colour stands before: "pustule" in "brown powdery pustules"."""
    after = next(
        (p for p in range(colour + 1, len(tokens)) if tokens[p] not in ADJECTIVES and tokens[p] not in PROPS), None
    )
    while after is not None and tokens[after] in NOUNS and not NOUNS.isdisjoint(tokens[after + 1 : after + 2]):
        after += 1
    return after


def other_colour(used: Sequence[int], known: str, sentence: Sentence) -> bool:
    """Whether a thing is said to have only colours that the finding is never said to have ("white spots")."""
    tokens = sentence.tokens
    if not known or any(tokens[place] in COLOURS for place in used):
        return False
    thing = next((place for place in used if tokens[place] in SPOTS), None)
    if thing is None:
        return False
    said = set()
    place = thing - 1
    while place >= 0 and (tokens[place] in LIKE_COLOURS or tokens[place] in ("or", "and", "to")):
        said.add(tokens[place])
        place -= 1
    said &= COLOURS | {DEAD}
    return bool(said) and said.isdisjoint(known.split())
