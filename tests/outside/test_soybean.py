"""The ranking on 683 cases of soybean disease that others collected (shared/soybean, UCI repository, CC BY 4.0)."""

from __future__ import annotations

from collections import Counter

import pytest
from soybean import (
    LESS_IS_BETTER,
    MEASURES,
    load_recorded,
    measure_engine,
    of_15_classes,
    score_row,
)
from soybean_book import Form, answers_of, build_book, count_shows, evidence_of, load_rows, network_in_numbers

from triage.ranking import infer

Scores = dict[str, dict[str, float]]
TRAIN, TEST = load_rows("train"), load_rows("test")


@pytest.fixture(scope="module")
def scores() -> Scores:
    return measure_engine(TRAIN, TEST)


def test_the_table_is_that_of_the_source() -> None:
    """Rows, classes and attributes as the description of the data set counts them."""
    assert (len(TRAIN), len(TEST), len({row["class"] for row in TRAIN})) == (307, 376, 19)
    assert (len(of_15_classes(TRAIN)), len(of_15_classes(TEST))) == (290, 340)
    assert len(TRAIN[0]) == 35 + 2
    assert Counter(row["class"] for row in TRAIN)["brown-spot"] == 40


def test_the_right_disease_leads(scores: Scores) -> None:
    numbers = scores["this engine, in numbers"]
    assert numbers["top-1"] >= 0.92
    assert numbers["top-3"] >= 0.97
    assert numbers["ece"] <= 0.05


def test_a_book_in_words_loses_little(scores: Scores) -> None:
    """Six words for how often, three for how common: what an author of the book can say."""
    words = scores["in words"]
    assert words["top-1"] >= 0.90
    assert words["top-3"] >= 0.97


def test_no_worse_than_naive_bayes_but_for_one_row(scores: Scores) -> None:
    """By every measure but the first three places, where one row of 376 is missing (371 against 372)."""
    ours, theirs = scores["this engine, in numbers"], load_recorded()["scores"]["categorical naive Bayes"]
    better = {key: ours[key] <= theirs[key] if key in LESS_IS_BETTER else ours[key] >= theirs[key] for key in MEASURES}
    assert [key for key, holds in better.items() if not holds] in ([], ["top-3"])
    assert theirs["top-3"] - ours["top-3"] <= 1.5 / len(TEST)


def test_the_sums_are_exact_enough(scores: Scores) -> None:
    assert max(each["bound"] for each in scores.values()) < 1e-4


def test_frequencies_are_counted_from_known_values() -> None:
    counts = count_shows(TRAIN, Form(drawn=1e-12))
    right = [row["stem"] for row in TRAIN if row["class"] == "brown-spot" and row["stem"] != "?"]
    assert counts["brown-spot"]["stem"]["abnorm"] == pytest.approx(right.count("abnorm") / len(right))


def test_a_group_takes_the_place_of_its_attributes_where_it_is_known() -> None:
    for row in TEST:
        answers = answers_of(row)
        both = "?" not in (row["precip"], row["hail"])
        assert ("precip and hail" in answers) == both
        assert ("precip" in answers) == (not both and row["precip"] != "?")


def test_an_unknown_value_is_no_evidence_of_its_own() -> None:
    book = build_book(TRAIN)
    silent = {**TEST[0], **dict.fromkeys((name for name in TEST[0] if name not in ("split", "class")), "?")}
    assert evidence_of(silent, book, Form(gaps=False)).known == frozenset()


def test_the_rows_with_little_known_rank_as_the_sum_over_findings_does() -> None:
    book = build_book(TRAIN)
    network = network_in_numbers(TRAIN, book)
    rows = sorted(TEST, key=lambda row: len(answers_of(row)))[:20:5]
    for row in rows:
        evidence = evidence_of(row, book)
        exact = infer(network, evidence, method="quickscore").probabilities
        few = infer(network, evidence, method="few")
        assert few.probabilities == pytest.approx(exact, abs=few.bound + 1e-9)


def test_scores_of_one_row() -> None:
    found = score_row({"a": 0.7, "b": 0.2}, "b")
    assert (found["place"], found["right"], found["first"]) == (2, 0.2, 0.7)
    assert found["brier"] == pytest.approx(0.49 + 0.64)
    assert score_row({"a": 0.7}, "c")["place"] is None
