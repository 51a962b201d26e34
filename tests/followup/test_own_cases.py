"""Proven cases of a garden: a count beside the book, bounded, and taken back with the outcome."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from triage.followup.own_cases import as_favoured, own_rates, posterior_mean
from triage.model.book import Book
from triage.model.odds import BASE

CAUSES = ("iron-deficiency", "aphids", "two-spotted-spider-mite", "botrytis-grey-mould", "oedema")
PROVEN = st.lists(st.lists(st.sampled_from(CAUSES), max_size=2, unique=True), max_size=60)


def rate_of(book: Book, cause: str, proven: list[list[str]]) -> float:
    return next(rate.factor for rate in own_rates(book, proven) if rate.cause == cause)


def test_the_textbooks_births() -> None:
    """Bayesian Data Analysis, 3rd edition, section 2.4: 437 girls of 980, uniform prior, posterior mean 0.446."""
    assert posterior_mean(437, 980, prior=0.5, weight=2) == pytest.approx(0.446, abs=0.0005)


@pytest.mark.parametrize(("hits", "cases"), [(0, 0), (0, 5), (3, 5), (200, 200)])
def test_the_mean_is_that_of_the_beta_distribution(hits: int, cases: int) -> None:
    """Against the integral of p times the density, summed in small steps; nothing is taken from the formula."""
    prior, weight, steps = 0.1, 20.0, 20_000
    first, second = weight * prior + hits, weight * (1 - prior) + cases - hits
    grid = [(k + 0.5) / steps for k in range(steps)]
    logs = [(first - 1) * math.log(p) + (second - 1) * math.log(1 - p) for p in grid]
    dense = [math.exp(each - max(logs)) for each in logs]
    mean = sum(p * d for p, d in zip(grid, dense, strict=True)) / sum(dense)
    assert posterior_mean(hits, cases, prior=prior, weight=weight) == pytest.approx(mean, rel=1e-4)


def test_nothing_moves_without_proven_cases(book: Book) -> None:
    rates = own_rates(book, [])
    assert {round(rate.factor, 12) for rate in rates} == {1.0}
    assert as_favoured(book, rates) == ()


def test_the_count_by_hand(book: Book) -> None:
    """One case in five, a cause that is common in the book (odds 0.03) which counts like 30 cases."""
    assert book.margins["own-cases-weight"].value == 30
    prior = BASE["common"] / (1 + BASE["common"])
    mean = (30 * prior + 1) / 35
    proven = [["aphids"], ["oedema"], ["oedema"], [], []]
    assert rate_of(book, "aphids", proven) == pytest.approx(mean / (1 - mean) / BASE["common"])


@given(PROVEN)
def test_a_cause_never_moves_further_than_the_bound(book: Book, proven: list[list[str]]) -> None:
    most = book.margins["own-cases-most"].value
    for rate in own_rates(book, proven):
        assert 1 / most <= rate.factor <= most
        assert 0 < rate.here < 1
        assert rate.proven == sum(rate.cause in causes for causes in proven)


@given(PROVEN, st.sampled_from(CAUSES))
def test_one_more_proven_case_makes_its_cause_likelier_and_no_other(
    book: Book, proven: list[list[str]], cause: str
) -> None:
    before = {rate.cause: rate.factor for rate in own_rates(book, proven)}
    after = {rate.cause: rate.factor for rate in own_rates(book, [*proven, [cause]])}
    assert after[cause] >= before[cause]
    assert all(after[id_] <= before[id_] for id_ in before if id_ != cause)


@given(st.permutations([["aphids"], ["oedema", "aphids"], [], ["iron-deficiency"]]))
def test_the_order_of_cases_does_not_matter(book: Book, proven: list[list[str]]) -> None:
    assert own_rates(book, proven) == own_rates(book, sorted(proven))


def test_the_reason_names_the_count(book: Book) -> None:
    rates = own_rates(book, [["aphids"], []])
    said = {each.cause: each.because for each in as_favoured(book, rates)}
    assert said["aphids"].startswith("1 of 2 proven cases in this garden turned out to be")
    assert "times as likely" in said["aphids"]
    assert "times less likely" in said["oedema"]
