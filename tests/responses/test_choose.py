"""Which treatments are offered, in which order, and which are left alone."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.cause import Cause
from triage.model.crop import Crop
from triage.model.outcome import Avoided, Dose, Exposure, Response, Suspect, Verdict
from triage.model.record import Sourced
from triage.model.rule import GRADES, Grade
from triage.model.treatment import Against, Conflict, Treatment
from triage.responses.choose import (
    choose_instead,
    choose_responses,
    final_check,
    leading_suspects,
    list_candidates,
)
from triage.responses.dose import Refused
from triage.responses.fit import Circumstances
from triage.responses.treat import Treated

HERE = Circumstances()


def _suspect(cause: str, probability: float) -> Suspect:
    return Suspect(cause=cause, probability=probability, support=())


def _cause(name: str, *respond: str) -> Cause:
    return Cause(
        cause=name, kind="pest", name=name.title(), plain="", base="common", shows={}, settle=[], respond=list(respond),
        sources=["our-judgement"], status="draft",
    )  # fmt: skip


def _treatment(name: str, kind: str = "spray", works: str | None = "well", **told: Any) -> Treatment:
    against = {} if works is None else {"mites": Against(works=works, source="our-judgement")}  # type: ignore[arg-type]
    base: dict[str, Any] = {
        "substances": ["stuff"] if kind in ("spray", "water") else [], "against": against, "steps": ["do it"],
        "sources": ["our-judgement"],
    }  # fmt: skip
    return Treatment(
        treatment=name, kind=kind, name=name.title(), plain="", status="draft",  # type: ignore[arg-type]
        **{**base, **told},
    )  # fmt: skip


def _graded(grade: Grade, **told: Any) -> Treated:
    exposure = Exposure(as_sprayed_mg_l=1, spilled_mg_l=1, share_reaching_water=1, volume_l=1000, of="active")
    verdict = Verdict(substance="stuff", grade=grade, why=(f"because of {grade}",), exposure=exposure, harms=())
    return Treated(verdicts=(verdict,), **told)


def _choose(
    treatments: list[Treatment], grades: dict[str, Treated], named: list[str] | None = None, **told: Any
) -> Any:
    by_id = {treatment.treatment: treatment for treatment in treatments}
    causes = {"mites": _cause("mites", *(named if named is not None else by_id))}
    return choose_responses(
        [_suspect("mites", 0.8)], causes, by_id, {**{i: Treated() for i in by_id}, **grades},
        told.pop("here", HERE), **told,
    )  # fmt: skip


def test_by_hand_first_then_biological_housekeeping_water_and_the_mildest_spray() -> None:
    kinds = ["spray", "water", "housekeeping", "biological", "by-hand"]
    treatments = [_treatment(f"some-{kind}", kind) for kind in kinds]
    responses, avoided = _choose(treatments, {})
    assert [response.treatment for response in responses] == [f"some-{kind}" for kind in reversed(kinds)]
    assert avoided == ()


def test_a_milder_spray_goes_first_and_one_that_hardly_works_last() -> None:
    treatments = [_treatment("strict"), _treatment("mild"), _treatment("weak", works="little")]
    grades = {"strict": _graded("away-from-system"), "mild": _graded("keep-off-water"), "weak": _graded("ok")}
    responses, _ = _choose(treatments, grades)
    assert [response.treatment for response in responses] == ["mild", "strict", "weak"]
    assert responses[0].why == ("Works well against mites.", "because of keep-off-water")


def test_what_works_better_goes_first_among_equals() -> None:
    treatments = [_treatment("half", works="partly"), _treatment("whole"), _treatment("unsaid", works=None)]
    responses, _ = _choose(treatments, {t.treatment: _graded("ok") for t in treatments})
    assert [response.treatment for response in responses] == ["whole", "half", "unsaid"]


@pytest.mark.parametrize("grade", ["never", "unknown"])
def test_never_and_unknown_are_left_alone_with_the_reason(grade: Grade) -> None:
    responses, avoided = _choose([_treatment("bad")], {"bad": _graded(grade)})
    assert responses == ()
    assert [(a.treatment, a.grade, a.why) for a in avoided] == [("bad", grade, (f"because of {grade}",))]


def test_tempting_sprays_that_nobody_named_are_warned_of() -> None:
    treatments = [_treatment("rinse", "by-hand"), _treatment("tempting"), _treatment("harmless")]
    grades = {"tempting": _graded("never"), "harmless": _graded("ok")}
    responses, avoided = _choose(treatments, grades, ["rinse"])
    assert [response.treatment for response in responses] == ["rinse"]
    assert [a.treatment for a in avoided] == ["tempting"]


def test_what_was_not_graded_is_unknown() -> None:
    by_id = {"some": _treatment("some")}
    responses, avoided = choose_responses([_suspect("mites", 0.8)], {"mites": _cause("mites", "some")}, by_id, {}, HERE)
    assert responses == ()
    assert [a.grade for a in avoided] == ["unknown"]
    assert avoided[0].why == ("'Some' is not in the book. Read the label and look the active ingredient up.",)


@pytest.mark.parametrize("grade", ["keep-off-water", "away-from-system"])
def test_a_dose_that_must_stay_out_of_the_water_is_not_offered(grade: Grade) -> None:
    responses, avoided = _choose([_treatment("salt", "water")], {"salt": _graded(grade, dosed=True)})
    assert responses == ()
    assert [a.treatment for a in avoided] == ["salt"]


def test_a_pointless_dose_is_left_alone_and_a_missing_reading_is_asked_for() -> None:
    pointless = Refused(why="it holds to pH 7", pointless=True)
    missing = Refused(why="measure iron first", pointless=False)
    treatments = [_treatment("edta", "water"), _treatment("eddha", "water")]
    responses, avoided = _choose(
        treatments, {"edta": _graded("ok", dose=pointless), "eddha": _graded("ok", dose=missing)}
    )
    assert [(a.treatment, a.why) for a in avoided] == [("edta", ("it holds to pH 7",))]
    assert [(r.treatment, r.dose, r.cautions) for r in responses] == [("eddha", None, ("measure iron first",))]


def test_rules_offer_and_set_aside() -> None:
    treatments = [_treatment("rinse", "by-hand"), _treatment("shade", "housekeeping", None)]
    responses, avoided = _choose(
        treatments, {}, ["rinse"], offered={"shade": ("it is hot",)}, set_aside={"rinse": ("the leaves are burnt",)}
    )
    assert [(r.treatment, r.why) for r in responses] == [("shade", ("it is hot",))]
    assert [(a.treatment, a.why) for a in avoided] == [("rinse", ("the leaves are burnt",))]


def test_a_crop_that_burns_and_a_climate_that_does_not_fit(kit: SimpleNamespace) -> None:
    crop = Crop(crop="basil", name="Basil", kind="herb", sensitive=["stuff"], sources=[])
    mites = _treatment("predators", "biological", climate={"temperature": [15, 30], "humidity": [60, 90]})
    cold = Circumstances(crop=crop, readings=(kit.reading("air-temperature", 9),))
    _, avoided = _choose([_treatment("oil"), mites], {"oil": _graded("ok")}, here=cold)
    assert {a.treatment: a.why for a in avoided} == {
        "oil": ("stuff burns basil.",),
        "predators": ("It works at 15 to 30 (air temperature); here it is 9.",),
    }
    unsure = Circumstances(readings=(kit.reading("air-temperature", 14, 13, 16),))
    responses, _ = _choose([mites], {}, here=unsure)
    assert [r.treatment for r in responses] == ["predators"]


def test_conflicts_are_said_on_both_sides() -> None:
    conflict = [Conflict(treatment="soap", why="It kills them.", days=3)]
    treatments = [_treatment("predators", "biological", conflicts=conflict), _treatment("soap")]
    responses, _ = _choose(treatments, {"soap": _graded("ok")})
    assert responses[0].cautions == ("Not together with 'Soap': It kills them. Leave 3 days between.",)
    assert responses[1].cautions == ("Not together with 'Predators': It kills them. Leave 3 days between.",)


def test_people_and_the_wait_before_harvest_come_along(kit: SimpleNamespace) -> None:
    stuff = kit.substance(people=["goggles"], harvest_wait_days=Sourced(value=2.5, unit="days", source="our-judgement"))
    here = Circumstances(substances={"stuff": stuff})
    responses, _ = _choose(
        [_treatment("soap", cautions=["label first"], harvest_wait_days=1)], {"soap": _graded("ok")}, here=here
    )
    assert responses[0].cautions == ("label first", "goggles")
    assert responses[0].harvest_wait_days == 3


def test_a_response_carries_its_dose_steps_grade_and_sources() -> None:
    dose = Dose(what="powder", grams=10, low_grams=9, high_grams=11, steps=("in the sump",), days=2)
    listed = _treatment("salt", "water", steps=["one", "two"], sources=["a-guide", "our-judgement"])
    (found,), _ = _choose([listed], {"salt": _graded("ok", dose=dose, dosed=True)})
    assert (found.treatment, found.name, found.grade, found.works_for) == ("salt", "Salt", "ok", ("mites",))
    assert (found.dose, found.steps, found.sources) == (dose, ("one", "two"), ("a-guide", "our-judgement"))
    (spray,), _ = _choose([_treatment("soap")], {"soap": _graded("keep-off-water")})
    assert (spray.grade, spray.dose, spray.harvest_wait_days) == ("keep-off-water", None, None)


def test_all_reasons_against_it_are_told_each_once(kit: SimpleNamespace) -> None:
    crop = Crop(crop="basil", name="Basil", kind="herb", sensitive=["stuff"], sources=[])
    refused = Refused(why="it holds to pH 7", pointless=True)
    _, (avoided,) = _choose(
        [_treatment("oil")], {"oil": _graded("never", dose=refused)}, here=Circumstances(crop=crop),
        set_aside={"oil": ("too hot", "because of never")},
    )  # fmt: skip
    assert avoided.why == ("too hot", "because of never", "it holds to pH 7", "stuff burns basil.")
    assert (avoided.name, avoided.grade) == ("Oil", "never")


def test_a_suspect_a_third_as_likely_still_leads() -> None:
    assert len(leading_suspects([_suspect("a", 0.75), _suspect("b", 0.25)])) == 2
    assert len(leading_suspects([_suspect("a", 0.75), _suspect("b", 0.249)])) == 1


def test_what_leaves_by_the_last_check_says_why() -> None:
    (response,), _ = _choose([_treatment("soap")], {"soap": _graded("ok")})
    kept, (moved,) = final_check([response], [], {"soap": _graded("never")})
    assert kept == ()
    assert (moved.treatment, moved.name, moved.grade, moved.why) == ("soap", "Soap", "never", ("because of never",))
    _, (unknown,) = final_check([response], [], {})
    assert (unknown.grade, unknown.why) == ("unknown", ())
    before = [Avoided(treatment="x", name="X", grade="never", why=())]
    assert final_check([response], before, {"soap": _graded("ok")}) == ((response,), tuple(before))
    assert final_check([response], [], {"soap": _graded("keep-off-water", dosed=True)})[0] == ()


def test_only_leading_suspects_are_acted_on() -> None:
    suspects = [_suspect(name, p) for name, p in (("a", 0.05), ("b", 0.6), ("c", 0.3), ("d", 0.25), ("e", 0.6))]
    assert [suspect.cause for suspect in leading_suspects(suspects)] == ["b", "e", "c"]
    assert leading_suspects([]) == ()
    assert leading_suspects([_suspect("a", 0.0)]) == ()


def test_candidates_are_the_named_the_offered_and_the_tempting() -> None:
    treatments = {name: _treatment(name) for name in ("zebra", "named")}
    treatments |= {name: _treatment(name, works=None) for name in ("offered", "other")}
    causes = {"mites": _cause("mites", "named", "gone")}
    found = list_candidates([_suspect("mites", 0.9)], causes, treatments, ["offered"])
    assert found == ("named", "offered", "zebra")


@given(st.lists(st.tuples(st.sampled_from(GRADES), st.sampled_from(GRADES), st.booleans()), max_size=6))
def test_nothing_never_or_unknown_leaves_as_a_response(cases: list[tuple[Grade, Grade, bool]]) -> None:
    responses = [
        Response(
            treatment=f"t{place}", name="", grade=said, works_for=(), why=(), dose=None, steps=(), cautions=(),
            harvest_wait_days=None, sources=(),
        )
        for place, (said, _, _) in enumerate(cases)
    ]  # fmt: skip
    treated = {f"t{place}": _graded(grade) for place, (_, grade, known) in enumerate(cases) if known}
    kept, moved = final_check(responses, (), treated)
    bad = {"never", "unknown"}
    good = {f"t{p}" for p, (said, grade, known) in enumerate(cases) if known and not {said, grade} & bad}
    assert {response.treatment for response in kept} == good
    assert len(kept) + len(moved) == len(cases)


def test_instead_is_what_works_without_any_substance() -> None:
    treatments = {
        t.treatment: t
        for t in (
            _treatment("poison"),
            _treatment("other-spray", substances=["other"]),
            _treatment("predators", "biological"),
            _treatment("rinse", "by-hand", "partly"),
            _treatment("shade", "housekeeping", None),
        )
    }
    assert choose_instead("stuff", treatments) == ("rinse", "predators")
    assert choose_instead("nothing", treatments) == ()
