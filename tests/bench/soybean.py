"""How right the ranking is on 683 real cases of soybean disease that others collected, beside three usual methods.

    python tests/bench/soybean.py [--json]         the test rows, by a book made from the training rows
    python tests/bench/soybean.py --record         keep the figures of scikit-learn for machines without it
    python tests/bench/soybean.py --choose [--workers 2]    how the form was chosen, on training rows alone (minutes)

The cases and their source are in shared/soybean. ``in numbers`` is the book with counted frequencies, ``in words`` the
same book as an author would write it, with the words of ``triage.model.odds``. The scores are those of ``accuracy.py``:
probabilities as they are said, not made to add up to one.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections import Counter
from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from itertools import combinations, product
from typing import Any

from accuracy_scores import Row as Scored
from accuracy_scores import summarise
from soybean_book import (
    CHOSEN,
    FOLDER,
    Form,
    Row,
    attributes_of,
    build_book,
    evidence_of,
    id_of,
    load_rows,
    network_in_numbers,
    network_in_words,
)

from triage.model.book import Book
from triage.ranking import Evidence, Network, Posterior, infer
from triage.ranking.posterior import FEW_WITHIN

RECORDED = FOLDER / "recorded.json"
MEASURES = ("top-1", "top-3", "log", "brier", "ece")
#: Measures of which less is better.
LESS_IS_BETTER = ("brier", "ece")
FOLDS = 5
#: In the data there are 15 classes that the first published figures speak of, and four with few training rows.
FEW_TRAINED = ("2-4-d-injury", "cyst-nematode", "diaporthe-pod-stem-blight", "herbicide-injury")
PUBLISHED_15 = 0.971
DRAWNS, TEMPERS = (0.1, 0.3, 1.0), (0.3, 0.4, 0.5, 0.7, 1.0)


def score_row(chances: Mapping[str, float], right: str) -> Scored:
    """Place and probability of the right class, the leading probability, the Brier score; ties go by id."""
    order = sorted(chances, key=lambda cause: (-round(chances[cause], 12), cause))
    chance = chances.get(right, 0.0)
    others = sum(value**2 for cause, value in chances.items() if cause != right)
    return {
        "place": order.index(right) + 1 if right in chances else None, "right": chance, "first": chances[order[0]],
        "nothing": 0.0, "brier": others + (1.0 - chance) ** 2,
    }  # fmt: skip


def rank_row(network: Network, evidence: Evidence) -> Posterior:
    """The posterior by the sum over few causes, where that is exact enough (it is the faster here), else as usual."""
    posterior = infer(network, evidence, method="few")
    return posterior if posterior.bound <= FEW_WITHIN else infer(network, evidence)


def rank_rows(network: Network, book: Book, rows: Sequence[Row], form: Form = CHOSEN) -> list[Scored]:
    """The scores of the rows, ranked by the posterior of the engine, and how far each may be from the exact one."""
    found = []
    for row in rows:
        posterior = rank_row(network, evidence_of(row, book, form))
        found.append(score_row(posterior.probabilities, id_of(row["class"])) | {"bound": posterior.bound})
    return found


def measure_engine(train: Sequence[Row], test: Sequence[Row]) -> dict[str, dict[str, float]]:
    """Scores of the book in numbers and of the book in words."""
    book = build_book(train)
    networks = {"this engine, in numbers": network_in_numbers(train, book), "in words": network_in_words(book)}
    found = {name: rank_rows(network, book, test) for name, network in networks.items()}
    return {name: summarise(rows) | {"bound": max(row["bound"] for row in rows)} for name, rows in found.items()}


def measure_others(train: Sequence[Row], test: Sequence[Row]) -> tuple[str, dict[str, dict[str, float]]]:
    """Where the figures are from, and the scores of scikit-learn: now, or as they were recorded where it is missing."""
    try:
        from soybean_others import VERSION, predict_all
    except ImportError:
        recorded = load_recorded()
        return f"scikit-learn {recorded['version']}, recorded in shared/soybean/recorded.json", recorded["scores"]
    rights = [id_of(row["class"]) for row in test]
    scores = {
        name: summarise([score_row(chances, right) for chances, right in zip(each, rights, strict=True)])
        for name, each in predict_all(train, test).items()
    }
    return f"scikit-learn {VERSION}, measured now", scores


def load_recorded() -> dict[str, Any]:
    """The recorded figures: version and scores by method."""
    recorded: dict[str, Any] = json.loads(RECORDED.read_text(encoding="utf-8"))
    return recorded


def of_15_classes(rows: Sequence[Row]) -> list[Row]:
    """The rows of the classes that the published figure speaks of."""
    return [row for row in rows if id_of(row["class"]) not in FEW_TRAINED]


# -- how the form was chosen -----------------------------------------------------------------------------------------


def cross_validate(form: Form) -> dict[str, float]:
    """Scores of the book in numbers on the training rows, every fifth row of a class left out in turn."""
    rows, counted, folds = load_rows("train"), Counter[str](), []
    for row in rows:
        folds.append(counted[row["class"]] % FOLDS)
        counted[row["class"]] += 1
    found = []
    for fold in range(FOLDS):
        kept = [row for row, own in zip(rows, folds, strict=True) if own != fold]
        left = [row for row, own in zip(rows, folds, strict=True) if own == fold]
        book = build_book(kept, form)
        found += rank_rows(network_in_numbers(kept, book, form), book, left, form)
    return summarise(found)


def choose(workers: int) -> dict[str, dict[str, float]]:
    """The chosen form built up step by step, a grid around it, then what one more pair would do, the best eight.

    Within each part the best by the Brier score come first.
    """
    kept = CHOSEN.groups
    steps = [Form(groups=(), gaps=False), *[Form(groups=kept[:count], gaps=gaps) for count, gaps in _STEPS]]
    grid = [Form(drawn=drawn, temper=temper) for drawn, temper in product(DRAWNS, TEMPERS)]
    free = [name for name in attributes_of(load_rows("train")[0]) if not any(name in group for group in kept)]
    pairs = [Form(groups=(*kept, pair)) for pair in combinations(free, 2)]
    with ProcessPoolExecutor(workers) as pool:
        scores = iter(list(pool.map(cross_validate, [*steps, *grid, *pairs], chunksize=4)))
    parts = [{_name(form): next(scores) for form in part} for part in (steps, grid, pairs)]
    ordered = [sorted(part.items(), key=lambda item: (item[1]["brier"], item[0])) for part in parts]
    return dict([*ordered[0], *ordered[1], *ordered[2][:8]])


#: How many groups, and whether what is unknown counts.
_STEPS = ((0, True), (1, False), (1, True), (2, True), (3, True))


def _name(form: Form) -> str:
    if len(form.groups) > len(CHOSEN.groups):
        return f"also {' and '.join(form.groups[-1])}"
    if (form.drawn, form.temper) != (CHOSEN.drawn, CHOSEN.temper) or form == CHOSEN:
        return f"drawn {form.drawn}, power {form.temper}"
    return f"{len(form.groups)} groups" + (", gaps" if form.gaps else "")


# -- tables ----------------------------------------------------------------------------------------------------------


def table(title: str, scores: Mapping[str, Mapping[str, float]]) -> str:
    """One line a method."""
    lines = [f"{title:44s}" + "".join(f"{name:>9s}" for name in MEASURES)]
    lines += [f"  {name:42s}" + "".join(f"{each[key]:9.3f}" for key in MEASURES) for name, each in scores.items()]
    return "\n".join(lines)


def main() -> None:
    """Print the tables, or the same as JSON."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--record", action="store_true")
    parser.add_argument("--choose", action="store_true")
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    options = parser.parse_args()
    train = load_rows("train")
    if options.choose:
        found = choose(options.workers)
        print(json.dumps(found, indent=2) if options.json else table("training rows, cross-validated", found))
        return
    test = load_rows("test")
    others_from, others = measure_others(train, test)
    result = {
        "others_from": others_from,
        "19 classes": measure_engine(train, test) | others,
        "15 classes": measure_engine(of_15_classes(train), of_15_classes(test)),
    }
    if options.record:
        recorded = {"version": others_from.split()[1].strip(","), "scores": others}
        RECORDED.write_text(json.dumps(recorded, indent=2) + "\n", encoding="utf-8")
    if options.json:
        print(json.dumps(result, indent=2))
        return
    print(table(f"{len(test)} test rows, 19 classes", result["19 classes"]))
    print(f"  ({others_from})\n")
    print(table(f"{len(of_15_classes(test))} test rows, the first 15 classes", result["15 classes"]))
    print(f"  (published, top-1: {PUBLISHED_15:.3f}; see shared/soybean/README.md)")


if __name__ == "__main__":
    sys.exit(main())
