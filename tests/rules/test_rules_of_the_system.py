"""What the rules of the built-in book make of water, fish and leaf seen together: alarms, chains, moved odds."""

from __future__ import annotations

import pytest

from triage.model.book import Book
from triage.model.case import Case
from triage.model.facts import CaseFacts, RulesOutcome
from triage.rules.run import RuleRunner
from triage.water.readings import parse_assignment


class Told:
    """Findings and words of a command line in, what the rules say out."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.runner = RuleRunner(book.rules)

    def run(self, seen: str = "", absent: str = "", readings: str = "", crop: str = "") -> RulesOutcome:
        case = Case(on="2026-05-04", crop=crop, seen=frozenset(seen.split()), absent=frozenset(absent.split()))
        unknown = (case.seen | case.absent) - set(self.book.findings)
        assert not unknown  # a finding that is misspelt here would make a test that cannot fail
        measured = tuple(parse_assignment(word, self.book.quantities) for word in readings.split())
        return self.runner.run_case(CaseFacts(case=case, readings=measured, crop=self.book.crops.get(crop)))


@pytest.fixture(scope="module")
def told(book: Book) -> Told:
    return Told(book)


def conclusions(outcome: RulesOutcome) -> set[str]:
    return {conclusion.id for conclusion in outcome.conclusions}


def moved(outcome: RulesOutcome, cause: str) -> float:
    """Factor on the odds of a cause, all rules together."""
    factor = 1.0
    for favoured in outcome.favoured:
        factor *= favoured.factor if favoured.cause == cause else 1.0
    return factor


@pytest.mark.parametrize(
    ("seen", "alarm", "first_word"),
    [
        ("fish-gasping", "fish-gasping-alarm", "Air"),
        ("fish-dying-suddenly", "fish-dying-suddenly-alarm", "Air"),
        ("neighbour-sprayed fish-rubbing", "spray-near-sick-fish-alarm", "Air"),
        ("sprayed-plants water-film", "spray-near-sick-fish-alarm", "Air"),
        ("top-up-water-changed top-up-water-chlorinated fish-rubbing", "tap-water-and-sick-fish-alarm", "Stop"),
        ("base-dosed fish-listless", "base-and-sick-fish-alarm", "Stop"),
        ("fish-brown-gills", "brown-gills-alarm", "Stop"),
        ("shrimp-dying", "shrimp-dying-alarm", "Think"),
    ],
)
def test_fish_in_trouble_raise_the_alarm_that_fits(told: Told, seen: str, alarm: str, first_word: str) -> None:
    raised = {alarm.id: alarm for alarm in told.run(seen).alarms}
    assert alarm in raised
    assert raised[alarm].do[0].startswith(first_word)


@pytest.mark.parametrize("seen", ["sprayed-plants", "top-up-water-changed", "base-dosed", "power-cut", "fish-well"])
def test_what_was_done_alone_raises_no_alarm(told: Told, seen: str) -> None:
    assert not told.run(seen).alarms


def test_no_alarm_tells_to_feed_or_pour_in_acid(told: Told) -> None:
    everything = told.run(
        "fish-gasping fish-dying-suddenly sprayed-plants base-dosed top-up-water-changed shrimp-dying fish-brown-gills"
    )
    steps = [step for alarm in everything.alarms for step in alarm.do]
    assert any("dechlorinated and as warm" in step for step in steps)
    assert all("not feed" in step for step in steps if "feed" in step and "Stop feeding" not in step)
    assert all("do not pour" in step for step in steps if "acid" in step)


def test_rot_is_reached_in_two_steps_and_lifts_ph(told: Told) -> None:
    smell = told.run("water-smells-foul")
    assert "rot-without-air" in conclusions(smell)
    assert "rot-lifts-ph" not in conclusions(smell)
    both = told.run("water-smells-foul ph-creeping-up")
    assert {"rot-without-air", "rot-lifts-ph"} <= conclusions(both)
    assert moved(both, "ph-rising-anaerobic-waste") > moved(smell, "ph-rising-anaerobic-waste") > 1


def test_no_smell_and_air_speak_against_rot_but_not_looked_says_nothing(told: Told) -> None:
    looked = told.run("ph-creeping-up", absent="water-smells-foul air-weak")
    assert "no-rot" in conclusions(looked)
    assert moved(looked, "ph-rising-anaerobic-waste") < 1
    assert "no-rot" not in conclusions(told.run("ph-creeping-up"))


def test_a_rise_unasked_is_rot_when_stones_are_clean_and_stones_when_nothing_rots(told: Told) -> None:
    clean = told.run("ph-creeping-up", absent="base-dosed top-up-water-hard media-fizzes-in-vinegar")
    sweet = told.run("ph-creeping-up", absent="base-dosed top-up-water-hard water-smells-foul air-weak")
    rot, stones = "ph-rising-anaerobic-waste", "ph-high-carbonate-media"
    assert moved(clean, rot) > 10 > 1 > moved(clean, stones)
    assert moved(sweet, stones) > 10 > 1 > moved(sweet, rot)


def test_what_lifts_ph_is_ended_before_iron_is_dosed(told: Told) -> None:
    pale = "newest-leaves-first yellow-between-veins"
    chain = told.run(f"{pale} ph-creeping-up water-smells-foul")
    assert {"young-leaves-starve", "rot-lifts-ph", "cure-ph-before-iron"} <= conclusions(chain)
    assert "cure-ph-before-iron" not in conclusions(told.run(pale))


def test_iron_look_on_rotten_roots_is_a_result(told: Told) -> None:
    pale = told.run("newest-leaves-first yellow-between-veins roots-brown-slimy")
    assert "roots-before-nutrients" in conclusions(pale)
    assert moved(pale, "iron-deficiency") < 1


def test_iron_in_reach_points_to_manganese(told: Told) -> None:
    pale = told.run("newest-leaves-first yellow-between-veins", readings="ph=6.2 iron=2mg/L")
    assert moved(pale, "manganese-deficiency") > 1 > moved(pale, "iron-deficiency")


@pytest.mark.parametrize(
    ("seen", "absent", "likelier", "unlikelier"),
    [
        ("ammonia-kit-high new-system", "", "ammonia-nitrite-spike-new-system", "ammonia-nitrite-high"),
        ("ammonia-kit-high filter-cleaned", "new-system", "ammonia-nitrite-high", "ammonia-nitrite-spike-new-system"),
        ("ammonia-kit-high water-cold", "", "nitrification-slow-cold", "little-feed-in-cold"),
        ("water-cold feed-cut", "ammonia-kit-high", "little-feed-in-cold", "nitrification-slow-cold"),
        ("ph-creeping-down", "ammonia-kit-high", "ph-falling-nitrification", "nitrification-stalled-low-ph"),
        ("ph-creeping-down ammonia-kit-high", "", "nitrification-stalled-low-ph", "ph-falling-nitrification"),
        ("fish-gasping-at-dawn", "", "low-dissolved-oxygen", "spray-in-water"),
        ("shrimp-dying fish-well new-metal-parts", "", "copper-in-water", "low-dissolved-oxygen"),
        ("oldest-leaves-first yellow-between-veins potassium-dosed", "", "magnesium-short-from-potassium",
         "iron-deficiency"),
    ],
)  # fmt: skip
def test_neighbours_are_kept_apart(told: Told, seen: str, absent: str, likelier: str, unlikelier: str) -> None:
    outcome = told.run(seen, absent)
    assert moved(outcome, likelier) > 1 > moved(outcome, unlikelier)


def test_scorched_rims_are_salt_in_salty_water_and_potassium_in_thin(told: Told) -> None:
    rim = "oldest-leaves-first brown-leaf-edges"
    salty = told.run(rim, readings="ec=4mS/cm", crop="tomato")
    thin = told.run(rim, readings="ec=0.5mS/cm", crop="tomato")
    assert moved(salty, "salt-excess") > 1 > moved(salty, "potassium-deficiency")
    assert moved(thin, "potassium-deficiency") > 1 > moved(thin, "salt-excess")
