"""What is taken for granted is said."""

from __future__ import annotations

from types import SimpleNamespace

from triage.responses.notes import water_notes
from triage.responses.setting import Assumptions
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


def test_measured_water_needs_no_note(kit: SimpleNamespace, assumed: Assumptions) -> None:
    rows = [kit.row(value, conditions={"hardness": hard}) for value, hard in ((1.0, 20.0), (9.0, 200.0))]
    stuff = kit.substance(*rows, traits=["lowers-ph", "oxygen-eater"], depends_on=["hardness"])
    readings = (kit.reading("alkalinity", 60), kit.reading("hardness", 80))
    here = kit.water(readings=readings, oxygen_mg_l=8.0)
    assert water_notes(Lookup(substance=stuff, water=here, assumed=assumed)) == ()
    assert water_notes(Lookup(substance=kit.substance(kit.row(1)), water=kit.water(), assumed=assumed)) == ()
