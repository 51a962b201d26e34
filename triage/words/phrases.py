"""The ways to say each finding, made ready: alternatives written out, words made plain, the rarest word first."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import product

import msgspec

from ..model.book import Synonyms
from ..model.finding import Finding
from ..model.odds import BY_ITSELF
from ..model.speech import Phrase, Run, Speech
from .english import BREAKS, COLOURS, LEAN, NEGATIONS, NOT, SOFT, STOP
from .normalise import Normaliser, is_content, split_words, stem, unique
from .pack import PARTIAL, pack_phrases, pack_runs

#: A word that more findings than this are spoken of with only hints at one that would tell much (a leak of at most
#: ``TELLING``); chosen on the published cases of the tune part.
SHARED = 3
TELLING = 0.001
#: Written between the words of a run where up to two other words may stand.
OPEN = ".."


def compile_speech(findings: Mapping[str, Finding], synonyms: Mapping[str, Synonyms]) -> Speech:
    """Everything the reader of words looks up, from the findings and synonyms of a book."""
    known = list(synonyms.values())
    exact = {word: entry.word for entry in reversed(known) for word in entry.exactly}
    words = {word: entry.word for entry in reversed(known) for word in _stems(entry)}
    single = Normaliser(Speech(exact=exact, words=words))
    speech = Speech(exact=exact, words=words, runs=_runs(known, single))
    spoken = _without_repeats(_spoken(findings, Normaliser(speech)))
    return _indexed(speech, _with_hints(spoken, findings))


def _stems(entry: Synonyms) -> list[str]:
    """The stems of the single words that an entry stands for."""
    named = [entry.word] if " " not in entry.word and entry.word not in entry.exactly else []
    return [_key(words[0]) for word in (*entry.also, *named) if len(words := split_words(word)) == 1]


def _key(word: str) -> str:
    return word if word in STOP or word in SOFT or word in NEGATIONS else stem(word)


def _runs(synonyms: Iterable[Synonyms], single: Normaliser) -> dict[str, str]:
    """Runs by their first word, packed; of two that span the same, the longer, closed one comes first."""
    found: dict[str, dict[tuple[tuple[str, ...], bool], Run]] = {}
    for entry in synonyms:
        for text in entry.also:
            words = tuple(token for word in split_words(text.replace(OPEN, " ")) for token in single.single(word))
            if len(split_words(text.replace(OPEN, " "))) > 1 and words:
                run = Run(words, tuple(entry.word.split()), OPEN in text)
                found.setdefault(words[0], {}).setdefault((words, run.gap), run)
    return {
        first: pack_runs(sorted(runs.values(), key=lambda run: (-len(run.words), run.gap, run.words)))
        for first, runs in sorted(found.items())
    }


def written_out(phrase: str) -> Iterator[str]:
    """A phrase with each choice taken.

    >>> list(written_out("brown/dry edges"))
    ['brown edges', 'dry edges']
    """
    for words in product(*(word.split("/") for word in phrase.split())):
        yield " ".join(words)


def _spoken(findings: Mapping[str, Finding], normaliser: Normaliser) -> Iterator[Phrase]:
    for id_, finding in findings.items():
        for text in (text for phrase in finding.phrases for text in written_out(phrase)):
            yield from _phrase(id_, text, normaliser)
        for text in (text for phrase in finding.denials for text in written_out(phrase)):
            yield from _phrase(id_, text, normaliser, absent=True)


def _phrase(finding: str, text: str, normaliser: Normaliser, *, absent: bool = False) -> Iterator[Phrase]:
    """The phrase of a text; none if too little is left of it when the words without meaning are gone."""
    tokens = [token for token in normaliser.tokens(split_words(text)) if token[0].isalnum()]
    needs = unique(token for token in tokens if is_content(token) and token not in LEAN)
    lean = unique(token for token in tokens if token in LEAN)
    lost = len(tokens) - len(needs) - len(lean)
    if all(token in SOFT for token in needs):
        needs, lean = (needs if needs == (NOT,) else (*needs, *lean)), ()
    if len(needs) > 1 or (needs and needs[0] not in SOFT | LEAN and (lean or not lost)):
        yield Phrase(finding, needs, lean, absent=absent, spans=not BREAKS.isdisjoint(text.split()))


def _without_repeats(spoken: Iterable[Phrase]) -> list[Phrase]:
    """Each way of each finding once; of two that need the same words, what either leans on."""
    kept: dict[tuple[str, frozenset[str], bool], Phrase] = {}
    for phrase in spoken:
        key = (phrase.finding, frozenset(phrase.needs), phrase.absent)
        if key not in kept:
            kept[key] = phrase
        elif kept[key].lean:
            lean = unique((*kept[key].lean, *phrase.lean)) if phrase.lean else ()
            kept[key] = msgspec.structs.replace(kept[key], lean=lean)
    return list(kept.values())


def _with_hints(spoken: Sequence[Phrase], findings: Mapping[str, Finding]) -> list[Phrase]:
    """The phrases, those marked that say a telling finding with one word which many findings are spoken of with."""
    said_of: dict[str, set[str]] = {}
    for phrase in spoken:
        for token in phrase.needs:
            said_of.setdefault(token, set()).add(phrase.finding)
    return [
        msgspec.structs.replace(phrase, hint=True)
        if len(phrase.needs) == 1 and len(said_of[phrase.needs[0]]) > SHARED and _tells(findings[phrase.finding])
        else phrase
        for phrase in spoken
    ]


def _tells(finding: Finding) -> bool:
    """Whether it would tell much; a sign is the thing itself, and its name says it."""
    return finding.kind != "sign" and BY_ITSELF[finding.by_itself] <= TELLING


def _indexed(speech: Speech, spoken: list[Phrase]) -> Speech:
    counts = Counter(token for phrase in spoken for token in phrase.needs)
    weights = {token: round(math.log((len(spoken) + 1) / count) + 0.3, 2) for token, count in sorted(counts.items())}
    rarest: dict[str, list[Phrase]] = {}
    second: dict[str, list[Phrase]] = {}
    for phrase in spoken:
        by_rarity = sorted(phrase.needs, key=lambda token: (-weights[token], token))
        total = round(sum(weights[token] for token in by_rarity), 2)
        ready = msgspec.structs.replace(phrase, weight=total)
        rarest.setdefault(by_rarity[0], []).append(ready)
        if len(by_rarity) >= PARTIAL:
            second.setdefault(by_rarity[1], []).append(ready)
    colours: dict[str, set[str]] = {}
    for phrase in spoken:
        colours.setdefault(phrase.finding, set()).update((COLOURS | {"dead"}).intersection(phrase.needs))
    return Speech(
        exact=speech.exact, words=speech.words, runs=speech.runs, weights=weights,
        colours={finding: " ".join(sorted(found)) for finding, found in colours.items() if found},
        phrases={token: pack_phrases(phrases) for token, phrases in sorted(rarest.items())},
        second={token: pack_phrases(phrases) for token, phrases in sorted(second.items())},
    )  # fmt: skip
