"""How right the ranking is on published cases, told in words and as coded findings, tune and check part apart.

    python tests/bench/accuracy.py [--part tune|check] [--json] [--misses] [--quick] [--workers 2]

Scores (places, log, Brier, calibration) by kind of cause and publisher, confusions, what is said when the right cause
is dropped from the book, how many questions a simulated grower needs, and what moving all frequency words does.
Confusions of the check part are told by kind of cause only, so that nobody tunes on its cases; ``--misses`` with
``--part check`` shows them. ``--quick`` leaves out the series of questions.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from concurrent.futures import ProcessPoolExecutor
from itertools import product
from typing import Any

from accuracy_cases import MODES, PARTS, Vignette, load_cases
from accuracy_scores import Row, by_group, confusions, in_bins, reason_of, summarise, summarise_hearing
from accuracy_series import ORDERS, STARTS, run_series, summarise_series
from accuracy_tables import all_tables, miss_lines
from accuracy_variants import STEPS, hearing, rank_case, rank_without_right, stepped, summarise_dropped

from triage.book.load import load_book
from triage.reasoning import Engines

#: What every worker process keeps.
_engines: dict[str, Engines] = {}


def _begin() -> None:
    _engines["plain"] = Engines(load_book())
    _engines.update({name: stepped(_engines["plain"], step) for name, step in STEPS.items()})


def measure_case(vignette: Vignette, with_series: bool) -> dict[str, Any]:
    """Everything that is measured on one case."""
    plain = _engines["plain"]
    series = product(STARTS, ORDERS) if with_series else ()
    found = {
        "part": vignette["part"],
        "rows": {mode: rank_case(vignette, plain, mode) for mode in MODES},
        "dropped": {mode: rank_without_right(vignette, plain, mode) for mode in MODES},
        "steps": {f"{mode}, {name}": rank_case(vignette, _engines[name], mode) for mode in MODES for name in STEPS},
        "series": {(start, order): run_series(vignette, plain, start, order) for start, order in series},
    }
    rows = found["rows"]
    found["hearing"] = hearing(vignette, plain, rows["words"])
    reason = reason_of(rows["words"], rows["coded"], plain.book.causes)
    for row in rows.values():
        row["reason"] = reason
    return found


def measure(parts: list[str], workers: int, with_series: bool) -> list[dict[str, Any]]:
    """All cases of these parts, in the order of the file."""
    cases = [case for case in load_cases() if case["part"] in parts]
    with ProcessPoolExecutor(workers, initializer=_begin) as pool:
        return list(pool.map(measure_case, cases, [with_series] * len(cases), chunksize=4))


def summarise_part(found: list[dict[str, Any]], kinds: dict[str, str], openly: bool) -> dict[str, Any]:
    """The results of one part; ``openly`` names the causes that were confused, else their kinds."""
    rows: dict[str, list[Row]] = {mode: [each["rows"][mode] for each in found] for mode in MODES}
    missed = [row for row in rows["words"] if row["place"] != 1]
    called = None if openly else kinds
    return {
        "scores": {mode: summarise(rows[mode]) for mode in MODES},
        "hearing": summarise_hearing([each["hearing"] for each in found]),
        "bins": {mode: in_bins(rows[mode]) for mode in MODES},
        "kinds": {mode: by_group(rows[mode], lambda row: kinds.get(row["expected"], "?")) for mode in MODES},
        "publishers": {mode: by_group(rows[mode], lambda row: row["publisher"]) for mode in MODES},
        "sources": {mode: by_group(rows[mode], lambda row: row["source"]) for mode in MODES},
        "confused": {mode: confusions(rows[mode], called) for mode in MODES},
        "reasons": {
            reason: {"cases": sum(row["reason"] == reason for row in missed)}
            for reason in sorted({row["reason"] for row in missed})
        },
        "dropped": {mode: summarise_dropped([each["dropped"][mode] for each in found]) for mode in MODES},
        "steps": {name: summarise([each["steps"][name] for each in found]) for name in found[0]["steps"]},
        "series": {
            start: summarise_series({order: [each["series"][start, order] for each in found] for order in ORDERS})
            for start in STARTS
            if found[0]["series"]
        },
    }


def main() -> None:
    """Print the tables, or the same as JSON."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--part", choices=PARTS, default="")
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--misses", action="store_true")
    parser.add_argument("--quick", action="store_true")
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    options = parser.parse_args()
    book = load_book()
    kinds = {id_: cause.kind for id_, cause in book.causes.items()}
    parts = [options.part] if options.part else list(PARTS)
    open_parts = [part for part in parts if part != "check" or (options.misses and options.part == "check")]
    found = measure(parts, options.workers, not options.quick)
    by_part = {part: [each for each in found if each["part"] == part] for part in parts}
    result = {
        "book": {"version": book.version, "hash": book.hash},
        "parts": {part: summarise_part(each, kinds, part in open_parts) for part, each in by_part.items()},
    }
    if options.json:
        print(json.dumps(result, indent=2))
        return
    print("\n".join(all_tables(result)))
    for part, mode in product(open_parts if options.misses else (), MODES):
        print(f"{part}, {mode}: misses")
        print("\n".join(miss_lines(each["rows"][mode] for each in by_part[part])), "\n")


if __name__ == "__main__":
    sys.exit(main())
