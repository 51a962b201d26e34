"""What is due on a day, in order of urgency: alarms, harvest waits, next steps, looks, tests."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Sequence

import msgspec

from ..model.book import Book
from ..model.outcome import AlarmRaised
from ..model.quantity import Reading
from ..report import words
from ..report.due_report import DueKind, DueLine, DueReport
from ..report.garden_report import WatchLine
from ..report.saying import crop_inside, inside, listed
from ..responses.wording import harvest_wait
from .recovery import day_after, days_between
from .standing import Standing, leading, look_again_on

#: An alarm stands for so many days after its look.
ALARM_DAYS = 3
#: A wait that is over is said for so many days.
OVER_DAYS = 2
#: So many days it is said that only the label knows how long to wait.
UNSAID_WAIT_DAYS = 14
_KINDS: tuple[DueKind, ...] = ("alarm", "wait", "step", "look", "watch", "retest", "test", "series")


def list_due(
    book: Book, cases: Iterable[Standing], readings: Sequence[Reading], *, on: str, ahead_days: int = 3,
    alarms: Sequence[AlarmRaised] = (), watch: Sequence[WatchLine] = (),
) -> DueReport:  # fmt: skip
    """What is due on a day, and what comes in ``ahead_days`` after it.

    Urgency: what cannot wait, food that must not be picked yet, the next step of a remedy under way, looks (first at
    what spreads fast) and looks at its neighbours, tests; within each the one that is latest. ``alarms`` are those of
    the water as it stands, ``watch`` what to look for in which bed.
    """
    cases = tuple(cases)
    lines = [_line("alarm", on, on, alarm.say, command="triage water show") for alarm in alarms]
    said = {line.say for line in lines}
    lines += [line for case in cases for line in _of_case(book, case, readings, on) if line.say not in said]
    lines += [*_watches(watch, on), *_tests(book, readings, on)]
    fast = {case.number for case in cases if spreads_fast(book, case)}
    ordered = sorted(lines, key=lambda line: _urgency(line, fast))
    last = day_after(on, ahead_days)
    return DueReport(
        on=on, due=tuple(line for line in ordered if line.due <= on or line.kind == "wait"),
        coming=tuple(
            sorted(
                (line for line in ordered if on < line.due <= last and line.kind != "wait"), key=lambda line: line.due
            )
        ),
    )  # fmt: skip


def _urgency(line: DueLine, fast: Collection[int]) -> tuple[int, bool, int, int, str, str]:
    calm = line.kind == "alarm" and line.case is not None  # the water first, then single plants
    if line.kind in ("look", "watch"):
        calm = line.case not in fast
    what = line.quantity + line.bed + line.cause
    return _KINDS.index(line.kind), calm, -line.late, line.case or 0, line.treatment, what


def spreads_fast(book: Book, case: Standing) -> bool:
    """Whether what the case is taken for spreads fast."""
    spreads = [book.causes[cause].spreads for cause in leading(case) if cause in book.causes]
    return any(spread is not None and spread.speed == "fast" for spread in spreads)


def _of_case(book: Book, case: Standing, readings: Sequence[Reading], on: str) -> Iterator[DueLine]:
    yield from _waits(book, case, on)
    if case.state == "unfinished":
        say = words.DUE_SERIES.format(plant=_plant(book, case), day=case.on)
        yield _line("series", case.on, on, say, case=case.number, command="triage plant")
    if case.state != "finished":
        return
    if days_between(case.last_look, on) <= ALARM_DAYS:
        for say in case.alarms:
            yield _line("alarm", case.last_look, on, say, case=case.number, command=f"triage case show {case.number}")
    yield from _steps(book, case, on)
    yield from _retests(book, case, readings, on)
    yield _look(book, case, on)


def _look(book: Book, case: Standing, on: str) -> DueLine:
    causes = [book.causes[cause].name for cause in leading(case)[:1] if cause in book.causes]
    text = words.DUE_LOOK_FOR if causes else words.DUE_LOOK
    say = text.format(plant=_plant(book, case), cause=inside(causes[0]) if causes else "")
    command = f"triage case recheck {case.number}"
    return _line("look", look_again_on(book, case), on, say, case=case.number, command=command)


def _watches(watch: Sequence[WatchLine], on: str) -> Iterator[DueLine]:
    """Looks at neighbours of what spreads, every so many days; the plant's own bed is looked over with the plant.

    That nothing was found is said at the recheck of the case ("no further plant has it"); a round of which nobody said
    anything is not held against anybody.
    """
    for line in watch:
        if line.near == "same":
            continue
        rounds = max(0, math.ceil(days_between(line.due, on) / line.every_days))
        say = words.DUE_WATCH.format(
            crops=listed([inside(crop.name) for crop in line.crops]), cause=inside(line.name), case=line.case,
            where=words.IN_BED.format(line.bed) if line.bed else "",
            source=words.BED.format(line.from_bed) if line.from_bed else line.from_plant,
        )  # fmt: skip
        due = day_after(line.due, rounds * line.every_days)
        yield _line("watch", due, on, say, case=line.case, bed=line.bed, cause=line.cause, command="triage garden")


def _steps(book: Book, case: Standing, on: str) -> Iterator[DueLine]:
    """The next round of remedies under way; one that goes on as long as it is needed ends when the plant is better."""
    for done in case.done:
        endless = done.times is None
        if done.every_days is None or done.treatment in case.not_again or (endless and case.verdict == "better"):
            continue
        if not endless and len(done.days) >= (done.times or 1):
            continue
        name, amount = book.treatments[done.treatment].name, case.amounts.get(done.treatment, "")
        count = (words.DUE_ROUND if endless else words.DUE_ROUND_OF).format(n=len(done.days) + 1, of=done.times)
        what = f"{name}, {amount}" if amount else name
        say = words.DUE_STEP.format(plant=_plant(book, case), what=what, round=count, last=done.last)
        say = say[:1].upper() + say[1:]
        command = f"triage case did {case.number} {done.treatment}"
        due = day_after(done.last, done.every_days)
        yield _line("step", due, on, say, case=case.number, treatment=done.treatment, command=command)


def _retests(book: Book, case: Standing, readings: Sequence[Reading], on: str) -> Iterator[DueLine]:
    for done in case.done:
        dose = book.treatments[done.treatment].dose
        if dose is None or any(r.quantity == dose.quantity and r.on > done.last for r in readings):
            continue
        name = book.quantities[dose.quantity].name
        say = words.DUE_RETEST.format(what=inside(name), day=done.last)
        command = f"triage water add {dose.quantity}=..."
        yield _line(
            "retest", day_after(done.last, 1), on, say, case=case.number, quantity=dose.quantity, command=command
        )


def _waits(book: Book, case: Standing, on: str) -> Iterator[DueLine]:
    """Harvest waits, and those of sprays of which only the label says how long."""
    for done in case.done:
        treatment = book.treatments[done.treatment]
        days = harvest_wait(treatment, book.substances)
        what = words.AFTER.format(plant=_plant(book, case), what=inside(treatment.name), day=done.last)
        if days is None and treatment.kind == "spray" and days_between(done.last, on) <= UNSAID_WAIT_DAYS:
            free, say = done.last, words.DUE_WAIT_UNSAID.format(what=what)
        elif days and days_between(free := day_after(done.last, days), on) <= OVER_DAYS:
            say = (words.DUE_WAIT if free > on else words.DUE_WAIT_OVER).format(day=free, what=what)
        else:
            continue
        yield _line("wait", free, on, say, case=case.number, treatment=done.treatment)


def _tests(book: Book, readings: Sequence[Reading], on: str) -> Iterator[DueLine]:
    """The usual tests of the water; what was never tested is due today."""
    last: dict[str, str] = {}
    for reading in readings:
        if reading.on <= on and reading.point != "top-up":
            last[reading.quantity] = max(reading.on, last.get(reading.quantity, ""))
    for id_, quantity in book.quantities.items():
        if quantity.test_every_days is None or quantity.same_as:
            continue
        due = day_after(last[id_], quantity.test_every_days) if last.get(id_) else on
        named = {"quantity": id_, "name": inside(quantity.name), "last": last.get(id_, "")}
        text = words.DUE_TEST if last.get(id_) else words.DUE_TEST_FIRST
        say = text.format(what=named["name"], last=named["last"])
        command = f"triage water add {id_}=..."
        yield _line("test", due, on, say, command=command, **named)


def _line(kind: DueKind, due: str, on: str, say: str, **more: object) -> DueLine:
    return msgspec.convert({"kind": kind, "due": due, "late": days_between(due, on), "say": say, **more}, DueLine)


def _plant(book: Book, case: Standing) -> str:
    """The crop, with the plant and the bed as the grower calls them."""
    crop = crop_inside(book.crops, case.crop, words.THE_PLANT)
    where = [part for part in (case.plant, words.BED.format(case.bed) if case.bed else "") if part]
    return f"{crop} ({', '.join(where)})" if where else crop
