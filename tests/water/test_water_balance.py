"""The balance against small systems simulated day by day, one for each source of alkalinity."""

from __future__ import annotations

import datetime
import random
from collections.abc import Mapping
from dataclasses import dataclass

import pytest

from triage.model.case import Case
from triage.model.facts import CaseFacts
from triage.model.interval import Interval
from triage.model.quantity import Quantity, Reading
from triage.model.rule import Rule
from triage.rules.run import RuleRunner
from triage.water.balance import work_out_balance
from triage.water.derive import Derived
from triage.water.inflow import Inflow, find_inflow, mean_over
from triage.water.readings import make_reading
from triage.water.terms import NOTHING, Term, minus, plus
from triage.water.trend import find_trends

Book = Mapping[str, Quantity]
START = datetime.date(2026, 4, 1)
VOLUME_L = 1000.0


@dataclass(frozen=True)
class Made:
    """A made-up system. Masses in grams per day, water in litres per day; alkalinity and hardness as CaCO3."""

    feed_g: float = 60.0
    protein: float = 0.32
    stones_g: float = 0.0
    lost_nitrate: float = 0.1  # share of the nitrogen that plants or airless waste take away
    top_up_l: float = 0.0
    top_up_alkalinity: float = 0.0
    base_g: float = 0.0  # potassium bicarbonate


def simulate(system: Made, days: int) -> list[tuple[float, float, float]]:
    """(alkalinity, hardness, nitrate as N) at the start and after each day, by bookkeeping in equivalents.

    Independent of the code under test: nitrogen in moles, two hydrogen ions for each nitrogen made to nitrate, one
    taken back for each nitrate that goes.
    """
    alkalinity, hardness, nitrate = 500.0, 300.0, 20.0
    found = [(alkalinity, hardness, nitrate)]
    nitrogen_mol = system.feed_g * system.protein * 0.16 * 0.8 * 0.8 * 0.9 / 14.007
    for _ in range(days):
        equivalents = -2 * nitrogen_mol + nitrogen_mol * system.lost_nitrate
        equivalents += 2 * system.stones_g / 100.087 + system.base_g / 100.115
        equivalents += system.top_up_l * system.top_up_alkalinity / 1000 / 50.04
        alkalinity += equivalents * 50.04 * 1000 / VOLUME_L
        hardness += (system.stones_g + system.top_up_l * system.top_up_alkalinity / 1000) * 1000 / VOLUME_L
        nitrate += nitrogen_mol * (1 - system.lost_nitrate) * 14.007 * 1000 / VOLUME_L
        found.append((alkalinity, hardness, nitrate))
    return found


def measure(
    system: Made, quantities: Book, *, days: int = 28, every: int = 4, kit: str = "", seed: int = 0
) -> list[Reading]:
    noise = random.Random(seed)
    found: list[Reading] = []
    for day, (alkalinity, hardness, nitrate) in enumerate(simulate(system, days)):
        if day % every:
            continue
        on = (START + datetime.timedelta(days=day)).isoformat()
        for id_, value, unit in (
            ("alkalinity", alkalinity, ""),
            ("hardness", hardness, ""),
            ("nitrate", nitrate, "mg/L N"),
        ):
            shaken = value * (1 + noise.gauss(0, 0.01)) if kit else value
            found.append(make_reading(id_, max(shaken, 0.0), quantities, unit=unit, kit=kit and "meter", on=on))
    on = (START + datetime.timedelta(days=days)).isoformat()
    found.append(make_reading("feed", system.feed_g, quantities, on=on))
    found.append(make_reading("feed-protein", 100 * system.protein, quantities, on=on))
    return found


def put_in(system: Made, quantities: Book) -> list[Reading]:
    """What the grower tells that he adds."""
    hardness = f"{system.top_up_alkalinity:g}"
    return [
        make_reading("top-up-per-day", system.top_up_l, quantities, on=START.isoformat()),
        make_reading("alkalinity", hardness, quantities, on=START.isoformat(), point="top-up"),
        make_reading("hardness", hardness, quantities, on=START.isoformat(), point="top-up"),
        make_reading("base", f"{system.base_g:g} g KHCO3", quantities, on=START.isoformat()),
    ]


