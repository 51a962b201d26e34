"""Doses: mass is conserved, no day moves pH too far, what would harm is refused, and the reason is told."""

from __future__ import annotations

import itertools
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from triage.dosing.answer import answer_dose
from triage.dosing.asked import Asked
from triage.errors import UsageError
from triage.model.book import Book
from triage.model.case import System
from triage.model.interval import Interval
from triage.report.dose_report import DoseOption, DoseReport
from triage.water.basing import Buffer, change_for_ph, corners, plan_days
from triage.water.conductivity import ec_change
from triage.water.molar import atoms_of, brings, molar_mass

KEPT = System(volume_l=1000, animals=("tilapia",))


def ask(book: Book, what: str, *readings: str, system: System = KEPT, **more: Any) -> DoseReport:
    return answer_dose(book, Asked(what=what, readings=readings, **more), system, (), on="2026-05-04")


def option(report: DoseReport, treatment: str) -> DoseOption:
    return next(found for found in report.options if found.treatment == treatment)


def effect(found: DoseOption, quantity: str) -> float:
    change = next(effect.change for effect in found.effects if effect.quantity == quantity)
    assert change is not None
    return change


# -- chemistry


@given(
    ph=st.floats(5.8, 8.2), alkalinity=st.floats(5, 250), temperature_c=st.floats(5, 32), to=st.floats(-1.0, 1.0),
    carbon_per_eq=st.sampled_from([0.0, 0.5, 1.0]),
)  # fmt: skip
@settings(max_examples=60)
def test_no_day_moves_ph_too_far_and_the_days_add_up(
    ph: float, alkalinity: float, temperature_c: float, to: float, carbon_per_eq: float
) -> None:
    water = Buffer.of(ph, alkalinity, temperature_c)
    change = change_for_ph(water, ph + to)
    steps = plan_days([water], change, carbon_per_eq=carbon_per_eq if to > 0 else 0.0, ph_per_day=0.3)
    for step in steps:
        assert abs(step.ph_at_once - step.ph_before) <= 0.3 + 1e-6
        assert abs(step.ph_next_day - step.ph_before) <= 0.3 + 1e-6
    if len(steps) < 90:
        assert sum(step.change for step in steps) == pytest.approx(change, abs=1e-6)
        if steps:
            assert steps[-1].ph_next_day == pytest.approx(ph + to, abs=1e-4)


@given(ph=st.floats(5.8, 8.0), alkalinity=st.floats(5, 200))
@settings(max_examples=40)
def test_lye_jumps_further_than_carbonate_and_that_further_than_bicarbonate(ph: float, alkalinity: float) -> None:
    water = Buffer.of(ph, alkalinity, 25)
    lye, carbonate, bicarbonate = (water.ph_at_once(5, per_eq) for per_eq in (0.0, 0.5, 1.0))
    assert lye > carbonate > bicarbonate > ph - 0.01
    assert water.ph_at_once(-2, 0.0) < ph


def test_an_open_reading_makes_steps_smaller() -> None:
    exact = corners(Interval.exactly(6.6), Interval.exactly(50), 25)
    open_ = corners(Interval(6.4, 6.8), Interval(40, 60), 25)
    first = [plan_days(waters, 40, carbon_per_eq=0.5, ph_per_day=0.3)[0].change for waters in (exact, open_)]
    assert first[1] < first[0]


@pytest.mark.parametrize("product", ["MgSO4(H2O)7", "KH2PO4", "CaCl2(H2O)2", "Na2MoO4(H2O)2", "K2CO3"])
def test_the_parts_of_a_formula_weigh_what_it_weighs(product: str) -> None:
    assert sum(brings(product, element) for element in atoms_of(product) if element not in "OH") < 1
    parts = sum(molar_mass(element) * count for element, count in atoms_of(product).items())
    assert parts == pytest.approx(molar_mass(product))


def test_conductivity_of_salt() -> None:
    """1 g/L of table salt carries about 2 mS/cm (common tables, from memory); the estimate is some per cent high."""
    salt = {"sodium": 1000 * brings("NaCl", "Na"), "chloride": 1000 * brings("NaCl", "Cl")}
    assert 1.95 < ec_change(salt) < 2.25


