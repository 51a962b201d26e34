"""A later look at a case: the book with what was done weighed in, what still counts of the readings, and the report."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import msgspec

from ..model.book import Book
from ..model.case import Case
from ..model.quantity import Reading
from ..reasoning import Engines
from ..report.build import Look, build_report
from ..report.case_report import Report
from ..report.recheck_report import DoneLine, NotAgainLine, RecheckReport, SecondLine
from .done import Act, Done, list_done, name_treatment
from .judge import LookSaid, judge, list_attempts
from .moved import done_lines, find_second, moved_lines
from .recovery import day_after, look_again_days, slowness, warmth
from .roles import Verdict, finding_of, look_findings, verdict_of

#: Causes less likely than this at the look before were not what things were done for.
_DONE_FOR = 0.10


class Earlier(msgspec.Struct, frozen=True, kw_only=True):
    """What is known of a case before the look: the first look as it was told, and what came after.

    ``told`` holds the findings of all looks so far, those of later looks about "since" left out. ``suspects`` are the
    probabilities of the look before this one, ``offered`` the treatments advised so far, ``dose_days`` over how many
    days a dose is split.
    """

    number: int
    told: Case
    looks: tuple[LookSaid, ...] = ()
    acts: tuple[Act, ...] = ()
    suspects: dict[str, float] = {}
    offered: tuple[str, ...] = ()
    dose_days: dict[str, int] = {}


class SecondLook:
    """One later look. Its ``book`` and ``readings`` are for a session; ``case_seen`` is what it begins with."""

    def __init__(self, book: Book, earlier: Earlier, readings: Sequence[Reading], *, on: str) -> None:
        """``readings`` are all that were recorded up to the day ``on``."""
        self.on = on
        self.earlier = earlier
        self.all_readings = tuple(readings)
        self.done = list_done(book, earlier.acts, offered=earlier.offered, dose_days=earlier.dose_days)
        looks = (*earlier.looks, LookSaid(on=on))
        self.rules = judge(book, self.done, looks, readings, self._done_for())
        here = msgspec.structs.replace(book.here, told=earlier.told)
        self.book = msgspec.structs.replace(book, rules={**book.rules, **self.rules}, here=here)
        self.readings = usable_readings(book, readings, self.done)

    def _done_for(self) -> dict[str, float]:
        return {cause: chance for cause, chance in self.earlier.suspects.items() if chance >= _DONE_FOR}

    @property
    def begins_with(self) -> Case:
        """What is known before the first question: all that was told, and that this is a later look."""
        told = self.earlier.told
        own = {finding_of(self.book, "looked-before")}
        if not self.earlier.acts:
            own.add(finding_of(self.book, "nothing-done"))
        silent = look_findings(self.book)
        return msgspec.structs.replace(
            told, on=self.on, seen=(told.seen - silent) | own, absent=told.absent - silent,
            unsure=told.unsure - silent, set_aside=told.set_aside - silent, words=(), readings=self.readings,
        )  # fmt: skip

    def report(self, case: Case, engines: Engines) -> RecheckReport:
        """What the look gave. ``case`` is everything told with this look's answers; ``engines`` are of ``book``."""
        heard, unread = engines.hearing.read_all(case.words)
        now = build_report(self.book, engines.look(case, heard, unread, with_question=False))
        verdict = verdict_of(self.book, case.seen)
        attempts = list_attempts(self.book, self.done, self.all_readings, self.on)
        lines = done_lines(self.book, self.done, attempts, self.earlier.suspects)
        early = bool(lines) and not any(line.waited for line in lines)
        failed = verdict in ("same", "worse") and not early
        what = now if failed else build_report(self.book, self._as_it_was(case, engines))
        second = find_second(what, lines, attempts) if failed else None
        return self._put_together(verdict, what, now, lines, second, early and verdict != "better")

    def _as_it_was(self, case: Case, engines: Engines) -> Look:
        """The same findings in the water of the first look.

        A remedy that mends the water must not count against the cause that it was done for. Only a plant that is no
        better although the remedy had its time is to be explained by the water of today.
        """
        then = msgspec.structs.replace(case, on=self.earlier.told.on, readings=self.all_readings)
        return engines.look(then, (), (), with_question=False, with_responses=False)

    def _put_together(
        self, verdict: Verdict, what: Report, now: Report, lines: tuple[DoneLine, ...], second: SecondLine | None,
        early: bool,
    ) -> RecheckReport:  # fmt: skip
        chances = {suspect.cause: suspect.probability for suspect in what.suspects}
        warm = warmth(self.all_readings, self.on)
        return RecheckReport(
            case=self.earlier.number, on=self.on, first_on=self.earlier.told.on, verdict=verdict, done=lines,
            not_understood=tuple(
                act.what for act in self.earlier.acts if not name_treatment(self.book, act, self.earlier.offered)
            ),
            too_early=early, better_by=min((line.better_by for line in lines), default=""),
            days_longer=slowness(self.book, warm) > 1, temperature_c=warm,
            moved=moved_lines(self.book, self.earlier.suspects, chances), suspects=what.suspects, second=second,
            not_again=tuple(self._not_again(now)),
            retest=untested(self.book, self.all_readings, self.done), next_look=self._next_look(what, lines, early),
            now=now,
        )  # fmt: skip

    def _not_again(self, now: Report) -> Iterator[NotAgainLine]:
        """What the rules about what was done set aside, each remedy once."""
        fired = {firing.rule: firing.because for firing in now.firings}
        because = {t: fired[id_] for id_, rule in reversed(self.rules.items()) if id_ in fired for t in rule.set_aside}
        for treatment in sorted(because):
            name = self.book.treatments[treatment].name
            yield NotAgainLine(treatment=treatment, name=name, why=because[treatment])

    def _next_look(self, what: Report, lines: Sequence[DoneLine], early: bool) -> str:
        """As the cause says, or sooner where what was done should show by then."""
        first = self.book.causes.get(what.suspects[0].cause) if what.suspects else None
        due = day_after(self.on, look_again_days(self.book, first))
        later = [line.better_by for line in lines if line.better_by > self.on]
        return min([due, *later]) if early else due


def usable_readings(book: Book, readings: Sequence[Reading], done: Sequence[Done]) -> tuple[Reading, ...]:
    """The readings without those of a quantity that was changed on purpose since: they speak of water that is gone."""
    changed = _changed(book, done)
    return tuple(r for r in readings if not (r.quantity in changed and r.on and r.on <= changed[r.quantity]))


def untested(book: Book, readings: Sequence[Reading], done: Sequence[Done]) -> tuple[str, ...]:
    """Quantities that were changed on purpose and not tested after that."""
    changed = _changed(book, done)
    tested = {r.quantity for r in readings if r.quantity in changed and r.on > changed[r.quantity]}
    return tuple(sorted(set(changed) - tested))


def _changed(book: Book, done: Sequence[Done]) -> Mapping[str, str]:
    """The quantities that remedies moved, and the last day on which they did."""
    changed: dict[str, str] = {}
    for each in done:
        dose = book.treatments[each.treatment].dose
        if dose is not None:
            changed[dose.quantity] = max(each.last, changed.get(dose.quantity, ""))
    return changed
