"""What readings mean: hours of oxygen, nutrient by nutrient, salt for each crop, the top-up water, the wording."""

from __future__ import annotations

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.book import Book
from triage.model.case import System
from triage.report.water_report import WaterReport
from triage.screens.numbers import say_amount, say_span
from triage.screens.style import build_console
from triage.screens.water import render_water
from triage.watch import check_water
from triage.water.readings import parse_assignment
from triage.water.respiration import fish_mg_h, hours_left, system_mg_h

KEPT = System(volume_l=1000, animals=("tilapia",))


def check(book: Book, *words: str, system: System = KEPT) -> WaterReport:
    readings = [parse_assignment(word, book.quantities) for word in words]
    return check_water(book, system, readings, on="")


def screen(report: WaterReport, width: int = 80) -> str:
    text = io.StringIO()
    render_water(report, build_console(width=width, file=text))
    return text.getvalue()


# -- oxygen once nothing brings any


@given(
    stock=st.floats(0.1, 50), feed=st.floats(0, 500), warm=st.floats(5, 32), more=st.floats(1.01, 3),
)  # fmt: skip
def test_oxygen_use_grows_with_fish_feed_and_warmth(stock: float, feed: float, warm: float, more: float) -> None:
    use = system_mg_h(stock, feed, warm)
    assert 0 < use.low <= use.high
    for greater in (system_mg_h(stock * more, feed, warm), system_mg_h(stock, feed * more, warm),
                    system_mg_h(stock, feed, warm + more)):  # fmt: skip
        assert greater.low >= use.low - 1e-9
        assert greater.high >= use.high - 1e-9


def test_oxygen_use_against_the_measured_ends() -> None:
    """fu2005 measured 207.8 and 378.8 mg/kg/h at rations of 0.5 and 4 %; the published line lies within 5 % of both."""
    for percent, measured in ((0.5, 207.8), (4.0, 378.8)):
        assert fish_mg_h(1, percent * 10, 27.5) == pytest.approx(measured, rel=0.05)


def test_no_oxygen_to_spare_lasts_no_time() -> None:
    assert hours_left(3, 4, 1000, 100) == 0
    assert hours_left(8, 4, 1000, 0) == float("inf")


def test_hours_are_told_for_the_animals_that_need_most(book: Book) -> None:
    words = ("oxygen=6", "stock=3", "feed=30", "temperature=25")
    tilapia = check(book, *words).derived["oxygen_hours_left"]
    shrimp = System(volume_l=1000, animals=("tilapia", "cherry-shrimp"))
    with_shrimp = check(book, *words, system=shrimp).derived["oxygen_hours_left"]
    assert 0 < with_shrimp.high < tilapia.high
    twice = check(book, *words, system=System(volume_l=2000, animals=("tilapia",))).derived["oxygen_hours_left"]
    assert twice.value == pytest.approx(2 * tilapia.value)


def test_unmeasured_oxygen_gives_the_most_it_can_be(book: Book) -> None:
    report = check(book, "stock=3", "feed=30", "temperature=25")
    assert "oxygen_hours_left" not in report.derived
    assert report.derived["oxygen_hours_at_most"].value > 0


def test_alkalinity_lasts_so_many_days(book: Book) -> None:
    days = check(book, "alkalinity=70", "feed=30", "protein=32").derived["buffer_days"]
    assert days.value == pytest.approx(70 / (7.14 * 30 * 0.32 * 0.092), rel=1e-6)


# -- nutrients


@pytest.mark.parametrize(
    ("words", "nutrient", "state"),
    [
        (("iron=0.1", "ph=6.4"), "iron", "scarce"),
        (("iron=1.5", "ph=7.6"), "iron", "locked"),
        (("iron=1.5", "ph=6.4"), "iron", "enough"),
        (("ph=6.4",), "iron", "unknown"),
        (("ph=7.6",), "iron", "locked"),
        (("potassium=250",), "magnesium", "antagonised"),
        (("potassium=250", "magnesium=2"), "magnesium", "scarce"),
        (("potassium=250",), "potassium", "too-much"),
        (("potassium=80",), "potassium", "enough"),
        (("potassium=30",), "potassium", "between"),
        (("phosphate=120mg/L PO4",), "zinc", "antagonised"),
        (("ph=7.8", "manganese=0.5"), "manganese", "locked"),
        (("nitrate=300mg/L NO3",), "nitrate", "too-much"),
        (("boron=0.01",), "boron", "scarce"),
    ],
)
def test_nutrient_by_nutrient(book: Book, words: tuple[str, ...], nutrient: str, state: str) -> None:
    found = {line.quantity: line for line in check(book, *words).nutrients}[nutrient]
    assert found.state == state
    if state not in ("unknown", "between"):
        assert found.because
        assert found.sources


def test_states_name_conclusions_that_rules_draw(book: Book) -> None:
    drawn = {rule.conclude for rule in book.rules.values()}
    named = {conclusion for quantity in book.quantities.values() for conclusion in quantity.states}
    assert named
    assert named <= drawn


# -- salt and crops


def test_salt_for_each_crop(book: Book) -> None:
    """plos-0198290 (W43, W44): bean has about half its crop at 3.6, scallop squash three quarters at 4.8 dS/m."""
    grown = System(crops=("bean", "squash", "basil"))
    lines = {line.crop: line for line in check(book, "ec=3.6mS/cm", system=grown).crops}
    assert set(lines) == {"bean", "squash"}  # nothing is published for basil
    assert lines["bean"].yield_low == pytest.approx(50, abs=1)
    assert check(book, "ec=4.8mS/cm", system=grown).crops[1].yield_low == pytest.approx(75, abs=1)
    assert not {line.crop: line for line in check(book, "ec=0.8mS/cm", system=grown).crops}["bean"].above
    assert check(book, "ph=7", system=grown).crops == ()