# -- what a dose brings


@given(litres=st.floats(20, 20000), now=st.floats(0, 30), more=st.floats(1, 20))
@settings(max_examples=25)
def test_mass_is_conserved(book: Book, litres: float, now: float, more: float) -> None:
    """Grams of salt × share of the element = milligrams per litre × litres, of what is asked and what comes along."""
    system = System(volume_l=litres, animals=("tilapia",))
    report = ask(book, "potassium", f"potassium={now:.4f}", to=f"{now + more:.4f}", system=system)
    found = option(report, "potassium-sulphate-dose")
    for quantity, form in (("potassium", "K"), ("sulfate", "SO4")):
        brought = effect(found, quantity) * litres / 1000
        assert found.grams * brings("K2SO4", form) == pytest.approx(brought, rel=2e-3)


@pytest.mark.parametrize(
    ("what", "now", "to", "using", "brought"),
    [
        ("calcium", "calcium=10", "30", "calcium-chloride-dose", {"chloride": 20 * 2 * 35.45 / 40.078}),
        ("magnesium", "magnesium=2", "10", "magnesium-sulphate-dose", {"sulfate": 8 * 96.06 / 24.305}),
        ("nitrate", "nitrate=5mg/L NO3", "20mg/L NO3", "potassium-nitrate-dose", {"potassium": 15 * 39.098 / 62.004}),
        ("phosphate", "phosphate=1mg/L PO4", "5mg/L PO4", "potassium-phosphate-dose",
         {"potassium": 4 * 39.098 / 94.970}),
        ("alkalinity", "alkalinity=40", "60", "raise-ph-calcium-hydroxide", {"calcium": 20 / 2.497, "hardness": 20}),
        ("alkalinity", "alkalinity=40", "60", "raise-ph-sodium-bicarbonate", {"sodium": 20 / 50.04 * 22.990}),
        ("molybdenum", "molybdenum=0", "0.05", "molybdate-dose", {"sodium": 0.05 * 2 * 22.990 / 95.95}),
    ],
)  # fmt: skip
def test_what_comes_along(book: Book, what: str, now: str, to: str, using: str, brought: dict[str, float]) -> None:
    found = option(ask(book, what, now, to=to, using=using), using)
    for quantity, expected in brought.items():
        assert effect(found, quantity) == pytest.approx(expected, rel=0.005)


def test_every_dose_of_the_book_agrees_with_its_formula(book: Book) -> None:
    checked = 0
    for treatment in book.treatments.values():
        for dose in [treatment.dose, *treatment.doses]:
            form = book.quantities[dose.quantity].formula if dose else ""
            if dose is not None and dose.formula and form:
                assert dose.grams_per_unit_per_1000_l.value == pytest.approx(1 / brings(dose.formula, form), rel=2e-3)
                checked += 1
    assert checked >= 11


def test_a_weaker_product_needs_more_of_it(book: Book) -> None:
    strong, weak = (
        option(ask(book, "iron", "iron=0", "ph=6.5", to="2", using="dtpa", grade=grade), "iron-chelate-dtpa")
        for grade in ("11%", "6")
    )
    assert weak.grams / strong.grams == pytest.approx(11 / 6)
    assert weak.effects[0].after == strong.effects[0].after == 2


# -- what speaks against it


def test_a_chelate_that_lets_go_is_refused_and_the_other_is_not(book: Book) -> None:
    report = ask(book, "iron", "iron=0.1", "ph=7.4", to="2")
    assert report.options[0].treatment == "iron-chelate-eddha"
    assert not report.options[0].refused
    assert "7.4" in option(report, "iron-chelate-dtpa").refused[0]


def test_a_ph_that_makes_ammonia_deadly_is_refused(book: Book) -> None:
    mild = ask(
        book, "ph", "ph=7.0", "alkalinity=80", "temperature=27", "tan=3", to="7.2", using="potassium-bicarbonate"
    )
    harsh = ask(
        book, "ph", "ph=7.0", "alkalinity=80", "temperature=27", "tan=3", to="8.4", using="potassium-bicarbonate"
    )
    assert not [reason for reason in mild.options[0].refused if "stand for an hour" in reason]
    assert [reason for reason in harsh.options[0].refused if "stand for an hour" in reason]


