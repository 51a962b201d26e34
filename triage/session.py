"""The conductor: takes what a grower tells, runs the engines in order, gives one report.

Screens, files, the demo and any other surface drive the same Session; none of them reasons.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import cached_property
from typing import Literal

import msgspec

from .errors import UsageError
from .model.book import Book
from .model.case import Case, System
from .model.crop import Animal
from .model.facts import CaseFacts, RulesOutcome
from .model.outcome import Favoured, Heard, Ranking
from .model.quantity import Reading
from .report.build import Look, build_report
from .report.case_report import Report

ToldKind = Literal["crop", "words", "finding", "cant-tell", "reading"]


class Told(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One thing told: a crop, words, the answer to a question, a reading, or that one cannot tell."""

    kind: ToldKind
    question: str = ""
    text: str = ""
    seen: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()
    unsure: tuple[str, ...] = ()
    set_aside: tuple[str, ...] = ()
    reading: Reading | None = None


class Session:
    """One look at one plant: everything told so far, and what follows from it."""

    def __init__(self, book: Book, *, on: str, system: System | None = None, readings: Iterable[Reading] = ()) -> None:
        self.book = book
        self.on = on
        self.system = system or System()
        self.stored_readings = tuple(readings)
        self.told: list[Told] = []

    # -- telling -------------------------------------------------------------------------------------------------

    def tell(self, told: Told) -> None:
        """Take one thing told; a later one wins over an earlier one about the same finding."""
        self.told.append(told)

    def undo(self) -> Told | None:
        """Take the last thing told back; None if nothing was told."""
        return self.told.pop() if self.told else None

    def answer(self, question_id: str, chosen: Sequence[str], *, unsure: Sequence[str] = ()) -> Told:
        """The answer to a question of the book: the options chosen, and those the grower is not sure of.

        Nothing chosen and nothing unsure means: none of these.
        """
        question = self.book.questions[question_id]
        strange = [option for option in (*chosen, *unsure) if option not in question.options]
        if strange:
            raise UsageError(f"'{strange[0]}' is no answer to '{question_id}' (allowed: {', '.join(question.options)})")
        rest = tuple(option for option in question.options if option not in chosen and option not in unsure)
        one = question.pick == "one" and bool(chosen or unsure)
        told = Told(
            kind="finding", question=question_id, seen=tuple(chosen), unsure=tuple(unsure),
            set_aside=rest if one else (), absent=() if one else rest,
        )  # fmt: skip
        self.tell(told)
        return told

    @property
    def case(self) -> Case:
        """Everything told so far as one case; words are read, later answers win."""
        states: dict[str, str] = {}
        crop, words, readings = "", [], list(self.stored_readings)
        for told in self.told:
            if told.kind == "crop":
                crop = told.text
            elif told.kind == "words":
                words.append(told.text)
                for heard in self._read(told.text)[0]:
                    states.setdefault(heard.finding, heard.state)
            elif told.reading is not None:
                readings.append(told.reading)
            for state in ("seen", "absent", "unsure", "set_aside"):
                states.update((finding, state) for finding in getattr(told, state) if _may_set(states, finding, state))
        by_state = {state: frozenset(f for f, s in states.items() if s == state) for state in set(states.values())}
        return Case(
            on=self.on, crop=crop, system=self.system, words=tuple(words), readings=tuple(readings),
            seen=by_state.get("seen", frozenset()), absent=by_state.get("absent", frozenset()),
            unsure=by_state.get("unsure", frozenset()), set_aside=by_state.get("set_aside", frozenset()),
            asked=frozenset(told.question for told in self.told if told.question),
        )  # fmt: skip


def _may_set(states: dict[str, str], finding: str, state: str) -> bool:
    """An option set aside says nothing, so it never overrides what was said of the finding before."""
    return state != "set_aside" or finding not in states