# -- top-up water


def test_chlorine_in_the_top_up_water(book: Book) -> None:
    report = check(book, "top-up chlorine=1", "top-up=100")
    assert "chlorine-poured-in-alarm" in [warning.id for warning in report.warnings if warning.urgent]
    assert report.derived["chlorine_after_top_up_mg_l"].value == pytest.approx(0.1)
    little = check(book, "top-up chlorine=0.05", "top-up=10")
    assert not [warning for warning in little.warnings if warning.urgent]
    assert "top-up-holds-chlorine" in [warning.id for warning in little.warnings]


def test_top_up_water_is_not_the_systems_water(book: Book) -> None:
    report = check(book, "top-up alkalinity=200", "top-up sodium=80")
    assert "alkalinity" not in [line.quantity for line in report.readings]
    assert {"top-up-alkaline", "top-up-salty"} <= {warning.id for warning in report.warnings}


# -- limits and wording


def test_limits_of_the_animals_stand_beside_what_was_measured(book: Book) -> None:
    shrimp = System(animals=("tilapia", "cherry-shrimp"))
    report = check(book, "ph=8.3", "temperature=25", "tan=0.1", system=shrimp)
    assert {"ph", "temperature", "unionised-ammonia"} <= set(report.limits)
    text = screen(report)
    assert "OUTSIDE" in text
    assert "wiki-cherry-shrimp" in text  # the sources of a disagreement are named


@pytest.mark.parametrize(
    ("value", "unit", "said"),
    [(0.0502, "fraction", "5.02 %"), (0.36, "of the limit", "0.36 of the limit"),
     (2.4, "of the limit", "2.4 times the limit"), (7.2, "pH", "7.2"), (3, "mg/L", "3 mg/L")],
)  # fmt: skip
def test_amounts_as_they_are_said(value: float, unit: str, said: str) -> None:
    assert say_amount(value, unit) == said
    assert say_span(value, value, unit) == ""


def test_a_value_at_the_limit_is_not_called_above_it(book: Book) -> None:
    said = [w.say for w in check(book, "ph=8.0", "temperature=24", "tan=1.0").warnings]
    assert not [text for text in said if "1 mg/L" in text and "above" in text]
    said = [w.say for w in check(book, "ph=7.0", "nitrite=1mg/L NO2", "chloride=5").warnings]
    assert not [text for text in said if "1 mg/L" in text and "above the" in text]


@pytest.mark.parametrize("width", [60, 80])
def test_the_screen_says_no_words_of_the_program(book: Book, width: int) -> None:
    report = check(book, "ph=8.0", "temperature=24", "tan=1.0", "iron=1", "oxygen=6", "stock=2", "feed=20")
    text = screen(report, width)
    for word in ("fraction", "of_the", "_mg_l", " times of", "unionised-"):
        assert word not in text
    assert "5.02 %" in text
    assert max(len(line) for line in text.splitlines()) <= width


@given(ph=st.floats(6.0, 8.8), tan=st.floats(0, 8), room=st.floats(0, 0.4))
def test_a_wider_interval_never_gives_a_milder_warning(book: Book, ph: float, tan: float, room: float) -> None:
    """Alarms that exact readings raise are raised by every interval around them as well."""
    exact = check(book, f"ph={ph:.2f}", f"tan={tan:.2f}", "temperature=25")
    around = f"ph={ph - room:.2f}..{ph + room:.2f}", f"tan={max(tan - room, 0):.2f}..{tan + room:.2f}"
    wide = check(book, *around, "temperature=25")
    urgent = [{warning.id for warning in report.warnings if warning.urgent} for report in (exact, wide)]
    assert urgent[0] <= urgent[1]


def test_single_salts_against_what_a_crop_bears(book: Book) -> None:
    # strawberry-disorders: more than 100 mg/L of either costs a part of the crop; nothing is published for pak choi
    system = System(volume_l=1000, crops=("strawberry", "tomato", "pak-choi"))
    report = check(book, "chloride=120", "sodium=60", system=system)
    strawberry, tomato = report.crops
    assert [(ion.quantity, ion.limit, ion.above, ion.read) for ion in strawberry.ions] == [
        ("chloride", 100, True, "seen"),
        ("sodium", 100, False, "seen"),
    ]
    assert [(ion.quantity, ion.above, ion.read) for ion in tomato.ions] == [("chloride", False, "memory")]
    assert strawberry.ec_ms_cm is None
    assert "Strawberry: chloride up to 100 mg/L" in screen(report)
    assert "TOO MUCH" in screen(report)
    assert "from memory" in screen(report)


def test_alkalinity_by_titration_only_where_it_was_not_measured(book: Book) -> None:
    words = ("titration-acid=18", "titration-strength=0.02", "titration-sample=50", "ph=7", "temperature=25")
    titrated, measured = check(book, *words), check(book, *words, "kh=4dKH")
    assert titrated.derived["alkalinity_mg_l_caco3"].value == pytest.approx(360)
    assert titrated.derived["carbon_dioxide_mg_l"].value > 70
    assert measured.derived["alkalinity_mg_l_caco3"].value == pytest.approx(71.4, abs=0.1)
