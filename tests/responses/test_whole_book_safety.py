"""Every substance and treatment of the book: nothing dangerous is offered, whatever the cover, water or animals."""

from __future__ import annotations

from itertools import product
from typing import Any

import msgspec
import pytest

from triage.book.load import Loaded
from triage.model.crop import Animal
from triage.model.outcome import Suspect, Verdict
from triage.model.rule import Grade
from triage.model.substance import Substance
from triage.responses.amounts import Amount, Strength
from triage.responses.endpoint import endpoint_of, to_mg_l
from triage.responses.grade import Guard, grade_substance
from triage.responses.respond import respond_to
from triage.responses.setting import Assumptions, Plan, Water

RANK: dict[Grade, int] = {"ok": 0, "keep-off-water": 1, "away-from-system": 2, "unknown": 3, "never": 3}
VOLUMES = (200.0, 1000.0, 50_000.0)
FILLINGS = ((0.001, 0.01), (5.0, 1.0), (100.0, 5.0))  # g/L, litres
COVERS = ("none", "covered", "moved")


@pytest.fixture(scope="module")
def substances(loaded: Loaded) -> list[Substance]:
    found = list(loaded.entries["substances"].values())
    assert len(found) >= 95
    return found


@pytest.fixture(scope="module")
def settled(loaded: Loaded) -> Assumptions:
    entries = loaded.entries
    return Assumptions(
        shares=entries["cover_shares"], margins=entries["margins"], animals=tuple(entries["animals"].values())
    )


@pytest.fixture(scope="module")
def herds(loaded: Loaded) -> list[tuple[Animal, ...]]:
    """No animals told, every kind of fish alone, and all animals together."""
    animals = list(loaded.entries["animals"].values())
    fish = [animal for animal in animals if animal.kind == "fish"]
    assert fish
    assert len(fish) < len(animals)
    return [(), *((animal,) for animal in fish), tuple(animals)]


def _plan(g_l: float, litres: float, **others: Any) -> Plan:
    return Plan(strength=Strength(value=g_l, unit="g/L"), amount=Amount(litres=litres), **others)


def _plainly_lowest(one: Substance, kinds: set[str]) -> float | None:
    """The lowest figure of the book, as it is printed, that did harm."""
    values = [
        value
        for row in one.toxicity
        if row.group in kinds and endpoint_of(row) not in (None, "tolerated")
        and (value := to_mg_l(row.value, row.unit, one)) is not None
    ]  # fmt: skip
    return min(values, default=None)


def test_very_highly_toxic_is_never_and_highly_toxic_never_in_place(
    substances: list[Substance], settled: Assumptions, herds: list[tuple[Animal, ...]], guard: Guard
) -> None:
    seen = set()
    for one, animals in product(substances, herds):
        crustaceans = not animals or any(animal.kind == "crustacean" for animal in animals)
        lowest = _plainly_lowest(one, {"fish", "crustacean"} if crustaceans else {"fish"})
        if lowest is None or lowest >= 1:
            continue
        for cover, volume, filling in product(COVERS, VOLUMES, FILLINGS):
            water = Water(volume_l=volume, animals=animals, oxygen_mg_l=9.0)
            grade = grade_substance(one, _plan(*filling, cover=cover), water, settled, guard).grade
            least = "never" if lowest < 0.1 else "away-from-system"
            assert RANK[grade] >= RANK[least], (one.substance, lowest, cover, volume, filling)
            assert lowest >= 0.1 or grade == "never", (one.substance, lowest)
        seen.add(one.substance)
    assert len(seen) > 30


def test_more_of_it_less_water_or_less_cover_is_never_milder(
    substances: list[Substance], settled: Assumptions, herds: list[tuple[Animal, ...]], guard: Guard
) -> None:
    for one, animals in product(substances, (herds[1], herds[-1])):
        grades: dict[tuple[int, int, int], Grade] = {}
        for (c, cover), (v, volume), (f, filling) in product(*(enumerate(x) for x in (COVERS, VOLUMES, FILLINGS))):
            water = Water(volume_l=volume, animals=animals, oxygen_mg_l=9.0)
            grades[c, v, f] = grade_substance(one, _plan(*filling, cover=cover), water, settled, guard).grade
        for (c, v, f), grade in grades.items():
            for better in ((c + 1, v, f), (c, v + 1, f), (c, v, f - 1)):
                if better in grades:
                    assert RANK[grades[better]] <= RANK[grade], (one.substance, (c, v, f), better)


