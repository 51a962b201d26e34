"""From suspects to responses, with a book of a few treatments."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import msgspec
import pytest

from triage.book.load import Loaded
from triage.model.book import Book
from triage.model.cause import Cause
from triage.model.crop import Crop
from triage.model.outcome import Suspect
from triage.model.substance import FilterEffect
from triage.model.treatment import Against, Treatment, Use
from triage.responses.grade import Guard
from triage.responses.respond import respond_to

MITES = (Suspect(cause="mites", probability=0.8, support=()),)


def _treatment(name: str, kind: str, substance: str = "", **told: Any) -> Treatment:
    use = Use(strength=0.1, unit="%", amount_l=0.1, source="our-judgement") if substance else None
    return Treatment(
        treatment=name, kind=kind, name=name.title(), plain="", steps=[], use=use,  # type: ignore[arg-type]
        against={"mites": Against(works="well", source="our-judgement")}, substances=[substance] if substance else [],
        sources=[], status="draft", **told,
    )  # fmt: skip


@pytest.fixture(scope="module")
def small(loaded: Loaded, kit: SimpleNamespace) -> Book:
    mild = kit.substance(
        kit.row(1e6, "Oreochromis niloticus"), filter=[FilterEffect(effect="none-seen", source="our-judgement")]
    )
    substances = {
        id_: msgspec.structs.replace(mild, substance=id_, name=name, also=["kitchen stuff"])
        for id_, name in (("soap", "Soap"), ("oil", "Plant oil"))
    }
    treatments = (
        _treatment("rinse", "by-hand"), _treatment("hunters", "biological", climate={"temperature": [15, 30]}),
        msgspec.structs.replace(_treatment("shade", "housekeeping"), against={}),
        _treatment("soap-spray", "spray", "soap"), _treatment("oil-spray", "spray", "oil"),
    )  # fmt: skip
    cause = Cause(
        cause="mites", kind="pest", name="Mites", plain="", base="common", shows={}, settle=[],
        respond=["soap-spray", "oil-spray", "hunters"], sources=[], status="draft",
    )  # fmt: skip
    return msgspec.structs.replace(
        loaded.book(), substances=substances, treatments={one.treatment: one for one in treatments},
        causes={"mites": cause}, substance_groups={},
    )  # fmt: skip


@pytest.fixture
def respond(small: Book, kit: SimpleNamespace, guard: Guard) -> Any:
    def run(*readings: Any, **told: Any) -> tuple[dict[str, Any], dict[str, Any]]:
        responses, avoided = respond_to(MITES, small, kit.water(readings=readings), guard, **told)
        return {one.treatment: one for one in responses}, {one.treatment: one for one in avoided}

    return run


def test_what_the_cause_names_is_offered_and_nothing_else(respond: Any) -> None:
    responses, avoided = respond()
    assert list(responses) == ["hunters", "soap-spray", "oil-spray"]
    assert responses["soap-spray"].grade == "ok"
    assert avoided == {}


def test_what_a_rule_offers_comes_along_with_all_its_reasons(respond: Any) -> None:
    offered = [("rinse", "It is early."), ("hunters", "It is warm."), ("rinse", "The leaves are hard.")]
    responses, _ = respond(offered=offered)
    assert responses["rinse"].why == ("It is early.", "The leaves are hard.", "Works well against mites.")
    assert responses["hunters"].why == ("It is warm.", "Works well against mites.")
    assert responses["soap-spray"].why == ("Works well against mites.",)


def test_what_only_a_rule_names_is_graded_and_offered_like_the_rest(respond: Any) -> None:
    responses, avoided = respond(offered=[("shade", "It is hot.")])
    assert (responses["shade"].grade, responses["shade"].why) == ("ok", ("It is hot.",))
    assert avoided == {}


def test_what_a_rule_sets_aside_is_left_alone_with_all_its_reasons(respond: Any) -> None:
    responses, avoided = respond(set_aside=[("hunters", "Sulphur was sprayed."), ("hunters", "It is winter.")])
    assert "hunters" not in responses
    assert avoided["hunters"].why == ("Sulphur was sprayed.", "It is winter.")


def test_the_crop_and_the_readings_count(respond: Any, kit: SimpleNamespace) -> None:
    crop = Crop(crop="basil", name="Basil", kind="herb", sensitive=["oil"], sources=[])
    responses, avoided = respond(kit.reading("air-temperature", 9), crop=crop)
    assert list(responses) == ["soap-spray"]
    assert avoided["oil-spray"].why == ("Plant oil burns basil.",)
    assert avoided["hunters"].why == ("It works at 15 to 30 (air temperature); here it is 9.",)


@pytest.mark.parametrize(
    ("shelf", "first", "at_hand"),
    [
        ((), "soap-spray", False), (("plant oil",), "oil-spray", True), (("PLANT OIL spray",), "oil-spray", True),
        (("xyzzy", "plant oil"), "oil-spray", True), (("soap, plant oil",), "soap-spray", True),
        (("kitchen stuff",), "soap-spray", False),
    ],
)  # fmt: skip
def test_what_is_at_hand_in_the_growers_words_goes_first(
    respond: Any, shelf: tuple[str, ...], first: str, at_hand: bool
) -> None:
    """A word that means either of two is neither of them for sure."""
    responses, _ = respond(shelf=shelf)
    assert next(name for name in responses if name.endswith("spray")) == first
    assert ("It is on your shelf." in responses[first].why) is at_hand
