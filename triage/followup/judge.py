"""What was done, weighed at each later look: rules about the causes it works against, for the same engines as ever.

Each remedy is judged once for each cause, at the first look that decides: better speaks for the causes it works
against, no better (once it had its time) against them. A cause that was treated in several ways is judged by the best.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import msgspec

from ..model.aftermath import Aftermath, Works
from ..model.book import Book
from ..model.cause import Cause
from ..model.quantity import Reading
from ..model.rule import Condition, Rule
from ..model.treatment import Treatment
from ..report.saying import count_days, inside
from ..responses.fit import Circumstances, misfit
from ..water.latest import current_readings
from .done import Done
from .recovery import days_between, recovery_days, warmth
from .roles import finding_of

_RANK: tuple[Works, ...] = ("little", "partly", "well")


class LookSaid(msgspec.Struct, frozen=True, kw_only=True):
    """A later look: its day and what was seen then; None for the look that is being taken."""

    on: str
    seen: frozenset[str] | None = None


class Attempt(msgspec.Struct, frozen=True, kw_only=True):
    """A remedy against one cause as it stands on the day of a look."""

    done: Done
    cause: str
    works: Works
    hindered: tuple[str, ...]  # why it could not work here
    days: int  # since it was done last
    expected: int  # days until it is better

    @property
    def waited(self) -> bool:
        """Whether it was done often enough and had its time."""
        return self.done.whole and self.days >= self.expected

    @property
    def rank(self) -> tuple[int, bool, str, str]:
        return _RANK.index(self.works), self.waited, self.done.last, self.done.treatment


def works_against(treatment: Treatment, cause: Cause) -> Works | None:
    """How well a treatment works against a cause; named as a response without a word on that: partly."""
    if cause.cause in treatment.against:
        return treatment.against[cause.cause].works
    return "partly" if treatment.treatment in cause.respond else None


def list_attempts(book: Book, done: Sequence[Done], readings: Sequence[Reading], on: str) -> list[Attempt]:
    """Every remedy that was done before a day, against every cause that it works against; by cause and treatment."""
    warm = warmth(readings, on)
    found = []
    for each in done:
        before = tuple(day for day in each.days if day < on)
        if not before:
            continue
        each = msgspec.structs.replace(each, days=before)
        treatment = book.treatments[each.treatment]
        why = hindrances(book, treatment, readings, each.last)
        for cause in book.causes.values():
            works = works_against(treatment, cause)
            if works is not None and cause.status != "retired":
                found.append(
                    Attempt(
                        done=each, cause=cause.cause, works="little" if why else works, hindered=why,
                        days=days_between(each.last, on), expected=recovery_days(book, cause, warm),
                    )
                )  # fmt: skip
    return sorted(found, key=lambda attempt: (attempt.cause, attempt.done.treatment))


def hindrances(book: Book, treatment: Treatment, readings: Sequence[Reading], on: str) -> tuple[str, ...]:
    """Why a remedy could not work in the water and the air as they were on its day; nothing if it could."""
    measured = tuple(item.reading for item in current_readings(readings, on))
    reasons = misfit(treatment, Circumstances(substances=book.substances, readings=measured))
    ph = next((reading for reading in measured if reading.quantity == "ph"), None)
    limit = treatment.dose.ph_at_most if treatment.dose else None
    if ph is not None and limit is not None and ph.low > limit:
        reasons.append(f"It holds up to pH {limit:g}; the water was at {ph.value:g}.")
    return tuple(reasons)


def judge(
    book: Book,
    done: Sequence[Done],
    looks: Sequence[LookSaid],
    readings: Sequence[Reading],
    suspects: Mapping[str, float],
) -> dict[str, Rule]:
    """Rules, by id, that say at the last of ``looks`` what was done and what became of it at every look.

    ``suspects`` are the causes (with their probability) for which things were done: a remedy that was done for one of
    them is set aside when it failed against the likeliest of those it works against.
    """
    rules: dict[str, Rule] = {}
    judged: dict[tuple[str, str], Attempt | None] = {}  # None: it spoke for the cause; else how it stood when it failed
    for number, look in enumerate(looks):
        attempts = list_attempts(book, done, readings, look.on)
        fresh = [a for a in attempts if (a.done.treatment, a.cause) not in judged]
        again = [a for a in attempts if _done_again(a, judged.get((a.done.treatment, a.cause)))]
        for rule in (*_rules(book, fresh, look, number, suspects), *_rules(book, again, look, number, {}, again=True)):
            rules.setdefault(rule.rule, rule)
        if look.seen is not None:
            judged |= {
                (a.done.treatment, a.cause): None if won else a for a, won in _decided(book, attempts, look.seen)
            }
    return rules


def _done_again(attempt: Attempt, failed: Attempt | None) -> bool:
    """Whether a remedy that had failed was done once more since."""
    return failed is not None and attempt.done.last > failed.done.last


def best_attempts(attempts: Sequence[Attempt]) -> dict[str, Attempt]:
    """The remedy that each cause is judged by."""
    best: dict[str, Attempt] = {}
    for attempt in attempts:
        if attempt.cause not in best or attempt.rank > best[attempt.cause].rank:
            best[attempt.cause] = attempt
    return best


def holds(aftermath: Aftermath, attempt: Attempt, cause: Cause) -> bool:
    """Whether a line of the book speaks of this remedy as it stands."""
    return (
        attempt.works in aftermath.works
        and (attempt.waited or not aftermath.waited)
        and (cause.spreads is not None or not aftermath.spreading)
    )


def _decided(book: Book, attempts: Sequence[Attempt], seen: frozenset[str]) -> Iterator[tuple[Attempt, bool]]:
    """The remedies that a look decided on, and whether they spoke for their cause."""
    told = [each for each in book.aftermath.values() if not seen.isdisjoint(each.when)]
    for attempt in attempts:
        lines = [each for each in told if holds(each, attempt, book.causes[attempt.cause])]
        if lines:
            yield attempt, any(each.favour for each in lines)


def _rules(
    book: Book, attempts: Sequence[Attempt], look: LookSaid, number: int, suspects: Mapping[str, float],
    *, again: bool = False,
) -> Iterator[Rule]:  # fmt: skip
    """``again``: they failed before, so that only success says something new."""
    weighed = [a for _, a in sorted(best_attempts(attempts).items())]
    failing = _for_suspects(attempts, suspects)
    for aftermath in book.aftermath.values():
        if (look.seen is not None and look.seen.isdisjoint(aftermath.when)) or (again and not aftermath.favour):
            continue
        for attempt in failing if aftermath.set_aside else weighed:
            if holds(aftermath, attempt, book.causes[attempt.cause]):
                yield _rule(book, aftermath, attempt, look, number)


def _for_suspects(attempts: Sequence[Attempt], suspects: Mapping[str, float]) -> list[Attempt]:
    """Each remedy against the likeliest cause it was done for; one that was done for none of them, against any."""
    chosen: dict[str, Attempt] = {}
    for attempt in sorted(attempts, key=lambda a: (-suspects.get(a.cause, 0.0), a.expected, a.cause)):
        chosen.setdefault(attempt.done.treatment, attempt)
    return [attempt for _, attempt in sorted(chosen.items())]


def _rule(book: Book, aftermath: Aftermath, attempt: Attempt, look: LookSaid, number: int) -> Rule:
    """A rule of the look being taken waits for what is seen; one of an earlier look holds."""
    cause, treatment = attempt.cause, attempt.done.treatment
    seen = aftermath.when if look.seen is None else [finding_of(book, "looked-before")]
    name = f"{aftermath.aftermath}.{treatment}" + ("" if aftermath.set_aside else f".{cause}")
    return Rule(
        rule=name if look.seen is None else f"{name}.{number + 1}",
        when=Condition(any=[Condition(finding=id_) for id_ in seen]),
        favour={cause: aftermath.favour} if aftermath.favour else {},
        against={cause: aftermath.against} if aftermath.against else {},
        set_aside=[treatment] if aftermath.set_aside else [],
        because=aftermath.because.format(
            treatment=book.treatments[treatment].name, cause=inside(book.causes[cause].name), day=attempt.done.last,
            days=count_days(attempt.days), expected=count_days(attempt.expected),
        ),
        sources=aftermath.sources,
    )  # fmt: skip