def test_ammonia_effect_is_told(book: Book) -> None:
    found = ask(book, "ph", "ph=6.6", "alkalinity=40", "temperature=25", "tan=0.5", to="7.0").options[0]
    toxic = next(effect for effect in found.effects if effect.quantity == "unionised-ammonia")
    assert toxic.before is not None
    assert toxic.after is not None
    assert toxic.after / toxic.before == pytest.approx(10**0.4, rel=0.02)


def test_ammonia_unmeasured_is_said(book: Book) -> None:
    found = ask(book, "ph", "ph=6.6", "alkalinity=40", "temperature=25", to="7.0").options[0]
    assert any("Test ammonia first" in note for note in found.notes)
    known = ask(book, "ph", "ph=6.6", "alkalinity=40", "temperature=25", "tan=0", to="7.0").options[0]
    assert not any("Test ammonia first" in note for note in known.notes)


def test_acid_stops_before_alkalinity_is_gone(book: Book) -> None:
    report = ask(book, "ph", "ph=7.8", "kh=8dKH", "temperature=24", to="6.8")
    assert all("cliff" in found.refused[0] for found in report.options)
    allowed = option(ask(book, "ph", "ph=7.8", "kh=8dKH", "temperature=24", to="7.3"), "lower-ph-slowly")
    assert not allowed.refused
    assert all(abs((step.ph_at_once or 0) - (step.ph_before or 0)) <= 0.3 + 1e-6 for step in allowed.steps)
    assert effect(allowed, "phosphate") > 50  # told, and what it does to metals as well
    assert "phosphate-binds-metals" in [said.id for said in allowed.says]


@pytest.mark.parametrize("using", ["hydrochloric acid", "muriatic acid", "vinegar"])
def test_acid_poured_in_at_once_is_refused(book: Book, using: str) -> None:
    (found,) = ask(book, "ph", "ph=7.6", "kh=6dKH", to="6.8", using=using).options
    assert found.grade == "never"
    assert found.refused
    assert found.grams == 0


def test_shrimp_forbid_what_fish_bear(book: Book) -> None:
    with_shrimp = System(volume_l=1000, animals=("tilapia", "cherry-shrimp"))
    assert option(ask(book, "zinc", "zinc=0", to="0.05", system=with_shrimp), "zinc-sulphate-dose").refused
    assert not option(ask(book, "zinc", "zinc=0", to="0.05"), "zinc-sulphate-dose").refused


def test_an_animals_published_limit_is_not_crossed(book: Book) -> None:
    prawn = System(volume_l=1000, animals=("freshwater-prawn",))
    found = option(ask(book, "calcium", "calcium=20", "hardness=120", to="60", system=prawn), "calcium-chloride-dose")
    assert any("celkau-prawn" in reason for reason in found.refused)


def test_what_was_wrong_before_is_not_blamed_on_the_dose(book: Book) -> None:
    """Much carbon dioxide and ammonia are there before the iron and after it."""
    water = ("ph=6.2", "alkalinity=160", "temperature=27", "tan=4", "iron=0.1")
    found = option(ask(book, "iron", *water, to="2", using="dtpa"), "iron-chelate-dtpa")
    assert not found.refused


def test_a_target_that_is_reached_needs_nothing(book: Book) -> None:
    for what, words, to in (("ph", ("ph=6.8", "kh=4dKH"), "6.8"), ("iron", ("iron=2",), "2")):
        report = ask(book, what, *words, to=to)
        assert {found.refused for found in report.options} == {("The water is there already.",)}
        assert all(found.grams == 0 for found in report.options)


def test_days_asked_for_are_kept_only_where_animals_bear_them(book: Book) -> None:
    words = ("ph=6.4", "alkalinity=36", "temperature=24", "tan=0")
    using = "potassium bicarbonate"
    found = ask(book, "ph", *words, to="7.0", using=using, days=1).options[0]
    assert found.days > 1
    assert any("Not in 1 day:" in note for note in found.notes)
    slow = ask(book, "ph", *words, to="7.0", using=using, days=40).options[0]
    assert slow.days >= 40
    sums = [sum(step.grams for step in option_.steps) for option_ in (found, slow)]
    assert sums[0] == pytest.approx(sums[1], rel=1e-6)


