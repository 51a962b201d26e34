"""What this garden's own journal added to an answer, in sentences."""

from __future__ import annotations

from ..model.book import Book
from ..model.garden import OtherLook
from ..model.outcome import Ranking
from ..ranking.alike import Alike
from . import words
from .saying import crop_inside, inside

#: What moves a cause less than this, either way, is not worth a sentence.
WORTH_SAYING = 1.2


def say_alike(book: Book, alike: Alike | None) -> tuple[str, ...]:
    """What other looks tell of which plants have it, with the cases it rests on."""
    if alike is None:
        return ()
    looks = ", ".join(_look(book, look) for look in alike.looks)
    symptoms = "; ".join(inside(book.findings[id_].name) for id_ in alike.symptoms)
    return (words.ALIKE[alike.role].format(looks=looks, symptoms=symptoms),)


def say_own_cases(book: Book, ranking: Ranking) -> tuple[str, ...]:
    """How proven cases of this garden moved the likeliest cause, where they did."""
    first = ranking.suspects[0].cause if ranking.suspects else ""
    return tuple(
        each.because
        for each in book.here.favoured
        if each.cause == first and max(each.factor, 1 / each.factor) >= WORTH_SAYING
    )


def _look(book: Book, look: OtherLook) -> str:
    crop = crop_inside(book.crops, look.crop, words.THE_PLANT)
    return words.ALIKE_LOOK.format(crop=crop, case=look.number, day=look.on)
