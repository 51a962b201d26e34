"""The verdict on what was asked: every thing in the bottle, all that a word may mean, every way it may be used."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import msgspec

from ..intake import system_as_asked
from ..model.book import Book
from ..model.case import Case, System
from ..model.outcome import HarmVerdict, Verdict
from ..model.quantity import Reading
from ..model.rule import GRADES
from ..model.substance import Substance
from ..reasoning import Engines
from ..responses.grade import HARMS, joined_grade, unknown_verdict
from ..responses.names import Named, Names
from ..responses.setting import Assumptions, Water
from ..responses.treat import kept_verdict
from . import words
from .asked import Asked
from .planning import Planned, plan_use


class Judged(msgspec.Struct, frozen=True, kw_only=True):
    """The verdict on one substance as asked, and with the figures alone that are shown."""

    substance: Substance
    planned: Planned
    usual: Verdict
    verdict: Verdict


class Part(msgspec.Struct, frozen=True, kw_only=True):
    """One thing in the bottle: what its name may mean, each judged, the strictest first."""

    named: Named
    judged: tuple[Judged, ...] = ()
    verdict: Verdict


class Answer(msgspec.Struct, frozen=True, kw_only=True):
    """Everything in the bottle, and the joined verdict."""

    parts: tuple[Part, ...]
    verdict: Verdict

    @property
    def all_judged(self) -> tuple[Judged, ...]:
        """Every substance judged, in the order of the parts."""
        return tuple(judged for part in self.parts for judged in part.judged)

    @property
    def leading(self) -> Judged | None:
        """The substance that decides; None where nothing is in the book."""
        return min(self.all_judged, key=lambda judged: _order(judged.verdict), default=None)


class Judge:
    """Grades what is asked for one system and one day; built once, asked often."""

    def __init__(self, book: Book, saved: System, readings: Sequence[Reading], *, on: str) -> None:
        self.book = book
        self.names = Names(book)
        self.assumed = Assumptions.from_book(book)
        self._engines = Engines(book)
        self._saved, self._readings, self._on = saved, tuple(readings), on

    def system(self, asked: Asked) -> System:
        """The system it is asked for. Errors: UsageError."""
        return system_as_asked(self.book, self._saved, volume=asked.volume, animals=asked.animals)

    def water(self, asked: Asked) -> Water:
        """Its water and animals. Errors: UsageError."""
        facts, _ = self._engines.facts(Case(on=self._on, system=self.system(asked), readings=self._readings))
        return self._engines.water(facts)

    def judge(self, asked: Asked) -> Answer:
        """The verdict on everything in the bottle. Errors: UsageError."""
        water = self.water(asked)
        parts = tuple(self._part(named, asked, water) for named in self.names.read(asked.words))
        return Answer(parts=parts, verdict=_mixed(asked.words, [part.verdict for part in parts]))

    def _part(self, named: Named, asked: Asked, water: Water) -> Part:
        if named.treatment:
            return Part(named=named, verdict=kept_verdict(self.book.treatments[named.treatment]))
        if not named.ids:
            near = [words.NEAREST.format(name) for name in named.near]
            return Part(named=named, verdict=unknown_verdict(named.words, near))
        judged = [self._one(self.book.substances[id_], asked, water) for id_ in named.ids]
        judged.sort(key=lambda one: _order(one.verdict))
        verdict = judged[0].verdict if len(judged) == 1 else self._of_group(named, judged)
        return Part(named=named, judged=tuple(judged), verdict=verdict)

    def _one(self, substance: Substance, asked: Asked, water: Water) -> Judged:
        planned = plan_use(asked, substance, water, self.assumed, self.book)
        usual = self._engines.grade(substance, planned.plan, water)
        verdict = usual
        for other in planned.others:
            verdict = _beside(verdict, self._engines.grade(substance, other.plan, water), other.says)
        return Judged(substance=substance, planned=planned, usual=usual, verdict=verdict)

    def _of_group(self, named: Named, judged: Sequence[Judged]) -> Verdict:
        """The strictest of what a word may mean."""
        names = ", ".join(one.substance.name for one in judged)
        why = words.MAY_MEAN.format(words=named.words, names=names, strictest=judged[0].substance.name)
        return _joined(named.group or named.words, [one.verdict for one in judged], (why,))


def _order(verdict: Verdict) -> tuple[int, float, str]:
    """Strictest first, then by how far the level reaches."""
    reach = max((harm.quotient_spilled or 0.0 for harm in verdict.harms), default=0.0)
    return -GRADES.index(verdict.grade), -reach, verdict.substance


def _beside(shown: Verdict, stricter: Verdict, says: str) -> Verdict:
    """The shown verdict, made stricter where another way it may be meant asks for more care."""
    others = {harm.harm: harm for harm in stricter.harms}
    harms = tuple(_stricter_harm(harm, others.get(harm.harm), says) for harm in shown.harms)
    if GRADES.index(stricter.grade) <= GRADES.index(shown.grade):
        return msgspec.structs.replace(shown, harms=harms)
    firings = (*shown.firings, *(one for one in stricter.firings if one not in shown.firings))
    why = (f"{says}.", *(line for line in stricter.why if line not in shown.why), *shown.why)
    return msgspec.structs.replace(shown, harms=harms, grade=stricter.grade, why=why, firings=firings)


def _stricter_harm(shown: HarmVerdict, other: HarmVerdict | None, says: str) -> HarmVerdict:
    if other is None or GRADES.index(other.grade) <= GRADES.index(shown.grade):
        return shown
    beside = () if shown.grade == "ok" else shown.why
    return msgspec.structs.replace(shown, grade=other.grade, why=(f"{says}: {other.why[0]}", *beside))


def _joined(name: str, verdicts: Sequence[Verdict], why: Iterable[str]) -> Verdict:
    """Several verdicts as one: each harm as strict as the strictest, with its reasons and its value."""
    first = min(verdicts, key=_order)
    harms = []
    for harm in HARMS:
        found = [one for verdict in verdicts for one in verdict.harms if one.harm == harm]
        if found:
            harms.append(max(found, key=lambda one: (GRADES.index(one.grade), one.quotient_spilled or 0.0)))
    firings = dict.fromkeys(firing for verdict in verdicts for firing in verdict.firings)
    return Verdict(
        substance=name, grade=joined_grade(verdicts), why=(*why, *first.why), exposure=first.exposure,
        harms=tuple(harms), firings=tuple(firings),
    )  # fmt: skip


def _mixed(typed: str, verdicts: Sequence[Verdict]) -> Verdict:
    """What is in one bottle together; the most dangerous of it decides, and together they may be worse."""
    if len(verdicts) == 1:
        return verdicts[0]
    why = [words.MIXED.format(min(verdicts, key=_order).substance)]
    return _joined(typed, verdicts, why)
