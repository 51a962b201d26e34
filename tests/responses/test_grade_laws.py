"""Grades by the safety rules of the book: the laws that no rule may break."""

from __future__ import annotations

from itertools import pairwise
from types import SimpleNamespace
from typing import Any

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from triage.model.record import Sourced
from triage.model.rule import Grade
from triage.model.substance import FilterEffect, Substance
from triage.responses.amounts import Amount, Strength
from triage.responses.grade import strictest
from triage.responses.setting import Plan, Water

#: Unknown is treated like never until the label is read.
RANK: dict[Grade, int] = {"ok": 0, "keep-off-water": 1, "away-from-system": 2, "unknown": 3, "never": 3}
TILAPIA, TROUT, DAPHNIA = "Oreochromis niloticus", "Oncorhynchus mykiss", "Daphnia magna"


FREE_TRAITS = (
    "film", "surfactant", "salt", "chlorine", "metal", "persistent", "lowers-ph", "raises-ph", "oxygen-eater",
    "slows-filter", "clouds-water",
)  # fmt: skip
LAW = settings(deadline=None, max_examples=150, suppress_health_check=[HealthCheck.function_scoped_fixture])


def _magnitude(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high).map(lambda exponent: float(10**exponent))


@st.composite
def toxicity(draw: st.DrawFn, kit: SimpleNamespace) -> Any:
    group = draw(st.sampled_from(["fish", "crustacean"]))
    organisms = [TILAPIA, "Oreochromis aureus", TROUT, "fish"] if group == "fish" else [DAPHNIA, "Neocaridina davidi"]
    return kit.row(
        draw(_magnitude(-3, 5)), draw(st.sampled_from(organisms)), group=group,
        test=draw(st.sampled_from(["LC50", "LC50", "NOEC", "LC100", "tolerated"])),
        bound=draw(st.sampled_from(["=", "=", ">", "<"])), read=draw(st.sampled_from(["seen", "partly", "memory"])),
    )  # fmt: skip


@st.composite
def stuff(draw: st.DrawFn, kit: SimpleNamespace) -> Substance:
    def maybe(unit: str, low: float, high: float) -> Sourced | None:
        value = draw(st.none() | _magnitude(low, high))
        return None if value is None else Sourced(value=value, unit=unit, source="our-judgement")

    traits = draw(st.lists(st.sampled_from(FREE_TRAITS), max_size=3, unique=True))
    effect = st.builds(
        FilterEffect, effect=st.sampled_from(["none-seen", "slowed"]), at=st.none() | _magnitude(-1, 3),
        source=st.just("our-judgement"),
    )  # fmt: skip
    return kit.substance(
        *draw(st.lists(toxicity(kit), max_size=5)), traits=traits, half_life_days=maybe("days", -2, 2),
        oxygen_demand=maybe("g O2 per g", -1, 0.45) if "oxygen-eater" in traits else None,
        alkalinity_per_g=maybe("g CaCO3 per g", -1, 0.25) if {"lowers-ph", "raises-ph"} & set(traits) else None,
        filter=draw(st.lists(effect, max_size=2)),
    )  # fmt: skip


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    return Plan(
        strength=Strength(value=draw(_magnitude(-3, 2)), unit="g/L"), amount=Amount(litres=draw(_magnitude(-2, 1))),
        cover=draw(st.sampled_from(["none", "covered", "moved"])), times=draw(st.integers(1, 4)),
        every_days=draw(st.floats(1, 30)), way=draw(st.sampled_from(["sprayed", "sprayed", "dosed"])),
    )  # fmt: skip


@st.composite
def waters(draw: st.DrawFn, kit: SimpleNamespace) -> Water:
    animals = draw(st.sampled_from([(kit.tilapia,), (kit.tilapia, kit.shrimp), (kit.trout,), ()]))
    alkalinity = draw(st.none() | st.floats(10, 400))
    readings = () if alkalinity is None else (kit.reading("alkalinity", alkalinity),)
    return Water(
        volume_l=draw(_magnitude(2.3, 4.7)), animals=animals, readings=readings,
        oxygen_mg_l=draw(st.none() | st.floats(4, 12)),
    )  # fmt: skip


@pytest.fixture(scope="module")
def cases(kit: SimpleNamespace) -> st.SearchStrategy[tuple[Substance, Plan, Water]]:
    return st.tuples(stuff(kit), plans(), waters(kit))


def _not_milder(grade: Any, before: tuple[Substance, Plan, Water], after: tuple[Substance, Plan, Water]) -> None:
    first, second = grade(*before), grade(*after)
    assert RANK[second.grade] >= RANK[first.grade], (first.why, second.why)


@LAW
@given(data=st.data())
def test_more_toxic_is_never_milder(cases: Any, grade: Any, data: st.DataObject) -> None:
    one, plan, water = data.draw(cases)
    if one.toxicity:
        place = data.draw(st.integers(0, len(one.toxicity) - 1))
        worse = list(one.toxicity)
        worse[place] = msgspec.structs.replace(worse[place], value=worse[place].value * data.draw(st.floats(0.01, 1)))
        _not_milder(grade, (one, plan, water), (msgspec.structs.replace(one, toxicity=worse), plan, water))


