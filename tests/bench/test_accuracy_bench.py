"""The accuracy bench measures what it says."""

from __future__ import annotations

import math
from typing import Any

import pytest
from accuracy_cases import DAY, Vignette, load_cases
from accuracy_scores import confusions, in_bins, score_ranking, summarise
from accuracy_series import ORDERS, reply, run_series, summarise_series
from accuracy_variants import rank_case, rank_without_right, stepped, without

from triage.model.book import Book
from triage.model.odds import FREQUENCY
from triage.ranking.evidence import Evidence
from triage.reasoning import Engines
from triage.session import Session


@pytest.fixture(scope="module")
def engines(book: Book) -> Engines:
    return Engines(book)


@pytest.fixture(scope="module")
def case(book: Book) -> Vignette:
    """A case of the tune part with several findings that the book ranks first."""
    return next(case for case in load_cases("tune") if len(case["coded"]["seen"]) > 3)


def row(place: int | None, right: float, first: float, **more: Any) -> dict[str, Any]:
    return {"place": place, "right": right, "first": first, "brier": 0.0, "nothing": 0.0, **more}


def test_a_ranking_is_scored_by_its_right_cause() -> None:
    vignette = {"id": "x", "publisher": "p", "source": "s", "expected": "b", "acceptable": ["c"]}
    found = score_ranking(vignette, [("a", 0.6), ("b", 0.5), ("c", 0.3)], 0.1)
    assert (found["place"], found["right"], found["leader"]) == (2, 0.5, "a")
    assert found["brier"] == pytest.approx(0.6**2 + 0.5**2)  # the accepted look-alike is left out
    nothing = score_ranking(vignette, [], 0.9)
    assert (nothing["place"], nothing["leader"], nothing["brier"]) == (None, "", 1.0)


def test_the_summary_of_three_rows() -> None:
    found = summarise([row(1, 0.9, 0.9), row(2, 0.3, 0.5), row(None, 0.0, 0.1, nothing=0.8)])
    assert (found["top-1"], found["top-3"]) == (pytest.approx(1 / 3), pytest.approx(2 / 3))
    assert found["mrr"] == pytest.approx(0.5)
    assert found["log"] == pytest.approx((math.log(0.9) + math.log(0.3) + math.log(1e-3)) / 3)
    assert found["ece"] == pytest.approx((0.1 + 0.5 + 0.1) / 3)
    assert found["none-leads"] == pytest.approx(1 / 3)


def test_bins_hold_both_ends() -> None:
    assert [each["from"] for each in in_bins([row(1, 0, 0.0), row(1, 0, 1.0), row(2, 0, 0.2)])] == [0.0, 0.2, 0.8]


def test_confusions_are_counted_by_cause_or_by_kind() -> None:
    rows = [row(2, 0, 0, expected="a", leader="b"), row(1, 0, 0, expected="a", leader="a")]
    rows += [row(3, 0, 0, expected="a", leader="b"), row(None, 0, 0, expected="c", leader="")]
    assert confusions(rows) == [("a", "b", 2), ("c", "nothing", 1)]
    assert confusions(rows[:1], {"a": "pest", "b": "pest"}) == [("pest", "pest", 1)]


def test_a_dropped_cause_is_gone_and_the_book_is_whole_again(case: Vignette, engines: Engines) -> None:
    before = rank_case(case, engines, "coded")
    assert case["expected"] not in without(engines, {case["expected"]}).book.causes
    dropped = rank_without_right(case, engines, "coded")
    assert case["expected"] not in dict(dropped["ranked"])
    assert rank_case(case, engines, "coded") == before


def test_every_frequency_word_moves_one_step_and_the_ends_stay(engines: Engines) -> None:
    words = list(FREQUENCY)
    for step in (1, -1):
        moved = stepped(engines, step).book.causes
        for id_, cause in engines.book.causes.items():
            for finding, word in cause.shows.items():
                place = min(max(words.index(word) + step, 0), len(words) - 1)
                assert moved[id_].shows[finding] == words[place]


def test_the_simulated_grower_says_what_the_case_says_and_no_more(book: Book, engines: Engines) -> None:
    question = next(each for each in book.questions.values() if each.pick == "any" and len(each.options) > 3)
    one, two, three, *rest = question.options
    session = Session(book, on=DAY, engines=engines)
    knows = Evidence(seen=frozenset({one}), absent=frozenset({two}), unsure=frozenset({three}))
    told = reply(session, question.question, knows)
    assert (told.seen, told.absent, told.unsure) == ((one,), (two,), (three,))
    assert not {*told.set_aside} & {*rest}
    assert reply(session, question.question, Evidence()).kind == "cant-tell"


@pytest.mark.parametrize("order", ORDERS)
def test_a_series_is_the_same_every_time(order: str, case: Vignette, engines: Engines) -> None:
    first = run_series(case, engines, "finding", order)
    assert first == run_series(case, engines, "finding", order)
    assert first is not None


def test_a_grower_who_knows_no_more_is_asked_nothing(case: Vignette, engines: Engines) -> None:
    """Neither for ever nor at all: the first finding is told, there is nothing else to tell, and the cause is open."""
    one = case | {"coded": {"seen": ["whole-leaf-yellow"], "absent": [], "unsure": []}, "readings": {}}
    assert [run_series(one, engines, "finding", order) for order in ("chosen", "fixed")] == [None, None]


def test_orders_are_compared_where_all_of_them_got_there() -> None:
    counts = {"chosen": [2, 4, None, 1], "fixed": [4, 8, 9, None], "random 1": [3, 9, 9, 9], "random 2": [5, 7, 9, 9]}
    found = summarise_series(counts)
    assert found["chosen"]["compared"] == 2
    assert (found["chosen"]["mean"], found["chosen"]["mean-of-fixed"]) == (3, 0.5)
    assert (found["chosen"]["median"], found["chosen"]["got-there"]) == (3, 0.75)
    assert (found["random"]["series"], found["random"]["mean"]) == (8, 6)
    endless = summarise_series({"chosen": [None, None, 1], "fixed": [1, 1, 1]})
    assert endless["chosen"]["median"] is None
