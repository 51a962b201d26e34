"""What the rules on weather, air, place and handling say: what fires, what it moves, and what keeps it quiet."""

from __future__ import annotations

from math import prod
from typing import Any

import pytest

from triage.model.case import System
from triage.model.facts import RulesOutcome

Bench = Any


def drawn(outcome: RulesOutcome) -> set[str]:
    return {conclusion.id for conclusion in outcome.conclusions}


def moved(outcome: RulesOutcome, cause: str) -> float:
    return prod(one.factor for one in outcome.favoured if one.cause == cause)


@pytest.mark.parametrize(
    ("seen", "absent", "readings", "crop", "conclusion"),
    [
        ("does-not-spread came-overnight", "", "", "", "struck-once"),
        ("sprayed-plants heat-wave", "", "", "", "sprayed-at-a-bad-time"),
        ("sprayed-plants", "", "air-temperature=33C", "", "sprayed-at-a-bad-time"),
        ("treated-manure-or-straw strap-leaves", "", "", "tomato", "weedkiller-suspected"),
        ("cold-spell", "", "", "basil", "cold-for-this-crop"),
        ("", "", "air-temperature=0C", "kale", "frost"),
        ("cold-spell", "", "", "pak-choi", "cold-told-it-to-flower"),
        ("heat-wave full-grown-plants", "", "", "lettuce", "heat-makes-leaves-flower"),
        ("pruned-lately heat-wave", "", "", "pepper", "fruit-lost-its-shade"),
        ("wilts-in-sun-recovers roots-white-healthy heat-wave", "", "", "chard", "rests-at-midday"),
        ("fast-growth", "", "humidity=93%", "lettuce", "heart-outgrows-calcium"),
        ("root-zone-soaked dull-weather air-humid-still", "", "", "cabbage", "water-pushed-into-leaves"),
        ("", "", "tan=8mg/L", "tomato", "ammonium-keeps-calcium-out"),
        ("some-pipes-only root-zone-dry wilting", "", "", "", "one-line-is-blocked"),
        ("roots-stained-firm water-tea-coloured", "", "", "", "stained-not-rotten"),
        ("transplanted-lately plant-stunted stem-firm-outside", "", "", "", "settling-in"),
        ("hollow-stem growing-point-dead", "", "", "broccoli", "hollow-and-brown"),
        ("hollow-stem fast-growth", "corky-cracked-stem", "", "broccoli", "hollow-but-clean"),
        ("oldest-leaves-first otherwise-vigorous", "spreads-within-days", "", "", "only-old-leaves-go"),
    ],
)
def test_two_things_together_are_drawn(
    bench: Bench, seen: str, absent: str, readings: str, crop: str, conclusion: str
) -> None:
    assert conclusion in drawn(bench.run(seen, absent, readings, crop))


@pytest.mark.parametrize(
    ("seen", "crop", "conclusion"),
    [
        ("cold-spell", "kale", "cold-for-this-crop"),
        ("fast-growth", "lettuce", "heart-outgrows-calcium"),
        ("wilts-in-sun-recovers heat-wave", "chard", "rests-at-midday"),
        ("sprayed-plants", "basil", "sprayed-at-a-bad-time"),
        ("oldest-leaves-first otherwise-vigorous", "", "only-old-leaves-go"),
    ],
)
def test_one_thing_alone_is_not_enough(bench: Bench, seen: str, crop: str, conclusion: str) -> None:
    assert conclusion not in drawn(bench.run(seen, crop=crop))


def test_a_burner_beside_suffering_plants_is_an_alarm_and_first_about_people(bench: Bench) -> None:
    alarms = bench.run("heater-or-fumes leaf-stalks-bend-down").alarms
    assert [alarm.id for alarm in alarms] == ["burner-gas-alarm"]
    assert "carbon monoxide" in alarms[0].say
    assert "doors" in alarms[0].do[0]
    assert not bench.run("heater-or-fumes").alarms


def test_humidity_counts_only_from_ninety_percent(bench: Bench) -> None:
    assert "sap-stands-still" in drawn(bench.run("", "", "humidity=90%"))
    assert "sap-stands-still" not in drawn(bench.run("", "", "humidity=85%"))


def test_ammonium_limit_is_half_a_millimole(bench: Bench) -> None:
    """Ammonium at fruit roots stays below 0.5 mmol/L (kno3-ammonium-calcium); nitrogen has 14.007 g/mol."""
    limit = 0.5 * 14.007
    assert moved(bench.run("", "", f"tan={limit - 0.1:.2f}mg/L", "tomato"), "blossom-end-rot") == pytest.approx(1.0)
    assert moved(bench.run("", "", f"tan={limit + 0.1:.2f}mg/L", "tomato"), "blossom-end-rot") > 1.0


def test_mild_air_speaks_against_heat_and_hot_air_for_it(bench: Bench) -> None:
    """Flowers fail above 32 °C by day (utah-state-abiotic-news)."""
    assert moved(bench.run("", "heat-wave", "air-temperature=24C", "tomato"), "heat-stress-blossom-drop") < 1.0
    assert moved(bench.run("", "", "air-temperature=34C", "tomato"), "heat-stress-blossom-drop") > 1.0


def test_no_weedkiller_needs_all_three_ways_ruled_out(bench: Bench) -> None:
    two = bench.run("", "neighbour-sprayed treated-manure-or-straw")
    three = bench.run("", "neighbour-sprayed treated-manure-or-straw sprayed-plants")
    assert moved(two, "herbicide-injury") == pytest.approx(1.0)
    assert moved(three, "herbicide-injury") < 0.2


@pytest.mark.parametrize(("place", "cause"), [("outdoors", "ethylene-injury"), ("indoors", "ozone-injury")])
def test_the_place_rules_some_air_damage_nearly_out(bench: Bench, place: str, cause: str) -> None:
    assert moved(bench.run("leaf-spots", system=System(place=place)), cause) < 0.2


def test_what_stands_under_a_raft_did_not_run_dry(bench: Bench) -> None:
    raft = System(beds="raft")
    never_dry = bench.run("wilting", "root-zone-dry ran-dry-lately", system=raft)
    dry_now = bench.run("wilting root-zone-dry", "ran-dry-lately", system=raft)
    assert moved(never_dry, "drought-wilt") < 0.2
    assert moved(dry_now, "drought-wilt") == pytest.approx(1.0)


def test_pollen_is_carried_only_where_flowers_fail_and_heat_is_not_to_blame(bench: Bench) -> None:
    suspects = {"poor-fruit-set": 0.5}
    told = bench.run("flowers-not-visited young-fruit-drops", crop="courgette", suspects=suspects)
    assert "pollinate-by-hand" in dict(told.offered)
    hot = bench.run("flowers-not-visited young-fruit-drops", "", "air-temperature=35C", "courgette", suspects=suspects)
    assert "pollinate-by-hand" not in dict(hot.offered)
