"""How much of a water addition, in which steps."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.model.outcome import Dose
from triage.model.record import Sourced
from triage.model.treatment import DoseOf
from triage.responses.dose import Refused, alkalinity_step, days_for, dose_for, say_grams
from triage.responses.setting import Assumptions


def _of(quantity: str = "iron", per_unit: float = 16.67, to: float = 2.0, **others: Any) -> DoseOf:
    grams = Sourced(value=per_unit, unit="g per mg/L per 1000 L", source="molar-mass", read="computed")
    return DoseOf(quantity=quantity, product="powder", grams_per_unit_per_1000_l=grams, to=to, **others)


def test_grams_follow_from_the_reading(kit: SimpleNamespace, assumed: Assumptions) -> None:
    here = kit.water(500, readings=(kit.reading("iron", 0.1, 0.0, 0.1), kit.reading("ph", 7.4)))
    dose = dose_for(_of(most_per_day=1.0, ph_at_most=8.5), None, here, assumed)
    assert isinstance(dose, Dose)
    assert dose.grams == pytest.approx(1.95 * 16.67 * 0.5)
    assert (dose.low_grams, dose.high_grams) == (pytest.approx(1.9 * 8.335), pytest.approx(2.0 * 8.335))
    assert dose.days == 2
    assert dose.steps[0].startswith("Each day for 2 days: 8.13 g of powder")
    assert "stop at 2" in dose.steps[1]


def test_one_day_is_one_step(kit: SimpleNamespace, assumed: Assumptions) -> None:
    here = kit.water(readings=(kit.reading("iron", 1.5),))
    dose = dose_for(_of(), None, here, assumed)
    assert isinstance(dose, Dose)
    assert (dose.days, dose.grams) == (1, pytest.approx(8.335))


@pytest.mark.parametrize(("ph", "refused"), [(6.9, False), (7.0, False), (7.4, True)])
def test_a_chelate_that_does_not_hold_is_refused(
    kit: SimpleNamespace, assumed: Assumptions, ph: float, refused: bool
) -> None:
    here = kit.water(readings=(kit.reading("iron", 0.1), kit.reading("ph", ph, ph - 0.2, ph + 0.2)))
    found = dose_for(_of(ph_at_most=7.0), None, here, assumed)
    assert isinstance(found, Refused) == refused
    if isinstance(found, Refused):
        assert found.pointless
        assert "holds to pH 7; this water has 7.4" in found.why
    else:
        assert "may be above" in found.note


def test_a_small_rise_takes_one_day_and_a_hair_more_than_a_step_none_more() -> None:
    assert days_for(0.2, 1.0) == 1
    assert days_for(2.0 + 1e-9, 1.0) == 2
    assert days_for(2.0 + 1e-3, 1.0) == 3


def test_unmeasured_ph_is_asked_for(kit: SimpleNamespace, assumed: Assumptions) -> None:
    dose = dose_for(_of(ph_at_most=7.0), None, kit.water(readings=(kit.reading("iron", 0.1),)), assumed)
    assert isinstance(dose, Dose)
    assert dose.note.startswith("Measure pH first")


def test_enough_is_enough(kit: SimpleNamespace, assumed: Assumptions) -> None:
    found = dose_for(_of(), None, kit.water(readings=(kit.reading("iron", 2.5, 2.0, 3.0),)), assumed)
    assert isinstance(found, Refused)
    assert found.pointless


@pytest.mark.parametrize(
    ("measured", "volume", "said"), [(False, 1000.0, "Measure iron"), (True, None, "How many litres")]
)
def test_what_is_missing_is_asked_for(
    kit: SimpleNamespace, assumed: Assumptions, measured: bool, volume: float | None, said: str
) -> None:
    here = kit.water(volume, readings=(kit.reading("iron", 0.1),) if measured else ())
    found = dose_for(_of(), None, here, assumed)
    assert isinstance(found, Refused)
    assert not found.pointless
    assert said in found.why


def test_lye_goes_slower_in_soft_water(kit: SimpleNamespace, assumed: Assumptions) -> None:
    lye = kit.substance(traits=["raises-ph", "burns-people"])
    mild = kit.substance(traits=["raises-ph"])
    of = _of("alkalinity", 1.121, 60.0, most_per_day=4.0)

    def days(stuff: Any, ph: float) -> int:
        here = kit.water(readings=(kit.reading("alkalinity", 20), kit.reading("ph", ph)))
        dose = dose_for(of, stuff, here, assumed)
        assert isinstance(dose, Dose)
        return dose.days

    assert days(mild, 7.0) == 10
    assert days(lye, 7.0) == math.ceil(40 / alkalinity_step(7.0, 20, assumed.margin("ph-change-per-day"))) == 21
    assert days(lye, 6.2) == 10


def test_lye_without_a_usual_step_goes_by_ph_and_without_ph_by_its_usual_step(
    kit: SimpleNamespace, assumed: Assumptions
) -> None:
    lye = kit.substance(traits=["raises-ph", "burns-people"])
    soft = kit.reading("alkalinity", 20)

    def days(stuff: Any, most: float | None, *readings: Any, quantity: str = "alkalinity") -> int:
        here = kit.water(readings=(soft, *readings))
        dose = dose_for(_of(quantity, 1.121, 60.0, most_per_day=most), stuff, here, assumed)
        assert isinstance(dose, Dose)
        return dose.days

    assert days(lye, None, kit.reading("ph", 7.0)) == 21
    assert days(lye, 4.0) == 10
    assert days(lye, None) == 1
    assert days(None, 4.0, kit.reading("ph", 7.0)) == 10
    assert days(lye, 4.0, kit.reading("ph", 7.0), kit.reading("calcium", 20), quantity="calcium") == 10
    assert days(lye, 4.0, kit.reading("ph", 6.9, 6.8, 7.0)) == 21  # the high end of the reading counts


def test_the_softest_water_is_taken_as_the_margin_says(kit: SimpleNamespace, assumed: Assumptions) -> None:
    lye = kit.substance(traits=["raises-ph", "burns-people"])
    here = kit.water(readings=(kit.reading("alkalinity", 1), kit.reading("ph", 7.0)))
    dose = dose_for(_of("alkalinity", 1.121, 60.0), lye, here, assumed)
    assert isinstance(dose, Dose)
    step = alkalinity_step(7.0, assumed.margin("alkalinity-unmeasured"), assumed.margin("ph-change-per-day"))
    assert dose.days == math.ceil(59 / step)


def test_the_steps_in_words(kit: SimpleNamespace, assumed: Assumptions) -> None:
    def steps(of: DoseOf, *readings: Any) -> tuple[str, ...]:
        dose = dose_for(of, None, kit.water(readings=readings), assumed)
        assert isinstance(dose, Dose)
        return dose.steps

    step = "8.34 g of powder, dissolved in a bucket of system water, slowly into the sump."
    assert steps(_of(), kit.reading("iron", 1.5)) == (step, "Test iron the next day.")
    assert steps(_of(most_per_day=0.5), kit.reading("iron", 1.0)) == (
        f"Each day for 2 days: {step}", "Test iron before each day's step and stop at 2.",
    )  # fmt: skip
    assert steps(_of("silicon", 16.67, 2.0), kit.reading("silicon", 1.5))[1] == "Test silicon the next day."


def test_what_the_product_says_of_ph_comes_along(kit: SimpleNamespace, assumed: Assumptions) -> None:
    def note(of: DoseOf, *ph: float) -> str:
        readings = (kit.reading("iron", 0.1), *([kit.reading("ph", *ph)] if ph else []))
        dose = dose_for(of, None, kit.water(readings=readings), assumed)
        assert isinstance(dose, Dose)
        return dose.note

    of = _of(ph_at_most=7.5, note="Keep it dark.")
    assert note(of) == "Measure pH first: it holds only to pH 7.5. Keep it dark."
    assert note(of, 7.4, 7.2, 7.6) == "It holds to pH 7.5, and this water may be above that. Keep it dark."
    assert note(of, 7.4, 7.3, 7.5) == "Keep it dark."
    assert note(_of(note="Keep it dark.")) == "Keep it dark."
    assert note(_of(ph_at_most=7.5)) == "Measure pH first: it holds only to pH 7.5."
    assert note(_of(ph_at_most=7.5), 7.4, 7.2, 7.6) == "It holds to pH 7.5, and this water may be above that."


def test_a_refusal_says_why_in_plain_figures(kit: SimpleNamespace, assumed: Assumptions) -> None:
    def why(of: DoseOf, volume: float | None, *readings: Any) -> tuple[str, bool]:
        found = dose_for(of, None, kit.water(volume, readings=readings), assumed)
        assert isinstance(found, Refused)
        return found.why, found.pointless

    hard = kit.reading("alkalinity", 1234.0)
    assert why(_of("alkalinity", 1.1, 60.5), 1000, hard) == (
        "The water already has 1230 or more; the target is 60.5.", True,
    )  # fmt: skip
    assert why(_of(), 1000, kit.reading("iron", 2.0)) == ("The water already has 2 or more; the target is 2.", True)
    assert why(_of(), 1000) == ("Measure iron first: the dose follows from it.", False)
    below = kit.reading("iron", 0.0, -math.inf, 3.0)
    assert why(_of(), 1000, below) == ("Measure iron first: the dose follows from it.", False)
    said = "How many litres does the system hold? The dose follows from it."
    assert why(_of(), None, kit.reading("iron", 0.1)) == (said, False)
    high = kit.reading("ph", 7.456)
    assert why(_of(ph_at_most=7.25), 1000, high) == ("powder holds to pH 7.25; this water has 7.46.", True)


def test_a_reading_that_reaches_past_the_target_may_need_nothing(kit: SimpleNamespace, assumed: Assumptions) -> None:
    dose = dose_for(_of(), None, kit.water(readings=(kit.reading("iron", 2.5, 1.0, 4.0),)), assumed)
    assert isinstance(dose, Dose)
    assert (dose.low_grams, dose.high_grams) == (0.0, pytest.approx(16.67))
    assert dose.grams == pytest.approx(16.67 / 2)  # the middle needs nothing: half of the most it may need
    assert dose.what == "powder"


@pytest.mark.parametrize(
    ("grams", "said"),
    [
        (1000, "1 kg"), (999.4, "999 g"), (999.6, "1 kg"), (1234567, "1230 kg"), (0.1, "0.1 g"), (0.0999, "100 mg"),
        (0.5, "0.5 g"), (12.345, "12.3 g"), (0.002, "2 mg"), (99_950, "100 kg"),
        (0.01249, "12 mg"),
    ],
)  # fmt: skip
def test_grams_are_said_as_one_weighs_them(grams: float, said: str) -> None:
    assert say_grams(grams) == said


@given(ph=st.floats(6.0, 8.0), alkalinity=st.floats(10, 300), change=st.floats(0.05, 0.3))
def test_the_step_moves_ph_by_the_change(ph: float, alkalinity: float, change: float) -> None:
    carbon_dioxide = alkalinity * 10 ** (6.33 - ph)
    up = alkalinity_step(ph, alkalinity, change)
    down = alkalinity_step(ph, alkalinity, -change)
    assert 6.33 + math.log10((alkalinity + up) / (carbon_dioxide - up)) == pytest.approx(ph + change)
    assert 6.33 + math.log10((alkalinity - down) / (carbon_dioxide + down)) == pytest.approx(ph - change)


@given(low=st.floats(0, 1.9), wide=st.floats(0, 1), volume=st.floats(50, 50_000), most=st.floats(0.05, 5))
def test_the_steps_add_up_and_none_is_too_large(
    kit: SimpleNamespace, assumed: Assumptions, low: float, wide: float, volume: float, most: float
) -> None:
    here = kit.water(volume, readings=(kit.reading("iron", low, low, low + wide),))
    dose = dose_for(_of(most_per_day=most), None, here, assumed)
    assert isinstance(dose, Dose)
    assert dose.low_grams <= dose.grams <= dose.high_grams
    assert dose.grams / dose.days <= most * 16.67 * volume / 1000 * 1.00001
