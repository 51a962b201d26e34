"""What a verdict says: the value behind its quotients, its reasons in order, and what was taken for granted."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from triage.model.facts import Graded, GuardFacts
from triage.model.outcome import Verdict
from triage.model.record import Sourced
from triage.model.rule import Grade
from triage.responses.grade import (
    HARMS,
    exposure_none,
    grade_substance,
    joined_grade,
    printed_value,
    unknown_verdict,
)
from triage.responses.setting import Assumptions, Plan, Water

TILAPIA, SHRIMP = "Oreochromis niloticus", "Neocaridina davidi"
NOTHING_ASKED = "No safety rule asks for more care."


def _asked(harm: str, grade: Grade, because: str, **told: Any) -> Graded:
    return Graded(rule=f"{harm}-{grade}", harm=harm, grade=grade, because=because, **told)  # type: ignore[arg-type]


def _grade(stuff: Any, plan: Plan, water: Water, assumed: Assumptions, *asked: Graded) -> Verdict:
    def guard(facts: GuardFacts) -> tuple[Graded, ...]:
        return asked

    return grade_substance(stuff, plan, water, assumed, guard)


def test_what_is_not_in_the_book_is_unknown_in_every_way() -> None:
    verdict = unknown_verdict("Bugzap", ["Nearest: soap."])
    said = "'Bugzap' is not in the book. Read the label and look the active ingredient up."
    assert (verdict.substance, verdict.grade, verdict.why) == ("Bugzap", "unknown", (said, "Nearest: soap."))
    assert [(harm.harm, harm.grade, harm.why) for harm in verdict.harms] == [(h, "unknown", (said,)) for h in HARMS]
    assert verdict.exposure == exposure_none()
    assert verdict.exposure.share_reaching_water == 1.0
    assert verdict.exposure.of == "product"
    assert unknown_verdict("Bugzap").why == (said,)


def test_the_value_behind_a_quotient_is_shown_with_its_source(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(
        kit.row(40, "Oreochromis aureus", bound="<", source="a-study", read="partly"),
        kit.row(3, SHRIMP, group="crustacean", test="EC50", unit="g/L"),
    )
    verdict = _grade(stuff, kit.plan(), kit.water(animals=(kit.tilapia, kit.shrimp)), assumed)
    fish, crustaceans, *others = verdict.harms
    counts = 40 / assumed.margin("group") / assumed.margin("upper-bound")
    assert (fish.harm, fish.species, fish.source, fish.verified) == ("fish", "Oreochromis aureus", "a-study", "partly")
    assert (fish.kind, fish.printed, fish.relation) == ("<LC50", "< 40 mg/L", "group")
    assert (fish.value_mg_l, fish.counts_mg_l) == (40, counts)
    assert fish.quotient_as_sprayed == pytest.approx(2.5 / counts)
    assert fish.quotient_spilled == pytest.approx(10 / counts)
    assert (crustaceans.harm, crustaceans.kind, crustaceans.printed) == ("crustaceans", "EC50", "3 g/L")
    assert (crustaceans.value_mg_l, crustaceans.relation) == (3000, "species")
    assert [harm.harm for harm in others] == ["filter", "water", "people"]
    assert all(harm.value_mg_l is None and harm.quotient_spilled is None for harm in others)


def test_without_crustaceans_nothing_is_said_of_them(kit: SimpleNamespace, assumed: Assumptions) -> None:
    verdict = _grade(kit.substance(kit.row(50)), kit.plan(), kit.water(), assumed)
    assert [harm.harm for harm in verdict.harms] == ["fish", "filter", "water", "people"]
    assert verdict.substance == "stuff"


@pytest.mark.parametrize(
    ("told", "printed"),
    [
        ({"value": 50.0}, "50 mg/L"),
        ({"value": 0.05, "high": 0.98, "basis": "metal"}, "0.05 to 0.98 mg/L as metal"),
        ({"value": 7.0, "bound": ">=", "unit": "µg/L"}, ">= 7 µg/L"),
        ({"value": 2.0, "basis": "plant-material"}, "2 mg/L as plant material"),
    ],
)
def test_a_value_is_printed_as_its_source_has_it(kit: SimpleNamespace, told: dict[str, Any], printed: str) -> None:
    assert printed_value(kit.row(**told)) == printed


def test_the_quotients_of_a_dose_are_those_of_the_dose(kit: SimpleNamespace, assumed: Assumptions) -> None:
    plan = Plan(amount=kit.plan(None, "10 g").amount, way="dosed")
    harmful = _grade(kit.substance(kit.row(200, TILAPIA)), plan, kit.water(), assumed).harms[0]
    assert harmful.quotient_as_sprayed == harmful.quotient_spilled == pytest.approx(0.05)
    assert harmful.counts_mg_l == 200
    borne = _grade(kit.substance(kit.row(400, bound=">")), plan, kit.water(), assumed).harms[0]
    assert borne.quotient_as_sprayed == borne.quotient_spilled == pytest.approx(0.025)
    assert (borne.kind, borne.counts_mg_l) == (">LC50", 400)


def test_the_reasons_of_the_strictest_grade_come_first_within_a_harm(
    kit: SimpleNamespace, assumed: Assumptions
) -> None:
    asked = (
        _asked("fish", "keep-off-water", "A little."), _asked("fish", "never", "Deadly.", sources=("a-study",)),
        _asked("filter", "never", "It stops."), _asked("fish", "away-from-system", "Some."),
        _asked("people", "ok", "Gloves."),
    )  # fmt: skip
    verdict = _grade(kit.substance(kit.row(50)), kit.plan(), kit.water(), assumed, *asked)
    fish = verdict.harms[0]
    assert (fish.grade, fish.why) == ("never", ("Deadly.", "Some.", "A little."))
    assert verdict.grade == "never"
    assert verdict.why == ("Deadly.", "Some.", "A little.", "It stops.")
    people = next(harm for harm in verdict.harms if harm.harm == "people")
    assert (people.grade, people.why) == ("ok", ("Gloves.",))
    assert [(f.rule, f.stage, f.because, f.facts, f.sources) for f in verdict.firings][1] == (
        "fish-never", "guard", "Deadly.", (), ("a-study",),
    )  # fmt: skip
    assert len(verdict.firings) == 5


def test_ok_says_the_quotients_of_the_animals(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(30_000, TILAPIA), kit.row(7000, "Daphnia magna", group="crustacean"))
    verdict = _grade(stuff, kit.plan(), kit.water(animals=(kit.tilapia, kit.shrimp)), assumed)
    assert verdict.why == (
        "0.000083 of the level that counts as planned, 0.00033 with all of it in the water; "
        f"that level comes from 30000 mg/L for {TILAPIA}.",
        "0.0018 of the level that counts as planned, 0.0071 with all of it in the water; "
        "that level comes from 7000 mg/L for Daphnia magna (another animal).",
    )


def test_ok_without_litres_has_no_quotient_to_say(kit: SimpleNamespace, assumed: Assumptions) -> None:
    verdict = _grade(kit.substance(kit.row(50)), kit.plan(), kit.water(None), assumed)
    assert verdict.why == (NOTHING_ASKED, "How much water the system holds is not known.")
    assert verdict.harms[0].value_mg_l == 50


def test_what_was_taken_for_granted_is_said_in_sentences(kit: SimpleNamespace, assumed: Assumptions) -> None:
    share = Sourced(value=0.2, unit="g per g", source="molar-mass")
    stuff = kit.substance(traits=["ammonia-releasing", "lowers-ph"], element_share=share)
    verdict = _grade(stuff, kit.plan(times=2), kit.water(), assumed)
    assert verdict.why == (
        NOTHING_ASKED,
        "How fast it breaks down is not known: repeated use adds up in full.",
        "Alkalinity was not measured: reckoned with 10 mg/L.",
        "pH and temperature were not measured: reckoned with an ammonia limit of 0.27 mg/L.",
    )


def test_a_mix_is_as_strict_as_its_strictest_part(kit: SimpleNamespace, assumed: Assumptions) -> None:
    stuff = kit.substance(kit.row(50))
    mild = _grade(stuff, kit.plan(), kit.water(), assumed, _asked("fish", "keep-off-water", "A film."))
    bad = _grade(stuff, kit.plan(), kit.water(), assumed, _asked("people", "never", "Banned."))
    assert joined_grade([mild, bad, mild]) == "never"
    assert joined_grade([]) == "ok"
