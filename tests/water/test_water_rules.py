"""What the water rules make of readings: alarms for the animals, conclusions and moved odds for the plant."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from triage.model.case import Case
from triage.model.crop import Animal
from triage.model.facts import CaseFacts, RulesOutcome
from triage.model.quantity import Quantity
from triage.model.rule import Rule
from triage.rules.run import RuleRunner
from triage.rules.ways import walk
from triage.water.derive import derive_values, derived_readings
from triage.water.readings import parse_assignment

TILAPIA = Animal(animal="tilapia", name="Tilapia", kind="fish", species=[], groups=["cichlid", "warm-water-fish"],
                 sources=["common-practice"])  # fmt: skip
SHRIMP = Animal(animal="freshwater-shrimp", name="Freshwater shrimp", kind="crustacean", species=[], groups=[],
                sources=["common-practice"])  # fmt: skip
TROUT = Animal(animal="trout", name="Trout", kind="fish", species=[], groups=["salmonid", "cold-water-fish"],
               salmonid=True, sources=["common-practice"])  # fmt: skip


class Bench:
    """Words of a command line in, what the rules say out."""

    def __init__(self, quantities: Mapping[str, Quantity], rules: Mapping[str, Rule]) -> None:
        self.quantities = quantities
        self.runner = RuleRunner(rules)

    def run(self, *words: str, kit: str = "", animals: tuple[Animal, ...] = (TILAPIA,), seen: tuple[str, ...] = (),
            trends: dict[str, str] | None = None) -> RulesOutcome:  # fmt: skip
        measured = [parse_assignment(word, self.quantities, kit=kit) for word in words]
        salmonids = any(animal.salmonid for animal in animals)
        readings = (*measured, *derived_readings(measured, derive_values(measured, salmonids=salmonids)))
        case = Case(on="2026-05-04", seen=frozenset(seen))
        return self.runner.run_case(CaseFacts(case=case, readings=readings, animals=animals, trends=trends or {}))


@pytest.fixture(scope="module")
def bench(quantities: Mapping[str, Quantity], water_rules: Mapping[str, Rule]) -> Bench:
    return Bench(quantities, water_rules)


def alarms(outcome: RulesOutcome) -> set[str]:
    return {alarm.id for alarm in outcome.alarms}


def conclusions(outcome: RulesOutcome) -> set[str]:
    return {conclusion.id for conclusion in outcome.conclusions}


def moved(outcome: RulesOutcome) -> dict[str, float]:
    """Factor on the odds of each cause, all rules together."""
    factors: dict[str, float] = {}
    for favoured in outcome.favoured:
        factors[favoured.cause] = factors.get(favoured.cause, 1.0) * favoured.factor
    return factors


def test_iron_scarce_and_out_of_reach(bench: Bench) -> None:
    outcome = bench.run("ph=7.4", "iron<=0.1mg/L")
    assert {"iron-hard-to-reach", "iron-scarce"} <= conclusions(outcome)
    assert moved(outcome)["iron-deficiency"] > 10 * moved(outcome)["iron-lockout-high-ph"]
    (why,) = (c.because for c in outcome.conclusions if c.id == "iron-hard-to-reach")
    assert "pH 7.4" in why
    assert "0.1 mg/L" in why


def test_iron_enough_and_in_reach_speaks_for_manganese(bench: Bench) -> None:
    factors = moved(bench.run("ph=6.2", "iron=2"))
    assert factors["iron-deficiency"] < 0.1
    assert factors["iron-lockout-high-ph"] < 0.1
    assert 1 < factors["manganese-deficiency"] < 3


def test_iron_plenty_and_locked(bench: Bench) -> None:
    outcome = bench.run("ph=7.6", "iron=1.5")
    assert "iron-locked-by-ph" in conclusions(outcome)
    assert moved(outcome)["iron-lockout-high-ph"] >= 10
    assert moved(outcome)["iron-deficiency"] < 1


def test_iron_scarce_within_reach(bench: Bench) -> None:
    factors = moved(bench.run("ph=6.4", "iron=0.1"))
    assert factors["iron-deficiency"] >= 10
    assert factors["iron-lockout-high-ph"] < 0.1


def test_nothing_measured_moves_nothing(bench: Bench) -> None:
    outcome = bench.run()
    assert moved(outcome) == {}
    assert alarms(outcome) == set()
    assert conclusions(outcome) == {"ph-not-measured"}


def test_a_step_across_the_limit_decides_nothing_about_plants(bench: Bench) -> None:
    # colour 7.2 means 7.1 to 7.4; iron 1 means 0.75 to 1.5, on both sides of 1.0
    assert not {c for c in conclusions(bench.run("ph=7.2", "iron=1", kit="card")) if c.startswith("iron")}


def test_a_step_across_the_limit_warns_about_fish(bench: Bench) -> None:
    # at pH 8.2 and 26 degrees the limit of an hour is 1.6 mg/L: colour 1 (0.75 to 1.5) and pH 8.2 (8.1 to 8.3)
    words = ("ph=8.2", "temperature=26", "tan=1")
    assert alarms(bench.run(*words)) == set()
    assert alarms(bench.run(*words, kit="high-card")) == {"ammonia-acute-alarm"}


def test_quiet_water_is_quiet(bench: Bench) -> None:
    words = ("ph=6.8", "temperature=25", "tan=0", "nitrite=0", "nitrate=40mg/L NO3", "do=6.5")
    assert alarms(bench.run(*words, animals=(TILAPIA, SHRIMP))) == set()
    assert alarms(bench.run(*words, kit="card", animals=(TILAPIA, SHRIMP))) == set()


def test_last_colour_of_the_card_with_a_clean_test_is_no_alarm(bench: Bench) -> None:
    assert alarms(bench.run("ph=7.6", "tan=0", "temperature=25", kit="card")) == set()


@pytest.mark.parametrize(
    ("words", "animals", "alarm"),
    [
        (("tan=6", "ph=8", "temperature=25"), (TILAPIA,), "ammonia-acute-alarm"),
        (("tan=4",), (TILAPIA,), "ammonia-high-ph-unknown-alarm"),
        (("nitrite=2mg/L NO2",), (TILAPIA,), "nitrite-alarm-chloride-unknown"),
        (("nitrite=5mg/L NO2", "cl=10"), (TILAPIA,), "nitrite-alarm-little-chloride"),
        (("nitrite=0.3mg/L NO2", "cl=100"), (TROUT,), "nitrite-alarm-cold-water-fish"),
        (("do=2",), (TILAPIA,), "oxygen-deadly-alarm"),
        (("do=2.8",), (SHRIMP,), "oxygen-crustacean-alarm"),
        (("do=4.5",), (TROUT,), "oxygen-cold-water-alarm"),
        (("ph=4.8",), (TILAPIA,), "ph-deadly-low-alarm"),
        (("ph=10.2",), (TILAPIA,), "ph-deadly-high-alarm"),
        (("chlorine=0.5",), (TILAPIA,), "chlorine-alarm"),
        (("cu=0.05", "gh=3dGH"), (SHRIMP,), "copper-alarm"),
        (("cu=0.05",), (SHRIMP,), "copper-alarm-hardness-unknown"),
        (("temperature=11",), (TILAPIA,), "cold-tilapia-alarm"),
        (("temperature=35",), (SHRIMP,), "crustacean-temperature-alarm"),
        (("temperature=25",), (TROUT,), "hot-cold-water-fish-alarm"),
    ],
)
def test_alarms(bench: Bench, words: tuple[str, ...], animals: tuple[Animal, ...], alarm: str) -> None:
    outcome = bench.run(*words, animals=animals)
    assert alarms(outcome) == {alarm}
    assert outcome.alarms[0].do
    assert "{" not in outcome.alarms[0].because[0]


@pytest.mark.parametrize(
    ("words", "animals"),
    [
        (("nitrite=5mg/L NO2", "cl=100"), (TILAPIA,)),
        (("do=4.5",), (TILAPIA,)),
        (("do=2.8",), (TILAPIA,)),
        (("temperature=14",), (TILAPIA,)),
        (("chlorine=0",), (TILAPIA,)),
        (("cu=0.005", "gh=10dGH"), (SHRIMP,)),
        (("tan=1", "ph=7", "temperature=20"), (TILAPIA,)),
    ],
)
def test_no_alarm(bench: Bench, words: tuple[str, ...], animals: tuple[Animal, ...]) -> None:
    assert alarms(bench.run(*words, animals=animals)) == set()


@pytest.mark.parametrize(
    ("words", "cause", "speaks"),
    [
        (("nitrate=2mg/L NO3",), "nitrogen-deficiency", "for"),
        (("nitrate=80mg/L NO3",), "nitrogen-deficiency", "against"),
        (("potassium=4",), "potassium-deficiency", "for"),
        (("potassium=80",), "potassium-deficiency", "against"),
        (("calcium=8",), "calcium-deficiency", "for"),
        (("magnesium=2",), "magnesium-deficiency", "for"),
        (("k=250",), "magnesium-short-from-potassium", "for"),
        (("phosphate=0.5mg/L PO4",), "phosphorus-deficiency", "for"),
        (("ec=4mS/cm",), "salt-excess", "for"),
        (("ec=0.5mS/cm",), "salt-excess", "against"),
        (("sodium=90",), "salt-excess", "for"),
        (("tan=40",), "ammonium-toxicity", "for"),
        (("tan=0.2",), "ammonium-toxicity", "against"),
        (("do=3.2",), "low-dissolved-oxygen", "for"),
        (("do=7",), "low-dissolved-oxygen", "against"),
        (("ph=5.2",), "iron-manganese-toxicity-low-ph", "for"),
        (("ph=5.8", "tan=2"), "nitrification-stalled-low-ph", "for"),
        (("temperature=11", "tan=2"), "nitrification-slow-cold", "for"),
        (("tan=2", "nitrite=2mg/L NO2"), "ammonia-nitrite-spike-new-system", "for"),
        (("tan=0", "nitrite=0"), "ammonia-nitrite-spike-new-system", "against"),
        (("kh=1dKH",), "ph-falling-nitrification", "for"),
        (("ph=8", "kh=12dKH"), "ph-high-alkaline-water", "for"),
        (("ph=6.5",), "ph-high-carbonate-media", "against"),
        (("chlorine=0.3",), "chlorine-in-top-up", "for"),
        (("air-temperature=6",), "cold-injury", "for"),
        (("ph=8",), "micronutrient-lockout-high-ph", "for"),
        (("tan=2",), "ammonia-nitrite-high", "for"),
        (("ec=4mS/cm",), "dissolved-salts-buildup", "for"),
        (("sodium=90",), "sodium-buildup", "for"),
        (("cu=0.05", "gh=3dGH"), "copper-in-water", "for"),
        (("cu=0.001", "gh=8dGH"), "copper-in-water", "against"),
    ],
)
def test_causes_moved(bench: Bench, words: tuple[str, ...], cause: str, speaks: str) -> None:
    factor = moved(bench.run(*words))[cause]
    assert factor > 1.5 if speaks == "for" else factor < 0.6


def test_trends_tell_stones_from_acid(bench: Bench) -> None:
    rising = moved(bench.run(trends={"ph": "rising", "hardness": "rising", "alkalinity": "rising"}))
    assert rising["ph-high-carbonate-media"] > rising["ph-high-alkaline-water"] > 1
    assert moved(bench.run(trends={"ph": "falling"}))["ph-falling-nitrification"] >= 10


def test_every_limit_fills_its_reason(bench: Bench) -> None:
    words = ("tan=40", "ph=8.8", "temperature=33", "nitrite=9mg/L NO2", "cl=200", "do=2", "iron=0.2", "ec=4mS/cm",
             "sodium=100", "k=5", "ca=200", "mg=3", "cu=0.2", "kh=20dKH", "nitrate=500mg/L NO3",
             "chlorine=1")  # fmt: skip
    outcome = bench.run(*words, animals=(TILAPIA, SHRIMP, TROUT))
    assert len(outcome.firings) > 25
    for firing in outcome.firings:
        assert "not known" not in firing.because, firing
        assert firing.sources


@pytest.mark.parametrize(
    ("words", "seen", "cause", "conclusion"),
    [
        (("ph=7.6",), "new-stones", "ph-high-carbonate-media", "new-stones-hold-ph-up"),
        (("ph=7.6",), "top-up-water-hard", "ph-high-alkaline-water", "top-up-holds-ph-up"),
        (("ph=7.4", "iron=0.2"), "iron-dosed", "iron-lockout-high-ph", "iron-fell-out"),
        ((), "potassium-dosed", "magnesium-short-from-potassium", "potassium-dose-crowds-out"),
        (("nitrate=8mg/L NO3",), "feed-cut", "nitrogen-deficiency", "less-feed-less-nitrate"),
        (("tan=1",), "new-system", "ammonia-nitrite-spike-new-system", "filter-not-ready"),
        (("sodium=60",), "salt-dosed", "salt-excess", "salt-dose-felt"),
    ],
)
def test_changes_and_readings_together(
    bench: Bench, words: tuple[str, ...], seen: str, cause: str, conclusion: str
) -> None:
    without, with_change = bench.run(*words), bench.run(*words, seen=(seen,))
    assert conclusion in conclusions(with_change) - conclusions(without)
    assert moved(with_change)[cause] > moved(without).get(cause, 1.0)


def test_rules_name_only_animals_that_the_book_has(
    water_rules: Mapping[str, Rule], animals: Mapping[str, Animal]
) -> None:
    words = {word for a in animals.values() for word in (a.animal, a.kind, *a.groups)}
    asked: set[str] = set()
    for rule in water_rules.values():
        for condition, _ in walk(rule.when):
            value = condition.animal
            asked |= {value} if isinstance(value, str) else set(value or ())
    assert asked
    assert asked <= words


@pytest.mark.parametrize(
    ("animal", "oxygen", "warned"),
    [("tilapia", 3.5, False), ("yellow-perch", 3.5, True), ("rainbow-trout", 4.5, True), ("koi", 3.5, False)],
)
def test_oxygen_by_the_animals_of_the_book(
    bench: Bench, animals: Mapping[str, Animal], animal: str, oxygen: float, warned: bool
) -> None:
    assert bool(alarms(bench.run(f"do={oxygen}", animals=(animals[animal],)))) is warned
