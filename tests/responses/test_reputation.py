"""Sprays whose reputation and whose figures part ways, answered one by one from the book.

Tilapia in 1,000 L of measured water, and the same with every animal of the book.
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from triage.book.load import Loaded
from triage.model.book import Book
from triage.model.outcome import HarmVerdict, Verdict
from triage.model.rule import Grade
from triage.responses.amounts import parse_amount, parse_strength
from triage.responses.choose import choose_instead
from triage.responses.grade import Guard, grade_substance, joined_grade
from triage.responses.setting import Assumptions, Plan, Water
from triage.responses.treat import grade_treatment

BAD: frozenset[Grade] = frozenset({"never", "unknown"})


@pytest.fixture(scope="module")
def book(loaded: Loaded) -> Book:
    return loaded.book()


@pytest.fixture(scope="module")
def ask(book: Book, guard: Guard, kit: SimpleNamespace) -> Any:
    """Grade a substance: strength, amount, cover, animals, readings."""

    def run(name: str, strength: str | None, amount: str, *animals: str, cover: str = "none", **water: Any) -> Verdict:
        plan = Plan(strength=parse_strength(strength) if strength else None, amount=parse_amount(amount), cover=cover)
        told = {"alkalinity": 80.0, "hardness": 100.0, "ph": 7.0, **water}
        readings = tuple(kit.reading(quantity, value) for quantity, value in told.items() if value is not None)
        here = Water(
            volume_l=1000, animals=tuple(book.animals[name] for name in animals or ("tilapia",)), readings=readings,
            oxygen_mg_l=8.0,
        )  # fmt: skip
        return grade_substance(book.substances[name], plan, here, Assumptions.from_book(book), guard)

    return run


@pytest.fixture(scope="module")
def treat(book: Book, guard: Guard) -> Any:
    def run(name: str, *animals: str) -> Grade:
        here = Water(volume_l=1000, animals=tuple(book.animals[a] for a in animals or ("tilapia",)), oxygen_mg_l=8.0)
        assumed = Assumptions.from_book(book)
        return joined_grade(grade_treatment(book.treatments[name], book.substances, here, assumed, guard).verdicts)

    return run


def _harm(verdict: Verdict, name: str) -> HarmVerdict:
    return next(harm for harm in verdict.harms if harm.harm == name)


@pytest.mark.parametrize("name", ["pyrethrins", "azadirachtin", "permethrin", "rotenone", "abamectin"])
@pytest.mark.parametrize("cover", ["none", "covered", "moved"])
def test_natural_or_not_very_highly_toxic_is_never(ask: Any, name: str, cover: str) -> None:
    verdict = ask(name, "10 mg/L", "10 mL", cover=cover)
    assert verdict.grade == _harm(verdict, "fish").grade == "never"


@pytest.mark.parametrize(
    "name", ["clove-oil", "peppermint-oil", "rosemary-oil", "thyme-oil", "tea-tree-oil", "limonene"]
)
def test_essential_oils_are_not_harmless(ask: Any, name: str) -> None:
    assert ask(name, "1%", "1L").grade != "ok"
    assert ask(name, "1%", "1L").grade in BAD or _harm(ask(name, "1%", "1L"), "water").grade != "ok"


def test_clove_oil_puts_fish_to_sleep(ask: Any) -> None:
    assert "dulls fish" in " ".join(_harm(ask("clove-oil", "0.1%", "10 mL", cover="moved"), "fish").why)


def test_soap_is_for_covered_beds_and_not_for_shrimp(ask: Any) -> None:
    assert ask("fatty-acid-potassium-salts", "1%", "1L").grade == "never"
    assert ask("fatty-acid-potassium-salts", "1%", "1L", cover="covered").grade == "keep-off-water"
    with_shrimp = ask("fatty-acid-potassium-salts", "1%", "1L", "tilapia", "cherry-shrimp", cover="covered")
    assert _harm(with_shrimp, "crustaceans").grade == "never"
    little = ask("fatty-acid-potassium-salts", "1%", "100 mL", "tilapia", "cherry-shrimp", cover="moved")
    assert _harm(little, "crustaceans").grade == little.grade == "away-from-system"


def test_an_emulsion_is_judged_as_one(ask: Any) -> None:
    """The technical acid took 238.93 mg/L to kill half of the tilapia, the emulsion 31.14 (kuo2021-pelargonic)."""
    assert _harm(ask("pelargonic-acid", "1%", "1L"), "fish").value_mg_l == 31.14


@pytest.mark.parametrize("name", ["copper-sulfate", "copper-hydroxide", "copper-octanoate", "chelated-copper"])
def test_copper_is_never_a_spray_here(ask: Any, name: str) -> None:
    for alkalinity in (10.0, 300.0):
        assert ask(name, "0.1%", "100 mL", cover="moved", alkalinity=alkalinity).grade == "never"


def test_copper_is_worse_in_soft_water(ask: Any) -> None:
    soft = _harm(ask("copper-sulfate", None, "1 g", alkalinity=20.0), "fish").quotient_spilled
    hard = _harm(ask("copper-sulfate", None, "1 g", alkalinity=200.0), "fish").quotient_spilled
    assert soft is not None
    assert hard is not None
    assert soft > 5 * hard


def test_bare_iron_salt_is_no_chelate(ask: Any, treat: Any) -> None:
    assert ask("ferrous-sulfate", None, "10 g", cover="drench", ph=6.0).grade == "never"
    assert treat("ferrous-sulphate-dose") == "never"
    assert treat("iron-chelate-eddha") == treat("iron-chelate-dtpa") == "ok"


def test_peroxide_fails_the_filter_first(ask: Any) -> None:
    """Tilapia bore far more than the filter, which failed at 100 mg/L (schwartz2000)."""
    verdict = ask("hydrogen-peroxide", "3%", "4L", cover="drench")
    assert _harm(verdict, "filter").grade == "never"
    assert any("1.2 times the lowest level that slowed" in why for why in _harm(verdict, "filter").why)


@pytest.mark.parametrize(
    ("name", "amount", "strength"), [("milk", "10%", "5L"), ("ethanol", "70% vol", "1L"), ("sugar", None, "100 g")]
)
def test_food_and_alcohol_kill_by_taking_the_oxygen(ask: Any, name: str, amount: str | None, strength: str) -> None:
    water = _harm(ask(name, amount, strength), "water")
    assert water.grade not in ("ok", "keep-off-water")
    assert any("oxygen this water holds" in why for why in water.why)


def test_oil_is_a_film_whatever_its_lethal_level(ask: Any) -> None:
    assert "film" in " ".join(_harm(ask("horticultural-oil", "1%", "1L", cover="covered"), "water").why)


def test_mild_to_fish_and_deadly_to_shrimp(ask: Any) -> None:
    fish = ask("imidacloprid", "0.1 g/L", "100 mL", cover="moved")
    both = ask("imidacloprid", "0.1 g/L", "100 mL", "tilapia", "cherry-shrimp", cover="moved")
    assert _harm(fish, "fish").grade == _harm(both, "fish").grade != "never"
    assert _harm(both, "crustaceans").grade == both.grade == "never"


@pytest.mark.parametrize(
    "name",
    [
        "neem-spray", "garlic-chilli-spray", "sulphur-spray", "bt-kurstaki-spray", "bti-drench",
        "diatomaceous-earth-dust", "soap-spray", "oil-spray",
    ],
)  # fmt: skip
def test_the_milder_ones_may_be_used_with_care(treat: Any, name: str) -> None:
    assert treat(name) in ("keep-off-water", "away-from-system")


@pytest.mark.parametrize("name", ["predatory-mites-persimilis", "lacewing-larvae", "lady-beetles"])
def test_helpers_are_no_danger_to_any_animal(book: Book, treat: Any, name: str) -> None:
    assert treat(name, *book.animals) == "ok"


def test_instead_of_pyrethrins_something_alive_or_by_hand(book: Book) -> None:
    instead = choose_instead("pyrethrins", book.treatments)
    assert instead
    assert {book.treatments[name].kind for name in instead} <= {"by-hand", "biological", "housekeeping"}
