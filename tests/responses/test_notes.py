"""What is taken for granted is said."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from triage.model.quantity import Reading
from triage.model.record import Sourced
from triage.responses.notes import water_notes
from triage.responses.setting import Assumptions, Water
from triage.responses.toxicity import Lookup


def test_unmeasured_water_is_said(kit: SimpleNamespace, assumed: Assumptions) -> None:
    rows = [kit.row(value, conditions={"hardness": hard}) for value, hard in ((1.0, 20.0), (9.0, 200.0))]
    stuff = kit.substance(*rows, traits=["lowers-ph", "oxygen-eater"], depends_on=["hardness", "ph"])
    said = water_notes(Lookup(substance=stuff, water=kit.water(), assumed=assumed))
    assert said == (
        "alkalinity was not measured: reckoned with 10 mg/L",
        "neither oxygen nor temperature is known: reckoned with 4 mg/L of oxygen",
        "hardness was not measured: the strictest published water counts",
    )


def test_the_ammonia_limit_and_several_chemistries_are_said(kit: SimpleNamespace, assumed: Assumptions) -> None:
    rows = [
        kit.row(value, conditions={"hardness": hard, "ph": ph})
        for value, hard, ph in ((1.0, 20.0, 6.0), (9.0, 200.0, 8.0))
    ]
    share = Sourced(value=0.2, unit="g per g", source="molar-mass")
    stuff = kit.substance(
        *rows, traits=["ammonia-releasing"], element_share=share, depends_on=["temperature", "hardness", "ph"]
    )

    def said(*readings: Reading) -> tuple[str, ...]:
        return water_notes(Lookup(substance=stuff, water=kit.water(readings=readings), assumed=assumed))

    limit = "pH and temperature were not measured: reckoned with an ammonia limit of 0.27 mg/L"
    several = "hardness or ph was not measured: the strictest published water counts"
    assert said() == (limit, several)
    assert said(kit.reading("ammonia-acute-limit", 4)) == (several,)
    assert said(kit.reading("ph", 7)) == (limit,)
    assert said(kit.reading("temperature", 20)) == (limit, several)


def test_values_of_one_water_alone_cannot_be_placed_and_need_no_note(
    kit: SimpleNamespace, assumed: Assumptions
) -> None:
    rows = [kit.row(value, conditions={"hardness": 20.0}) for value in (1.0, 9.0)]
    stuff = kit.substance(*rows, depends_on=["hardness"])
    assert water_notes(Lookup(substance=stuff, water=kit.water(), assumed=assumed)) == ()


def test_each_figure_is_assumed_only_for_what_needs_it(kit: SimpleNamespace, assumed: Assumptions) -> None:
    def said(water: Water, **told: Any) -> tuple[str, ...]:
        return water_notes(Lookup(substance=kit.substance(kit.row(1), **told), water=water, assumed=assumed))

    base = {"alkalinity_per_g": Sourced(value=0.5, unit="g per g", source="stoichiometry")}
    eaten = {"oxygen_demand": Sourced(value=1.0, unit="g per g", source="stoichiometry")}
    assert said(kit.water(), **base) == ("alkalinity was not measured: reckoned with 10 mg/L",)
    assert said(kit.water(), traits=["raises-ph"]) == said(kit.water(), **base)
    oxygen = ("neither oxygen nor temperature is known: reckoned with 4 mg/L of oxygen",)
    assert said(kit.water(), **eaten) == said(kit.water(), traits=["oxygen-eater"]) == oxygen
    assert said(kit.water(readings=(kit.reading("oxygen", 6),)), **eaten) == ()
    assert said(kit.water(oxygen_mg_l=8.0), **eaten) == ()
    assert said(kit.water(), traits=["film", "ammonia-releasing"]) == ()


def test_measured_water_needs_no_note(kit: SimpleNamespace, assumed: Assumptions) -> None:
    rows = [kit.row(value, conditions={"hardness": hard}) for value, hard in ((1.0, 20.0), (9.0, 200.0))]
    stuff = kit.substance(*rows, traits=["lowers-ph", "oxygen-eater"], depends_on=["hardness"])
    readings = (kit.reading("alkalinity", 60), kit.reading("hardness", 80))
    here = kit.water(readings=readings, oxygen_mg_l=8.0)
    assert water_notes(Lookup(substance=stuff, water=here, assumed=assumed)) == ()
    assert water_notes(Lookup(substance=kit.substance(kit.row(1)), water=kit.water(), assumed=assumed)) == ()
