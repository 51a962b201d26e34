"""The generated soybean book beside scikit-learn on the training rows alone: repeated stratified cross-validation.

    python tests/bench/soybean_cross.py [--repeats 10] [--workers 2] [--json]

Every method sees the same folds. A step in the form of the book is judged here and never by the test rows, which are
worn (shared/soybean/README.md). Needs scikit-learn.
"""

from __future__ import annotations

import argparse
import json
import os
import random
from collections import defaultdict
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from statistics import fmean, stdev

from accuracy_scores import Row as Scored
from accuracy_scores import summarise
from soybean import FOLDS, MEASURES, rank_rows, score_row, table
from soybean_book import CHOSEN, Form, Row, build_book, id_of, load_rows, network_in_numbers, network_in_words
from soybean_others import NAIVE_BAYES, predict_all

OURS = "this engine, in numbers"
#: The pair that ``soybean.py --choose`` names as the next best, on top of the chosen ones.
FOURTH = Form(groups=(*CHOSEN.groups, ("leafspot-size", "roots")))
REPEATS = 10


def folds_of(rows: Sequence[Row], seed: int) -> Iterator[tuple[list[Row], list[Row]]]:
    """Rows kept and rows left out; each class is dealt out evenly, where the last dealing ended."""
    by_class: dict[str, list[int]] = defaultdict(list)
    for place, row in enumerate(rows):
        by_class[row["class"]].append(place)
    rnd, own, dealt = random.Random(seed), [0] * len(rows), 0
    for name in sorted(by_class):
        places = by_class[name]
        rnd.shuffle(places)
        for place in places:
            own[place], dealt = dealt % FOLDS, dealt + 1
    for fold in range(FOLDS):
        kept = [row for row, each in zip(rows, own, strict=True) if each != fold]
        yield kept, [row for row, each in zip(rows, own, strict=True) if each == fold]


def score_fold(kept: Sequence[Row], left: Sequence[Row]) -> dict[str, list[Scored]]:
    """The rows left out, scored by every method."""
    book = build_book(kept)
    found = {
        OURS: rank_rows(network_in_numbers(kept, book), book, left),
        "in words": rank_rows(network_in_words(book), book, left),
    }
    fourth = build_book(kept, FOURTH)
    found["with a fourth group"] = rank_rows(network_in_numbers(kept, fourth, FOURTH), fourth, left, FOURTH)
    rights = [id_of(row["class"]) for row in left]
    for name, chances in predict_all(kept, left).items():
        found[name] = [score_row(each, right) for each, right in zip(chances, rights, strict=True)]
    return found


def repeat(seed: int) -> dict[str, dict[str, float]]:
    """The scores by method over all rows, each scored once while it was left out."""
    scored: dict[str, list[Scored]] = defaultdict(list)
    for kept, left in folds_of(load_rows("train"), seed):
        for name, rows in score_fold(kept, left).items():
            scored[name] += rows
    return {name: summarise(rows) for name, rows in scored.items()}


def compare(runs: Sequence[dict[str, dict[str, float]]], one: str, other: str) -> dict[str, dict[str, float]]:
    """By measure: how much one is above the other on the same folds, on average, and how much that varies."""
    found = {}
    for measure in MEASURES:
        apart = [run[one][measure] - run[other][measure] for run in runs]
        found[measure] = {"mean": fmean(apart), "spread": stdev(apart) if len(apart) > 1 else 0.0}
    return found


def measure(repeats: int, workers: int) -> dict[str, object]:
    """Mean scores by method, and the differences that matter."""
    with ProcessPoolExecutor(workers) as pool:
        runs = list(pool.map(repeat, range(repeats)))
    means = {name: {each: fmean(run[name][each] for run in runs) for each in MEASURES} for name in runs[0]}
    return {
        "repeats": repeats,
        "folds": FOLDS,
        "scores": means,
        "above naive Bayes": compare(runs, OURS, NAIVE_BAYES),
        "words above naive Bayes": compare(runs, "in words", NAIVE_BAYES),
        "fourth group above three": compare(runs, "with a fourth group", OURS),
    }


def main() -> None:
    """Print the table, or the same as JSON."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--repeats", type=int, default=REPEATS)
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    found = measure(options.repeats, options.workers)
    if options.json:
        print(json.dumps(found, indent=2))
        return
    print(table(f"training rows, {options.repeats} x {FOLDS} folds", found["scores"]))  # type: ignore[arg-type]
    for name, each in found.items():
        if "above" in name:
            said = "".join(f"{each[key]['mean']:+9.3f}" for key in MEASURES)  # type: ignore[index]
            print(f"  {name:42s}{said}")


if __name__ == "__main__":
    main()
