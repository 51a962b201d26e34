"""What growers ask beside the tank, and grades that somebody who keeps fish would not laugh at.

1,000 L with tilapia and a few shrimp unless said, and nothing measured, as is usual.
Each line names why; figures come from the sources of the substance.
"""

from __future__ import annotations

from typing import Any

import pytest

from triage.spraying import Asked, Judge, report_on

HERE = {"volume": "1000L", "animals": "tilapia,shrimp"}
FISH = {"volume": "1000L", "animals": "tilapia"}


@pytest.fixture(scope="module")
def unmeasured(make_judge: Any) -> Judge:
    judge: Judge = make_judge(1000, ("tilapia", "shrimp"))
    return judge


def ask(judge: Judge, words: str, **told: Any) -> Any:
    return report_on(judge, Asked(words=words, **{**HERE, **told}))


@pytest.mark.parametrize(
    ("words", "told", "grade"),
    [
        # food and household
        ("milk", {"strength": "10%", "amount": "1L", "cover": "covered"}, "keep-off-water"),  # takes oxygen if spilled
        ("milk", {"strength": "10%", "amount": "1L", "cover": "none"}, "never"),  # a quarter of it takes all oxygen
        ("baking soda", {"strength": "5 g/L", "amount": "1L", "cover": "none"}, "keep-off-water"),
        ("dish soap", {"strength": "1%", "amount": "1L", "cover": "moved"}, "never"),  # LAS and shrimp
        ("soap", {"strength": "1%", "amount": "1L", "cover": "covered", **FISH}, "away-from-system"),
        ("vinegar", {"strength": "5%", "amount": "1L", "cover": "moved"}, "away-from-system"),
        ("vinegar", {"strength": "5%", "amount": "1L", "cover": "perimeter"}, "never"),  # weeds beside the tank
        ("bleach", {"strength": "1%", "amount": "1L", "cover": "moved"}, "never"),
        ("coffee grounds", {"amount": "50 g", "cover": "covered"}, "keep-off-water"),
        ("beer trap", {"amount": "150 mL", "cover": "covered"}, "keep-off-water"),
        ("cinnamon", {"amount": "5 g", "cover": "covered", **FISH}, "keep-off-water"),
        ("garlic", {"strength": "5%", "amount": "0.5L", "cover": "covered"}, "unknown"),  # nobody tested shrimp
        ("worm tea", {"amount": "1L", "cover": "covered"}, "away-from-system"),  # germs, and nobody tested it
        ("eggshells", {}, "ok"),  # dissolve by themselves and stop
        ("crushed coral", {"amount": "1 kg"}, "ok"),
        ("chalk", {"amount": "200 g"}, "never"),  # powder, at an alkalinity that nobody measured
        # mineral dusts
        ("kaolin", {"strength": "3%", "amount": "1L", "cover": "covered"}, "keep-off-water"),
        ("diatomaceous earth", {"strength": "10 g/L", "amount": "1L", "cover": "covered"}, "keep-off-water"),
        ("sulphur", {"strength": "3 g/L", "amount": "1L", "cover": "moved", **FISH}, "away-from-system"),
        # living things
        ("ladybirds", {}, "ok"),
        ("predatory mites", {}, "ok"),
        ("sticky traps", {}, "ok"),
        ("nematodes", {}, "keep-off-water"),
        ("Bt", {"strength": "1 g/L", "amount": "1L", "cover": "covered"}, "keep-off-water"),
        # slugs
        ("copper tape", {}, "keep-off-water"),  # dry only
        ("metaldehyde", {"amount": "5 g", "cover": "covered"}, "away-from-system"),
        ("iron phosphate slug pellets", {"amount": "5 g", "cover": "covered"}, "away-from-system"),
        ("slug pellets", {}, "never"),  # may be any of four
        # plant oils and daisies
        ("neem oil", {"strength": "5 mL/L", "amount": "1L", "cover": "moved"}, "away-from-system"),
        ("neem", {"strength": "5 mL/L", "amount": "1L", "cover": "covered"}, "never"),  # may be azadirachtin
        ("pyrethrin", {"cover": "neighbour"}, "never"),
        ("spinosad", {"strength": "0.1 g/L", "amount": "1L", "cover": "covered", **FISH}, "away-from-system"),
        ("spinosad", {"strength": "0.1 g/L", "amount": "1L", "cover": "covered"}, "never"),  # shrimp
        ("lavender oil", {}, "never"),
        ("tobacco", {}, "never"),
        # weeds
        ("glyphosate", {"strength": "1%", "amount": "1L", "cover": "perimeter"}, "never"),
        # into the water
        ("salt", {"amount": "1 kg", **FISH}, "away-from-system"),  # crops suffer before tilapia
        ("salt bath", {"amount": "3 kg", **FISH}, "never"),  # in the system; a bath is a tub of its own
        ("hydrogen peroxide", {"strength": "3%", "amount": "250 mL", "into_water": True, **FISH}, "away-from-system"),
        ("hydrogen peroxide", {"strength": "3 mL/L", "amount": "5L", "cover": "drench"}, "never"),  # shrimp
        ("potassium permanganate", {"amount": "2 g", "into_water": True, **FISH}, "never"),
        ("Epsom salt", {"amount": "50 g", "into_water": True}, "ok"),
        ("Epsom salt", {"strength": "10 g/L", "amount": "1L", "cover": "none"}, "keep-off-water"),
        ("Fe-DTPA", {"amount": "20 g"}, "ok"),
        ("mosquito dunks", {"amount": "1 g", "into_water": True}, "keep-off-water"),
        # nobody knows
        ("seaweed", {"amount": "10 mL", "into_water": True}, "unknown"),
        ("rooting hormone", {}, "keep-off-water"),
        ("boiling water", {}, "unknown"),
    ],
)  # fmt: skip
def test_everyday_questions(unmeasured: Judge, words: str, told: dict[str, Any], grade: str) -> None:
    assert ask(unmeasured, words, **told).grade == grade


def test_a_thing_without_a_substance_may_still_ask_for_care(unmeasured: Judge) -> None:
    found = ask(unmeasured, "copper tape")
    assert "wet copper" in found.why[0]
    assert any("dry legs" in step for step in found.before)


def test_a_large_dose_can_be_made_smaller_and_typed_again(unmeasured: Judge) -> None:
    found = ask(unmeasured, "chalk", amount="1 kg")
    assert found.grade == "never"
    assert found.better
    assert all("e+" not in way.amount for way in found.better)
    assert ask(unmeasured, "chalk", amount=found.better[0].amount).grade == "ok"
