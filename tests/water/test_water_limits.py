"""What the animals kept bear: the strictest end counts, every source is kept, and disagreement is said."""

from __future__ import annotations

from collections.abc import Mapping

from hypothesis import given
from hypothesis import strategies as st

from triage.model.crop import Animal, AnimalLimit
from triage.water.limits import Bound, Row, find_bands, least

Animals = Mapping[str, Animal]


def animal(name: str, *limits: AnimalLimit) -> Animal:
    return Animal(animal=name, name=name, kind="fish", species=[], groups=[], limits=list(limits), sources=[])


def limit(what: str, low: float | None = None, high: float | None = None) -> AnimalLimit:
    return AnimalLimit(quantity="ph", low=low, high=high, what=what, source="common-practice")  # type: ignore[arg-type]


def test_the_strictest_end_counts(animals: Animals) -> None:
    bands = find_bands([animals["tilapia"], animals["rainbow-trout"]])
    oxygen, heat = bands["oxygen"].low, bands["temperature"].high
    assert oxygen is not None
    assert heat is not None
    assert (oxygen.limit, oxygen.animal) == (6, "rainbow-trout")  # fao589
    assert (heat.limit, heat.animal) == (18.3, "rainbow-trout")  # swann
    assert bands["temperature"].disagree


def test_tolerated_goes_before_best_and_deadly_is_no_limit_to_work_with() -> None:
    band = find_bands([animal("a", limit("best", 6.5, 7.5), limit("tolerated", 6, 9), limit("deadly", 5, 10))])["ph"]
    assert band.low is not None
    assert band.high is not None
    assert (band.low.limit, band.high.limit) == (6, 9)
    assert len(band.rows) == 3
    assert not band.disagree
    only_deadly = find_bands([animal("a", limit("deadly", 5, 10))])["ph"]
    assert only_deadly.low is only_deadly.high is None


def test_nothing_is_known_of_nobody() -> None:
    assert find_bands([]) == {}
    assert least([], "oxygen") is None


@given(st.lists(st.tuples(st.floats(4, 7), st.floats(7, 10)), min_size=1, max_size=5), st.floats(4, 7))
def test_one_animal_more_never_widens_the_band(ranges: list[tuple[float, float]], more: float) -> None:
    kept = [animal(f"a{number}", limit("tolerated", low, high)) for number, (low, high) in enumerate(ranges)]
    before = find_bands(kept)["ph"].low
    after = find_bands([*kept, animal("b", limit("tolerated", more, 10))])["ph"].low
    assert before is not None
    assert after is not None
    assert after.limit >= before.limit


def test_a_band_keeps_who_says_what_and_by_which_source() -> None:
    trout = Animal(
        animal="trout", name="Rainbow trout", kind="fish", species=[], groups=[], sources=[],
        limits=[
            AnimalLimit(quantity="ph", low=6.5, high=8.0, what="best", source="swann", read="seen", note="in ponds")
        ],
    )  # fmt: skip
    carp = Animal(
        animal="carp", name="Carp", kind="fish", species=[], groups=[], sources=[],
        limits=[AnimalLimit(quantity="ph", low=5.0, high=9.5, what="tolerated", source="fao589", read="memory")],
    )  # fmt: skip
    band = find_bands([carp, trout])["ph"]
    assert band.quantity == "ph"
    assert band.low == band_end(6.5)
    assert band.high == band_end(8.0)
    assert band.rows == (
        Row(animal="carp", name="Carp", what="tolerated", low=5.0, high=9.5, source="fao589", read="memory"),
        Row(
            animal="trout", name="Rainbow trout", what="best", low=6.5, high=8.0, source="swann", read="seen",
            note="in ponds",
        ),
    )  # fmt: skip
    assert not band.disagree  # what is best for one does not contradict what the other tolerates


def band_end(value: float) -> Bound:
    return Bound(limit=value, animal="trout", name="Rainbow trout", what="best", source="swann", read="seen")


def test_the_least_that_all_of_them_bear() -> None:
    kept = [animal("a", limit("tolerated", 5.5, 9)), animal("b", limit("best", 6.5, 8)), animal("c")]
    assert least(kept, "ph") == 6.5
    assert least(kept, "oxygen") is None
    assert least([animal("a", limit("tolerated", None, 9))], "ph") is None
    assert least([animal("a", limit("deadly", 4, 10))], "ph") is None


def test_sources_of_one_kind_that_differ_are_said() -> None:
    assert find_bands([animal("a", limit("best", 6, 8), limit("best", 6, 8.5))])["ph"].disagree
    assert find_bands([animal("a", limit("best", 6, 8)), animal("b", limit("best", 6, 8))])["ph"].disagree is False
