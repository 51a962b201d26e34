"""A grower's own words → findings."""

from __future__ import annotations

from itertools import permutations

import pytest

from triage.model.book import Book
from triage.ranking.evidence import Evidence, close_evidence
from triage.words.reader import WordReader, WordsRead


@pytest.fixture(scope="module")
def reader(book: Book) -> WordReader:
    return WordReader(book.findings, book.speech)


def states(read: WordsRead) -> dict[str, str]:
    return {heard.finding: heard.state for heard in read.heard}


@pytest.mark.parametrize(
    ("text", "seen"),
    [
        ("newest leaves yellow between the veins", {"newest-leaves-first", "yellow-between-veins"}),
        ("the young basil leaves have gone yellow", {"newest-leaves-first", "whole-leaf-yellow"}),
        ("yellow leaves with green veins and brown tips", {"yellow-between-veins", "brown-leaf-tips"}),
        ("leaves yellow, roots brown and slimy", {"whole-leaf-yellow", "roots-brown-slimy"}),
        ("leaf margins turn yellow first, then brown and crispy", {"yellow-at-margins", "brown-leaf-edges"}),
        ("brown rings on green fruit", {"fruit-rings"}),
        ("white fluffy mould with hard black lumps in the stem", {"white-cottony-growth", "black-lumps-in-rot"}),
        ("caterpillar", {"caterpillar-on-plant"}),
        ("mites", {"moving-dots-underneath"}),
        ("water-soaked spots on the lower leaves", {"water-soaked-spots", "oldest-leaves-first"}),
    ],
)  # fmt: skip
def test_several_findings_in_one_clause(reader: WordReader, text: str, seen: set[str]) -> None:
    assert {finding for finding, state in states(reader.read([text])).items() if state == "seen"} == seen


@pytest.mark.parametrize(
    ("text", "not_heard"),
    [
        ("yellow leaves with brown edges", "yellow-at-margins"),
        ("dark spots on the fruit", "leaf-spots"),
        ("leaf yellow between the veins", "whole-leaf-yellow"),
        ("tiny yellow insects on the leaf", "whole-leaf-yellow"),
        ("green veins and brown tips", "veins-brown"),
        ("black sooty mould on leaves", "leaves-blacken"),
        ("we grow tomatoes", "fruit-splits"),
        ("new stones in the bed", "newest-leaves-first"),
        ("better late than never", "flower-stalk-early"),
        ("holes with ragged edges", "chewed-from-edge"),
        ("the small fish died sooner than the large ones", "few-fish-for-plants"),
        ("blossom end of the fruit rots", "fruit-grey-mould"),
        ("white powdery spots on the stems", "dark-patches-on-stem"),
        ("the level in the fish tank went down slowly", "fish-listless"),
        ("most tomatoes in one part of the tunnel", "fruit-holes"),
    ],
)
def test_what_belongs_to_another_word_is_not_heard(reader: WordReader, text: str, not_heard: str) -> None:
    assert states(reader.read([text])).get(not_heard) != "seen"


@pytest.mark.parametrize(
    ("text", "absent"),
    [
        ("no webbing", "webbing"),
        ("no mites found", "moving-dots-underneath"),
        ("there were no signs of mites or webbing", "webbing"),
        ("there were no signs of mites or webbing", "moving-dots-underneath"),
        ("no webs, honeydew or mites", "honeydew"),
        ("webbing was not found", "webbing"),
        ("webbing: none", "webbing"),
        ("webbing - no", "webbing"),
        ("mites absent", "moving-dots-underneath"),
        ("free of honeydew", "honeydew"),
        ("it isn't sticky", "honeydew"),
        ("the leaves are not curled", "leaves-curled"),
        ("nothing on the underside", "moving-dots-underneath"),
        ("leaves neither wilt nor curl", "wilting"),
        ("I could not see any aphids", "aphid-clusters"),
        ("margins brown rather than wavy", "edges-wavy"),
        ("older leaves stay green", "oldest-leaves-first"),
        ("the old leaves look fine", "oldest-leaves-first"),
        ("upper leaves look normal", "newest-leaves-first"),
        ("no longer wilting", "wilting"),
    ],
)
def test_denials(reader: WordReader, text: str, absent: str) -> None:
    assert states(reader.read([text])).get(absent) == "absent"


def test_small_fish_that_die_first_deny_that_the_big_ones_do(reader: WordReader, book: Book) -> None:
    heard = states(reader.read(["the small fish died sooner than the large ones"]))
    assert heard == {"small-fish-die-first": "seen"}
    evidence = Evidence(seen=frozenset(heard))
    assert "big-fish-die-first" in close_evidence(evidence, book.findings)[0].absent


@pytest.mark.parametrize(
    "text",
    [
        "I have not looked at the roots yet",
        "haven't checked for webbing",
        "not sure whether it is sticky",
        "no idea if there are mites",
    ],
)
def test_not_looked_is_not_absent(reader: WordReader, text: str) -> None:
    assert states(reader.read([text])) == {}
    assert reader.read([text]).unread


