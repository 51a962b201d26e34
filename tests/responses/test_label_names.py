"""Words on labels lead to substances: names, words that mean several, several in one bottle; never a guess.

The table is shared/treatments/label_names.csv: words, and the ids they mean, joined by ' + ' for one bottle.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.book.casefile import find_named
from triage.book.load import Loaded
from triage.model.book import Book
from triage.responses.names import Named, Names, plain_name

TABLE = Path(__file__).parents[2] / "shared" / "treatments" / "label_names.csv"


def _rows() -> list[tuple[str, str]]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        return [(row["words"], row["means"]) for row in csv.DictReader(file)]


@pytest.fixture(scope="module")
def book(loaded: Loaded) -> Book:
    return loaded.book()


@pytest.fixture(scope="module")
def names(book: Book) -> Names:
    return Names(book)


def _means(named: Named) -> str:
    return named.group or named.treatment or ("|".join(named.ids) if named.ids else "?")


@pytest.mark.parametrize(("words", "means"), _rows(), ids=lambda value: str(value))
def test_words_of_the_trade_are_understood(names: Names, words: str, means: str) -> None:
    found = names.read(words)
    assert " + ".join(_means(named) for named in found) == means


def test_every_name_of_a_substance_leads_to_it(book: Book, names: Names) -> None:
    for substance in book.substances.values():
        for name in (substance.substance, substance.name, *substance.also):
            (found,) = names.read(name)
            assert substance.substance in found.ids, (name, found)


def test_every_name_of_a_group_leads_to_its_members(book: Book, names: Names) -> None:
    for group in book.substance_groups.values():
        assert group.members
        for name in (group.name, *group.also):
            (found,) = names.read(name)
            assert found.group == group.group
            assert found.ids == tuple(group.members)


def test_no_name_is_a_substance_and_a_group(book: Book) -> None:
    groups = {plain_name(n): g.group for g in book.substance_groups.values() for n in (g.name, *g.also)}
    for substance in book.substances.values():
        both = {name for name in (substance.name, *substance.also) if plain_name(name) in groups}
        assert not both, substance.substance


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        ("permetrin", "Permethrin"), ("azadiractin", "Azadirachtin (neem extract)"), ("spinosat", "Spinosad"),
        ("insectisidal sope", "Insecticidal soap (potassium salts of fatty acids)"), ("abamektin", "Abamectin"),
        ("pirethroids", "Pyrethroids"),
    ],
)  # fmt: skip
def test_a_slip_of_the_pen_gives_near_names_and_no_guess(names: Names, typed: str, near: str) -> None:
    (found,) = names.read(typed)
    assert found.ids == ()
    assert near in found.near


def test_what_is_not_known_in_a_bottle_is_kept(names: Names) -> None:
    soap, other = names.read("soap and xyzzy")
    assert soap.ids == ("fatty-acid-potassium-salts",)
    assert (other.words, other.ids) == ("xyzzy", ())


def test_a_name_is_not_taken_apart(names: Names) -> None:
    assert [named.words for named in names.read("strobilurin and triazole")] == ["strobilurin and triazole"]


@given(st.text(max_size=60))
def test_any_text_is_read_without_a_fault(names: Names, text: str) -> None:
    found = names.read(text)
    assert found
    assert all(isinstance(named.ids, tuple) for named in found)


@pytest.mark.parametrize(
    ("words", "animal"),
    [
        ("shrimp", "cherry-shrimp"), ("shrimps", "cherry-shrimp"), ("cherry shrimp", "cherry-shrimp"),
        ("goldfish", "goldfish"),
        ("prawns", "freshwater-prawn"), ("prawn", "freshwater-prawn"), ("crayfish", "redclaw"), ("yabbies", "redclaw"),
        ("fish", "any-fish"), ("eel", "any-fish"), ("crabs", "any-crustacean"), ("koi carp", "koi"),
        ("trout", "rainbow-trout"),
        ("carp", "common-carp"), ("catfish", "channel-catfish"), ("Tilapien", "tilapia"), ("barra", "barramundi"),
        ("guppies", "guppy"), ("perch", "yellow-perch"),
    ],
)  # fmt: skip
def test_animals_by_everyday_names(book: Book, words: str, animal: str) -> None:
    assert find_named(words, dict(book.animals)) == animal


def test_a_spray_against_a_helper_is_no_helper(names: Names) -> None:
    for words in ("ladybird spray", "predatory mite spray", "sticky trap spray"):
        (found,) = names.read(words)
        assert not found.treatment
    assert names.read("ladybirds")[0].treatment


def test_names_in_a_row_are_several_and_a_word_left_over_is_unknown(names: Names) -> None:
    several = [named.ids for named in names.read("pyrethrum soap")]
    assert several == [("pyrethrins",), ("fatty-acid-potassium-salts",)]
    longer = [named.ids for named in names.read("potassium bicarbonate pyrethrum")]
    assert longer == [("potassium-bicarbonate",), ("pyrethrins",)]
    (unknown,) = names.read("magic pyrethrum soap")
    assert not unknown.ids
