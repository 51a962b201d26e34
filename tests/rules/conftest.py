"""Short ways to write rules and cases for the tests of the rules."""

from __future__ import annotations

import importlib.util
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import msgspec
import pytest

from triage.model.book import Book
from triage.model.case import Case, System
from triage.model.facts import CaseFacts, RulesOutcome
from triage.model.quantity import Reading
from triage.model.rule import Rule
from triage.rules.run import RuleRunner
from triage.water.readings import parse_assignment


def load_beside(name: str) -> ModuleType:
    """A module beside this file."""
    spec = importlib.util.spec_from_file_location(name, Path(__file__).parent / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def made_up() -> ModuleType:
    """Made-up rules and cases."""
    return load_beside("made_up_rules")


@pytest.fixture(scope="session")
def plain() -> ModuleType:
    """The plain reader of rules."""
    return load_beside("plain_rules")


@pytest.fixture(scope="session")
def as_rules() -> Callable[..., dict[str, Rule]]:
    """Rules from mappings as authors write them; what is missing is filled in (a conclusion named like the rule)."""

    def convert(**entries: dict[str, Any]) -> dict[str, Rule]:
        rules = {}
        for name, entry in entries.items():
            id_ = name.replace("_", "-")
            whole = {"rule": id_, "because": "So.", "sources": ["test"], **entry}
            if not {"alarm", "conclude", "favour", "against", "offer", "set-aside", "grade", "harm"} & whole.keys():
                whole["conclude"] = id_
            rules[id_] = msgspec.convert(whole, Rule)
        return rules

    return convert


@pytest.fixture(scope="session")
def as_facts() -> Callable[..., CaseFacts]:
    """A case: ids seen and absent, readings as numbers, (low, high) or Reading, and whatever CaseFacts takes."""

    def convert(seen: str = "", absent: str = "", system: System | None = None, **rest: Any) -> CaseFacts:
        readings = tuple(as_reading(name, value) for name, value in rest.pop("readings", {}).items())
        case_only = {name: frozenset(rest.pop(name).split()) for name in ("unsure", "set_aside") if name in rest}
        seen_ids, absent_ids = frozenset(seen.split()), frozenset(absent.split())
        case = Case(on="2026-05-04", seen=seen_ids, absent=absent_ids, system=system or System(), **case_only)
        return CaseFacts(case=case, readings=readings, **rest)

    return convert


def as_reading(name: str, value: Any) -> Reading:
    if isinstance(value, Reading):
        return value
    low, high = value if isinstance(value, tuple) else (value, value)
    return Reading(quantity=name, value=low, low=low, high=high)


class Bench:
    """Findings, readings, crop and system in, what the rules of the book say out."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.runner = RuleRunner(book.rules)

    def run(
        self, seen: str, absent: str = "", readings: str = "", crop: str = "", *, system: System | None = None,
        suspects: dict[str, float] | None = None,
    ) -> RulesOutcome:  # fmt: skip
        assert not set(f"{seen} {absent}".split()) - set(self.book.findings)
        case = Case(
            on="2026-05-04", seen=frozenset(seen.split()), absent=frozenset(absent.split()), system=system or System()
        )
        measured = tuple(parse_assignment(word, self.book.quantities, kit="") for word in readings.split())
        crop_told = self.book.crops[crop] if crop else None
        return self.runner.run_case(CaseFacts(case=case, readings=measured, crop=crop_told, suspects=suspects or {}))


@pytest.fixture(scope="session")
def bench(book: Book) -> Bench:
    return Bench(book)
