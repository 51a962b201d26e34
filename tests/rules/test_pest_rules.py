"""What the rules on pests say: weather, webs, sprays, ants, helpers, and what insects carry."""

from __future__ import annotations

from pathlib import Path

import pytest

from triage.book.load import load_folders
from triage.model.book import Book
from triage.model.case import Case, System
from triage.model.crop import Crop
from triage.model.facts import CaseFacts, RulesOutcome
from triage.model.quantity import Reading
from triage.rules.check import rule_faults
from triage.rules.run import RuleRunner
from triage.water.readings import parse_assignment

KNOWLEDGE = Path(__file__).parents[2] / "knowledge"
HUNTERS = {"predatory-mites-persimilis", "predatory-mites-californicus"}
#: Rules on treatments are asked only when there is a suspect; this one is none of theirs.
ANYTHING = {"iron-deficiency": 0.5}


class Bench:
    """Findings and readings in, what the rules say out."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.runner = RuleRunner(book.rules)

    def run(
        self, *seen: str, absent: tuple[str, ...] = (), readings: tuple[str, ...] = (), crop: str = "",
        suspects: dict[str, float] | None = None, system: System | None = None,
    ) -> RulesOutcome:  # fmt: skip
        case = Case(on="2026-05-04", seen=frozenset(seen), absent=frozenset(absent), system=system or System())
        return self.runner.run_case(
            CaseFacts(case=case, readings=self._read(readings), crop=self._crop(crop), suspects=suspects or ANYTHING)
        )

    def _read(self, words: tuple[str, ...]) -> tuple[Reading, ...]:
        return tuple(parse_assignment(word, self.book.quantities, kit="") for word in words)

    def _crop(self, crop: str) -> Crop | None:
        return self.book.crops[crop] if crop else None


@pytest.fixture(scope="module")
def bench() -> Bench:
    return Bench(load_folders([KNOWLEDGE]).book())


def drawn(outcome: RulesOutcome) -> set[str]:
    return {conclusion.id for conclusion in outcome.conclusions}


def offered(outcome: RulesOutcome) -> set[str]:
    return {treatment for treatment, _ in outcome.offered}


def left(outcome: RulesOutcome) -> set[str]:
    return {treatment for treatment, _ in outcome.set_aside}


def moved(outcome: RulesOutcome, cause: str) -> float:
    factor = 1.0
    for one in outcome.favoured:
        factor *= one.factor if one.cause == cause else 1.0
    return factor


def test_the_rules_are_sound(bench: Bench) -> None:
    assert {"mites-established", "helpers-at-work", "ants-guard-sap-feeders"} <= bench.book.rules.keys()
    assert rule_faults(bench.book.rules) == []


def test_webs_with_pale_dots_mean_many_mites(bench: Bench) -> None:
    outcome = bench.run("webbing", "pale-stippling")
    assert "mites-established" in drawn(outcome)
    assert {"remove-plant", "remove-infested-leaves"} <= offered(outcome)
    assert offered(outcome) >= HUNTERS  # after cutting and rinsing


def test_a_web_alone_may_be_a_spider(bench: Bench) -> None:
    assert not {"mites-established", "mites-there"} & drawn(bench.run("webbing"))


def test_mites_without_webs_are_early_only_if_somebody_looked(bench: Bench) -> None:
    mites = {"two-spotted-spider-mite": 0.9}
    early = bench.run("moving-dots-underneath", absent=("webbing",), suspects=mites)
    assert offered(early) >= HUNTERS
    assert not HUNTERS & left(early)
    unknown = bench.run("moving-dots-underneath", suspects=mites)
    assert "mites-early" not in drawn(unknown)
    assert not HUNTERS & offered(unknown)


def test_heat_and_mites_chain(bench: Bench) -> None:
    outcome = bench.run("moving-dots-underneath", readings=("air-temperature=29", "humidity=45"))
    assert {"warm-dry-air", "mite-weather", "mites-breed-fast"} <= drawn(outcome)
    assert "rinse-leaves" in offered(outcome)
    assert moved(outcome, "two-spotted-spider-mite") > 1


def test_warm_damp_air_is_no_mite_weather(bench: Bench) -> None:
    assert "mite-weather" not in drawn(bench.run(readings=("air-temperature=29", "humidity=80")))


def test_cool_air_speaks_against_mites(bench: Bench) -> None:
    assert moved(bench.run(readings=("air-temperature=12",)), "two-spotted-spider-mite") < 1


def test_a_told_dry_heat_does_not_count_twice(bench: Bench) -> None:
    """The finding is evidence already; only a heat wave or a reading moves the odds."""
    assert moved(bench.run("air-hot-dry"), "two-spotted-spider-mite") == 1.0
    assert moved(bench.run("heat-wave"), "two-spotted-spider-mite") > 1.0


def test_dry_heat_chooses_the_hunter_that_bears_it(bench: Bench) -> None:
    outcome = bench.run("air-hot-dry", suspects={"two-spotted-spider-mite": 0.5})
    assert "predatory-mites-californicus" in offered(outcome)
    assert left(outcome) == {"predatory-mites-persimilis"}


def test_mites_after_a_spray(bench: Bench) -> None:
    """Resurgence of 1.5 and 3.5 times (barbar2017); the odds move by a factor within that range."""
    outcome = bench.run("sprayed-plants", "pale-stippling")
    assert 1.5 <= moved(outcome, "two-spotted-spider-mite") <= 3.5
    assert left(outcome) >= HUNTERS


@pytest.mark.parametrize("helper", ["little-alligators", "fast-pale-mites", "brown-swollen-aphids"])
def test_helpers_hold_the_sprays_back(bench: Bench, helper: str) -> None:
    outcome = bench.run(helper, "aphid-clusters")
    assert {"soap-spray", "oil-spray"} <= left(outcome)
    assert "keep-natural-enemies" in offered(outcome)


def test_helpers_do_not_hold_back_soap_where_mites_are_established(bench: Bench) -> None:
    assert "soap-spray" not in left(bench.run("fast-pale-mites", "webbing", "pale-stippling"))


def test_ants_and_honeydew(bench: Bench) -> None:
    outcome = bench.run("ants-on-plant", "honeydew")
    assert {"sap-feeders", "ants-guard-sap-feeders"} <= drawn(outcome)
    assert "stop-ants" in offered(outcome)
    assert "stop-ants" not in offered(bench.run("ants-on-plant"))


def test_ants_without_aphids_above_point_to_the_roots(bench: Bench) -> None:
    assert moved(bench.run("ants-on-plant", "wilting", absent=("aphid-clusters",)), "root-aphids") > 1
    assert moved(bench.run("ants-on-plant", "wilting"), "root-aphids") == 1.0


def test_new_plants_bring_pests_but_are_kept_apart_only_for_a_suspect(bench: Bench) -> None:
    assert "quarantine-new-plants" not in offered(bench.run("new-plants-brought-in"))
    outcome = bench.run("new-plants-brought-in", suspects={"thrips": 0.3})
    assert "quarantine-new-plants" in offered(outcome)
    assert moved(outcome, "thrips") > 1


def test_thrips_and_rings_point_to_the_virus_they_carry(bench: Bench) -> None:
    virus = "tomato-spotted-wilt-virus"
    assert moved(bench.run("silvery-streaks", "ring-or-oak-leaf-patterns"), virus) > 1
    assert moved(bench.run("silvery-streaks"), virus) == 1.0


def test_pirate_bugs_are_not_for_tomato(bench: Bench) -> None:
    suspects = {"thrips": 0.8}
    assert "pirate-bugs" in left(bench.run(crop="tomato", suspects=suspects))
    assert "pirate-bugs" not in left(bench.run(crop="cucumber", suspects=suspects))


def test_deer_seldom_come_under_a_roof(bench: Bench) -> None:
    assert moved(bench.run(system=System(place="greenhouse")), "deer") < 1
    assert moved(bench.run(system=System(place="outdoors")), "deer") == 1.0


def test_nothing_told_nothing_said_about_pests(bench: Bench) -> None:
    outcome = bench.run()
    assert not outcome.offered
    assert not outcome.set_aside
