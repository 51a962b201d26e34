"""What the chosen next question is worth beside the best one, and how long it takes, in states of the real book.

A state is a made-up plant: one cause of the book, some of what it shows seen and some looked for in vain, on a crop
that can have it. The question is chosen as the series does it. Then every question is weighed once more over far more
sets of causes: all sets of up to three among the causes that may stand behind it, the heaviest first, until all but a
thousandth of their weight is counted.
"""

from __future__ import annotations

import random
import statistics
import time
from itertools import combinations
from typing import Any

from triage.book.load import load_book
from triage.model.book import Book
from triage.model.case import Case
from triage.model.odds import EFFORT, FREQUENCY
from triage.ranking import Evidence, Network, hypotheses, infer
from triage.ranking.hypotheses import Hypotheses
from triage.ranking.question import (
    WORTH_BITS,
    _best,
    _Scored,
    _to_do,
    answers_to,
    can_ask,
)
from triage.reasoning import Engines, closed

STATES = 60
#: The causes that sets of three are made of: the likeliest so many of those worth telling apart.
AMONG = 40
COUNTED = 0.999
MOST_TRIES = 1000


def made_up_state(book: Book, rnd: random.Random) -> Case:
    """One plant with one cause."""
    crop = rnd.choice(sorted(book.crops))
    words = {crop, book.crops[crop].family, book.crops[crop].kind}
    can = [id_ for id_, each in sorted(book.causes.items()) if not any(each.crops.get(w) == "not" for w in words)]
    cause = book.causes[rnd.choice([id_ for id_ in can if book.causes[id_].status != "retired"])]
    looked_at = rnd.sample(sorted(cause.shows), min(rnd.randint(1, 6), len(cause.shows)))
    seen = {finding for finding in looked_at if rnd.random() < FREQUENCY[cause.shows[finding]]}
    seen -= {other for one in seen for other in book.findings[one].excludes}
    return Case(on="2026-05-04", crop=crop, seen=frozenset(seen), absent=frozenset(looked_at) - seen)


def many_sets(network: Network, evidence: Evidence) -> tuple[Hypotheses, float]:
    """The sets with nearly all of the weight, and how much of it the sets that choose a question hold."""
    chances = infer(network, evidence).probabilities
    few = hypotheses.likely_sets(network, evidence, chances)
    order = sorted(hypotheses._worth_telling(network, evidence, chances), key=lambda cause: (-chances[cause], cause))
    pool = [*({hypotheses.OTHER} & network.nodes.keys()), *order]
    others = dict.fromkeys(network.nodes, 0.0) | dict(chances) | dict.fromkeys(pool, 0.0)
    sets = [(), *((cause,) for cause in pool), *combinations(pool, 2), *combinations(pool[:AMONG], 3)]
    problem = hypotheses.boil_down(network, evidence)
    weighed = _weigh(sets, pool, network, evidence, problem, others)
    whole = sum(weighed.values())
    inside = sum(weighed.get(each, 0.0) for each in few.sets) / whole
    kept, counted = [], 0.0
    for each, weight in sorted(weighed.items(), key=lambda item: (-item[1], item[0])):
        kept.append((each, weight))
        counted += weight
        if counted >= COUNTED * whole:
            break
    having: dict[str, list[int]] = {cause: [] for cause in pool}
    for place, (causes, _) in enumerate(kept):
        for cause in causes:
            having[cause].append(place)
    found = Hypotheses(
        sets=tuple(causes for causes, _ in kept), weights=tuple(weight / counted for _, weight in kept),
        having={cause: tuple(places) for cause, places in having.items()}, others=others,
    )  # fmt: skip
    return found, inside


def _weigh(
    sets: list[tuple[str, ...]], pool: list[str], network: Network, evidence: Evidence, problem: Any,
    others: dict[str, float],
) -> dict[tuple[str, ...], float]:  # fmt: skip
    touched = problem.apart | {part.cause: part.odds for part in problem.parts}
    odds = {cause: touched.get(cause, network.nodes[cause].odds) for cause in pool}
    missed = {part.cause: hypotheses._misses(part.links, len(problem.findings)) for part in problem.parts}
    base = [hypotheses._base(network, evidence, finding, others) for finding in problem.findings]
    return {each: hypotheses._weight(each, odds, missed, base) for each in sets}


def worths(engines: Engines, case: Case, network: Network, sets: Hypotheses) -> dict[str, _Scored]:
    """What every open question is worth over these sets, as the series weighs it."""
    book, evidence = engines.book, Evidence.of_case(case)
    crop, labels = book.crops.get(case.crop), _to_do(sets, engines._responses)
    found = {}
    for question in book.questions.values():
        if can_ask(question, evidence, case.asked, crop):
            answers = answers_to(network, evidence, sets, question)
            bits = answers.bits()
            if bits >= WORTH_BITS:
                scored = _Scored(bits / EFFORT[question.effort], bits, question, answers)
                found[question.question] = _best([scored], labels) or scored
    return found


def measure_state(engines: Engines, case: Case) -> dict[str, Any] | None:
    """Worth of the chosen question over the best; None where no question is put."""
    start = time.perf_counter()
    chosen = engines.standing(case).question
    taken = 1000.0 * (time.perf_counter() - start)
    if chosen is None:
        return None
    facts, current = engines.facts(closed(case, engines.book)[0])
    network = engines.network(case, engines.rules.run_case(facts), current)
    evidence = Evidence.of_case(facts.case)
    chances = infer(network, evidence).probabilities
    start = time.perf_counter()
    engines._question(facts.case, network, "", chances)
    alone = 1000.0 * (time.perf_counter() - start)
    sets, inside = many_sets(network, evidence)
    found = worths(engines, facts.case, network, sets)
    best = max(each.worth for each in found.values())
    own = found[chosen.id].worth if chosen.id in found else 0.0
    return {"worth": own / best, "sets": len(sets.sets), "inside": inside, "standing_ms": taken, "question_ms": alone}


def measure_questions(states: int, seed: int = 1) -> dict[str, Any]:
    """Over so many states in which a question is put: mean and least worth, median and 95th percentile of times."""
    rnd, engines, found = random.Random(seed), Engines(load_book()), []
    engines.standing(made_up_state(engines.book, random.Random(0)))  # what is made once is made
    for _ in range(MOST_TRIES):
        measured = measure_state(engines, made_up_state(engines.book, rnd))
        found += [measured] if measured else []
        if len(found) == states:
            break
    return {
        "states": len(found), "worth_mean": statistics.fmean(each["worth"] for each in found),
        "worth_least": min(each["worth"] for each in found),
        "as_good_as_best": sum(each["worth"] > 1 - 1e-9 for each in found),
        "sets_median": statistics.median(each["sets"] for each in found),
        "inside_median": statistics.median(each["inside"] for each in found),
    } | {
        f"{name}_{which}": value
        for name in ("standing_ms", "question_ms")
        for which, value in _middle_and_high([each[name] for each in found]).items()
    }  # fmt: skip


def _middle_and_high(values: list[float]) -> dict[str, float]:
    ordered = sorted(values)
    return {"median": statistics.median(ordered), "p95": ordered[min(int(0.95 * len(ordered)), len(ordered) - 1)]}
