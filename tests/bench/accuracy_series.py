"""A simulated grower: told one thing, asked the rest, until the right cause leads or the questions are out.

The grower answers from the coded findings of the case and what follows from them; where the case is silent, the answer
is that one cannot tell.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable
from itertools import count
from statistics import fmean, median
from typing import Any

import msgspec
from accuracy_cases import Vignette, bare_case, case_of, crop_of, right_ones, words_of

from triage.model.case import Case
from triage.ranking.evidence import Evidence
from triage.ranking.question import can_ask
from triage.reasoning import Engines, closed
from triage.session import Session, Told, session_from_case

LEADS_AT = 0.7
STARTS = ("finding", "words")
SEEDS = (1, 2, 3)
#: The ways to choose the next question; the numbers are seeds of a random order.
ORDERS = ("chosen", "fixed", *(f"random {seed}" for seed in SEEDS))

Next = Callable[[Session, Evidence], str | None]


def run_series(vignette: Vignette, engines: Engines, start: str, order: str) -> int | None:
    """How many questions until a right cause leads with 0.7; None: never."""
    session = _begin(vignette, engines, start)
    knows = _told_in(session, case_of(vignette, engines.book, "coded"))
    choose = _chooser(vignette, order)
    asked = 0
    while not _leads(session, right_ones(vignette)):
        more = _ask_until_told(session, knows, choose)
        if more is None:
            return None
        asked += more
    return asked


def _ask_until_told(session: Session, knows: Evidence, choose: Next) -> int | None:
    """Ask until the grower can tell something, for nothing moves before; None: no question or nothing left to tell."""
    evidence = _told_in(session, session.case)
    if evidence.known >= knows.known:
        return None
    for asked in count(1):
        question = choose(session, evidence)
        if question is None:
            return None
        told = reply(session, question, knows)
        session.tell(told)
        if told.kind != "cant-tell":
            return asked
    raise AssertionError("questions have no end")


def _told_in(session: Session, case: Case) -> Evidence:
    return Evidence.of_case(closed(case, session.book)[0])


def _begin(vignette: Vignette, engines: Engines, start: str) -> Session:
    """Crop, place and readings, with the first finding or the first fact as words (where nothing is ticked: words)."""
    first = tuple(vignette["coded"]["seen"][:1]) if start == "finding" else ()
    case = bare_case(vignette, engines.book, seen=first)
    if not first:
        case = msgspec.structs.replace(case, words=words_of(vignette)[:1])
    return session_from_case(engines.book, case, engines)


def _leads(session: Session, right: Iterable[str]) -> bool:
    look = session.engines.look(session.case, (), (), with_question=False, with_responses=False)
    suspects = look.ranking.suspects
    return bool(suspects) and suspects[0].cause in right and suspects[0].probability >= LEADS_AT


def _chooser(vignette: Vignette, order: str) -> Next:
    if order == "chosen":
        return _choose_best
    seed = f"{order} {vignette['id']}"

    def first_open(session: Session, evidence: Evidence) -> str | None:
        names = list(session.book.questions)
        if order != "fixed":
            random.Random(seed).shuffle(names)
        crop = session.book.crops.get(crop_of(vignette, session.book))
        asked = {told.question for told in session.told}
        return next((n for n in names if can_ask(session.book.questions[n], evidence, asked, crop)), None)

    return first_open


def _choose_best(session: Session, _: Evidence) -> str | None:
    question = session.next_question()
    return question.id if question else None


def reply(session: Session, question_id: str, knows: Evidence) -> Told:
    """What the grower answers: what the case says of each option, nothing of the others."""
    options = session.book.questions[question_id].options
    seen = [option for option in options if option in knows.seen]
    unsure = [option for option in options if option in knows.unsure]
    one = session.book.questions[question_id].pick == "one"
    if one and (seen or unsure):
        return session.answered(question_id, seen, unsure=unsure)
    offered = [option for option in options if option in knows.known]
    if not offered:
        return Told(kind="cant-tell", question=question_id)
    return session.answered(question_id, seen, unsure=unsure, offered=offered)


def summarise_series(counts: dict[str, list[int | None]]) -> dict[str, Any]:
    """Per order: share that got there, median over all (never counts as endless), mean where every order got there.

    ``counts`` holds the same cases in the same sequence for every order; ``of-fixed`` compares the means and the
    medians of those cases with the fixed order's.
    """
    both = [all(each is not None for each in together) for together in zip(*counts.values(), strict=True)]
    found = {order: _one_order(numbers, both) for order, numbers in _pooled(counts).items()}
    for each in found.values():
        for kind in ("mean", "median-there"):
            each[f"{kind}-of-fixed"] = _ratio(each[kind], found["fixed"][kind])
    return found


def _pooled(counts: dict[str, list[int | None]]) -> dict[str, list[list[int | None]]]:
    """The random orders as one."""
    pooled: dict[str, list[list[int | None]]] = {}
    for order, numbers in counts.items():
        pooled.setdefault(order.split()[0], []).append(numbers)
    return pooled


def _one_order(runs: list[list[int | None]], both: list[bool]) -> dict[str, Any]:
    numbers = [number for run in runs for number in run]
    there = [number for number in numbers if number is not None]
    compared = [n for run in runs for n, use in zip(run, both, strict=True) if use and n is not None]
    middle = median([float("inf") if number is None else number for number in numbers]) if numbers else float("inf")
    return {
        "series": len(numbers), "got-there": len(there) / len(numbers) if numbers else 0.0,
        "median": None if middle == float("inf") else middle, "compared": len(compared) // len(runs),
        "mean": fmean(compared) if compared else None, "median-there": median(compared) if compared else None,
    }  # fmt: skip


def _ratio(one: float | None, other: float | None) -> float | None:
    return one / other if one is not None and other else None