@LAW
@given(data=st.data())
def test_more_of_it_is_never_milder(cases: Any, grade: Any, data: st.DataObject) -> None:
    one, plan, water = data.draw(cases)
    times = data.draw(st.floats(1, 50))
    stronger = Strength(value=plan.strength.value * times, unit="g/L")
    larger = Amount(litres=plan.amount.litres * times)
    for change in ({"strength": stronger}, {"amount": larger}, {"times": plan.times + 1}):
        _not_milder(grade, (one, plan, water), (one, msgspec.structs.replace(plan, **change), water))


@LAW
@given(data=st.data())
def test_less_water_softer_water_or_less_oxygen_is_never_milder(cases: Any, grade: Any, data: st.DataObject) -> None:
    one, plan, water = data.draw(cases)
    share = data.draw(st.floats(0.05, 1))
    worse = [{"volume_l": water.volume_l * share}]
    worse += [{"oxygen_mg_l": 4 + (water.oxygen_mg_l - 4) * share}] if water.oxygen_mg_l else []
    for reading in water.readings:
        softer = 10 + (reading.value - 10) * share
        worse.append({"readings": (msgspec.structs.replace(reading, value=softer, low=softer, high=softer),)})
    for change in worse:
        _not_milder(grade, (one, plan, water), (one, plan, msgspec.structs.replace(water, **change)))


@LAW
@given(data=st.data())
def test_a_better_cover_is_never_stricter(cases: Any, grade: Any, data: st.DataObject) -> None:
    one, plan, water = data.draw(cases)
    covers = [msgspec.structs.replace(plan, cover=cover) for cover in ("moved", "covered", "none", "nothing at all")]
    for better, worse in pairwise(covers):
        _not_milder(grade, (one, better, water), (one, worse, water))


@LAW
@given(data=st.data())
def test_less_knowledge_is_never_milder(cases: Any, grade: Any, data: st.DataObject) -> None:
    one, plan, water = data.draw(cases)
    less: list[tuple[Substance, Plan, Water]] = [
        (one, plan, msgspec.structs.replace(water, **change))
        for change in ({"volume_l": None}, {"readings": ()}, {"oxygen_mg_l": None}, {"animals": ()})
    ]
    less += [(one, msgspec.structs.replace(plan, **change), water) for change in ({"strength": None}, {"amount": None})]
    forgotten = [
        {"half_life_days": None},
        {"oxygen_demand": None},
        {"alkalinity_per_g": None},
        {"toxicity": [msgspec.structs.replace(row, read="memory") for row in one.toxicity]},
    ]
    forgotten += [{"toxicity": _recalled(one, place)} for place in range(len(one.toxicity))]
    # acids and bases in the water are judged by what they do to pH where nothing else is known of them
    if plan.way == "sprayed" or not {"lowers-ph", "raises-ph"} & set(one.traits):
        kinds = ["fish", "crustacean"] if water.crustaceans_kept else ["fish"]
        forgotten += [{"toxicity": [row for row in one.toxicity if row.group != kind]} for kind in kinds]
    less += [(msgspec.structs.replace(one, **change), plan, water) for change in forgotten]
    for after in less:
        _not_milder(grade, (one, plan, water), after)


def _recalled(one: Substance, place: int) -> list[Any]:
    """The rows with one of them no longer read in a source."""
    rows = list(one.toxicity)
    rows[place] = msgspec.structs.replace(rows[place], read="memory")
    return rows


@LAW
@given(data=st.data())
def test_a_recalled_value_more_is_never_milder_beside_one_that_was_read(
    kit: SimpleNamespace, cases: Any, grade: Any, data: st.DataObject
) -> None:
    one, plan, water = data.draw(cases)
    extra = msgspec.structs.replace(data.draw(toxicity(kit)), read="memory", test="LC50", bound="=")
    if plan.way == "sprayed" and any(row.group == extra.group and row.read != "memory" for row in one.toxicity):
        more = msgspec.structs.replace(one, toxicity=[*one.toxicity, extra])
        _not_milder(grade, (one, plan, water), (more, plan, water))


@LAW
@given(data=st.data())
def test_bands_hold_whatever_else_is_known(cases: Any, grade: Any, data: st.DataObject) -> None:
    one, plan, water = data.draw(cases)
    kinds = {"fish", "crustacean"} if water.crustaceans_kept else {"fish"}
    known = [row.value for row in one.toxicity if row.group in kinds and row.test != "tolerated"]
    if known and plan.way == "sprayed":
        verdict = grade(one, plan, water)
        if min(known) < 0.1:
            assert verdict.grade == "never"
        elif min(known) < 1:
            assert verdict.grade in ("away-from-system", "unknown", "never")


@given(st.lists(st.sampled_from(list(RANK))))
def test_strictest_is_one_of_them_and_none_is_stricter(grades: list[Grade]) -> None:
    found = strictest(grades)
    assert found == "ok" if not grades else found in grades
    assert all(RANK[found] >= RANK[grade] for grade in grades)
