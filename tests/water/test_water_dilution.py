"""Diluted samples: the factor as it is typed, and the reading of the water itself."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from triage.errors import UsageError
from triage.model.quantity import Quantity
from triage.water.dilution import dilution_factor, undiluted
from triage.water.readings import parse_assignment


@pytest.mark.parametrize("text", ["", "6/0.5", "0/6", "x", "1/2/3", "-1/6", "0.1", "1/inf"])
def test_what_is_no_dilution_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(UsageError, match=r"for example 0\.5/6"):
        dilution_factor(text)


def test_spread_grows_with_the_factor(quantities: Mapping[str, Quantity]) -> None:
    read = parse_assignment("nitrate=40mg/L NO3", quantities, kit="card")
    water = undiluted(read, 10)
    assert (water.value, water.low, water.high, water.step) == (400, 10 * read.low, 10 * read.high, 10 * read.step)
    assert "times 10" in water.note
    assert undiluted(read, 1) == read


@pytest.mark.parametrize("word", ["ph=7", "temperature=20"])
def test_what_is_no_amount_is_refused(word: str, quantities: Mapping[str, Quantity]) -> None:
    with pytest.raises(UsageError, match="diluted"):
        undiluted(parse_assignment(word, quantities), 5)


@pytest.mark.parametrize(
    ("text", "factor"),
    [("1", 1.0), ("1.5", 1.5), ("9999", 9999.0), ("5/5", 1.0), ("1 ml in 10 mL", 10.0), ("2/7", 3.5)],
)
def test_a_factor_or_sample_and_tube(text: str, factor: float) -> None:
    assert dilution_factor(text) == pytest.approx(factor)


@pytest.mark.parametrize("text", ["10000", "0.999", "1/10000"])
def test_a_factor_that_nobody_means(text: str) -> None:
    with pytest.raises(UsageError):
        dilution_factor(text)


def test_the_note_of_the_reading_stays_before_that_of_the_dilution(quantities: Mapping[str, Quantity]) -> None:
    open_form = parse_assignment("nitrate=10", quantities)
    assert open_form.note
    assert undiluted(open_form, 2.5).note == f"{open_form.note}; diluted sample: times 2.5"
    plain = parse_assignment("iron=0.5", quantities)
    assert undiluted(plain, 12).note == "diluted sample: times 12"
