"""A later look at a written case, without a journal."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import pytest

from triage.followup.done import Act
from triage.followup.judge import LookSaid
from triage.followup.second_look import Earlier, SecondLook
from triage.model.aftermath import RoleName
from triage.model.book import Book
from triage.model.case import Case, System
from triage.model.quantity import Reading
from triage.reasoning import Engines
from triage.report.case_report import Report
from triage.report.recheck_report import RecheckReport
from triage.rules.plan import make_schedule
from triage.session import session_from_case
from triage.water.readings import parse_assignment

POND = System(volume_l=1000.0, animals=("tilapia",))


class Follow:
    """One case, looked at on 4 May 2026, and its later looks."""

    def __init__(self, book: Book, crop: str, seen: Sequence[str], *readings: str, absent: Sequence[str] = ()) -> None:
        self.book = book
        self.readings = tuple(self.read(text, "2026-05-04") for text in readings)
        self.case = Case(
            on="2026-05-04", crop=crop, system=POND, seen=frozenset(seen), absent=frozenset(absent),
            readings=self.readings,
        )  # fmt: skip
        self.first: Report = session_from_case(book, self.case, Engines(book)).look(with_question=False)

    def read(self, text: str, on: str) -> Reading:
        return parse_assignment(text, self.book.quantities, on=on)

    def before(self) -> dict[str, float]:
        return {suspect.cause: suspect.probability for suspect in self.first.suspects}

    def look(
        self, on: str, *said: RoleName, acts: Sequence[Act] = (), tested: Sequence[tuple[str, str]] = (),
        looks: Sequence[LookSaid] = (), seen: Sequence[str] = (), absent: Sequence[str] = (),
    ) -> RecheckReport:  # fmt: skip
        """What a look on a day gives. ``tested``: readings since, as (text, day)."""
        earlier = Earlier(
            number=1, told=self.case, acts=tuple(acts), looks=tuple(looks), suspects=self.before(),
            offered=tuple(response.treatment for response in self.first.responses),
        )  # fmt: skip
        later = tuple(self.read(text, day) for text, day in tested)
        look = SecondLook(self.book, earlier, (*self.readings, *later), on=on)
        begins = look.begins_with
        told = {self.book.roles[role].finding for role in said} | set(seen)
        case = Case(
            on=on, crop=begins.crop, system=begins.system, readings=look.readings, seen=begins.seen | told,
            absent=(begins.absent | set(absent)) - told, unsure=begins.unsure - told - set(absent),
        )  # fmt: skip
        return look.report(case, Engines(look.book))


class Following:
    """Makes cases to be followed: crop, findings seen, readings. (A book is too long to be shown when a law fails.)"""

    def __init__(self, book: Book) -> None:
        self.book = book

    def __call__(self, crop: str, seen: Sequence[str], *readings: str) -> Follow:
        return Follow(self.book, crop, seen, *readings)

    def __repr__(self) -> str:
        return "follow"


@pytest.fixture(scope="session")
def follow(book: Book) -> Following:
    return Following(quick(book))


def quick(book: Book) -> Book:
    """With the ways of its rules, as a compiled book has them."""
    return msgspec.structs.replace(book, schedule=make_schedule(book.rules))


@pytest.fixture(scope="session")
def iron(book: Book) -> Follow:
    """Basil short of iron in water that is not too high in pH."""
    seen = ["yellow-between-veins", "newest-leaves-first", "fine-veins-stay-green", "came-slowly"]
    return Follow(quick(book), "basil", seen, "ph=6.6", "iron=0.1mg/L", "temperature=22")


@pytest.fixture(scope="session")
def mites(book: Book) -> Follow:
    """Cucumber with spider mites."""
    seen = ["pale-stippling", "moving-dots-underneath", "webbing", "air-hot-dry"]
    return Follow(quick(book), "cucumber", seen, "ph=6.6", "temperature=25")
