"""The quantities and water rules of the book, read one file at a time so that other shelves cannot stand in the way."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from triage.book.records import build_record
from triage.book.strict_yaml import parse_yaml
from triage.model.crop import Animal
from triage.model.quantity import Quantity
from triage.model.rule import Rule

KNOWLEDGE = Path(__file__).parents[2] / "knowledge"


def _load(cls: Any, name: str) -> list[Any]:
    document = parse_yaml((KNOWLEDGE / name).read_text(encoding="utf-8"), name)
    made = [build_record(cls, entry, document, (number,), name) for number, entry in enumerate(document.data)]
    assert not document.faults, document.faults
    return made


@pytest.fixture(scope="session")
def quantities() -> dict[str, Quantity]:
    return {entry.quantity: entry for entry in _load(Quantity, "readings.yaml")}


@pytest.fixture(scope="session")
def water_rules() -> dict[str, Rule]:
    return {entry.rule: entry for entry in _load(Rule, "rules/water.yaml")}


@pytest.fixture(scope="session")
def animals() -> dict[str, Animal]:
    return {entry.animal: entry for entry in _load(Animal, "animals.yaml")}


@pytest.fixture(scope="session")
def made_up_systems() -> ModuleType:
    """The module of made-up systems beside this file."""
    spec = importlib.util.spec_from_file_location("made_up_systems", Path(__file__).parent / "made_up_systems.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["made_up_systems"] = module
    spec.loader.exec_module(module)
    return module
