"""Where the interval of a reading ends, what number stands for it, and what is said about it."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from triage.errors import UsageError
from triage.model.quantity import Quantity
from triage.water.readings import make_reading, parse_assignment

Book = Mapping[str, Quantity]


def test_an_open_end_reaches_to_what_is_likely(quantities: Book) -> None:
    least, most = quantities["ph"].likely or (0.0, 0.0)
    below, above = (make_reading("ph", text, quantities) for text in ("<= 6", ">= 8"))
    assert (below.low, below.high, below.bound) == (least, 6.0, "<=")
    assert (above.low, above.high, above.bound) == (8.0, most, ">=")
    assert (make_reading("ph", "< 6", quantities).low, make_reading("ph", "> 8", quantities).high) == (least, most)


def test_beyond_the_likely_it_reaches_to_what_is_possible(quantities: Book) -> None:
    low, high = quantities["ph"].likely or (0.0, 0.0)
    assert (low, high) == (5.0, 9.0)
    assert make_reading("ph", "<= 5", quantities).low == make_reading("ph", "<= 4", quantities).low == 0.0
    assert make_reading("ph", ">= 9", quantities).high == make_reading("ph", ">= 10", quantities).high == 14.0


@pytest.mark.parametrize(("value", "step", "low", "high"), [(0.1, 0.4, 0.0, 0.3), (13.9, 0.4, 13.7, 14.0)])
def test_no_step_leaves_the_possible(quantities: Book, value: float, step: float, low: float, high: float) -> None:
    reading = make_reading("ph", value, quantities, step=step)
    assert (reading.low, reading.high) == (pytest.approx(low), pytest.approx(high))
    assert make_reading("ph", value, quantities, step=-step) == reading


def test_a_range_is_half_a_step_wider_on_either_side(quantities: Book) -> None:
    reading = make_reading("ph", "6.4..6.8", quantities, step=0.2)
    assert (reading.low, reading.value, reading.high) == (pytest.approx(6.3), pytest.approx(6.6), pytest.approx(6.9))
    card = make_reading("ph", "6.4..7.0", quantities, kit="card")
    assert card.low == make_reading("ph", 6.4, quantities, kit="card").low
    assert card.high == make_reading("ph", 7.0, quantities, kit="card").high


def test_the_number_of_an_open_form_is_the_middle_to_three_digits_and_of_a_limit_the_limit(quantities: Book) -> None:
    most = 10 * 62.0049 / 14.0067  # nitrate as nitrogen, molar masses
    assert make_reading("nitrate", 10, quantities).value == float(f"{(10 + most) / 2:.3g}")
    assert make_reading("nitrate", "<= 10", quantities).value == pytest.approx(most, abs=0.01)
    assert make_reading("nitrate", ">= 10", quantities).value == 10.0
    assert make_reading("nitrate", "< 10", quantities).value == pytest.approx(most, abs=0.01)
    assert make_reading("nitrate", "> 10", quantities).value == 10.0
    assert make_reading("nitrate", "12.345 mg/L-NO3", quantities).value == 12.345


def test_the_step_of_a_kit_is_kept_in_the_own_unit(quantities: Book) -> None:
    own = quantities["alkalinity"].kit_step
    assert own > 0
    assert make_reading("alkalinity", "4 dKH", quantities, kit="drops").step == own
    for kit in ("meter", "lab", ""):
        assert make_reading("alkalinity", "4 dKH", quantities, kit=kit).step == 0.0
    told = make_reading("alkalinity", "4 dKH", quantities, kit="drops", step=-0.5)
    assert told.step == pytest.approx(0.5 * 17.848)  # a German degree is 17.848 mg/L CaCO3
    assert (told.low, told.high) == (pytest.approx(3.75 * 17.848), pytest.approx(4.25 * 17.848))
    assert make_reading("alkalinity", 80, quantities, unit="mg/L", step=4).step == 4.0


def test_a_form_not_said_is_named_but_for_nothing_at_all(quantities: Book) -> None:
    note = make_reading("nitrate", 10, quantities).note
    assert note == "form not said: read as mg/L NO3 or mg/L N"
    assert make_reading("nitrate", 0, quantities).note == ""
    assert make_reading("nitrate", "10 mg/L-N", quantities).note == ""


@pytest.mark.parametrize(("value", "unlikely"), [(4.99, True), (5, False), (9, False), (9.01, True)])
def test_where_the_unlikely_begins(quantities: Book, value: float, unlikely: bool) -> None:
    said = "unlikely: usually 5 to 9 pH, look again" if unlikely else ""
    assert make_reading("ph", value, quantities).note == said


@pytest.mark.parametrize(
    ("text", "said"), [("6.0", True), ("6.4", False), ("7.6", True), ("<= 6.0", False), (">= 7.6", False)]
)
def test_both_ends_of_a_card_are_said_unless_it_is_a_limit(quantities: Book, text: str, said: bool) -> None:
    note = make_reading("ph", text, quantities, kit="card").note
    assert note == ("end of the card: at or beyond" if said else "")


def test_a_range_that_ends_at_the_end_of_the_card_is_said(quantities: Book) -> None:
    for text in ("6.0..6.4", "7.0..7.6"):
        assert make_reading("ph", text, quantities, kit="card").note == "end of the card: at or beyond"


def test_a_kit_without_known_steps_is_taken_as_exact_and_said(quantities: Book) -> None:
    unknown = next(
        quantity
        for quantity in quantities.values()
        if quantity.effort == "test-kit" and not (quantity.kits or quantity.kit_step or quantity.derived)
    )
    value = sum(unknown.likely or unknown.possible) / 2
    for kit, said in (("drops", True), ("meter", False), ("lab", False), ("", False)):
        reading = make_reading(unknown.quantity, value, quantities, unit=unknown.unit, kit=kit)
        assert reading.low == reading.high == reading.value
        assert reading.note == ("steps of this kit not known: taken as exact" if said else "")


def test_remarks_follow_each_other(quantities: Book) -> None:
    _, likely = quantities["nitrate"].likely or (0.0, 0.0)
    said = make_reading("nitrate", likely + 1, quantities, kit="drops").note
    assert said.startswith("form not said: read as mg/L NO3 or mg/L N; unlikely: usually ")
    assert said.endswith(" mg/L NO3, look again; end of the card: at or beyond")


@pytest.mark.parametrize(
    ("word", "says"),
    [
        ("ph=19", "ph: 19 pH is not possible (possible: 0 to 14 pH)"),
        ("ph=13..19", "ph: 13 to 19 pH is not possible (possible: 0 to 14 pH)"),
        ("ph", "'ph' is not a reading (write name=value, for example ph=7.2 or tan<=0.25)"),
        ("unionised-ammonia=1", "'unionised-ammonia' is worked out from other readings and cannot be entered"),
    ],
)
def test_the_whole_line_of_a_refusal(quantities: Book, word: str, says: str) -> None:
    with pytest.raises(UsageError) as refused:
        parse_assignment(word, quantities)
    assert str(refused.value) == says


def test_a_number_that_fits_another_unit_names_the_first_of_them(quantities: Book) -> None:
    with pytest.raises(UsageError) as refused:
        parse_assignment("temperature=77", quantities)
    assert str(refused.value).startswith("temperature: 77 °C is not possible (possible: ")
    assert str(refused.value).endswith(" °C; in °F it could be)")


def test_what_is_allowed_instead_of_an_unknown_reading_leaves_out_what_is_worked_out(quantities: Book) -> None:
    with pytest.raises(UsageError) as refused:
        parse_assignment("qqq=1", quantities)
    entered = [id_ for id_, quantity in quantities.items() if not quantity.derived]
    assert str(refused.value) == f"no reading 'qqq' (allowed: {', '.join(entered)})"


def test_two_units_or_bounds_that_agree_are_no_fault(quantities: Book) -> None:
    assert make_reading("iron", "<= 0.1 mg/L", quantities, unit="ppm", bound="<=").bound == "<="
    assert make_reading("iron", "<= 0.1", quantities, bound="=").bound == "<="
    with pytest.raises(UsageError) as refused:
        make_reading("iron", "<= 0.1", quantities, bound=">")
    assert str(refused.value) == "iron: '<= 0.1' has two bounds, <= and >"
    with pytest.raises(UsageError) as refused:
        make_reading("iron", "0.1 mg/L", quantities, unit="ppb")
    assert str(refused.value) == "iron: '0.1 mg/L' has two units, mg/L and ppb"
    with pytest.raises(UsageError) as refused:
        make_reading("iron", "0.1", quantities, bound="~")  # type: ignore[arg-type]
    assert str(refused.value) == "iron: no bound '~' (allowed: =, <=, >=, <, >)"


@pytest.mark.parametrize("word", ["top-up ph=7", "Top_Up pH = 7", "top up ph:7"])
def test_the_sampling_point_before_a_name_goes_before_the_one_asked_for(quantities: Book, word: str) -> None:
    reading = parse_assignment(word, quantities, point="sump", kit="meter", time="08:30", on="2026-05-03")
    assert (reading.quantity, reading.point, reading.kit) == ("ph", "top-up", "meter")
    assert (reading.time, reading.on) == ("08:30", "2026-05-03")
    assert parse_assignment("ph=7", quantities, point="sump").point == "sump"


@pytest.mark.parametrize("time", ["00:00", "09:59", "19:00", "23:59", ""])
def test_times_of_day(quantities: Book, time: str) -> None:
    assert make_reading("ph", 7, quantities, time=time).time == time


@pytest.mark.parametrize("time", ["24:00", "8:30", "08:60", "0830", "08:30:00"])
def test_what_is_no_time_of_day(quantities: Book, time: str) -> None:
    with pytest.raises(UsageError) as refused:
        make_reading("ph", 7, quantities, time=time)
    assert str(refused.value) == f"'{time}' is not a time of day (write it like 08:30)"


def test_what_is_no_date_or_point(quantities: Book) -> None:
    with pytest.raises(UsageError) as refused:
        make_reading("ph", 7, quantities, on="tomorrow")
    assert str(refused.value) == "'tomorrow' is not a date (write it like 2026-05-03)"
    with pytest.raises(UsageError) as refused:
        make_reading("ph", 7, quantities, point="roof")
    assert str(refused.value).startswith("no sampling point 'roof' (allowed: fish-tank, sump, bed, top-up")
    assert make_reading("ph", 7, quantities, on="20260503").on == "2026-05-03"