def balance(system: Made, quantities: Book, **more: float) -> dict[str, Derived]:
    readings = [*measure(system, quantities, **more), *put_in(system, quantities)]  # type: ignore[arg-type]
    on = max(reading.on for reading in readings)
    found = work_out_balance(readings, quantities, on=on, volume_l=VOLUME_L)
    return {value.name: value for value in found}


SYSTEMS = {
    "acid": Made(),
    "stones": Made(stones_g=15),
    "top-up": Made(top_up_l=60, top_up_alkalinity=250),
    "bases": Made(base_g=40),
    "airless waste": Made(lost_nitrate=0.9),
    "little feed": Made(feed_g=5),
}


@pytest.mark.parametrize("name", sorted(SYSTEMS))
def test_mass_is_conserved(name: str, quantities: Book) -> None:
    """What nothing explains is what the stones gave, and nothing else."""
    system = SYSTEMS[name]
    found = balance(system, quantities)
    stones = system.stones_g * 1000 / VOLUME_L
    unexplained, hardness = found["alkalinity_unexplained"], found["hardness_unexplained"]
    assert unexplained.low - 0.05 <= stones <= unexplained.high + 0.05
    assert unexplained.value == pytest.approx(stones, abs=1.5)
    assert hardness.value == pytest.approx(stones, abs=0.01)


@pytest.mark.parametrize("name", sorted(SYSTEMS))
def test_nitrogen_is_followed(name: str, quantities: Book) -> None:
    system = SYSTEMS[name]
    found = balance(system, quantities)
    made = found["nitrogen_from_feed"].value
    assert found["nitrogen_missing"].value == pytest.approx(made * system.lost_nitrate, rel=0.02)
    assert found["acid_made"].value == pytest.approx(7.1 * made)


def run_rules(system: Made, quantities: Book, rules: Mapping[str, Rule], seed: int) -> dict[str, float]:
    readings = [*measure(system, quantities, kit="meter", seed=seed), *put_in(system, quantities)]
    on = max(reading.on for reading in readings)
    terms = work_out_balance(readings, quantities, on=on, volume_l=VOLUME_L)
    derived = tuple(
        Reading(quantity=t.quantity, value=t.value, unit=t.unit, low=t.low, high=t.high, derived=True) for t in terms
    )
    trends = find_trends(readings, list(quantities.values()), on)
    outcome = RuleRunner(rules).run_case(CaseFacts(case=Case(on=on), readings=derived, trends=trends))
    factors: dict[str, float] = {}
    for favoured in outcome.favoured:
        factors[favoured.cause] = factors.get(favoured.cause, 1.0) * favoured.factor
    return factors


@pytest.mark.parametrize(
    ("name", "cause", "rival"),
    [
        ("stones", "ph-high-carbonate-media", "ph-high-alkaline-water"),
        ("top-up", "ph-high-alkaline-water", "ph-high-carbonate-media"),
    ],
)
def test_rules_tell_stones_from_top_up(
    name: str, cause: str, rival: str, quantities: Book, water_rules: Mapping[str, Rule]
) -> None:
    """At least 8 of 10 noisy series (1 % each reading) speak for the true source and more for it than for the rival."""
    right = 0
    for seed in range(10):
        factors = run_rules(SYSTEMS[name], quantities, water_rules, seed)
        right += factors.get(cause, 1.0) > max(1.0, factors.get(rival, 1.0))
    assert right >= 8


@pytest.mark.parametrize("name", ["acid", "bases", "airless waste", "little feed"])
def test_rules_do_not_blame_stones(name: str, quantities: Book, water_rules: Mapping[str, Rule]) -> None:
    blamed = [run_rules(SYSTEMS[name], quantities, water_rules, seed) for seed in range(5)]
    assert all(factors.get("ph-high-carbonate-media", 1.0) <= 1.0 for factors in blamed)


def test_two_coarse_readings_leave_it_open(quantities: Book) -> None:
    readings = [
        make_reading("alkalinity", f"{dkh} dKH", quantities, kit="drops", on=on)
        for dkh, on in ((4, "2026-04-01"), (5, "2026-04-05"))
    ]
    readings += [make_reading("feed", 60, quantities), make_reading("feed-protein", 32, quantities)]
    found = {v.name: v for v in work_out_balance(readings, quantities, on="2026-04-06", volume_l=VOLUME_L)}
    assert found["alkalinity_change"].low <= 0 < found["alkalinity_change"].high
    assert "hardness_unexplained" not in found


