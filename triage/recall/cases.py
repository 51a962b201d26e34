"""Every case of a journal as it stands."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import msgspec

from ..followup.done import list_done
from ..followup.standing import Standing
from ..model.book import Book
from ..report import words
from ..responses.words import digits
from .again import AdvisedResponse, AdvisedSuspect, acts_of, dose_days

if TYPE_CHECKING:
    from ..journal import CaseLine, CaseState, Journal, Outcome, StoredRecheck


class KeptAlarm(msgspec.Struct, frozen=True):
    say: str


class KeptReport(msgspec.Struct, frozen=True):
    """The parts of a kept report that say how the case stands."""

    suspects: tuple[AdvisedSuspect, ...] = ()
    responses: tuple[AdvisedResponse, ...] = ()
    seen: tuple[str, ...] = ()
    alarms: tuple[KeptAlarm, ...] = ()


class KeptNotAgain(msgspec.Struct, frozen=True):
    treatment: str


class KeptRecheck(msgspec.Struct, frozen=True):
    """The same of a kept recheck."""

    suspects: tuple[AdvisedSuspect, ...] = ()
    not_again: tuple[KeptNotAgain, ...] = ()
    next_look: str = ""
    now: KeptReport = KeptReport()


def list_standing(book: Book, journal: Journal, *, until: str | None = None) -> tuple[Standing, ...]:
    """Every case that was not given up, by number, as it stood on the day ``until`` (now, if not said)."""
    outcomes = journal.outcomes()
    lines = journal.list_cases(states=("unfinished", "finished", "closed"))
    return tuple(
        standing_of(book, journal, line, outcomes.get(line.id), until=until)
        for line in sorted(lines, key=lambda line: line.id)
        if until is None or line.on <= until
    )


def list_open(book: Book, journal: Journal, on: str, *, acted_after: str) -> tuple[Standing, ...]:
    """Those of them that were open on a day, and those that something was done about after another."""
    lines = journal.cases_on(on, acted_after=acted_after)
    return tuple(standing_of(book, journal, line, journal.case_outcome(line.id), until=on) for line in lines)


def standing_of(
    book: Book, journal: Journal, line: CaseLine, outcome: Outcome | None, *, until: str | None = None
) -> Standing:
    """One case as it stood on the day ``until`` (now, if not said)."""
    known = outcome is not None and (until is None or outcome.on <= until)
    return _standing(book, journal, line, outcome.causes if outcome is not None and known else None, until)


def _state(journal: Journal, line: CaseLine, finished: bool, until: str | None) -> CaseState:
    """The state on a day: a case that was closed later was open then."""
    if line.state != "closed" or until is None or journal.case_closings(line.id)[0].at[:10] <= until:
        return line.state
    return "finished" if finished else "unfinished"


def _standing(
    book: Book, journal: Journal, line: CaseLine, proven: tuple[str, ...] | None, until: str | None
) -> Standing:
    stored = journal.case_report(line.id)
    first = msgspec.json.decode(stored.report, type=KeptReport) if stored else KeptReport()
    rechecks = [look for look in journal.case_rechecks(line.id) if look.report and (until is None or look.on <= until)]
    looks = [_recheck(look) for look in rechecks]
    latest = looks[-1].now if looks else first
    place = journal.case_place(line.id)
    acts = acts_of(journal, line.id, until=until)
    responses = [*first.responses, *(response for look in looks for response in look.now.responses)]
    offered = tuple(response.treatment for response in responses)
    suspects = (looks[-1].suspects if looks else first.suspects)[:12]
    return Standing(
        number=line.id, state=_state(journal, line, stored is not None, until), crop=line.crop,
        plant=place.plant or line.plant, bed=place.bed, on=line.on,
        last_look=rechecks[-1].on if rechecks else line.on, verdict=rechecks[-1].verdict if rechecks else "",
        suspects={suspect.cause: suspect.probability for suspect in suspects if suspect.cause in book.causes},
        seen=frozenset(first.seen).union(*(look.now.seen for look in looks)) & book.findings.keys(),
        alarms=tuple(alarm.say for alarm in latest.alarms),
        done=list_done(book, acts, offered=offered, dose_days=dose_days(responses)),
        amounts=_amounts(responses),
        neighbours_on=_neighbours_on(book, rechecks, looks),
        not_again=frozenset(line.treatment for look in looks for line in look.not_again),
        next_look=looks[-1].next_look if looks else "", proven=proven,
    )  # fmt: skip


def _neighbours_on(book: Book, rechecks: Sequence[StoredRecheck], looks: Sequence[KeptRecheck]) -> str:
    """The last day on which a look said that more plants have it, or that no more do; '' if none did."""
    told = {book.roles[role].finding for role in ("more-plants", "no-more-plants") if role in book.roles}
    days = [recheck.on for recheck, look in zip(rechecks, looks, strict=True) if not told.isdisjoint(look.now.seen)]
    return max(days, default="")


def _amounts(responses: list[AdvisedResponse]) -> dict[str, str]:
    """How much of what at a time, of doses that are split over days."""
    split = {r.treatment: r.dose for r in reversed(responses) if r.dose and r.dose.days > 1 and r.dose.grams}
    grams = {id_: digits(dose.grams / dose.days, 3) for id_, dose in split.items()}
    return {id_: words.GRAMS.format(grams=grams[id_], what=dose.what) for id_, dose in split.items()}


def _recheck(look: StoredRecheck) -> KeptRecheck:
    assert look.report is not None  # only finished looks come here
    return msgspec.json.decode(look.report.report, type=KeptRecheck)
