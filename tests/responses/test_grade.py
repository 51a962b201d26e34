"""Grades by the safety rules of the book: single cases, and the laws that no rule may break."""

from __future__ import annotations

from itertools import pairwise
from types import SimpleNamespace
from typing import Any

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from triage.model.facts import Graded, GuardFacts
from triage.model.outcome import HarmVerdict, Verdict
from triage.model.record import Sourced
from triage.model.rule import Grade
from triage.model.substance import FilterEffect, Substance
from triage.responses.amounts import Amount, Strength
from triage.responses.grade import Guard, grade_substance, strictest
from triage.responses.setting import Assumptions, Plan, Water

#: Unknown is treated like never until the label is read.
RANK: dict[Grade, int] = {"ok": 0, "keep-off-water": 1, "away-from-system": 2, "unknown": 3, "never": 3}
TILAPIA, TROUT, DAPHNIA = "Oreochromis niloticus", "Oncorhynchus mykiss", "Daphnia magna"


@pytest.fixture(scope="module")
def grade(guard: Guard, assumed: Assumptions) -> Any:
    def run(stuff: Substance, plan: Plan, water: Water) -> Verdict:
        return grade_substance(stuff, plan, water, assumed, guard)

    return run


def _harm(verdict: Verdict, name: str) -> HarmVerdict:
    return next(harm for harm in verdict.harms if harm.harm == name)


def _tested(**others: Any) -> dict[str, Any]:
    """What leaves the filter out of the question."""
    row = FilterEffect(effect="none-seen", source="our-judgement", read="seen")
    return {"filter": [row], **others}


# -- single cases ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (5, "never"),  # 2.5 mg/L as sprayed: 0.5
        (5.01, "away-from-system"),
        (25, "away-from-system"),  # 0.1
        (25.1, "keep-off-water"),
        (50, "keep-off-water"),  # 0.05
        (100, "keep-off-water"),  # 0.025, and 0.1 spilled
        (100.1, "ok"),
    ],
)
def test_the_levels_of_concern(kit: SimpleNamespace, grade: Any, value: float, expected: Grade) -> None:
    stuff = kit.substance(kit.row(value, TILAPIA), **_tested())
    verdict = grade(stuff, kit.plan(), kit.water())
    assert verdict.grade == expected
    assert _harm(verdict, "fish").quotient_as_sprayed == pytest.approx(2.5 / value)
    assert _harm(verdict, "fish").quotient_spilled == pytest.approx(10 / value)


@pytest.mark.parametrize(
    ("value", "cover", "expected"),
    [
        (10, "covered", "keep-off-water"),  # spilled 1
        (2, "covered", "away-from-system"),  # spilled 5
        (2, "moved", "away-from-system"),
        (1.01, "moved", "away-from-system"),
    ],
)
def test_the_limits_of_a_spill(kit: SimpleNamespace, grade: Any, value: float, cover: str, expected: Grade) -> None:
    stuff = kit.substance(kit.row(value, TILAPIA), **_tested())
    assert grade(stuff, kit.plan(cover=cover), kit.water()).grade == expected


def test_a_hundredth_too_much_is_never(kit: SimpleNamespace, grade: Any) -> None:
    stuff = kit.substance(kit.row(2, TILAPIA), **_tested())
    verdict = grade(stuff, kit.plan("10%", cover="moved"), kit.water())
    assert (verdict.grade, _harm(verdict, "fish").quotient_spilled) == ("never", pytest.approx(50))


@pytest.mark.parametrize(("value", "best"), [(0.0999, "never"), (0.1, "away-from-system"), (0.999, "away-from-system")])
def test_bands_hold_at_any_dose(kit: SimpleNamespace, grade: Any, value: float, best: Grade) -> None:
    stuff = kit.substance(kit.row(1000, TILAPIA), kit.row(value, TROUT), **_tested())
    verdict = grade(stuff, kit.plan("1 mg/L", "1 mL", cover="moved"), kit.water(50_000))
    assert verdict.grade == best
    assert "toxic" in _harm(verdict, "fish").why[0]


def test_nothing_known_of_an_animal_is_unknown(kit: SimpleNamespace, grade: Any) -> None:
    stuff = kit.substance(kit.row(1000, TILAPIA), **_tested())
    assert grade(stuff, kit.plan(), kit.water()).grade == "ok"
    both = grade(stuff, kit.plan(), kit.water(animals=(kit.tilapia, kit.shrimp)))
    assert both.grade == "unknown"
    assert _harm(both, "crustaceans").value_mg_l is None
    assert _harm(both, "fish").grade == "ok"


