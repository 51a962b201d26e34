"""What the rules on diseases say: damp air, airless roots, seed beds, wilts, carriers, spread and crop."""

from __future__ import annotations

from math import prod
from pathlib import Path
from typing import Any

import pytest

from triage.model.case import System
from triage.model.facts import RulesOutcome

KNOWLEDGE = Path(__file__).parents[2] / "knowledge"
GLASS = System(place="greenhouse")
Says = tuple[str, str, str, str]  # seen, absent, readings, crop


Bench = Any


def drawn(outcome: RulesOutcome) -> set[str]:
    return {conclusion.id for conclusion in outcome.conclusions}


def moved(outcome: RulesOutcome, cause: str) -> float:
    return prod(one.factor for one in outcome.favoured if one.cause == cause)


def offered(outcome: RulesOutcome) -> set[str]:
    return {treatment for treatment, _ in outcome.offered}


@pytest.mark.parametrize(
    ("says", "conclusion"),
    [
        (("", "", "humidity=90%", ""), "air-damp-for-moulds"),
        (("air-humid-still plants-crowded", "", "", ""), "air-damp-for-moulds"),
        (("air-humid-still cold-nights-hot-days", "", "", ""), "leaves-stay-wet"),
        (("cold-spell", "", "humidity=88%", ""), "spore-weather"),
        (("root-zone-soaked", "", "temperature=26", ""), "root-rot-weather"),
        (("water-warm air-weak limp-though-roots-wet", "", "", ""), "root-rot-at-work"),
        (("water-warm brown-root-tips", "", "oxygen=2.5mg/L", ""), "root-rot-at-work"),
        (("small-seedlings root-zone-soaked water-cold", "", "", ""), "cold-wet-seed-bed"),
        (("pruned-lately wet-weather", "", "", ""), "wounds-in-damp-air"),
    ],
)
def test_what_chains(bench: Bench, says: Says, conclusion: str) -> None:
    assert conclusion in drawn(bench.run(*says))


@pytest.mark.parametrize(
    ("says", "conclusion"),
    [
        (("", "", "humidity=70%", ""), "air-damp-for-moulds"),
        (("air-humid-still", "", "", ""), "air-damp-for-moulds"),
        (("root-zone-soaked", "", "temperature=20", ""), "root-rot-weather"),
        (("root-zone-soaked water-warm", "", "temperature=20", ""), "root-rot-weather"),
        (("water-warm", "", "", ""), "root-rot-weather"),
        (("root-zone-soaked water-cold", "", "", ""), "cold-wet-seed-bed"),
    ],
)
def test_what_does_not_chain(bench: Bench, says: Says, conclusion: str) -> None:
    assert conclusion not in drawn(bench.run(*says))


@pytest.mark.parametrize(
    ("says", "up", "down"),
    [
        # Rutgers: leaf mould does not occur below 85 percent relative humidity
        (("", "", "humidity=88%", "tomato"), "leaf-mould", ""),
        (("", "", "humidity=50%", "tomato"), "", "leaf-mould"),
        # Virginia Tech: humid nights bring downy mildew of basil
        (("air-humid-still cold-nights-hot-days", "", "", "basil"), "downy-mildew", ""),
        # UC IPM and Kansas State: warm root zone fusarium, cool root zone verticillium
        (("stem-brown-inside", "", "temperature=27", "tomato"), "fusarium-wilt", "verticillium-wilt"),
        (("stem-brown-inside", "", "temperature=16", "tomato"), "verticillium-wilt", "fusarium-wilt"),
        # Utah State, North Carolina State, Washington State: who carries what
        (("slender-insects ring-or-oak-leaf-patterns", "", "", "pepper"), "tomato-spotted-wilt-virus", ""),
        (("white-flies-fly-up leaves-cup-up", "", "", "tomato"), "yellow-leaf-curl-virus", ""),
        (("wedge-shaped-hoppers new-leaves-twisted", "", "", "lettuce"), "aster-yellows", ""),
        (("", "white-flies-fly-up still-pale-scales", "", "tomato"), "", "yellow-leaf-curl-virus"),
        # University of Maryland: spray marks do not spread, diseases do
        (("leaf-spots does-not-spread", "", "", "tomato"), "", "early-blight"),
        (("full-grown-plants", "", "", "lettuce"), "", "damping-off"),
    ],
)
def test_what_moves_the_odds(bench: Bench, says: Says, up: str, down: str) -> None:
    outcome = bench.run(*says)
    assert not up or moved(outcome, up) > 1
    assert not down or moved(outcome, down) < 1


def test_a_roof_counts_only_where_someone_looked_for_wet_leaves(bench: Bench) -> None:
    looked = bench.run("leaf-spots", "wet-weather air-humid-still", system=GLASS)
    unasked = bench.run("leaf-spots", system=GLASS)
    assert moved(looked, "septoria-leaf-spot") < 1
    assert moved(unasked, "septoria-leaf-spot") == 1


def test_airless_warm_roots_get_air(bench: Bench) -> None:
    outcome = bench.run("root-zone-soaked wilts-in-sun-recovers", readings="temperature=27", suspects={"x": 0.5})
    assert {"air-now", "let-roots-breathe", "cool-the-water"} <= offered(outcome)


@pytest.mark.parametrize(("crop", "aside"), [("basil", False), ("spinach", True), ("", False)])
def test_night_light_is_for_basil(bench: Bench, crop: str, aside: bool) -> None:
    outcome = bench.run("grey-fuzz-underneath", crop=crop, suspects={"downy-mildew": 0.9})
    assert ("night-light" in {treatment for treatment, _ in outcome.set_aside}) is aside