def test_what_nobody_told_is_not_taken_for_nothing(quantities: Book) -> None:
    assert work_out_balance([], quantities, on="2026-04-06", volume_l=VOLUME_L) == ()
    system = SYSTEMS["stones"]
    without = work_out_balance(measure(system, quantities), quantities, on="2026-04-29", volume_l=VOLUME_L)
    assert not {"alkalinity_unexplained", "hardness_unexplained"} & {v.name for v in without}
    litres = [make_reading("top-up", 10, quantities, on="2026-04-01")]
    names = {v.name for v in work_out_balance(litres, quantities, on="2026-04-06", volume_l=VOLUME_L)}
    assert names == set()  # nobody tested what the top-up water carries
    none = [make_reading("top-up", 0, quantities), make_reading("base", 0, quantities)]
    names = {v.name for v in work_out_balance(none, quantities, on="2026-04-06", volume_l=VOLUME_L)}
    assert names == {
        "alkalinity_from_top_up", "alkalinity_from_bases", "hardness_from_top_up", "hardness_from_lime"
    }  # fmt: skip


def test_nitrate_that_nobody_followed_leaves_the_giving_back_open(quantities: Book) -> None:
    found = {name: value for name, value in balance(SYSTEMS["acid"], quantities).items()}
    readings = [r for r in [*measure(SYSTEMS["acid"], quantities), *put_in(SYSTEMS["acid"], quantities)]
                if r.quantity != "nitrate"]  # fmt: skip
    open_ = {v.name: v for v in work_out_balance(readings, quantities, on="2026-04-29", volume_l=VOLUME_L)}
    assert open_["alkalinity_given_back"].low == 0
    assert open_["alkalinity_given_back"].high >= found["alkalinity_given_back"].high
    assert open_["alkalinity_unexplained"].low <= found["alkalinity_unexplained"].low


def test_lime_brings_hardness_that_is_no_stone(quantities: Book) -> None:
    system = Made(base_g=0)
    lime = make_reading("lime", "7.403 g Ca(OH)2", quantities, on=START.isoformat())  # 10 g as CaCO3
    readings = [*measure(system, quantities), *put_in(system, quantities)[:3], lime]
    found = {v.name: v for v in work_out_balance(readings, quantities, on="2026-04-29", volume_l=VOLUME_L)}
    assert found["alkalinity_from_bases"].value == pytest.approx(10, abs=0.01)
    assert found["hardness_from_lime"].value == pytest.approx(10, abs=0.01)
    assert found["hardness_unexplained"].value == pytest.approx(-10, abs=0.01)


def test_feed_told_twice_is_shared_out_over_the_days(quantities: Book) -> None:
    feed = [make_reading("feed", grams, quantities, on=on) for grams, on in ((60, "2026-04-01"), (20, "2026-04-15"))]
    mean = mean_over(feed, "2026-04-01", "2026-04-29")
    assert mean is not None
    assert mean.value == pytest.approx(40)
    assert mean_over(feed, "2026-03-04", "2026-04-15") == Term(60.0, Interval(60.0, 60.0))
    assert mean_over(feed[1:], "2026-04-15", "2026-04-15") == Term(20.0, Interval(20.0, 20.0))
    assert mean_over(feed, "2026-03-01", "2026-03-10") is None
    assert find_inflow([], "2026-04-01", "2026-04-29") == Inflow()
    assert find_inflow([make_reading("lime", 0, quantities)], "2026-04-01", "2026-04-29").base_g_caco3 == NOTHING


def test_terms_are_quantities_of_the_book(quantities: Book) -> None:
    for value in balance(SYSTEMS["stones"], quantities).values():
        assert quantities[value.quantity].unit == value.unit, value.quantity
        assert quantities[value.quantity].derived


def test_sums_keep_their_ranges() -> None:
    one, two = Term(1, Interval(0, 2)), Term(5, Interval(4, 7))
    assert minus(plus(one, two), two).span == Interval(-3, 5)
