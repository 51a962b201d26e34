"""How the question series treats simulated growers: every published case, two ways to start, three kinds of grower.

    python tests/bench/series.py                 the whole, as a table
    python tests/bench/series.py --part tune --every 5

Three laws, each counted by the number of series that break it: no more than fifteen questions; none that asks for what
was told or follows from it; none that needs a lens, a test kit or a laboratory where one glance of this grower would
have settled the case. Of the cases kept apart for measuring only counts are shown.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import product
from multiprocessing import Pool
from pathlib import Path
from statistics import fmean, median

sys.path[:0] = [str(Path(__file__).resolve().parents[2]), str(Path(__file__).resolve().parent)]

from accuracy_cases import PARTS, Vignette, load_cases  # noqa: E402
from series_watched import GROWERS, STARTS, Watched, run_watched  # noqa: E402

from triage.book.load import load_book  # noqa: E402
from triage.reasoning import Engines  # noqa: E402
from triage.screens.series import LONGEST  # noqa: E402

_engines: list[Engines] = []


def _begin() -> None:
    _engines[:] = [Engines(load_book())]


def _run(work: tuple[Vignette, str, str]) -> Watched:
    return run_watched(work[0], _engines[0], *work[1:])


def measure(cases: Sequence[Vignette], workers: int) -> list[Watched]:
    """Every case with every start and every grower."""
    with Pool(workers, _begin) as pool:
        return pool.map(_run, list(product(cases, STARTS, GROWERS)), chunksize=8)


def lines_of(found: Sequence[Watched]) -> Iterator[str]:
    """The table: one line a kind of grower."""
    for start, grower in product(STARTS, GROWERS):
        here = [one for one in found if (one.start, one.grower) == (start, grower)]
        if here:
            counts = [len(one.asked) for one in here]
            ended = ", ".join(f"{name} {number}" for name, number in Counter(one.ended for one in here).most_common())
            yield (
                f"{start:8} {grower:7} {len(here):4} series  questions: median {median(counts):g}, most {max(counts)}  "
                f"sent back: {fmean(one.returns for one in here):.2f}  too long: {sum(n > LONGEST for n in counts)}  "
                f"with a fault: {sum(bool(one.faults) for one in here)}  ended: {ended}"
            )


def main() -> int:
    """Print the table; 1 if a law is broken."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--part", choices=PARTS, default="")
    parser.add_argument("--every", type=int, default=1, help="only each such case")
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    found = measure(load_cases(options.part)[:: options.every], options.workers)
    too_long = sum(len(one.asked) > LONGEST for one in found)
    faults = Counter(fault.split(" (")[0] for one in found for fault in one.faults)
    if options.json:
        counts = {"series": len(found), "too_long": too_long, "with_a_fault": sum(bool(one.faults) for one in found)}
        print(json.dumps(counts | {"most_questions": max(len(one.asked) for one in found), "faults": faults}))
    else:
        print("\n".join(lines_of(found)))
        print("\n".join(f"{number:5}  {fault}" for fault, number in faults.most_common()))
    return int(bool(faults or too_long))


if __name__ == "__main__":
    sys.exit(main())
