"""From typed words to the report on one spray."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from ..intake import clean_text
from ..model.advice import Event, Moment
from ..model.book import Book
from ..model.case import System
from ..model.quantity import Reading
from ..report.spray_report import (
    Better,
    Member,
    SprayReport,
    Use,
    harms_of,
    sources_used,
)
from ..responses.advise import Occasion, choose_advice
from ..responses.choose import choose_instead
from ..responses.exposure import content_mg
from . import words
from .asked import Asked
from .better import find_better, suits
from .judge import Answer, Judge, Judged, Part
from .spilled import tell_spill

#: How many other ways are named.
INSTEAD = 5
#: Of so many substances the cautions and other ways are told.
_MOST_CAUTIONED = 3
_EVENTS: dict[str, Event] = {
    "neighbour": "neighbour", "perimeter": "perimeter", "drench": "drench", "returned": "returned"
}  # fmt: skip


def answer_spray(
    book: Book, asked: Asked, saved: System | None, readings: Sequence[Reading], *, on: str, spilled: bool = False
) -> SprayReport:
    """The report on what is asked, which may be several things in one bottle.

    Errors: UsageError for an amount, volume or animal that cannot be read.
    """
    return report_on(Judge(book, saved or System(), readings, on=on), asked, spilled=spilled)


def report_on(judge: Judge, asked: Asked, *, spilled: bool = False) -> SprayReport:
    """The same with a judge that is there already."""
    asked = msgspec.structs.replace(asked, words=clean_text(asked.words))
    if spilled and asked.cover is None:
        asked = msgspec.structs.replace(asked, into_water=True)  # all of it is in there
    answer, system = judge.judge(asked), judge.system(asked)
    occasion = _occasion(answer, asked, judge)

    def lines(moment: Moment) -> tuple[str, ...]:
        return choose_advice(judge.book.advice, moment, occasion)

    report = _bare_report(answer, asked, system, judge.book)
    if spilled:
        spill = tell_spill(judge, answer.all_judged, judge.water(asked), occasion)
        return msgspec.structs.replace(report, spill=spill)
    treatments = [part.named.treatment for part in answer.parts if part.named.treatment]
    if not answer.all_judged and treatments:  # nothing is sprayed
        steps = [step for id_ in treatments for step in judge.book.treatments[id_].steps]
        return report if report.grade == "ok" else msgspec.structs.replace(report, before=tuple(steps))
    return msgspec.structs.replace(
        report, better=_better(judge, asked, answer), before=lines("before"), watch=lines("watch"),
        react=lines("react"),
    )  # fmt: skip


def _bare_report(answer: Answer, asked: Asked, system: System, book: Book) -> SprayReport:
    """The verdict with its figures and cautions."""
    verdict, judged, lead = answer.verdict, answer.all_judged, answer.leading
    entry = judged[0].substance.sources if len(judged) == 1 else ()
    return SprayReport(
        words=asked.words, substance=verdict.substance, name=shown_name(answer, book), what=_what(answer, book),
        grade=verdict.grade, why=verdict.why, exposure=verdict.exposure, harms=harms_of(verdict),
        assumed=_assumed(answer, system), instead=_instead(answer, book), cautions=_cautions(answer, book),
        harvest_wait_days=_wait(judged), sources=sources_used(verdict, entry), firings=verdict.firings,
        animals=system.animals, use=_use(lead) if lead else None, acceptable=is_acceptable(answer),
        members=_members(answer),
    )  # fmt: skip


def _occasion(answer: Answer, asked: Asked, judge: Judge) -> Occasion:
    return Occasion(
        substances=tuple(one.substance for one in answer.all_judged), event=_event(asked, answer.leading),
        grade=answer.verdict.grade, crustaceans=judge.water(asked).crustaceans_kept,
    )  # fmt: skip


def _better(judge: Judge, asked: Asked, answer: Answer) -> tuple[Better, ...]:
    """Other ways to use it; none where it is careful enough as it is asked and nothing was left unsaid."""
    lead = answer.leading
    if lead is None or (is_acceptable(answer) and not lead.planned.others):
        return ()
    return find_better(judge, asked, lead)


def _event(asked: Asked, lead: Judged | None) -> Event:
    if lead is not None and lead.planned.plan.way == "dosed":
        return "dosed"
    return _EVENTS.get(asked.cover or "none", "sprayed")


def is_acceptable(answer: Answer) -> bool:
    """Whether every part is used as carefully as the joined grade asks for."""
    judged = answer.all_judged
    if not judged:
        return answer.verdict.grade == "ok"
    return all(suits(answer.verdict.grade, one.planned.plan) for one in judged)


def shown_name(answer: Answer, book: Book) -> str:
    names = []
    for part in answer.parts:
        if part.named.group:
            names.append(book.substance_groups[part.named.group].name)
        elif part.named.treatment:
            names.append(book.treatments[part.named.treatment].name)
        else:
            names.append(part.judged[0].substance.name if len(part.judged) == 1 else part.named.words)
    return " + ".join(names)


def _what(answer: Answer, book: Book) -> str:
    if len(answer.all_judged) == 1:
        return answer.all_judged[0].substance.what
    treatments = [part.named.treatment for part in answer.parts if part.named.treatment]
    if len(treatments) == len(answer.parts) == 1:
        return book.treatments[treatments[0]].plain
    return "" if answer.all_judged or treatments else words.NOT_IN_BOOK


def _assumed(answer: Answer, system: System) -> tuple[str, ...]:
    lead = answer.leading
    return (*(lead.planned.assumed if lead else ()), *unsaid_of(system))


def unsaid_of(system: System) -> tuple[str, ...]:
    """What nobody said of the water and its animals."""
    lines = []
    if not system.animals:
        lines.append(words.ANIMALS_UNSAID)
    if system.volume_l is None:
        lines.append(words.VOLUME_UNSAID)
    return tuple(lines)


def _instead(answer: Answer, book: Book) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for judged in answer.all_judged[:_MOST_CAUTIONED]:
        dosed = judged.planned.plan.way == "dosed"
        found |= dict.fromkeys(choose_instead(judged.substance.substance, book.treatments, INSTEAD, dosed=dosed))
    return tuple(found)[:INSTEAD]


def _cautions(answer: Answer, book: Book) -> tuple[str, ...]:
    """What to look for on the label of something unknown, cautions for people, those of a treatment, label and law."""
    unknown = words.LOOK_ON_LABEL if answer.verdict.grade == "unknown" else ()
    people = [line for one in answer.all_judged[:_MOST_CAUTIONED] for line in one.substance.people]
    treated = [book.treatments[part.named.treatment] for part in answer.parts if part.named.treatment]
    lines = [*unknown, *people, *(line for one in treated for line in one.cautions), words.LABEL_FIRST]
    return tuple(dict.fromkeys(lines))


def _wait(judged: Sequence[Judged]) -> float | None:
    waits = [one.substance.harvest_wait_days.value for one in judged if one.substance.harvest_wait_days]
    return max(waits, default=None)


def _members(answer: Answer) -> tuple[Member, ...]:
    """What the words may mean or hold; none where that is one substance."""
    if len(answer.parts) == 1 and len(answer.all_judged) <= 1:
        return ()
    return tuple(member for part in answer.parts for member in _members_of(part))


def _members_of(part: Part) -> list[Member]:
    words = part.named.words
    if not part.judged:
        return [Member(substance="", name=words, grade=part.verdict.grade, of=words)]
    return [
        Member(substance=one.substance.substance, name=one.substance.name, grade=one.verdict.grade, of=words)
        for one in part.judged
    ]


def _use(judged: Judged) -> Use:
    plan = judged.planned.plan
    content = content_mg(plan, judged.substance)
    amount, strength = plan.amount, plan.strength
    said = ""
    if amount is not None:
        said = f"{amount.litres:.4g} L" if amount.litres is not None else f"{amount.grams:.4g} g"
    return Use(
        way=plan.way, cover="" if plan.way == "dosed" else plan.cover, amount=said,
        strength=f"{strength.value:.4g} {strength.unit}" if strength else "", grams=content and content / 1000,
        times=plan.times, every_days=plan.every_days,
    )  # fmt: skip
