"""Which cause leads when a fault of the water or a nutrient is told in few words (trade knowledge: common-practice)."""

from __future__ import annotations

import pytest

from triage.model.book import Book
from triage.model.case import Case
from triage.reasoning import Engines
from triage.session import session_from_case
from triage.water.readings import parse_assignment

PALE = "newest-leaves-first yellow-between-veins fine-veins-stay-green"


@pytest.fixture(scope="module")
def engines(book: Book) -> Engines:
    return Engines(book)


def ranked(engines: Engines, crop: str, seen: str, absent: str, readings: str) -> dict[str, float]:
    """Suspects in order with their probability."""
    book = engines.book
    case = Case(
        on="2026-05-04", crop=crop, seen=frozenset(seen.split()), absent=frozenset(absent.split()),
        readings=tuple(parse_assignment(word, book.quantities, on="2026-05-04") for word in readings.split()),
    )  # fmt: skip
    assert not (case.seen | case.absent) - set(book.findings)
    report = session_from_case(book, case, engines).look(with_question=False, with_responses=False)
    return {suspect.cause: suspect.probability for suspect in report.suspects}


def test_without_readings_iron_leads_and_its_lockout_is_close_behind(engines: Engines) -> None:
    found = ranked(engines, "strawberry", PALE, "", "")
    assert list(found)[:2] == ["iron-deficiency", "iron-lockout-high-ph"]
    assert found["iron-lockout-high-ph"] > found["iron-deficiency"] / 2


@pytest.mark.parametrize(
    ("crop", "seen", "absent", "readings", "first"),
    [
        ("basil", PALE, "", "ph=7.4 iron<=0.1mg/L", "iron-deficiency"),
        ("basil", PALE, "", "ph=7.8 iron=2mg/L", "iron-lockout-high-ph"),
        ("basil", PALE, "", "ph=6.2 iron=2mg/L", "manganese-deficiency"),
        ("pak-choi", "oldest-leaves-first whole-leaf-yellow", "", "nitrate=2mg/L", "nitrogen-deficiency"),
        ("tomato", "oldest-leaves-first yellow-between-veins", "", "", "magnesium-deficiency"),
        ("tomato", "oldest-leaves-first brown-leaf-edges", "", "ec=0.6mS/cm", "potassium-deficiency"),
        ("cucumber", "oldest-leaves-first brown-leaf-edges", "", "ec=4mS/cm", "salt-excess"),
        ("", "newest-leaves-first whole-leaf-yellow veins-yellow-too", "", "nitrate=60mg/L", "sulfur-deficiency"),
        ("cauliflower", "whole-leaf-pale blade-missing", "", "ph=5.4 nitrate=60mg/L", "molybdenum-deficiency"),
        ("", "ph-creeping-up water-smells-foul", "", "ph=7.4", "ph-rising-anaerobic-waste"),
        ("", "ph-creeping-up", "base-dosed top-up-water-hard water-smells-foul air-weak", "ph=7.4",
         "ph-high-carbonate-media"),
        ("", "ph-creeping-up top-up-water-hard", "", "ph=7.8", "ph-high-alkaline-water"),
        ("chard", "feed-cut water-cold whole-leaf-pale", "ammonia-kit-high", "temperature=15C", "little-feed-in-cold"),
        ("", "water-cold ammonia-kit-high", "", "temperature=12C tan=2mg/L", "nitrification-slow-cold"),
        ("", "ph-creeping-down ammonia-kit-high", "", "ph=5.6 tan=3mg/L", "nitrification-stalled-low-ph"),
        ("", "fish-gasping", "", "", "low-dissolved-oxygen"),
        ("", "fish-gasping top-up-water-changed top-up-water-chlorinated", "", "", "chlorine-in-top-up"),
        ("", "fish-dying-suddenly neighbour-sprayed", "", "", "spray-in-water"),
    ],
)  # fmt: skip
def test_the_cause_that_the_trade_would_name_leads(
    engines: Engines, crop: str, seen: str, absent: str, readings: str, first: str
) -> None:
    assert next(iter(ranked(engines, crop, seen, absent, readings))) == first


def test_a_pale_leaf_and_its_reason_in_the_water_are_both_named(engines: Engines) -> None:
    absent = "base-dosed top-up-water-hard water-smells-foul air-weak"
    found = ranked(engines, "pak-choi", f"{PALE} ph-creeping-up", absent, "ph=7.4 iron=0.3mg/L")
    assert set(list(found)[:2]) == {"iron-deficiency", "ph-high-carbonate-media"}
