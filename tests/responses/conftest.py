"""The safety rules, shares and margins of the book, the animals of our own system, and small substances to grade."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from triage.book.load import Loaded, load_folders
from triage.model.crop import Animal
from triage.model.outcome import Verdict
from triage.model.quantity import Reading
from triage.model.rule import Rule
from triage.model.substance import Substance, Toxicity
from triage.responses.amounts import parse_amount, parse_strength
from triage.responses.grade import Guard, grade_substance
from triage.responses.setting import Assumptions, Plan, Water
from triage.rules.run import RuleRunner

KNOWLEDGE = Path(__file__).parents[2] / "knowledge"

TILAPIA = Animal(
    animal="tilapia", name="Tilapia", kind="fish", species=["Oreochromis niloticus"], groups=["cichlid"], sources=[]
)
TROUT = Animal(
    animal="trout", name="Trout", kind="fish", species=["Oncorhynchus mykiss"], groups=["salmonid"], sources=[]
)
SHRIMP = Animal(
    animal="shrimp", name="Shrimp", kind="crustacean", species=["Neocaridina davidi"], groups=["shrimp"], sources=[]
)


@pytest.fixture(scope="session")
def loaded() -> Loaded:
    return load_folders([KNOWLEDGE])


@pytest.fixture(scope="session")
def assumed(loaded: Loaded) -> Assumptions:
    return Assumptions(shares=loaded.entries["cover_shares"], margins=loaded.entries["margins"])


@pytest.fixture(scope="session")
def safety_rules(loaded: Loaded) -> dict[str, Rule]:
    return {id_: rule for id_, rule in loaded.entries["rules"].items() if rule.grade is not None}


@pytest.fixture(scope="session")
def guard(safety_rules: dict[str, Rule]) -> Guard:
    return RuleRunner(safety_rules).run_guard


@pytest.fixture(scope="session")
def grade(guard: Guard, assumed: Assumptions) -> Any:
    def run(stuff: Substance, plan: Plan, water: Water) -> Verdict:
        return grade_substance(stuff, plan, water, assumed, guard)

    return run


def row(value: float, organism: str = "Danio rerio", *, group: str = "fish", **others: Any) -> Toxicity:
    """A toxicity row read in a source; a test of four days unless told otherwise."""
    told: dict[str, Any] = {"test": "LC50", "hours": 96.0, "source": "our-judgement", "read": "seen", **others}
    return Toxicity(organism=organism, group=group, value=value, **told)  # type: ignore[arg-type]


def substance(*rows: Toxicity, **others: Any) -> Substance:
    """A substance with these rows."""
    told: dict[str, Any] = {"name": "Stuff", "what": "", "sources": ["our-judgement"], "status": "draft", **others}
    return Substance(substance="stuff", toxicity=list(rows), **told)


def reading(quantity: str, value: float, low: float | None = None, high: float | None = None) -> Reading:
    low, high = (value if low is None else low), (value if high is None else high)
    return Reading(quantity=quantity, value=value, low=low, high=high)


def make_water(volume_l: float | None = 1000, *, animals: tuple[Animal, ...] = (TILAPIA,), **others: Any) -> Water:
    """Water with tilapia in it, unless told otherwise."""
    return Water(volume_l=volume_l, animals=animals, **others)


def make_plan(strength: str | None = "1%", amount: str | None = "1L", **others: Any) -> Plan:
    """One litre of one per cent, unless told otherwise."""
    return Plan(
        strength=None if strength is None else parse_strength(strength),
        amount=None if amount is None else parse_amount(amount), **others,
    )  # fmt: skip


@pytest.fixture(scope="session")
def kit() -> SimpleNamespace:
    """Short ways to make what is graded."""
    return SimpleNamespace(
        row=row, substance=substance, reading=reading, water=make_water, plan=make_plan,
        tilapia=TILAPIA, trout=TROUT, shrimp=SHRIMP,
    )  # fmt: skip
