"""From typed words to the report on one spray."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from ..intake import clean_text
from ..model.advice import Event, Moment
from ..model.book import Book
from ..model.case import System
from ..model.outcome import Verdict
from ..model.quantity import Reading
from ..report.spray_report import (
    LABEL_FIRST,
    LOOK_ON_LABEL,
    Member,
    SprayReport,
    Use,
    harms_of,
    sources_used,
)
from ..responses.advise import Occasion, choose_advice
from ..responses.choose import choose_instead
from ..responses.exposure import content_mg
from .asked import Asked
from .better import find_better, suits
from .judge import Answer, Judge, Judged, Part
from .spilled import tell_spill

#: How many other ways are named.
INSTEAD = 5
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
    answer, water, system = judge.judge(asked), judge.water(asked), judge.system(asked)
    lead = answer.leading
    verdict, judged = answer.verdict, answer.all_judged
    acceptable = is_acceptable(answer)
    occasion = Occasion(
        substances=tuple(one.substance for one in judged), event=_event(asked, lead), grade=verdict.grade,
        crustaceans=water.crustaceans_kept,
    )  # fmt: skip
    settled = acceptable and not (lead and lead.planned.others)

    def lines(moment: Moment) -> tuple[str, ...]:
        return choose_advice(judge.book.advice, moment, occasion)

    return SprayReport(
        substance=verdict.substance, name=shown_name(answer, judge.book), what=_what(answer), grade=verdict.grade,
        why=verdict.why, exposure=verdict.exposure, harms=harms_of(verdict), assumed=all_assumed(answer, system),
        instead=_instead(answer, judge.book), cautions=_cautions(verdict, judged), harvest_wait_days=_wait(judged),
        sources=sources_used(verdict, [s for one in judged for s in one.substance.sources] if len(judged) == 1 else ()),
        firings=verdict.firings, animals=system.animals, use=_use(lead) if lead else None, acceptable=acceptable,
        members=_members(answer), better=() if lead is None or settled or spilled else find_better(judge, asked, lead),
        before=lines("before"), watch=lines("watch"), react=lines("react"),
        spill=tell_spill(judge, judged, water, occasion) if spilled else None,
    )  # fmt: skip


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


def _what(answer: Answer) -> str:
    if len(answer.all_judged) == 1:
        return answer.all_judged[0].substance.what
    if not answer.all_judged:
        return "" if any(part.named.treatment for part in answer.parts) else "Not in the book."
    return ""


def all_assumed(answer: Answer, system: System) -> tuple[str, ...]:
    lead = answer.leading
    lines = list(lead.planned.assumed) if lead else []
    if not system.animals:
        lines.append("Nobody said which animals live in the water: fish and crustaceans both count (--animals).")
    if system.volume_l is None:
        lines.append("Nobody said how much water there is (--volume).")
    return tuple(lines)


def _instead(answer: Answer, book: Book) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for judged in answer.all_judged[:3]:
        found |= dict.fromkeys(choose_instead(judged.substance.substance, book.treatments, INSTEAD))
    return tuple(found)[:INSTEAD]


def _cautions(verdict: Verdict, judged: Sequence[Judged]) -> tuple[str, ...]:
    unknown = LOOK_ON_LABEL if verdict.grade == "unknown" or not judged else ()
    people = [line for one in judged[:3] for line in one.substance.people]
    return tuple(dict.fromkeys([*unknown, *people, LABEL_FIRST]))


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
        said = f"{amount.litres:g} L" if amount.litres is not None else f"{amount.grams:g} g"
    return Use(
        way=plan.way, cover="" if plan.way == "dosed" else plan.cover, amount=said,
        strength=f"{strength.value:g} {strength.unit}" if strength else "", grams=content and content / 1000,
        times=plan.times, every_days=plan.every_days,
    )  # fmt: skip
