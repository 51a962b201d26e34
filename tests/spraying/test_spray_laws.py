"""Laws over the whole book, whatever the cover, the volume, the dose and the animals: as a grower would ask.

Bands: very highly toxic (below 0.1 mg/L) is never, highly toxic (below 1) never better than away (zucker1985). What is
not said, more of it, less or softer water never gives a milder grade.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from triage.model.book import Book
from triage.model.rule import Grade
from triage.model.substance import Substance
from triage.responses.endpoint import endpoint_of, to_mg_l
from triage.responses.exposure import strongest_g_l
from triage.spraying import Asked, Judge

#: Unknown is treated like never until the label is read.
RANK: dict[Grade, int] = {"ok": 0, "keep-off-water": 1, "away-from-system": 2, "unknown": 3, "never": 3}
COVERS = ["none", "covered", "moved", "drench", "returned", "neighbour", "perimeter"]
LAW = settings(
    max_examples=120, deadline=None, derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)  # fmt: skip


@pytest.fixture(scope="module")
def everything(make_judge: Callable[..., Judge]) -> Judge:
    return make_judge(None, ())


def _magnitude(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high).map(lambda power: float(f"{10**power:.3g}"))


@st.composite
def asks(draw: st.DrawFn, book: Book) -> Asked:
    """One substance, sprayed or not, with everything said."""
    herd = st.lists(st.sampled_from(sorted(book.animals)), min_size=1, max_size=4, unique=True)
    return Asked(
        words=draw(st.sampled_from(sorted(book.substances))), strength=f"{draw(_magnitude(-3, 2.7)):.6f} g/L",
        amount=f"{draw(_magnitude(-3, 1.2)):.6f} L", cover=draw(st.sampled_from(COVERS)),
        volume=f"{draw(_magnitude(2.31, 4.69)):.0f} L", animals=",".join(draw(herd)), times=draw(st.integers(1, 5)),
        every=f"{draw(st.integers(1, 30))} d",
    )  # fmt: skip


def _grade(judge: Judge, asked: Asked) -> Grade:
    return judge.judge(asked).verdict.grade


def _lowest(one: Substance, kinds: set[str]) -> float | None:
    """The lowest figure of the book, as it is printed, that did harm."""
    values = [
        value
        for row in one.toxicity
        if row.group in kinds and endpoint_of(row) not in (None, "tolerated")
        and (value := to_mg_l(row.value, row.unit, one)) is not None
    ]  # fmt: skip
    return min(values, default=None)


@LAW
@given(data=st.data())
def test_bands_hold_for_every_use(everything: Judge, data: st.DataObject) -> None:
    book = everything.book
    asked = data.draw(asks(book))
    kept = [book.animals[name] for name in (asked.animals or "").split(",")]
    kinds = {animal.kind for animal in kept} | {"fish"}
    lowest = _lowest(book.substances[asked.words], set(kinds))
    grade = _grade(everything, asked)
    if lowest is not None and lowest < 0.1:
        assert grade == "never"
    elif lowest is not None and lowest < 1:
        assert RANK[grade] >= RANK["away-from-system"]


def test_bands_hold_for_the_gentlest_use_of_every_substance(everything: Judge) -> None:
    """A millilitre of a trace on a plant carried away, in fifty cubic metres."""
    for name, one in everything.book.substances.items():
        for animals, kinds in (("tilapia", {"fish"}), ("tilapia,shrimp", {"fish", "crustacean"})):
            lowest = _lowest(one, kinds)
            asked = Asked(
                words=name, strength="0.001 g/L", amount="1 mL", cover="moved", volume="50000 L", animals=animals
            )
            grade = _grade(everything, asked)
            if lowest is not None and lowest < 0.1:
                assert grade == "never", name
            elif lowest is not None and lowest < 1:
                assert RANK[grade] >= RANK["away-from-system"], name


@LAW
@given(data=st.data())
def test_more_of_it_or_less_water_is_never_milder(everything: Judge, data: st.DataObject) -> None:
    asked = data.draw(asks(everything.book))
    factor = data.draw(st.floats(1, 30))

    def times(text: str | None, by: float) -> str:
        number, unit = (text or "").split()
        return f"{float(number) * by:.6f} {unit}"

    volume = float((asked.volume or "").split()[0])
    before = _grade(everything, asked)
    for change in (
        {"strength": times(asked.strength, factor)}, {"amount": times(asked.amount, factor)},
        {"volume": f"{volume / factor:.3f} L"}, {"times": asked.times + 1},
    ):  # fmt: skip
        assert RANK[_grade(everything, msgspec.structs.replace(asked, **change))] >= RANK[before], change


@LAW
@given(data=st.data())
def test_what_is_not_said_is_never_milder(everything: Judge, data: st.DataObject) -> None:
    """As strong and as much as is likely: up to three times the usual strength, undiluted at most, and five litres."""
    book = everything.book
    one = book.substances[data.draw(st.sampled_from(sorted(book.substances)))]
    likely = 3 * one.spray_strength.value if one.spray_strength else strongest_g_l(one)
    undiluted = strongest_g_l(one)
    strongest = min(likely or 1.0, undiluted or likely or 1.0)
    said = msgspec.structs.replace(
        data.draw(asks(book)), words=one.substance, strength=f"{strongest * data.draw(st.floats(0.01, 1)):.8f} g/L",
        amount=f"{data.draw(st.floats(0.01, 5)):.4f} L", cover=data.draw(st.sampled_from(["none", "covered", "moved"])),
    )  # fmt: skip
    full = RANK[_grade(everything, said)]
    for forget in ("strength", "amount", "volume", "animals", "every", "cover"):
        if forget == "strength" and likely is None:
            continue  # nothing is known of how strong it is used; then the grade is unknown or by weight
        left = msgspec.structs.replace(said, **{forget: None})
        assert RANK[_grade(everything, left)] >= full, forget


@pytest.mark.parametrize("cover", ["none", "covered", "moved"])
def test_what_is_not_said_is_never_milder_for_any_substance(everything: Judge, cover: str) -> None:
    """Every substance of the book: a litre of what is usual, then with one thing after another forgotten."""
    for name, one in everything.book.substances.items():
        for herd in ("tilapia", "tilapia,shrimp"):
            strength = f"{one.spray_strength.value} g/L" if one.spray_strength else None
            said = Asked(words=name, strength=strength, amount="1L", cover=cover, volume="1000L", animals=herd)
            full = RANK[_grade(everything, said)]
            for forget in ("strength", "amount", "volume", "animals", "cover"):
                if forget == "amount" and strength is None and strongest_g_l(one) is None:
                    continue  # a litre of it cannot be reckoned and a handful can
                left = msgspec.structs.replace(said, **{forget: None})
                assert RANK[_grade(everything, left)] >= full, (name, herd, forget)


@LAW
@given(data=st.data())
def test_a_bottle_is_as_strict_as_the_worst_in_it(everything: Judge, data: st.DataObject) -> None:
    one, other = data.draw(asks(everything.book)), data.draw(asks(everything.book))
    both = msgspec.structs.replace(one, words=f"{one.words} + {other.words}")
    alone = [_grade(everything, msgspec.structs.replace(one, words=words)) for words in (one.words, other.words)]
    assert RANK[_grade(everything, both)] >= max(RANK[grade] for grade in alone)


def test_a_word_for_several_is_as_strict_as_the_strictest(everything: Judge) -> None:
    for group in everything.book.substance_groups.values():
        asked = Asked(words=group.group, strength="1%", amount="1L", cover="covered", volume="1000L", animals="tilapia")
        alone = [RANK[_grade(everything, msgspec.structs.replace(asked, words=name))] for name in group.members]
        assert RANK[_grade(everything, asked)] == max(alone), group.group


WATERS: list[tuple[str, tuple[float, ...]]] = [("hardness", (300, 120, 40, 10)), ("alkalinity", (300, 120, 40, 16, 5))]


@pytest.mark.parametrize(("chemistry", "values"), WATERS, ids=lambda value: str(value))
def test_softer_water_is_never_milder(
    make_judge: Callable[..., Judge], spray_book: Book, chemistry: str, values: tuple[float, ...]
) -> None:
    judges: list[Any] = [make_judge(1000, ("tilapia", "redclaw"), **{chemistry: value}) for value in values]
    for name, one in spray_book.substances.items():
        strength = one.spray_strength.value if one.spray_strength else 1.0
        for asked in (
            Asked(words=name, strength=f"{strength} g/L", amount="1L", cover="covered"),
            Asked(words=name, amount="1 g", into_water=True),
        ):
            grades = [RANK[_grade(judge, asked)] for judge in judges]
            assert grades == sorted(grades), (name, grades)


def test_less_oxygen_is_never_milder(make_judge: Callable[..., Judge], spray_book: Book) -> None:
    judges = [make_judge(1000, ("tilapia",), oxygen=value) for value in (9.0, 6.0, 4.0, 2.0)]
    for name in spray_book.substances:
        asked = Asked(words=name, strength="5 g/L", amount="1L", cover="covered")
        grades = [RANK[_grade(judge, asked)] for judge in judges]
        assert grades == sorted(grades), (name, grades)