@pytest.mark.parametrize(
    ("text", "seen"),
    [
        ("I don't know why the leaves are wilting", "wilting"),
        ("cannot get rid of the aphids", "aphid-clusters"),
        ("not only webbing, also mites", "webbing"),
        ("no doubt these are aphids", "aphid-clusters"),
        ("roots are not slimy but the leaves wilt", "wilting"),
        ("spots without a halo", "leaf-spots"),
        ("no webs and the leaves are wilting", "wilting"),
    ],
)
def test_a_no_that_denies_something_else(reader: WordReader, text: str, seen: str) -> None:
    assert states(reader.read([text])).get(seen) == "seen"


def test_contrast_says_nothing_of_what_it_names(reader: WordReader) -> None:
    heard = states(reader.read(["Unlike spider mites there is no webbing"]))
    assert heard == {"webbing": "absent"}
    assert "white-powder-on-top" not in states(
        reader.read(["grey fuzz underneath, not to be confused with powdery mildew"])
    )


def test_the_end_of_a_comparison_is_not_seen(reader: WordReader) -> None:
    heard = states(reader.read(["inner leaves affected more than outer leaves"]))
    assert heard.get("newest-leaves-first") == "seen"
    assert "oldest-leaves-first" not in heard


@pytest.mark.parametrize("text", ["maybe aphids", "I think there is webbing", "could be honeydew", "possibly thrips"])
def test_doubt_makes_it_unsure(reader: WordReader, text: str) -> None:
    assert set(states(reader.read([text])).values()) == {"unsure"}


def test_may_is_how_advisers_write(reader: WordReader) -> None:
    assert states(reader.read(["leaves may be covered with fine webbing"]))["webbing"] == "seen"


def test_a_plain_statement_wins_over_a_denial_elsewhere(reader: WordReader) -> None:
    assert states(reader.read(["no webbing on the basil", "fine webs on the cucumber"]))["webbing"] == "seen"


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("yelow leafs with brwon edges", "yellow leaves with brown edges"),
        ("fine stippeling on the leafs", "fine stippling on the leaves"),
        ("catterpillers on the plant", "caterpillars on the plant"),
        ("GRAY MOLD ON THE STEMS", "grey mould on the stem"),
        ("discolored, yellowed foliage", "discoloured, yellow leaves"),
    ],
)
def test_spelling_case_and_number_do_not_matter(reader: WordReader, typed: str, meant: str) -> None:
    assert states(reader.read([typed])) == states(reader.read([meant]))


def test_what_says_nothing_is_given_back(reader: WordReader) -> None:
    read = reader.read(["The cat sat on the mat, fine webs on the cucumber. My aunt bought the pump."])
    assert "the cat sat on the mat" in read.unread
    assert "my aunt bought the pump" in read.unread
    assert not any("webs" in clause for clause in read.unread)


def test_a_clause_that_only_names_for_contrast_is_given_back(reader: WordReader) -> None:
    assert reader.read(["I did not look for webbing"]).unread == ("i did not look for webbing",)


def test_the_order_of_texts_does_not_matter(reader: WordReader) -> None:
    texts = [
        "no webbing on the basil",
        "fine webs on the cucumber",
        "maybe aphids",
        "aphids on the stem",
        "yellow leaves",
    ]
    found = [states(reader.read(order)) for order in permutations(texts)]
    assert all(one == found[0] for one in found)


def test_what_was_heard_comes_in_the_order_of_the_text(reader: WordReader) -> None:
    read = reader.read(["aphids on the stem. sticky leaves. ants on the plant"])
    assert [heard.finding for heard in read.heard] == ["aphid-clusters", "honeydew", "ants-on-plant"]


def test_a_longer_phrase_with_a_word_missing_counts_half(reader: WordReader) -> None:
    heard = reader.read(["reddish powder on the paper"]).heard
    assert all(item.state == "unsure" for item in heard if item.score < 1)


@pytest.mark.parametrize(
    ("text", "finding"),
    [("black specks on the underside", "dark-specks"), ("brown spots on the leaves", "leaf-spots"),
     ("fine pale dots all over the leaf", "pale-stippling"), ("black specks in the spots", "black-specks-in-spots"),
     ("brown specks on the old leaves", "brown-peppering")],
)  # fmt: skip
def test_spots_specks_and_dots_are_three_things(reader: WordReader, text: str, finding: str) -> None:
    assert states(reader.read([text])).get(finding) == "seen"


def test_curl_roll_and_cup_are_three_things(reader: WordReader) -> None:
    assert "leaves-cup-down" in states(reader.read(["leaves cupped downward"]))
    assert "leaves-cup-up" in states(reader.read(["leaves cupped upward"]))
    assert "leaves-roll-up" in states(reader.read(["leaves rolled upward"]))
    assert set(states(reader.read(["leaves curled"]))) == {"leaves-curled"}
