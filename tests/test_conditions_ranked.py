"""Which cause leads when weather, water or handling hurt a plant, or nothing did, each told in few findings."""

from __future__ import annotations

import pytest

from triage.model.book import Book
from triage.model.case import Case
from triage.reasoning import Engines
from triage.session import session_from_case

#: crop, seen, absent, what leads; from look-alike pairs of the sources named, else common practice.
CASES = [
    ("lettuce", "newest-leaves-first brown-leaf-edges air-humid-still", "", "tip-burn"),  # uc-ipm-lettuce-tipburn
    ("lettuce", "oldest-leaves-first brown-leaf-edges air-hot-dry", "", "outer-leaf-edge-burn"),
    ("tomato", "fruit-black-bottom", "", "blossom-end-rot"),  # utah-state-abiotic-news
    ("pepper", "fruit-pale-patch-sun-side patches-only-in-sun", "", "sunscald-fruit"),  # omafra-pepper-sunscald
    ("basil", "papery-pale-patches patches-only-in-sun strong-sun-suddenly", "", "leaf-sunburn"),  # udel-leaf-sunburn
    ("cucumber", "papery-pale-patches came-overnight cold-spell", "", "cold-injury"),  # udel-cold-wind
    ("cabbage", "blister-bumps corky-warts air-humid-still", "", "oedema"),  # msu-michigan-oedema-intum
    ("tomato", "blister-bumps bumps-along-veins glass-without-uv", "", "intumescence"),  # msu-michigan-oedema-intum
    ("tomato", "leaves-roll-up leaves-thick-leathery otherwise-vigorous", "", "physiological-leaf-roll"),
    ("tomato", "new-leaves-twisted many-crops-alike neighbour-sprayed", "", "herbicide-injury"),  # texas-am-leaf-twist
    ("chard", "wilts-in-sun-recovers wilting roots-white-healthy heat-wave", "root-zone-dry", "midday-wilt-harmless"),
    ("chard", "wilting wilts-for-good root-zone-dry", "", "drought-wilt"),  # umd-drought
    ("basil", "limp-though-roots-wet root-zone-soaked many-roots-dead whole-leaf-yellow", "root-skin-slips-off",
     "root-hypoxia-waterlogging"),  # rhs-ten-questions
    ("tomato", "flowers-drop heat-wave", "", "heat-stress-blossom-drop"),  # ok-state-tomato-noninfectious
    ("courgette", "young-fruit-drops flowers-not-visited", "heat-wave", "poor-fruit-set"),  # agrilife-pollination
    ("tomato", "leaf-stalks-bend-down heater-or-fumes", "", "ethylene-injury"),  # purdue-ethylene
    ("bean", "bronze-on-top-only smoggy-air", "moving-dots-underneath", "ozone-injury"),  # uc-ipm-bean-ozone
    ("kale", "leaf-spots sprayed-plants does-not-spread", "", "spray-burn"),  # umd-spray-burn
    ("broccoli", "hollow-stem fast-growth", "corky-cracked-stem", "hollow-stem"),  # boersma2013-hollow-stem
    ("", "leggy dull-weather small-seedlings", "", "low-light-etiolation"),  # iowa-state-spindly
    ("pak-choi", "transplanted-lately small-seedlings wilting", "stem-pinched-at-base", "transplant-shock"),
    ("cucumber", "oldest-leaves-first otherwise-vigorous leaves-brittle", "moving-dots-underneath",
     "natural-leaf-ageing"),  # udel-leaf-ageing
    ("courgette", "even-silver-marbling same-crop-all-alike", "white-powder-on-top", "natural-silvering-harmless"),
    ("", "roots-stained-firm water-tea-coloured", "", "tannin-stained-roots-harmless"),
    ("", "white-root-hairs small-seedlings", "", "root-hairs-harmless"),
    ("bean", "side-nodules", "", "root-nodules-harmless"),  # legume-nodulation
    ("", "plant-nobody-sowed", "", "weeds-volunteers"),
    ("basil", "looks-healthy fish-well", "", "healthy-plant-harmless"),
]  # fmt: skip


@pytest.fixture(scope="module")
def engines(book: Book) -> Engines:
    return Engines(book)


@pytest.mark.parametrize(("crop", "seen", "absent", "first"), CASES)
def test_it_leads(engines: Engines, crop: str, seen: str, absent: str, first: str) -> None:
    case = Case(on="2026-05-04", crop=crop, seen=frozenset(seen.split()), absent=frozenset(absent.split()))
    assert not (case.seen | case.absent) - set(engines.book.findings)
    report = session_from_case(engines.book, case, engines).look(with_question=False, with_responses=False)
    assert report.suspects[0].cause == first
    assert report.suspects[0].probability > 0.3


@pytest.mark.parametrize("cause", ["root-nodules-harmless", "blossom-end-rot", "hollow-stem"])
def test_what_a_crop_cannot_have_is_never_suspected(engines: Engines, cause: str) -> None:
    case = Case(on="2026-05-04", crop="lettuce", seen=frozenset({"side-nodules", "fruit-black-bottom", "hollow-stem"}))
    report = session_from_case(engines.book, case, engines).look(with_question=False, with_responses=False)
    assert cause not in {suspect.cause for suspect in report.suspects}
