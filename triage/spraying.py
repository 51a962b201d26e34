"""One question about one spray, from typed words to a report: the conductor's smaller piece."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from .book.casefile import find_named
from .intake import clean_text, named_ids, volume_litres
from .model.book import Book
from .model.case import Case, System
from .model.quantity import Reading
from .model.substance import Substance
from .reasoning import Engines
from .report.spray_report import SprayReport, build_spray_report
from .responses.amounts import parse_amount, parse_every, parse_strength
from .responses.choose import choose_instead
from .responses.grade import unknown_verdict
from .responses.setting import Plan, way_of
from .words.nearest import nearest_names

#: How many other ways are named.
INSTEAD = 5


class Asked(msgspec.Struct, frozen=True, kw_only=True):
    """What was asked, as typed; None where nothing was said."""

    words: str
    strength: str | None = None
    amount: str | None = None
    cover: str | None = None
    volume: str | None = None
    animals: str | None = None
    times: int = 1
    every: str | None = None


def answer_spray(
    book: Book, asked: Asked, saved: System | None, readings: Sequence[Reading], *, on: str
) -> SprayReport:
    """The report on one substance. Errors: UsageError for an amount, volume or animal that cannot be read."""
    system = _system(book, asked, saved or System())
    id_ = find_named(asked.words, book.substances)
    plan, assumed = _plan(asked, book.substances[id_] if id_ else None)
    if id_ is None:
        return _unknown(book, clean_text(asked.words), assumed)
    substance = book.substances[id_]
    engines = Engines(book)
    facts, _ = engines.facts(Case(on=on, system=system, readings=tuple(readings)))
    verdict = engines.grade(substance, plan, engines.water(facts))
    if not system.animals:
        assumed.append("Nobody said which animals live in the water: fish and crustaceans both count (--animals).")
    if system.volume_l is None:
        assumed.append("Nobody said how much water there is (--volume).")
    return build_spray_report(
        verdict, name=substance.name, what=substance.what, people=substance.people,
        harvest_wait_days=substance.harvest_wait_days.value if substance.harvest_wait_days else None,
        instead=choose_instead(substance.substance, book.treatments, INSTEAD), assumed=assumed,
        sources=substance.sources,
    )  # fmt: skip


def _system(book: Book, asked: Asked, saved: System) -> System:
    if asked.volume is not None:
        saved = msgspec.structs.replace(saved, volume_l=volume_litres(asked.volume))
    if asked.animals is not None:
        names = [name.strip() for name in asked.animals.split(",") if name.strip()]
        saved = msgspec.structs.replace(saved, animals=named_ids(names, book.animals, "animal"))
    return saved


def _plan(asked: Asked, substance: Substance | None) -> tuple[Plan, list[str]]:
    """The plan as asked; what was not said is filled in on the careful side and said."""
    assumed = []
    strength = parse_strength(asked.strength) if asked.strength else None
    amount = parse_amount(asked.amount) if asked.amount else None
    every = parse_every(asked.every) if asked.every else 7.0
    if amount is None:
        amount = parse_amount("1L")
        assumed.append("Reckoned with 1 L (--amount).")
    if strength is None and substance is not None and substance.spray_strength is not None:
        usual = substance.spray_strength
        strength = parse_strength(f"{usual.value} {usual.unit}")
        assumed.append(f"Reckoned with the usual strength, {usual.value:g} {usual.unit} of active (--strength).")
    if asked.cover is None:
        assumed.append("Reckoned with open water under the plants (--cover).")
    way = way_of(substance) if substance else "sprayed"
    cover = asked.cover or "none"
    return Plan(strength=strength, amount=amount, cover=cover, times=asked.times, every_days=every, way=way), assumed


def _unknown(book: Book, words: str, assumed: Sequence[str]) -> SprayReport:
    known = {name.lower(): s.name for s in book.substances.values() for name in (s.substance, s.name, *s.also)}
    near = [known[name] for name in nearest_names(words, known)]
    names = tuple(f"Nearest name in the book: {name}." for name in dict.fromkeys(near))[:3]
    verdict = unknown_verdict(words, names)
    return build_spray_report(
        verdict, name=words, what="Not in the book.", people=(), harvest_wait_days=None, instead=(), assumed=assumed,
        sources=(),
    )  # fmt: skip
