"""Reading labels with a book of a few substances, where every name can be seen."""

from __future__ import annotations

from typing import Any

import pytest

from triage.model.book import Book
from triage.model.substance import Substance, SubstanceGroup
from triage.model.treatment import Treatment
from triage.responses.names import Named, Names, plain_name

SHELVES = ("sources", "findings", "questions", "causes", "rules", "quantities", "crops", "animals")
EMPTY: dict[str, Any] = {shelf: {} for shelf in SHELVES}


def _substance(id_: str, name: str, *also: str) -> Substance:
    return Substance(substance=id_, name=name, what="", also=list(also), sources=["our-judgement"], status="draft")


def _treatment(id_: str, name: str, *substances: str, also: tuple[str, ...] = ()) -> Treatment:
    return Treatment(
        treatment=id_, kind="spray", name=name, plain="", substances=list(substances), also=list(also), steps=[],
        sources=["our-judgement"], status="draft",
    )  # fmt: skip


SUBSTANCES = (
    _substance("fatty-salts", "Soap (potassium salts of fatty acids)", "insecticidal soap"),
    _substance("rape-oil", "Rape oil", "canola oil", "plant oil"),
    _substance("neem-oil", "Neem oil", "plant oil"),
    _substance("sulfur", "Sulphur", "wettable sulfur"),
)
TREATMENTS = (
    _treatment("lacewing-larvae", "Lacewing larvae (aphid lions)", also=("green lacewings",)),
    _treatment("soap-wash", "Evening wash", "fatty-salts", "gone"),
)
GROUP = SubstanceGroup(
    group="kitchen-oils", name="Vegetable oils", also=["cooking oil"], members=["rape-oil", "neem-oil"], sources=[]
)


@pytest.fixture
def names() -> Names:
    """Built anew for each test, so that each sees how they are gathered."""
    book = Book(
        version="", hash="", **EMPTY, substances={one.substance: one for one in SUBSTANCES},
        treatments={one.treatment: one for one in TREATMENTS}, substance_groups={GROUP.group: GROUP},
    )  # fmt: skip
    return Names(book)


@pytest.mark.parametrize(
    "words",
    [
        "fatty-salts", "Soap", "SOAP (potassium salts of fatty acids)", "Insecticidal soap", "soap spray, 2%",
        " a soap ", "organic liquid soap concentrate (500 ml)",
    ],
)  # fmt: skip
def test_a_substance_by_any_of_its_names(names: Names, words: str) -> None:
    assert names.read(words) == (Named(words=words.strip(), ids=("fatty-salts",)),)


def test_one_name_of_two_substances_means_either(names: Names) -> None:
    assert names.read("Plant oils") == (Named(words="Plant oils", ids=("rape-oil", "neem-oil")),)


@pytest.mark.parametrize("words", ["kitchen-oils", "Vegetable oil", "cooking oil", "Cooking oil spray"])
def test_a_group_by_any_of_its_names(names: Names, words: str) -> None:
    assert names.read(words) == (Named(words=words, ids=("rape-oil", "neem-oil"), group="kitchen-oils"),)


@pytest.mark.parametrize(
    "words",
    ["lacewing-larvae", "Lacewing larvae", "aphid lions", "Aphid lion", "green lacewing", "Lacewing larvae (x)"],
)
def test_a_treatment_without_substances_by_any_of_its_names(names: Names, words: str) -> None:
    assert names.read(words) == (Named(words=words, treatment="lacewing-larvae"),)


def test_a_treatment_with_substances_means_those_that_the_book_has(names: Names) -> None:
    assert names.read("evening wash") == (Named(words="evening wash", ids=("fatty-salts",)),)
    assert names.read("soap-wash") == (Named(words="soap-wash", ids=("fatty-salts",)),)


def test_a_spray_named_after_a_helper_is_not_the_helper(names: Names) -> None:
    (found,) = names.read("green lacewing spray")
    assert (found.ids, found.treatment) == ((), "")


@pytest.mark.parametrize(
    "words",
    [
        "soap and sulphur", "soap, sulfur", "soap + sulfur", "soap & sulphur", "soap; sulfur", "Soap mit sulfur",
        "soap with wettable sulfur", "soap | sulfur", "soap / sulfur", "soap sulfur", "a soap of wettable sulfur",
    ],
)  # fmt: skip
def test_two_in_one_bottle(names: Names, words: str) -> None:
    assert [named.ids for named in names.read(words)] == [("fatty-salts",), ("sulfur",)]


def test_the_same_twice_in_one_bottle_is_one(names: Names) -> None:
    assert len(names.read("soap and soap and sulfur")) == 2


def test_each_part_keeps_its_words_and_what_is_unknown_is_kept_with_near_names(names: Names) -> None:
    soap, unknown = names.read("soap and sulfar")
    assert (soap.words, soap.ids, soap.near) == ("soap", ("fatty-salts",), ())
    assert (unknown.words, unknown.ids) == ("sulfar", ())
    assert unknown.near[0] == "Sulphur"


def test_a_part_that_says_only_how_it_is_sold_is_no_part(names: Names) -> None:
    for words in ("soap and water", "ready to use spray with soap and water", "soap with water", "water + soap spray"):
        assert [named.ids for named in names.read(words)] == [("fatty-salts",)]
    (found,) = names.read("green lacewing and spray")
    assert (found.ids, found.treatment) == ((), "")


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        (" neam oyl ", "Neem oil"), ("canolla oil", "Rape oil"), ("vegtable oils", "Vegetable oils"),
        ("lacewing larva", "Lacewing larvae (aphid lions)"), ("insectisidal soap", SUBSTANCES[0].name),
    ],
)  # fmt: skip
def test_near_names_are_those_that_people_know_it_by(names: Names, typed: str, near: str) -> None:
    (found,) = names.read(typed)
    assert (found.words, found.ids) == (typed.strip(), ())
    assert near in found.near
    assert len(set(found.near)) == len(found.near) <= 4


def test_nothing_near_is_nothing(names: Names) -> None:
    assert names.read("xyzzy") == (Named(words="xyzzy"),)


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("Salts", "salt"), ("gas", "gas"), ("moss", "moss"), ("citrus", "citrus"), ("basis", "basis"),
        ("Ethyl-Alcohols", "ethyl alcohol"), ("Sulphur", "sulfur"), ("2,5 % Äpfel", "2,5 apfel"), ("oils", "oil"),
    ],
)  # fmt: skip
def test_names_are_compared_without_case_accents_and_plural(text: str, plain: str) -> None:
    assert plain_name(text) == plain
