"""Times of the ranking: posterior, support, whole ranking, next question; by findings seen and by size of the book.

    python tests/bench/ranking.py [--json] [--repeats 15] [--states 60]

Medians in milliseconds over a made-up book of the planned shape (120 causes, 250 findings, 1,500 links, 100 questions)
and cases of 30 looked-at findings; how far the ranking is from exact, up to 14 seen findings (``ranking_exact.py``,
needs pyagrum); what the next question is worth in states of the real book (``ranking_questions.py``). A script,
not a test.
"""

from __future__ import annotations

import argparse
import json
import random
import statistics
import sys
import time
from collections.abc import Callable
from functools import partial
from typing import NamedTuple

import ranking_exact
from ranking_questions import STATES, measure_questions

from triage.model.finding import Question
from triage.model.odds import BASE, BY_ITSELF, EFFORT, FREQUENCY
from triage.ranking import Evidence, Network, Node, choose_question, infer, rank_causes
from triage.ranking.posterior import belief, together
from triage.ranking.support import support_of

SEEN = (3, 6, 8, 10, 12, 14, 16)
GROWTH = (1, 3, 10, 30)
LOOKED_AT = 30
CASES = 5
EXPLAINED = 8
#: What is shown as a power of ten.
ERRORS = ("methods_apart", "error_one_by_one", "error_library")


class Case(NamedTuple):
    network: Network
    questions: dict[str, Question]
    evidence: Evidence


def made_up_network(seed: int, times: int = 1) -> Network:
    """120 causes with 12 or 13 links each to 250 findings, or a multiple of all."""
    rnd = random.Random(seed)
    findings = [f"f{number:05d}" for number in range(250 * times)]
    nodes = [
        Node(
            cause=f"c{number:05d}",
            odds=rnd.choice(list(BASE.values())),
            shows={one: rnd.choice(list(FREQUENCY.values())) for one in rnd.sample(findings, rnd.choice((12, 13)))},
        )
        for number in range(120 * times)
    ]
    return Network.of(nodes, {finding: rnd.choice(list(BY_ITSELF.values())) for finding in findings})


def made_up_questions(network: Network, seed: int, count: int = 100) -> dict[str, Question]:
    """Questions of one to five options, about three on average."""
    rnd = random.Random(seed)
    return {
        f"q{number:03d}": Question(
            question=f"q{number:03d}",
            ask="?",
            pick=rnd.choice(("one", "any")),
            options=rnd.sample(list(network.leaks), rnd.choice((1, 2, 3, 3, 4, 5))),
            place="leaf",
            effort=rnd.choice(("glance", "close-look", "lens")),
        )
        for number in range(count)
    }


def made_up_case(network: Network, seed: int, seen: int) -> Evidence:
    """Findings of many causes, two of each, so that nothing is settled; the rest of those looked at is absent."""
    rnd = random.Random(seed)
    causes = rnd.sample(list(network.nodes), seen)
    shown = [finding for cause in causes for finding in rnd.sample(list(network.nodes[cause].shows), 2)]
    there = list(dict.fromkeys(shown))[:seen]
    absent = rnd.sample([finding for finding in network.leaks if finding not in set(there)], LOOKED_AT - seen)
    return Evidence(seen=frozenset(there), absent=frozenset(absent))


def made_up_cases(times: int, seen: int) -> list[Case]:
    network = made_up_network(1, times)
    questions = made_up_questions(network, 2)
    return [Case(network, questions, made_up_case(network, seed, seen)) for seed in range(CASES)]


def milliseconds(work: Callable[[], object], repeats: int) -> float:
    """The median time of one call."""
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return 1000.0 * statistics.median(times)


def measure(case: Case, repeats: int) -> dict[str, float]:
    """All stages of one case."""
    network, questions, evidence = case
    posterior, sums = belief(network, evidence)
    chances = posterior.probabilities
    first = sorted(chances, key=lambda cause: (-chances[cause], cause))[:EXPLAINED]
    stages: dict[str, Callable[[], object]] = {
        "posterior": partial(belief, network, evidence),
        "support": partial(support_of, network, evidence, sums, first),
        "pairs": partial(together, sums, chances),
        "ranking": partial(rank_causes, network, evidence, explain=EXPLAINED),
        "question": partial(choose_question, network, evidence, questions, effort_cost=EFFORT, probabilities=chances),
    }
    return {stage: milliseconds(work, repeats) for stage, work in stages.items()}


def difference(case: Case) -> float:
    """The largest difference of a probability between the two exact methods."""
    one, other = infer(case.network, case.evidence), infer(case.network, case.evidence, method="sweep")
    return max(abs(one.probabilities[cause] - other.probabilities[cause]) for cause in one.probabilities)


def row(times: int, seen: int, repeats: int, *, compare: bool) -> dict[str, float]:
    cases = made_up_cases(times, seen)
    found = [measure(case, repeats) for case in cases]
    medians = {stage: statistics.median(each[stage] for each in found) for stage in found[0]}
    apart = {"methods_apart": max(difference(case) for case in cases)} if compare else {}
    return {"size": times, "seen": seen} | medians | apart


def table(rows: list[dict[str, float]]) -> str:
    """Rows as text, milliseconds with two decimals."""
    heads = list(rows[0])
    lines = ["  ".join(f"{head:>13}" for head in heads)]
    for each in rows:
        cells = (f"{each.get(head, 0.0):.0e}" if head in ERRORS else f"{each[head]:.6g}"[:8] for head in each)
        lines.append("  ".join(f"{cell:>13}" for cell in cells))
    return "\n".join(lines)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true", help="one JSON object instead of tables")
    parser.add_argument("--repeats", type=int, default=15, help="calls per median")
    parser.add_argument("--states", type=int, default=STATES, help="states of the book in which a question is weighed")
    asked = parser.parse_args()
    by_seen = [row(1, seen, asked.repeats, compare=seen <= 14) for seen in SEEN]
    by_size = [row(times, 8, asked.repeats, compare=False) for times in GROWTH]
    small = [ranking_exact.measure_small(seen) for seen in ranking_exact.SEEN]
    whole = [ranking_exact.measure_book(seen) for seen in ranking_exact.SEEN]
    questions = measure_questions(asked.states)
    if asked.json:
        found = {"by_seen": by_seen, "by_size": by_size, "small": small, "whole": whole, "questions": questions}
        print(json.dumps({"unit": "ms", "python": sys.version.split()[0]} | found))
    else:
        print(f"by findings seen of {LOOKED_AT}, ms\n{table(by_seen)}\n")
        print(f"by size of the book, 8 seen, ms\n{table(by_size)}\n")
        print(f"15 causes, beside all sets one by one and pyagrum\n{table(small)}\n")
        print(f"all causes of the book, two exact methods\n{table(whole)}\n")
        print("the next question in states of the book, beside the best over many more sets of causes")
        print("\n".join(f"  {name:18} {value:.4f}" for name, value in questions.items()))


if __name__ == "__main__":
    main()
