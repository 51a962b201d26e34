"""What was done, as the book knows it: an action's words → a treatment, how often, and whether that was enough."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache

import msgspec

from ..model.book import Book
from ..model.treatment import Treatment

#: Words that stand in the names of many treatments, or in any sentence.
_COMMON = frozenset(
    {
        *("a", "an", "and", "as", "at", "away", "by", "for", "from", "g", "gram", "grams", "in", "into", "it", "l"),
        *("litre", "litres", "ml", "of", "off", "on", "or", "out", "per", "put", "the", "to", "up", "with"),
    }
)


class Act(msgspec.Struct, frozen=True, kw_only=True):
    """One thing done on a day, in the grower's words, with the treatment it was chosen by, if it was."""

    what: str
    on: str
    treatment: str = ""


class Done(msgspec.Struct, frozen=True, kw_only=True):
    """A treatment and the days on which it was done, of the times that it takes (None: as long as it is needed)."""

    treatment: str
    days: tuple[str, ...]
    times: int | None = 1
    every_days: float | None = None

    @property
    def whole(self) -> bool:
        """Whether it was done as often as it takes to judge it."""
        return len(self.days) >= (self.times or 1)

    @property
    def last(self) -> str:
        return self.days[-1]


def list_done(
    book: Book, acts: Iterable[Act], *, offered: Sequence[str] = (), dose_days: dict[str, int] | None = None
) -> tuple[Done, ...]:
    """The treatments that were done, in the order in which they were begun; words that name none are left out.

    ``offered`` are the treatments that were advised: words are taken to mean one of them first. ``dose_days`` says over
    how many days a dose is split, by treatment.
    """
    days: dict[str, list[str]] = {}
    for act in sorted(acts, key=lambda act: act.on):
        treatment = name_treatment(book, act, offered)
        if treatment:
            days.setdefault(treatment, []).append(act.on)
    split = dose_days or {}
    return tuple(_done(book.treatments[id_], tuple(known), split.get(id_, 1)) for id_, known in days.items())


def _done(treatment: Treatment, days: tuple[str, ...], split: int) -> Done:
    if split > 1:
        return Done(treatment=treatment.treatment, days=days, times=split, every_days=1.0)
    times, every = rhythm_of(treatment)
    return Done(treatment=treatment.treatment, days=days, times=times, every_days=every)


def rhythm_of(treatment: Treatment) -> tuple[int | None, float | None]:
    """How many times it is done and every so many days; (1, None) for once, (None, days) as long as it is needed."""
    if treatment.repeat is not None:
        return treatment.repeat.times, treatment.repeat.every_days
    if treatment.use is not None and treatment.use.times > 1:
        return treatment.use.times, treatment.use.every_days
    return 1, None


def name_treatment(book: Book, act: Act, offered: Sequence[str] = ()) -> str:
    """The treatment that an action speaks of; '' if it names none, or several alike.

    Of advised treatments that are named alike the one advised first is meant.
    """
    if act.treatment in book.treatments:
        return act.treatment
    said = _words(act.what)
    scores = {id_: _score(said, treatment) for id_, treatment in book.treatments.items()}
    most = max((count for count, _ in scores.values()), default=0)
    if not most:
        return ""
    advised = [id_ for id_ in dict.fromkeys(offered) if id_ in scores and scores[id_][0] == most]
    if advised:
        return max(advised, key=lambda id_: scores[id_])
    best = max(scores.values())
    alike = [id_ for id_, score in scores.items() if score == best]
    return alike[0] if len(alike) == 1 else ""


def _score(said: frozenset[str], treatment: Treatment) -> tuple[int, float]:
    """How many words fit (all of the id, or two of its name and id together), and how much of the name that is."""
    id_words, name = frozenset(treatment.treatment.split("-")), _words(treatment.name)
    known = said & (id_words | name)
    whole = id_words <= said
    if not whole and len(known) < 2:
        return 0, 0.0
    return len(known) + whole, len(known) / len(id_words | name)


@lru_cache(maxsize=1024)
def _words(text: str) -> frozenset[str]:
    return frozenset(re.findall(r"[a-z]+", text.lower())) - _COMMON