def test_what_is_missing_is_asked_for(book: Book) -> None:
    nothing = ask(book, "ph", to="7.0")
    assert "Measure pH first" in nothing.options[0].refused[0]
    no_kh = ask(book, "ph", "ph=6.4", to="7.0")
    assert "alkalinity (KH)" in no_kh.options[0].refused[0]
    no_litres = ask(book, "iron", "iron=0", to="2", system=System())
    assert "--volume" in no_litres.options[0].refused[0]
    no_nitrite = ask(book, "nitrite-chloride-ratio", "chloride=0", to="10")
    assert "nitrite" in no_nitrite.options[0].refused[0]


def test_the_barrel_is_only_answered_where_it_is_asked_for(book: Book) -> None:
    words = ("ph=7.8", "alkalinity=200", "temperature=20")
    tank = ask(book, "ph", *words, to="7.5")
    assert "treat-top-up-water" not in [found.treatment for found in tank.options]
    barrels = ask(book, "treat-top-up-water", *words, to="40").options
    assert len({barrel.product for barrel in barrels}) == 4  # one for each acid
    assert all(barrel.days == 1 and not barrel.refused for barrel in barrels)


@pytest.mark.parametrize(
    ("what", "more", "said"),
    [
        ("sulphur", {}, "no reading 'sulphur'"),
        ("oxygen", {"to": "6"}, "nothing in the book is dosed for 'oxygen'"),
        ("kh", {"to": "4"}, "write the unit"),
        ("iron", {"to": "2", "using": "rust"}, "does not move it"),
        ("iron", {"to": "2", "grade": "strong"}, "per cent"),
        ("nitrite-chloride-ratio", {"to": "much"}, "how many times"),
        ("nitrite-chloride-ratio", {"to": "-3"}, "how many times"),
        ("nitrite-chloride-ratio", {"to": "nan"}, "how many times"),
        ("iron", {"to": "2", "grade": "0"}, "per cent"),
        ("iron", {"to": "2", "grade": "150%"}, "per cent"),
        ("ph", {}, "say --to"),
        ("iron", {"to": "2", "animals": "dragon"}, "no animal 'dragon'"),
    ],
)
def test_wrong_words(book: Book, what: str, more: dict[str, str], said: str) -> None:
    with pytest.raises(UsageError, match=said):
        ask(book, what, "iron=0", **more)


def test_the_answer_is_the_same_every_time(book: Book) -> None:
    words = ("ph=6.4", "alkalinity=36", "temperature=24", "tan=0.25")
    reports = [ask(book, "ph", *words, to="7.0") for _ in range(2)]
    assert reports[0] == reports[1]
    days = [found.days for found in reports[0].options if not found.refused]
    assert all(first >= 1 for first in days)
    assert not any(a.refused and not b.refused for a, b in itertools.pairwise(reports[0].options))


def test_a_crash_is_mended_in_steps_that_the_water_bears(book: Book) -> None:
    """Soft, sour water: next to nothing buffers it, so the day's part is smaller, and there is still one."""
    found = ask(book, "ph", "ph=6.2", "alkalinity=6", "temperature=25", "tan=1", to="6.8")
    best = found.options[0]
    assert not best.refused
    assert best.treatment == "raise-ph-potassium-bicarbonate"
    assert all(abs(step.ph_next_day - step.ph_before) <= 0.3 for step in best.steps if step.ph_next_day)


def test_what_is_beyond_a_limit_and_stays_put_is_no_reason(book: Book) -> None:
    """Carbon dioxide of 44 mg/L is above the 40 that tilapia bear (askext-tilapia); a base does not change it."""
    found = ask(book, "ph", "ph=6.2", "alkalinity=36", "temperature=25", to="6.4")
    assert not any("Carbon dioxide would be" in why for option in found.options for why in option.refused)