def _verdict(one: Substance, settled: Assumptions, guard: Guard, animals: tuple[Animal, ...]) -> Verdict:
    water = Water(volume_l=1000, animals=animals, oxygen_mg_l=9.0)
    return grade_substance(one, _plan(5.0, 1.0, cover="covered"), water, settled, guard)


@pytest.mark.parametrize(
    "forget",
    [
        {"half_life_days": None}, {"oxygen_demand": None}, {"alkalinity_per_g": None},
        {"toxicity": [], "no_data": "", "spares": []}, {"element_share": None},
    ],
    ids=lambda forget: next(iter(forget)),
)  # fmt: skip
def test_forgetting_a_figure_is_never_milder(
    substances: list[Substance], settled: Assumptions, herds: list[tuple[Animal, ...]], guard: Guard,
    forget: dict[str, Any],
) -> None:  # fmt: skip
    for one in substances:
        before = _verdict(one, settled, guard, herds[-1]).grade
        after = _verdict(msgspec.structs.replace(one, **forget), settled, guard, herds[-1]).grade
        assert RANK[after] >= RANK[before], one.substance


def test_a_value_that_is_no_longer_read_is_never_milder(
    substances: list[Substance], settled: Assumptions, herds: list[tuple[Animal, ...]], guard: Guard
) -> None:
    for one in substances:
        before = _verdict(one, settled, guard, herds[-1]).grade
        for place in range(len(one.toxicity)):
            rows = list(one.toxicity)
            rows[place] = msgspec.structs.replace(rows[place], read="memory")
            recalled = msgspec.structs.replace(one, toxicity=rows)
            assert RANK[_verdict(recalled, settled, guard, herds[-1]).grade] >= RANK[before], one.substance


def test_every_number_shown_has_its_source(
    substances: list[Substance], settled: Assumptions, herds: list[tuple[Animal, ...]], guard: Guard, loaded: Loaded
) -> None:
    for one in substances:
        verdict = _verdict(one, settled, guard, herds[-1])
        for harm in verdict.harms:
            assert (harm.value_mg_l is None) == (harm.source == "")
            assert not harm.source or harm.source in loaded.entries["sources"]
        for firing in verdict.firings:
            assert set(firing.sources) <= set(loaded.entries["sources"])


def test_nothing_dangerous_is_offered_for_any_cause(
    loaded: Loaded, herds: list[tuple[Animal, ...]], guard: Guard
) -> None:
    book = loaded.book()
    for cause, animals in product(book.causes, (herds[0], herds[-1])):
        water = Water(volume_l=1000, animals=animals, oxygen_mg_l=8.0)
        suspects = [Suspect(cause=cause, probability=0.9, support=())]
        responses, avoided = respond_to(suspects, book, water, guard)
        assert not {response.grade for response in responses} & {"never", "unknown"}, cause
        assert not {r.treatment for r in responses} & {a.treatment for a in avoided}, cause
        assert all(entry.why for entry in avoided), cause
        offered = [response.treatment for response in responses]
        if book.causes[cause].kind == "water":  # in the order of the cause's own list: fish come first
            assert offered == [one for one in book.causes[cause].respond if one in offered], cause
            continue
        kinds = [book.treatments[one].kind for one in offered]
        order = ["by-hand", "biological", "housekeeping", "water", "spray"]
        assert kinds == sorted(kinds, key=order.index), cause


def test_pyrethroids_are_avoided_and_helpers_lead_against_mites(loaded: Loaded, guard: Guard) -> None:
    book = loaded.book()
    water = Water(volume_l=1000, animals=(book.animals["tilapia"],), oxygen_mg_l=8.0)
    suspects = [Suspect(cause="two-spotted-spider-mite", probability=0.9, support=())]
    responses, avoided = respond_to(suspects, book, water, guard)
    assert book.treatments[responses[0].treatment].kind == "by-hand"
    offered = [response.treatment for response in responses]
    assert offered.index("predatory-mites-persimilis") < offered.index("soap-spray")
    assert "oil-spray" in offered
    assert {a.treatment: a.grade for a in avoided}["abamectin-spray"] == "never"
