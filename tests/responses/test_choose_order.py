"""What comes first: the leading cause, then by hand; what is at hand; what spreads; how soon one may harvest."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from triage.book.load import Loaded
from triage.model.book import Book
from triage.model.cause import Cause, Spread
from triage.model.outcome import Exposure, Response, Suspect, Verdict
from triage.model.rule import Grade
from triage.model.treatment import Against, Treatment
from triage.responses.choose import choose_responses
from triage.responses.fit import Circumstances
from triage.responses.grade import Guard
from triage.responses.respond import respond_to
from triage.responses.setting import Water
from triage.responses.treat import Treated

READS = ("seen", "partly", "practice", "memory", "computed")


def _suspect(cause: str, probability: float) -> Suspect:
    return Suspect(cause=cause, probability=probability, support=())


def _cause(name: str, *respond: str, spreads: Spread | None = None) -> Cause:
    return Cause(
        cause=name, kind="pest", name=name.title(), plain="", base="common", shows={}, settle=[], respond=list(respond),
        spreads=spreads, sources=["our-judgement"], status="draft",
    )  # fmt: skip


def _treatment(name: str, kind: str, against: dict[str, str], substance: str = "", **told: Any) -> Treatment:
    known = {cause: Against(works=works, source="our-judgement") for cause, works in against.items()}  # type: ignore[arg-type]
    return Treatment(
        treatment=name, kind=kind, name=name.title(), plain="", steps=["do it"], against=known,  # type: ignore[arg-type]
        substances=[substance] if substance else [], sources=["our-judgement"], status="draft", **told,
    )  # fmt: skip


def _graded(grade: Grade) -> Treated:
    exposure = Exposure(as_sprayed_mg_l=1, spilled_mg_l=1, share_reaching_water=1, volume_l=1000, of="active")
    return Treated(verdicts=(Verdict(substance="x", grade=grade, why=("because",), exposure=exposure, harms=()),))


def _choose(causes: list[Cause], treatments: list[Treatment], here: Circumstances, *weights: float) -> list[Response]:
    by_id = {treatment.treatment: treatment for treatment in treatments}
    suspects = [_suspect(cause.cause, weight) for cause, weight in zip(causes, weights, strict=True)]
    treated = {id_: _graded("ok") if one.substances else Treated() for id_, one in by_id.items()}
    responses, _ = choose_responses(suspects, {c.cause: c for c in causes}, by_id, treated, here)
    return list(responses)


def test_a_weak_second_suspect_does_not_crowd_out_the_first() -> None:
    causes = [_cause("mites", "mite-spray", "mite-hunters"), _cause("rust", "pluck", "cut", "hoe")]
    treatments = [
        _treatment("mite-spray", "spray", {"mites": "well"}, "soap"),
        _treatment("mite-hunters", "biological", {"mites": "well"}),
        *(_treatment(name, "by-hand", {"rust": "well"}) for name in ("pluck", "cut", "hoe")),
    ]
    found = [one.treatment for one in _choose(causes, treatments, Circumstances(), 0.6, 0.25)]
    assert found[:2] == ["mite-hunters", "mite-spray"]
    assert set(found[2:]) == {"pluck", "cut", "hoe"}


def test_a_fault_of_the_water_is_mended_in_the_order_of_its_own_list() -> None:
    listed = {"first-aid": "housekeeping", "carbon": "water", "rinse": "by-hand"}
    treatments = [_treatment(name, kind, {"poison": "well"}) for name, kind in listed.items()]
    poison = msgspec.structs.replace(_cause("poison", *listed), kind="water")
    assert [one.treatment for one in _choose([poison], treatments, Circumstances(), 0.9)] == list(listed)


def test_first_aid_comes_before_rinsing_where_a_spray_reached_the_fish(book: Book, guard: Guard) -> None:
    water = Water(volume_l=1000, animals=(book.animals["tilapia"],))
    responses, _ = respond_to([_suspect("spray-in-water", 0.9)], book, water, guard)
    found = [one.treatment for one in responses]
    assert found[0] == "fish-first-aid"
    assert found.index("air-now") < found.index("rinse-spray-off")


def test_what_helps_against_both_is_not_put_off() -> None:
    causes = [_cause("mites", "rinse", "hunters"), _cause("aphids", "rinse")]
    treatments = [
        _treatment("hunters", "biological", {"mites": "well"}),
        _treatment("rinse", "by-hand", {"mites": "partly", "aphids": "well"}),
    ]
    assert [one.treatment for one in _choose(causes, treatments, Circumstances(), 0.5, 0.4)] == ["rinse", "hunters"]


@pytest.mark.parametrize(("shelf", "first"), [({"oil"}, "oil-spray"), ({"soap"}, "soap-spray"), (set(), "soap-spray")])
def test_what_stands_on_the_shelf_goes_before_what_must_be_bought(shelf: set[str], first: str) -> None:
    causes = [_cause("mites", "soap-spray", "oil-spray")]
    treatments = [
        _treatment("soap-spray", "spray", {"mites": "well"}, "soap"),
        _treatment("oil-spray", "spray", {"mites": "well"}, "oil"),
    ]
    found = _choose(causes, treatments, Circumstances(shelf=frozenset(shelf)), 0.8)
    assert found[0].treatment == first
    assert ("It is on your shelf." in found[0].why) is bool(shelf)


def test_the_shelf_does_not_beat_a_milder_grade(loaded: Loaded) -> None:
    causes = [_cause("mites", "mild", "strict")]
    by_id = {
        "mild": _treatment("mild", "spray", {"mites": "well"}, "soap"),
        "strict": _treatment("strict", "spray", {"mites": "well"}, "oil"),
    }
    treated = {"mild": _graded("keep-off-water"), "strict": _graded("away-from-system")}
    here = Circumstances(shelf=frozenset({"oil"}))
    responses, _ = choose_responses([_suspect("mites", 0.8)], {"mites": causes[0]}, by_id, treated, here)
    assert [one.treatment for one in responses] == ["mild", "strict"]


def test_the_shorter_wait_goes_first_among_equals() -> None:
    causes = [_cause("mites", "long", "short")]
    treatments = [
        _treatment("long", "spray", {"mites": "well"}, "a", harvest_wait_days=14),
        _treatment("short", "spray", {"mites": "well"}, "b", harvest_wait_days=1),
    ]
    assert [one.treatment for one in _choose(causes, treatments, Circumstances(), 0.8)] == ["short", "long"]


def test_what_needs_no_wait_goes_before_a_wait_of_a_day() -> None:
    causes = [_cause("mites", "a-day", "none")]
    treatments = [
        _treatment("a-day", "spray", {"mites": "well"}, "a", harvest_wait_days=1),
        _treatment("none", "spray", {"mites": "well"}, "b"),
    ]
    assert [one.treatment for one in _choose(causes, treatments, Circumstances(), 0.8)] == ["none", "a-day"]


def test_what_was_read_goes_before_what_was_recalled() -> None:
    causes = [_cause("mites", *(f"by-{read}" for read in reversed(READS)))]
    treatments = [
        msgspec.structs.replace(
            _treatment(f"by-{read}", "by-hand", {}),
            against={"mites": Against(works="well", source="our-judgement", read=read)},  # type: ignore[arg-type]
        )
        for read in READS
    ]
    found = [one.treatment for one in _choose(causes, treatments, Circumstances(), 0.8)]
    assert found == [f"by-{read}" for read in READS]


def test_what_helps_more_in_all_goes_first_among_those_that_help_well() -> None:
    causes = [_cause("mites", "one", "both"), _cause("aphids", "both")]
    treatments = [
        _treatment("one", "by-hand", {"mites": "well"}),
        _treatment("both", "by-hand", {"mites": "well", "aphids": "partly"}),
    ]
    found = _choose(causes, treatments, Circumstances(), 0.6, 0.5)
    assert [(one.treatment, one.works_for) for one in found] == [("both", ("mites", "aphids")), ("one", ("mites",))]


def test_all_else_equal_the_order_is_that_of_the_cause() -> None:
    causes = [_cause("mites", "zebra", "apple")]
    treatments = [_treatment(name, "by-hand", {"mites": "well"}) for name in ("apple", "zebra")]
    assert [one.treatment for one in _choose(causes, treatments, Circumstances(), 0.8)] == ["zebra", "apple"]


def test_what_is_named_for_a_cause_is_for_it_though_nobody_said_how_well_it_works() -> None:
    (only,) = _choose([_cause("mites", "rest")], [_treatment("rest", "housekeeping", {})], Circumstances(), 0.8)
    assert only.works_for == ("mites",)


def test_a_suspect_that_the_book_does_not_hold_brings_nothing() -> None:
    causes = {"mites": _cause("mites", "rinse")}
    rinse = _treatment("rinse", "by-hand", {"mites": "well"})
    suspects = [_suspect("mites", 0.5), _suspect("gone", 0.6)]
    found, avoided = choose_responses(suspects, causes, {"rinse": rinse}, {"rinse": Treated()}, Circumstances())
    assert ([one.treatment for one in found], avoided) == (["rinse"], ())


def test_without_a_suspect_only_what_a_rule_offers_is_left() -> None:
    shade = _treatment("shade", "housekeeping", {"mites": "well"})
    found, avoided = choose_responses(
        [], {"mites": _cause("mites", "shade")}, {"shade": shade}, {"shade": Treated()}, Circumstances(),
        offered={"shade": ("It is hot.",)},
    )  # fmt: skip
    assert [(one.treatment, one.works_for, one.why) for one in found] == [("shade", (), ("It is hot.",))]
    assert avoided == ()


def test_the_most_tempting_of_what_is_refused_is_told_first() -> None:
    works: dict[str, tuple[str, Grade]] = {
        "a-weak": ("little", "never"), "b-never": ("well", "never"), "c-unknown": ("well", "unknown"),
        "d-never": ("well", "never"), "e-half": ("partly", "never"),
    }  # fmt: skip
    by_id = {name: _treatment(name, "spray", {"mites": how}, "x") for name, (how, _) in works.items()}
    treated = {name: _graded(grade) for name, (_, grade) in works.items()}
    _, avoided = choose_responses([_suspect("mites", 0.8)], {"mites": _cause("mites")}, by_id, treated, Circumstances())
    assert [one.treatment for one in avoided] == ["b-never", "d-never", "c-unknown", "e-half", "a-weak"]
    assert [one.name for one in avoided][-1] == "A-Weak"


def test_what_spreads_fast_says_so_where_hands_can_help() -> None:
    fast = _cause("mildew", "pluck", "spray", spreads=Spread(speed="fast", how="Spores fly."))
    treatments = [
        _treatment("pluck", "by-hand", {"mildew": "well"}), _treatment("spray", "spray", {"mildew": "well"}, "soap")
    ]  # fmt: skip
    by_hand, spray = _choose([fast], treatments, Circumstances(), 0.8)
    assert "It spreads fast, so today and not next week. Spores fly." in by_hand.why
    assert not any("spreads fast" in why for why in spray.why)


# -- with the book -----------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def book(loaded: Loaded) -> Book:
    return loaded.book()


def _responses(book: Book, guard: Guard, cause: str, *shelf: str) -> list[str]:
    water = Water(volume_l=1000, animals=(book.animals["tilapia"],), oxygen_mg_l=8.0)
    responses, _ = respond_to([_suspect(cause, 0.9)], book, water, guard, shelf=shelf)
    return [response.treatment for response in responses]


def test_the_shelf_in_words_moves_sprays_of_one_grade(book: Book, guard: Guard) -> None:
    usual = _responses(book, guard, "powdery-mildew")
    sprays = [one for one in usual if book.treatments[one].kind == "spray"]
    last = sprays[-1]
    own = book.substances[book.treatments[last].substances[0]].name
    moved = _responses(book, guard, "powdery-mildew", own)
    assert set(moved) == set(usual)
    assert moved.index(last) <= usual.index(last)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("soap-spray", "predatory-mites-persimilis"), ("oil-spray", "predatory-mites-persimilis"),
        ("sulphur-spray", "oil-spray"), ("hydrogen-peroxide-spray", "beauveria-spray"),
        ("hydrogen-peroxide-dose", "trichoderma-roots"), ("spinosad-spray", "predatory-mites-swirskii"),
        ("abamectin-spray", "predatory-mites-persimilis"), ("sticky-cards", "encarsia-wasps"),
    ],
)  # fmt: skip
def test_known_conflicts_stand_on_one_side_at_least(book: Book, one: str, other: str) -> None:
    named = {(t.treatment, c.treatment) for t in book.treatments.values() for c in t.conflicts}
    assert (one, other) in named or (other, one) in named
