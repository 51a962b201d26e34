"""Why a quantity moves: the balance of its water, and a case of those causes alone that can move it.

The same rules and the same ranking as beside a plant answer it, over a book that holds only these causes.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from .errors import UsageError, nearest
from .model.book import Book
from .model.case import Case, System
from .model.quantity import Quantity, Reading
from .reasoning import Engines
from .report.build import build_report
from .report.case_report import Report
from .report.drift_report import BalanceLine, Decide, DriftReport
from .responses.setting import Assumptions
from .water.balance import ORDER
from .water.lacks import find_lacks
from .water.latest import current_readings
from .water.trend import Trend, find_trend, find_trends

CAUTIONS = (
    "The balance leaves out what nobody told: water thrown away, what plants take besides nitrate, rain, dead fish.",
    "A day's measurement decides more than a long reckoning: do the check before you change anything.",
)


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """What the grower told beside the readings: findings seen, and looked for and absent."""

    seen: frozenset[str] = frozenset()
    absent: frozenset[str] = frozenset()


def explain_drift(
    book: Book, name: str, system: System, readings: Sequence[Reading], *, on: str, told: Told | None = None
) -> DriftReport:
    """Why a quantity rises or falls.

    Args:
        book: all knowledge.
        name: id of a quantity whose drift the book can explain.
        system: its volume makes the balance possible.
        readings: all readings of the last weeks.
        on: ISO date of today.
        told: findings seen or absent.

    Returns:
        The report; ``told`` in it only where the drift itself is known and one cause leads clearly.

    Raises:
        UsageError: the book cannot explain this quantity.
    """
    quantity = _explained(book, name)
    said = told or Told()
    trend = find_trend(readings, quantity, on)
    direction = _direction(quantity, trend, said)
    case = _case(book, quantity, system, readings, on, said, direction)
    engines = Engines(_narrowed(book, quantity, direction))
    report = build_report(engines.book, engines.look(case, (), (), with_responses=False))
    known = direction in ("rising", "falling")
    clear = known and _leads(report, book)
    return DriftReport(
        quantity=quantity.quantity, name=quantity.name, unit=quantity.unit, on=on, direction=direction, trend=trend,
        told=clear, say=_say(quantity, trend, direction, clear, report), balance=_balance(engines, case),
        suspects=report.suspects if known else (), none_in_book=report.none_in_book,
        decide=_decide(report, clear) if known else None,
        lacks=tuple(find_lacks(quantity, book.quantities, readings, on)), missing_volume=system.volume_l is None,
        alarms=report.alarms, conclusions=report.conclusions, cautions=CAUTIONS,
    )  # fmt: skip


def _explained(book: Book, name: str) -> Quantity:
    explained = {id_: quantity for id_, quantity in book.quantities.items() if quantity.needs}
    if name not in explained:
        raise UsageError(f"no reason is known for '{name}' (allowed: {', '.join(explained)}{nearest(name, explained)})")
    return explained[name]


def _direction(quantity: Quantity, trend: Trend, said: Told) -> str:
    """As measured; where that cannot be told, as the grower says it."""
    words = [way for way in ("rising", "falling") if _word(quantity, way) in said.seen]
    return words[0] if trend.direction == "cannot-tell" and words else trend.direction


def _case(
    book: Book, quantity: Quantity, system: System, readings: Sequence[Reading], on: str, said: Told, direction: str
) -> Case:
    """What was told and measured as one case: what a measurement says in words is seen, or absent.

    What is itself to be explained (nitrate where pH is asked about) is left to the rules.
    """
    ids = sorted({r.quantity for r in readings} & set(book.quantities))
    often = [book.quantities[id_] for id_ in ids if not book.quantities[id_].needs]
    ways = find_trends(readings, often, on) | {quantity.quantity: direction}
    seen = {finding for id_, way in ways.items() if (finding := _word(book.quantities[id_], way))}
    poured, none = _poured(book, readings, on)
    seen |= poured
    return Case(
        on=on, system=system, readings=tuple(readings), seen=said.seen | (seen - said.absent),
        absent=said.absent | (none - seen - said.seen),
    )  # fmt: skip


def _word(quantity: Quantity, way: str) -> str:
    """The finding that says the same in words; empty if none does."""
    return next((finding for told, finding in quantity.tells.items() if told == way), "")


def _poured(book: Book, readings: Sequence[Reading], on: str) -> tuple[set[str], set[str]]:
    """Findings that say that there is some of what was told, and those that say that there is none."""
    told = {item.reading.quantity: item.reading for item in current_readings(readings, on)}
    words = {id_: word for id_ in told if (word := _word(book.quantities[id_], "some"))}
    some = {word for id_, word in words.items() if told[id_].low > 0}
    unsure = {word for id_, word in words.items() if told[id_].low <= 0 < told[id_].high}
    return some, set(words.values()) - some - unsure


def _narrowed(book: Book, quantity: Quantity, direction: str) -> Book:
    """The book with the causes that can move the quantity this way, and no others.

    What was measured is no talk: all of these causes are spoken of with the same words.
    """
    finding = _word(quantity, direction)
    causes = {id_: cause for id_, cause in book.causes.items() if cause.kind == "water" and finding in cause.shows}
    mute = msgspec.structs.replace(book.speech, words_say={}, signs_say={})
    return msgspec.structs.replace(book, causes=causes, speech=mute)


def _leads(report: Report, book: Book) -> bool:
    """Whether the first suspect is likely enough and far enough ahead of the second to be named."""
    margins = Assumptions.from_book(book)
    first, second = [*(suspect.probability for suspect in report.suspects[:2]), 0.0, 0.0][:2]
    ahead = margins.margin("ahead-enough-to-name")  # in odds, since several sources may be at work at once
    return first >= margins.margin("likely-enough-to-name") and first * (1 - second) >= ahead * second * (1 - first)


def _say(quantity: Quantity, trend: Trend, direction: str, clear: bool, report: Report) -> str:
    if direction == "cannot-tell":
        return f"Can't tell yet which way {quantity.name} goes: {trend.why}."
    if direction == "steady":
        return f"{quantity.name} holds steady; there is nothing to explain."
    if not clear:
        return f"{quantity.name} is {direction}. Can't tell yet what does it; this is the order in which to look."
    return f"{quantity.name} is {direction}. Most likely: {report.suspects[0].name}."


def _decide(report: Report, clear: bool) -> Decide | None:
    if not report.suspects:
        return None
    first = report.suspects[0]
    return Decide(
        cause=first.cause, how=first.settle[0], tell_from=first.not_to_confuse[:2],
        question=None if clear else report.next_question,
    )  # fmt: skip


def _balance(engines: Engines, case: Case) -> tuple[BalanceLine, ...]:
    quantities = engines.book.quantities
    known = {reading.quantity: reading for reading in engines.facts(case)[0].readings if reading.derived}
    return tuple(
        BalanceLine(
            name=name, say=quantities[r.quantity].name, value=r.value, low=r.low, high=r.high, unit=r.unit,
            source=quantities[r.quantity].sources[0], note=r.note,
        )
        for name in ORDER
        if (r := known.get(name.replace("_", "-"))) is not None
    )  # fmt: skip
