"""How right the ranking is on published cases: words only, exactly as a grower's text is read.

Run: python tests/bench/accuracy.py [--part tune|check] [--json] [--misses]
"""

from __future__ import annotations

import argparse
import json
import math
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from triage.book.casefile import find_named
from triage.book.load import load_book
from triage.book.strict_yaml import parse_yaml
from triage.errors import UsageError
from triage.model.book import Book
from triage.model.case import Case
from triage.model.quantity import Reading
from triage.reasoning import Engines
from triage.session import session_from_case
from triage.water.readings import make_reading

CASES = Path(__file__).resolve().parents[2] / "shared" / "signs" / "vignettes.yaml"
DAY = "2026-05-04"


def load_vignettes(part: str = "") -> list[dict[str, Any]]:
    """Cases whose text was read, of one part or of both."""
    document = parse_yaml(CASES.read_text(encoding="utf-8"), CASES.name)
    assert not document.faults, document.faults[:3]
    return [v for v in document.data if v["verified"] == "seen" and part in ("", v["part"])]


def readings_of(vignette: dict[str, Any], book: Book) -> tuple[Reading, ...]:
    """Readings of the water that the source gives as one number; soil, media and ranges in words are left out."""
    names = {"ph": "ph", "ec": "ec", "do": "oxygen", "temperature": "air-temperature", "humidity": "humidity"}
    found = []
    for name, text in vignette["readings"].items():
        if name in names:
            try:
                found.append(make_reading(names[name], str(text), book.quantities, on=DAY))
            except UsageError:
                continue
    return tuple(found)


def case_of(vignette: dict[str, Any], book: Book) -> Case:
    """The case as a grower would write it down: crop, the facts as words, readings."""
    crop = find_named(vignette["crop"], book.crops) or "" if vignette["crop"] else ""
    return Case(on=DAY, crop=crop, words=tuple(vignette["facts"]), readings=readings_of(vignette, book))


def place_of(vignette: dict[str, Any], ranked: list[str]) -> int | None:
    """Place of the expected cause (or of one the source accepts), counted from one; None if it is not ranked."""
    right = {vignette["expected"], *vignette["acceptable"]}
    return next((place for place, cause in enumerate(ranked, start=1) if cause in right), None)


def measure(vignettes: Iterable[dict[str, Any]], book: Book) -> list[dict[str, Any]]:
    """One row a case: place, probability of the first, what led."""
    engines = Engines(book)
    rows = []
    for vignette in vignettes:
        if vignette["expected"] not in book.causes:
            continue
        session = session_from_case(book, case_of(vignette, book), engines)
        report = session.look(with_question=False, with_responses=False)
        ranked = [suspect.cause for suspect in report.suspects]
        place = place_of(vignette, ranked)
        right = next((s.probability for s in report.suspects if place and s.cause == ranked[place - 1]), 0.0)
        first = report.suspects[0].probability if report.suspects else 0.0
        heard = [f"{h.finding}{'' if h.state == 'seen' else '!' + h.state}" for h in report.read_words]
        rows.append(
            {"id": vignette["id"], "expected": vignette["expected"], "place": place, "first": first, "right": right,
             "ranked": [(s.cause, round(s.probability, 3)) for s in report.suspects[:4]], "heard": heard,
             "unread": list(report.unread_words)}
        )  # fmt: skip
    return rows


def summarise(rows: list[dict[str, Any]]) -> dict[str, float]:
    """Top-1, top-3, mean reciprocal rank, log score and calibration error of the first suspect."""
    count = len(rows) or 1
    top = {n: sum(row["place"] is not None and row["place"] <= n for row in rows) / count for n in (1, 3)}
    reciprocal = sum(1 / row["place"] for row in rows if row["place"]) / count
    log_score = sum(math.log(max(row["right"], 1e-3)) for row in rows) / count
    return {
        "cases": len(rows),
        "top-1": top[1],
        "top-3": top[3],
        "mrr": reciprocal,
        "log": log_score,
        "ece": calibration(rows),
    }


def calibration(rows: list[dict[str, Any]], bins: int = 5) -> float:
    """Expected calibration error of the first suspect's probability, over equal bins."""
    error = 0.0
    for number in range(bins):
        low, high = number / bins, (number + 1) / bins
        inside = [row for row in rows if low <= row["first"] < high or (number == bins - 1 and row["first"] == 1.0)]
        if inside:
            said = sum(row["first"] for row in inside) / len(inside)
            true = sum(row["place"] == 1 for row in inside) / len(inside)
            error += abs(said - true) * len(inside) / len(rows)
    return error


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--part", choices=("tune", "check"), default="")
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--misses", action="store_true")
    options = parser.parse_args()
    book = load_book()
    parts = [options.part] if options.part else ["tune", "check"]
    result = {part: measure(load_vignettes(part), book) for part in parts}
    if options.json:
        print(json.dumps({part: summarise(rows) for part, rows in result.items()}, indent=2))
        return
    for part, rows in result.items():
        print(part, "  ".join(f"{key} {value:.3f}" for key, value in summarise(rows).items()))
        if options.misses:
            for row in rows:
                if row["place"] != 1:
                    print(f"  {row['id']} {row['expected']} place {row['place']}: {row['ranked']}")
                    print(f"      heard {row['heard']}  unread {row['unread']}")


if __name__ == "__main__":
    sys.exit(main())