def test_recalled_values_alone_let_nothing_stay_in_place(kit: SimpleNamespace, grade: Any) -> None:
    stuff = kit.substance(kit.row(1000, TILAPIA, read="memory"), **_tested())
    verdict = grade(stuff, kit.plan(), kit.water())
    assert verdict.grade == "away-from-system"
    assert _harm(verdict, "fish").verified == "memory"


def test_the_strictest_harm_decides_and_says_why(kit: SimpleNamespace, grade: Any) -> None:
    stuff = kit.substance(
        kit.row(1000, TILAPIA), traits=["film"],
        **_tested(oxygen_demand=Sourced(value=2.0, unit="g O2 per g", source="stoichiometry")),
    )  # fmt: skip
    verdict = grade(stuff, kit.plan(), kit.water(oxygen_mg_l=8.0))
    assert _harm(verdict, "fish").grade == "ok"
    assert verdict.grade == _harm(verdict, "water").grade == "away-from-system"
    assert verdict.why[0] == "As planned, bacteria that eat it would draw 0.625 times the oxygen this water holds."
    assert {firing.rule for firing in verdict.firings} >= {"oxygen-sprayed-away", "film-on-water"}


def test_ok_has_a_reason_too(kit: SimpleNamespace, grade: Any) -> None:
    verdict = grade(kit.substance(kit.row(1000, TILAPIA), **_tested()), kit.plan(), kit.water())
    assert _harm(verdict, "fish").why == (
        "0.0025 of the level that counts as planned, 0.01 with all of it in the water; "
        f"that level comes from 1000 mg/L for {TILAPIA}.",
    )
    assert _harm(verdict, "people").why == ("No safety rule asks for more care.",)


@pytest.mark.parametrize(
    ("trait", "least"),
    [
        ("banned-for-food", "never"), ("antibiotic", "never"), ("persistent", "away-from-system"),
        ("metal", "away-from-system"), ("stops-filter", "away-from-system"), ("not-for-water", "keep-off-water"),
        ("endocrine-or-anaesthetic", "away-from-system"), ("oxidiser", "keep-off-water"), ("film", "keep-off-water"),
        ("surfactant", "keep-off-water"), ("clouds-water", "keep-off-water"), ("slows-filter", "keep-off-water"),
        ("ammonia-releasing", "keep-off-water"), ("burns-people", "ok"), ("dust", "ok"),
    ],
)  # fmt: skip
def test_traits_ask_for_care(kit: SimpleNamespace, grade: Any, trait: str, least: Grade) -> None:
    stuff = kit.substance(kit.row(1e6, TILAPIA), traits=[trait], **_tested())
    verdict = grade(stuff, kit.plan("0.1%", "10 mL"), kit.water())
    assert verdict.grade == least
    assert any(
        harm.why != ("No safety rule asks for more care.",) for harm in verdict.harms if harm.harm != "fish"
    ) or (least != "ok")


def test_a_dose_is_graded_by_itself_and_its_tenfold(kit: SimpleNamespace, grade: Any) -> None:
    def of(grams: float, *, times: int = 1) -> Grade:
        plan = Plan(amount=Amount(grams=grams), times=times, every_days=1.0, way="dosed")
        return grade(kit.substance(kit.row(200), traits=["meant-for-water"]), plan, kit.water()).grade

    assert of(100) == "never"  # 0.5
    assert of(20) == "away-from-system"  # 0.1, tenfold 1
    assert of(19.9) == "ok"
    assert of(10, times=4) == "ok"  # 0.2 in all, each step safe


def test_acid_into_soft_water_is_refused(kit: SimpleNamespace, grade: Any) -> None:
    acid = kit.substance(
        kit.row(138), traits=["meant-for-water", "lowers-ph"],
        alkalinity_per_g=Sourced(value=-0.511, unit="g CaCO3 per g", source="stoichiometry"),
    )  # fmt: skip
    plan = Plan(amount=Amount(grams=6), way="dosed")
    hard = kit.water(readings=(kit.reading("alkalinity", 60),))
    assert grade(acid, plan, hard).grade == "ok"
    assert grade(acid, plan, kit.water(readings=(kit.reading("alkalinity", 20),))).grade == "never"
    assert grade(acid, plan, kit.water()).grade == "never"


def test_a_rule_can_only_make_it_stricter(kit: SimpleNamespace, assumed: Assumptions, guard: Guard) -> None:
    def lenient(facts: GuardFacts) -> tuple[Graded, ...]:
        return (*guard(facts), Graded(rule="mild", harm="fish", grade="ok", because="it is natural"))

    stuff = kit.substance(kit.row(0.01, TROUT))
    assert grade_substance(stuff, kit.plan(), kit.water(), assumed, lenient).grade == "never"


# -- laws --------------------------------------------------------------------------------------------------------------

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
