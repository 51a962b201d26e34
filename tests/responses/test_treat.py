"""Treatments graded as they use their substances."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from triage.model.outcome import Dose
from triage.model.record import Sourced
from triage.model.substance import FilterEffect
from triage.model.treatment import DoseOf, Treatment, Use
from triage.responses.dose import Refused
from triage.responses.grade import HARMS, Guard, joined_grade
from triage.responses.setting import Assumptions
from triage.responses.treat import grade_treatment, kept_verdict, plan_of

TESTED = [FilterEffect(effect="none-seen", source="our-judgement")]


def _treatment(**told: Any) -> Treatment:
    base: dict[str, Any] = {
        "treatment": "it", "kind": "spray", "name": "It", "plain": "", "substances": ["stuff"], "steps": ["do it"],
        "sources": ["our-judgement"], "status": "draft",
    }  # fmt: skip
    return Treatment(**{**base, **told})


def _use(**told: Any) -> Use:
    base: dict[str, Any] = {"strength": 10.0, "unit": "g/L", "cover": "none", "source": "our-judgement"}
    return Use(**{**base, **told})


def _dose(to: float = 2.0, most: float | None = 1.0) -> DoseOf:
    grams = Sourced(value=10, unit="g per mg/L per 1000 L", source="molar-mass", read="computed")
    return DoseOf(quantity="iron", product="powder", grams_per_unit_per_1000_l=grams, to=to, most_per_day=most)


def test_a_spray_is_graded_by_its_usual_use(kit: SimpleNamespace, assumed: Assumptions, guard: Guard) -> None:
    stuff = kit.substance(kit.row(50, "Oreochromis niloticus"), filter=TESTED)
    treated = grade_treatment(_treatment(use=_use()), {"stuff": stuff}, kit.water(), assumed, guard)
    assert joined_grade(treated.verdicts) == "keep-off-water"
    assert treated.verdicts[0].exposure.as_sprayed_mg_l == pytest.approx(2.5)
    assert not treated.dosed


def test_a_mix_is_as_strict_as_its_worst_part(kit: SimpleNamespace, assumed: Assumptions, guard: Guard) -> None:
    mild = kit.substance(kit.row(1e5, "Oreochromis niloticus"), filter=TESTED)
    bad = kit.substance(kit.row(0.01, "Oreochromis niloticus"))
    mix = _treatment(use=_use(), substances=["mild", "bad"])
    treated = grade_treatment(mix, {"mild": mild, "bad": bad}, kit.water(), assumed, guard)
    assert [verdict.grade for verdict in treated.verdicts] == ["ok", "never"]
    assert joined_grade(treated.verdicts) == "never"


def test_a_substance_that_is_not_in_the_book_is_unknown(
    kit: SimpleNamespace, assumed: Assumptions, guard: Guard
) -> None:
    treated = grade_treatment(_treatment(use=_use()), {}, kit.water(), assumed, guard)
    assert joined_grade(treated.verdicts) == "unknown"


def test_without_substances_nothing_is_graded(kit: SimpleNamespace, assumed: Assumptions, guard: Guard) -> None:
    treated = grade_treatment(_treatment(substances=[], kind="by-hand"), {}, kit.water(), assumed, guard)
    assert treated.verdicts == ()
    assert joined_grade(treated.verdicts) == "ok"


def test_without_use_or_dose_it_is_unknown(kit: SimpleNamespace, assumed: Assumptions, guard: Guard) -> None:
    stuff = kit.substance(kit.row(1e5, "Oreochromis niloticus"), filter=TESTED)
    treated = grade_treatment(_treatment(), {"stuff": stuff}, kit.water(), assumed, guard)
    assert joined_grade(treated.verdicts) == "unknown"
    assert any("How much is used is not known." in verdict.why for verdict in treated.verdicts)


def test_what_goes_into_the_water_is_scaled_and_arrives_wholly(kit: SimpleNamespace) -> None:
    acid = kit.substance(traits=["meant-for-water"])
    plan, _ = plan_of(_treatment(kind="water", use=_use()), acid, kit.water(250), None)
    assert plan.amount.litres == pytest.approx(0.25)
    assert plan.way == "dosed"
    poison, _ = plan_of(_treatment(kind="water", use=_use()), kit.substance(), kit.water(250), None)
    assert (poison.way, poison.cover) == ("sprayed", "drench")


def test_a_leaf_feed_of_a_nutrient_is_a_spray(kit: SimpleNamespace) -> None:
    plan, _ = plan_of(_treatment(use=_use()), kit.substance(traits=["meant-for-water"]), kit.water(), None)
    assert plan.way == "sprayed"


def test_a_dose_is_graded_by_its_daily_step(kit: SimpleNamespace, assumed: Assumptions, guard: Guard) -> None:
    stuff = kit.substance(kit.row(2000), traits=["meant-for-water"])
    here = kit.water(readings=(kit.reading("iron", 0.5),))
    treated = grade_treatment(_treatment(kind="water", dose=_dose()), {"stuff": stuff}, here, assumed, guard)
    assert isinstance(treated.dose, Dose)
    assert treated.dosed
    assert treated.dose.days == 2
    assert treated.verdicts[0].exposure.as_sprayed_mg_l == pytest.approx(15)
    plan, _ = plan_of(_treatment(kind="water", dose=_dose()), stuff, here, treated.dose)
    assert plan.amount.grams == pytest.approx(7.5)


def test_of_a_metal_the_water_already_counts(kit: SimpleNamespace, assumed: Assumptions, guard: Guard) -> None:
    stuff = kit.substance(kit.row(2000), traits=["meant-for-water", "metal"])
    here = kit.water(readings=(kit.reading("iron", 0.5),))
    treated = grade_treatment(_treatment(kind="water", dose=_dose()), {"stuff": stuff}, here, assumed, guard)
    assert treated.verdicts[0].exposure.as_sprayed_mg_l == pytest.approx(20)


def test_a_dose_that_cannot_be_told_is_graded_as_the_whole_way(
    kit: SimpleNamespace, assumed: Assumptions, guard: Guard
) -> None:
    stuff = kit.substance(kit.row(2000), traits=["meant-for-water"])
    treated = grade_treatment(_treatment(kind="water", dose=_dose()), {"stuff": stuff}, kit.water(None), assumed, guard)
    assert isinstance(treated.dose, Refused)
    assert joined_grade(treated.verdicts) == "ok"
    assert treated.verdicts[0].exposure.as_sprayed_mg_l == pytest.approx(20)


def test_a_dose_is_a_step_each_day_whatever_is_known(kit: SimpleNamespace) -> None:
    metal = kit.substance(traits=["meant-for-water", "metal"])
    treatment = _treatment(kind="water", dose=_dose())
    told = Dose(what="powder", grams=12.0, low_grams=12.0, high_grams=12.0, steps=(), days=3)
    plan, where = plan_of(treatment, metal, kit.water(1000), told)
    assert (plan.amount.grams, plan.times, plan.every_days, plan.way) == (4.0, 3, 1.0, "dosed")
    assert (plan.already_g, where.volume_l) == (8.0, 1000)  # 20 g make the target, 12 of them are still missing
    untold, where = plan_of(treatment, metal, kit.water(None), None)
    assert (untold.amount.grams, untold.times, untold.every_days, untold.way) == (10.0, 2, 1.0, "dosed")
    assert (untold.already_g, where.volume_l) == (0.0, 1000)
    assert where.animals == (kit.tilapia,)


def test_nothing_is_there_already_where_the_whole_way_is_dosed(kit: SimpleNamespace) -> None:
    metal = kit.substance(traits=["meant-for-water", "metal"])
    for grams in (20.0, 25.0):
        told = Dose(what="powder", grams=grams, low_grams=grams, high_grams=grams, steps=(), days=1)
        plan, _ = plan_of(_treatment(kind="water", dose=_dose()), metal, kit.water(1000), told)
        assert plan.already_g == 0.0


def test_the_use_of_a_spray_is_taken_over_as_it_stands(kit: SimpleNamespace) -> None:
    use = _use(amount_l=2.5, cover="covered", times=3, every_days=5.0)
    plan, where = plan_of(_treatment(use=use), kit.substance(), kit.water(250), None)
    assert plan.strength is not None
    assert (plan.strength.value, plan.strength.unit, plan.strength.of) == (10.0, "g/L", "active")
    assert (plan.amount.litres, plan.cover, plan.times, plan.every_days) == (2.5, "covered", 3, 5.0)
    assert where == kit.water(250)
    unknown, _ = plan_of(_treatment(kind="water", use=use), kit.substance(), kit.water(None), None)
    assert unknown.amount.litres == 2.5  # as for the thousand litres it is written for


def test_a_hazard_that_is_not_dissolved_keeps_its_own_grade(
    kit: SimpleNamespace, assumed: Assumptions, guard: Guard
) -> None:
    foil = _treatment(kind="by-hand", substances=[], keep="keep-off-water", keep_because="Wet copper gives copper off.")
    treated = grade_treatment(foil, {}, kit.water(), assumed, guard)
    assert treated.verdicts == (kept_verdict(foil),)
    verdict = kept_verdict(foil)
    assert (verdict.substance, verdict.grade, verdict.why) == (
        "it",
        "keep-off-water",
        ("Wet copper gives copper off.",),
    )
    assert [(harm.harm, harm.grade, harm.why) for harm in verdict.harms] == [
        (harm, "keep-off-water", ("Wet copper gives copper off.",)) for harm in HARMS
    ]
    assert verdict.exposure.as_sprayed_mg_l is None
    unsaid = kept_verdict(_treatment(substances=[], keep="away-from-system"))
    assert unsaid.why == ("Nothing of it is dissolved in the water.",)


def test_lye_is_dosed_by_what_it_does_to_ph(kit: SimpleNamespace, assumed: Assumptions, guard: Guard) -> None:
    """Twenty-one days in water of 20 mg/L at pH 7; a bicarbonate takes ten, by its usual step."""
    grams = Sourced(value=1.121, unit="g per mg/L per 1000 L", source="molar-mass", read="computed")
    dose = DoseOf(quantity="alkalinity", product="powder", grams_per_unit_per_1000_l=grams, to=60.0, most_per_day=4.0)
    here = kit.water(readings=(kit.reading("alkalinity", 20), kit.reading("ph", 7.0)))

    def days(*traits: str) -> int:
        book = {"stuff": kit.substance(traits=[*traits, "meant-for-water"])}
        found = grade_treatment(_treatment(kind="water", dose=dose), book, here, assumed, guard).dose
        assert isinstance(found, Dose)
        return found.days

    assert days("raises-ph", "burns-people") == 21
    assert days("raises-ph") == 10


def test_a_dose_of_nothing_in_the_book_is_reckoned_all_the_same(
    kit: SimpleNamespace, assumed: Assumptions, guard: Guard
) -> None:
    here = kit.water(readings=(kit.reading("iron", 0.5),))
    treated = grade_treatment(_treatment(kind="water", dose=_dose(), substances=[]), {}, here, assumed, guard)
    assert isinstance(treated.dose, Dose)
    assert (treated.verdicts, treated.dosed) == ((), False)


def test_a_treatment_that_says_nothing_of_its_use_has_no_amount(kit: SimpleNamespace) -> None:
    plan, where = plan_of(_treatment(), kit.substance(), kit.water(250), None)
    assert (plan.way, plan.amount, plan.strength, where.volume_l) == ("sprayed", None, None, 250)
    into_water, _ = plan_of(_treatment(kind="water"), kit.substance(traits=["meant-for-water"]), kit.water(), None)
    assert into_water.way == "dosed"


def test_a_part_that_is_not_in_the_book_leaves_the_others_graded(
    kit: SimpleNamespace, assumed: Assumptions, guard: Guard
) -> None:
    mild = kit.substance(kit.row(1e5, "Oreochromis niloticus"), filter=TESTED)
    mix = _treatment(use=_use(), substances=["gone", "mild"])
    treated = grade_treatment(mix, {"mild": mild}, kit.water(), assumed, guard)
    assert [verdict.grade for verdict in treated.verdicts] == ["unknown", "ok"]
    assert treated.verdicts[0].substance == "gone"
    assert not treated.dosed


def test_one_part_put_into_the_water_makes_it_a_dose(kit: SimpleNamespace, assumed: Assumptions, guard: Guard) -> None:
    parts = {"acid": kit.substance(traits=["meant-for-water"]), "dye": kit.substance()}
    mix = _treatment(kind="water", use=_use(), substances=["dye", "acid"])
    assert grade_treatment(mix, parts, kit.water(), assumed, guard).dosed
