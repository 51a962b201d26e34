"""From suspects to responses: grade what could help, choose, order."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..model.book import Book
from ..model.crop import Crop
from ..model.outcome import Avoided, Response, Suspect
from .choose import Reasons, choose_responses, list_candidates
from .fit import Circumstances
from .grade import Guard
from .names import Names
from .setting import Assumptions, Water
from .treat import grade_treatment

Said = Iterable[tuple[str, str]]  # (treatment, because), as the rules give them


def respond_to(
    suspects: Sequence[Suspect],
    book: Book,
    water: Water,
    guard: Guard,
    *,
    crop: Crop | None = None,
    offered: Said = (),
    set_aside: Said = (),
    shelf: Sequence[str] = (),
) -> tuple[tuple[Response, ...], tuple[Avoided, ...]]:
    """Responses to the leading suspects, best first, and what to leave alone, for this water and this crop.

    ``offered`` and ``set_aside`` are the rules' words on treatments (RulesOutcome); ``guard`` is
    ``RuleRunner.run_guard``; ``shelf`` is what is at hand, in the grower's words.
    """
    assumed = Assumptions.from_book(book)
    offers, refusals = _gathered(offered), _gathered(set_aside)
    candidates = list_candidates(suspects, book.causes, book.treatments, offers)
    treated = {id_: grade_treatment(book.treatments[id_], book.substances, water, assumed, guard) for id_ in candidates}
    here = Circumstances(
        substances=book.substances, crop=crop, readings=water.readings, shelf=_at_hand(book, shelf)
    )  # fmt: skip
    return choose_responses(suspects, book.causes, book.treatments, treated, here, offered=offers, set_aside=refusals)


def _at_hand(book: Book, shelf: Sequence[str]) -> frozenset[str]:
    """The substances at hand; a word that may mean several is none of them for sure."""
    if not shelf:
        return frozenset()
    names = Names(book)
    return frozenset(one.ids[0] for words in shelf for one in names.read(words) if len(one.ids) == 1)


def _gathered(said: Said) -> Reasons:
    """The reasons of each treatment, in the order given."""
    gathered: dict[str, tuple[str, ...]] = {}
    for treatment, because in said:
        gathered[treatment] = (*gathered.get(treatment, ()), because)
    return gathered
