"""Strengths, amounts, volumes and intervals as people write them."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.errors import UsageError
from triage.responses.amounts import Strength, parse_amount, parse_every, parse_strength, parse_volume


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2%", Strength(value=2, unit="%")),
        ("0,5 %", Strength(value=0.5, unit="%")),
        ("70% vol", Strength(value=70, unit="% vol")),
        ("70 % v/v", Strength(value=70, unit="% vol")),
        ("1% w/v", Strength(value=1, unit="%")),
        ("20 g/L", Strength(value=20, unit="g/L")),
        ("300 mg/l", Strength(value=0.3, unit="g/L")),
        ("5 mL/L", Strength(value=5, unit="mL/L")),
        ("5 ml/l of product", Strength(value=5, unit="mL/L", of="product")),
        ("2% product", Strength(value=2, unit="%", of="product")),
        (".5%", Strength(value=0.5, unit="%")),
    ],
)
def test_strength_is_read_as_written(text: str, expected: Strength) -> None:
    assert parse_strength(text) == expected


@pytest.mark.parametrize("text", ["", "2", "two %", "-2%", "0%", "101%", "5 drops/L", "2%%", "1 g/L v/v", "1e3 g/L"])
def test_strange_strength_is_refused_in_one_line(text: str) -> None:
    with pytest.raises(UsageError, match=r"strength '.*' is not readable: write for example 2%") as caught:
        parse_strength(text)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    ("text", "litres", "grams"),
    [("1L", 1.0, None), ("250 mL", 0.25, None), ("10 g", None, 10.0), ("1.5 kg", None, 1500.0), ("0,5l", 0.5, None)],
)
def test_amount_is_litres_or_grams(text: str, litres: float | None, grams: float | None) -> None:
    amount = parse_amount(text)
    assert (amount.litres, amount.grams) == (litres, grams)


@pytest.mark.parametrize(
    ("parse", "text"),
    [
        (parse_amount, "10"), (parse_amount, "a cup"), (parse_amount, "3 cups"), (parse_amount, "-1 L"),
        (parse_volume, "1000"), (parse_volume, "0 L"), (parse_volume, "10 buckets"),
        (parse_every, "7"), (parse_every, "often"), (parse_every, "0d"),
    ],
)  # fmt: skip
def test_strange_quantities_say_what_is_allowed(parse: Callable[[str], object], text: str) -> None:
    with pytest.raises(UsageError, match="write for example"):
        parse(text)


@pytest.mark.parametrize(
    ("parse", "text", "said"),
    [
        (parse_every, "7", "interval '7' is not readable: write for example 7d, 2 weeks or 12 h"),
        (parse_amount, "a cup", "amount 'a cup' is not readable: write for example 1L, 250 mL or 10 g"),
        (parse_amount, "3 cups", "amount '3 cups' has an unknown unit: write for example 1L, 250 mL or 10 g"),
        (parse_volume, "0 L", "volume '0 L' is not readable: write for example 1000L, 1 m3 or 250 gal US"),
        (parse_volume, "9 tubs", "volume '9 tubs' has an unknown unit: write for example 1000L, 1 m3 or 250 gal US"),
        (parse_volume, "9 gal", "volume '9 gal': US gallons (3.8 L) or UK gallons (4.5 L)? write 'gal US' or 'gal UK'"),
        *(
            (parse_strength, text, f"strength '{text}' is not readable: write for example 2%, 70% vol, 20 g/L, "
             "300 mg/L or 5 mL/L, with 'product' behind it if that is what you measured")
            for text in ("two", "101%", "1 g/L vol")
        ),
    ],
)  # fmt: skip
def test_a_refusal_says_what_was_written_and_what_may_be(parse: Callable[[str], object], text: str, said: str) -> None:
    with pytest.raises(UsageError) as caught:
        parse(text)
    assert str(caught.value) == said


@pytest.mark.parametrize(
    ("text", "litres"),
    [
        ("2 Litres", 2), ("1 litre", 1), ("3 liters", 3), ("1 liter", 1), ("5000 ml", 5), ("2 m³", 2000),
        ("1 gallon US", 3.785411784), ("10 us  gal", 37.85411784), ("2 gallons imp", 9.09218), ("1 GAL UK", 4.54609),
    ],
)  # fmt: skip
def test_volumes_in_the_units_people_use(text: str, litres: float) -> None:
    """A US gallon is 231 cubic inches, a British one 4.54609 L, by definition."""
    assert parse_volume(text) == pytest.approx(litres)


@pytest.mark.parametrize(
    ("text", "litres", "grams"),
    [("2 LITRES", 2.0, None), ("20 mg", None, 0.02), ("1 gram", None, 1.0), ("3 Grams", None, 3.0)],
)
def test_amounts_in_words(text: str, litres: float | None, grams: float | None) -> None:
    amount = parse_amount(text)
    assert (amount.litres, amount.grams) == (litres, grams)


def test_a_hundred_per_cent_is_the_most() -> None:
    assert parse_strength("100%").value == 100
    assert parse_strength("200 g/L").value == 200
    assert parse_strength("2% ACTIVE").of == "active"
    assert parse_strength("2% Product").of == "product"
    assert parse_strength("300 MG/L product") == Strength(value=0.3, unit="g/L", of="product")
    assert parse_strength("70% VOL product") == Strength(value=70, unit="% vol", of="product")


def test_a_gallon_must_say_whose_it_is() -> None:
    for text in ("250 gallons", "1 Gallon", "20 gal"):
        with pytest.raises(UsageError, match=r"US gallons .* or UK gallons"):
            parse_volume(text)
    assert parse_volume("250 gal US") == pytest.approx(946.35, abs=0.01)
    assert parse_volume("100 UK gallons") == pytest.approx(454.609)


@given(st.floats(0.01, 1e5))
def test_volume_comes_back(litres: float) -> None:
    assert parse_volume(f"{litres:.4f} L") == pytest.approx(litres, abs=1e-4)


def test_intervals_are_days() -> None:
    assert [parse_every(text) for text in ("7d", "1 week", "2w", "36 h", "3 Days")] == [7.0, 7.0, 14.0, 1.5, 3.0]
