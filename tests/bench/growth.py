"""How the work grows with the book: the real one, and the same with more causes, findings, rules and treatments.

Run: python tests/bench/growth.py [--times 1,3,10,30] [--cases 20] [--json]

The larger books hold copies of the real entries under other ids (and no phrases, so that words mean what they meant),
in a folder laid over the built-in one: more causes, findings, questions, treatments and substances, and the rules that
speak of them. Rules on readings, animals and crops alone stand once in every book, for water does not multiply.
Goals: a case grows with an exponent of at most 0.3, loading and checking of at most 1.2; the first answer with the
tenfold book at most 2.3 times Python with rich.
"""

from __future__ import annotations

import argparse
import json
import math
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Container, Iterator, Mapping
from pathlib import Path
from typing import Any

from triage.book.cache import open_book
from triage.book.check import check_folders
from triage.book.load import load_book
from triage.book.strict_yaml import parse_yaml
from triage.model.book import Book
from triage.model.case import Case, System
from triage.model.rule import Rule
from triage.reasoning import Engines
from triage.rules.check import rule_faults
from triage.rules.plan import make_schedule
from triage.rules.ways import list_ways
from triage.session import session_from_case

ROOT = Path(__file__).resolve().parents[2]
KNOWLEDGE = ROOT / "knowledge"
COPIED = ("causes", "findings", "questions", "rules", "treatments", "substances")
CASE_GOAL, LOAD_GOAL, START_GOAL = 0.3, 1.2, 2.3
HEADS = ("cause", "finding", "question", "rule", "treatment", "substance", "conclude")
LEFT_OUT = ("phrases", "denials", "also", "colours")
KEPT_AS_THEY_ARE = ("traits", "trait", "kind", "grade", "harm", "place", "crop", "animal")  # words that may also be ids


def copy_book(target: Path, times: int) -> None:
    """Write ``times`` - 1 copies of the real entries below a folder, under ids of their own."""
    files = [path for kind in COPIED for path in sorted((KNOWLEDGE / kind).rglob("*.yaml"))]
    trees = {path: parse_yaml(path.read_text(encoding="utf-8"), str(path)).data for path in files}
    ids = {id_ for tree in trees.values() for id_ in _ids(tree)}
    rules = load_book().rules
    once = rules.keys() - _copied_rules(rules, ids)
    trees = {path: _without(tree, once) for path, tree in trees.items()}
    ids = {id_ for tree in trees.values() for id_ in _ids(tree)}
    for number in range(2, times + 1):
        for path, tree in trees.items():
            stem = f"{path.stem}-x{number}"
            place = target / path.relative_to(KNOWLEDGE).with_name(f"{stem}.yaml")
            place.parent.mkdir(parents=True, exist_ok=True)
            place.write_text(_text(_renamed(tree, ids, number)), encoding="utf-8")


def _ids(tree: Any) -> Iterator[str]:
    for entry in tree if isinstance(tree, list) else [tree]:
        yield from (entry[head] for head in HEADS if isinstance(entry.get(head), str))


def _copied_rules(rules: Mapping[str, Rule], ids: set[str]) -> set[str]:
    """The rules of which every way to fire needs something that is copied: an entry, or what such a rule concludes."""
    kept: set[str] = set()
    for _ in rules:
        drawn = {rules[id_].conclude for id_ in kept}
        known = ids - {rule.conclude for rule in rules.values()} | drawn
        more = {id_ for id_, rule in rules.items() if _speaks_of(rule, known)}
        if more == kept:
            break
        kept = more
    return kept


def _speaks_of(rule: Rule, known: Container[str]) -> bool:
    return all(any(need.id in known and not need.other for need in way) for way in list_ways(rule.when))


def _without(tree: Any, once: Container[str]) -> Any:
    return [entry for entry in tree if entry.get("rule") not in once] if isinstance(tree, list) else tree


def _renamed(tree: Any, ids: set[str], number: int) -> Any:
    if isinstance(tree, str):
        return f"{tree}-x{number}" if tree in ids else tree
    if isinstance(tree, list):
        return [_renamed(part, ids, number) for part in tree]
    if not isinstance(tree, dict):
        return tree
    found = {
        _renamed(key, ids, number): value if key in KEPT_AS_THEY_ARE else _renamed(value, ids, number)
        for key, value in tree.items()
        if key not in LEFT_OUT
    }
    if "name" in found and len(found) > 2:
        found["name"] = f"{found['name']} ({number})"
    return found


def _text(tree: Any) -> str:
    """JSON, which is YAML, with numbers as the strict reader wants them."""
    if isinstance(tree, dict):
        return "{" + ", ".join(f"{json.dumps(key)}: {_text(value)}" for key, value in tree.items()) + "}"
    if isinstance(tree, list):
        return "[" + ",\n ".join(map(_text, tree)) + "]"
    if isinstance(tree, float):
        return f"{tree:.12f}".rstrip("0") + "0"
    return json.dumps(tree, ensure_ascii=False)


def some_cases(book: Book, count: int) -> list[Case]:
    """Cases of three findings of every so-manieth cause of the real book."""
    causes = [cause for id_, cause in book.causes.items() if "-x" not in id_]
    system = System(volume_l=1000.0, animals=("tilapia",))
    chosen = [causes[len(causes) * number // count] for number in range(count)]
    shows = [frozenset(sorted(cause.shows)[:3]) for cause in chosen]
    return [Case(on="2026-05-04", crop="basil", system=system, seen=seen) for seen in shows]


def milliseconds_a_case(book: Book, count: int) -> float:
    """The median of a whole look, engines kept."""
    engines = Engines(book)
    times = []
    for _ in range(2):
        times = []
        for case in some_cases(book, count):
            begun = time.perf_counter()
            session_from_case(book, case, engines).look()
            times.append(1000 * (time.perf_counter() - begun))
    return statistics.median(times)


def first_answer(home: Path, cache: Path) -> float:
    """The first answer with this home's book, against Python with rich; medians of nine each."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "TRIAGE_CACHE": str(cache)}
    base = [sys.executable, "-c", "import rich.console, rich.table"]
    case = [sys.executable, "-m", "triage", "plant", "--from", "demo/iron.yaml", "--home", str(home)]
    times: dict[str, list[float]] = {"base": [], "case": []}
    for number in range(10):
        for name, command in (("base", base), ("case", case)):
            begun = time.perf_counter()
            subprocess.run(command, env=environment, cwd=ROOT, stdout=subprocess.DEVNULL, check=True)
            if number:
                times[name].append(time.perf_counter() - begun)
    return statistics.median(times["case"]) / statistics.median(times["base"])


def row(times: int, cases: int, folder: Path) -> dict[str, float]:
    """All figures of one size."""
    home, cache = folder / f"home-{times}", folder / f"cache-{times}"
    own = home / "knowledge"
    own.mkdir(parents=True)
    copy_book(own, times)
    begun = time.perf_counter()
    faults = [fault for fault in check_folders([KNOWLEDGE, own], rule_faults) if fault.severity == "error"]
    checked = time.perf_counter() - begun
    if faults:
        raise SystemExit(str(faults[0]))
    begun = time.perf_counter()
    book = open_book(own, cache, make_schedule)
    loaded = time.perf_counter() - begun
    begun = time.perf_counter()
    book = open_book(own, cache, make_schedule)
    return {
        "times": times, "causes": len(book.causes), "rules": len(book.rules),
        "cached_ms": 1000 * (time.perf_counter() - begun),
        "load_s": loaded, "check_s": checked, "case_ms": milliseconds_a_case(book, cases),
        "first_answer_ratio": first_answer(home, cache) if times <= 10 else math.nan,
    }  # fmt: skip


def exponent(rows: list[dict[str, float]], what: str) -> float:
    """The slope of the logarithms from the smallest to the largest book."""
    first, last = rows[0], rows[-1]
    return math.log(last[what] / first[what]) / math.log(last["times"] / first["times"])


def measure(sizes: list[int], cases: int) -> dict[str, Any]:
    """A row for each size, and the exponents."""
    with tempfile.TemporaryDirectory() as folder:
        rows = [row(times, cases, Path(folder)) for times in sizes]
    exponents: Mapping[str, float] = {what: exponent(rows, what) for what in ("case_ms", "load_s", "check_s")}
    return {"rows": rows, "exponents": exponents}


def main() -> int:
    """Print the table; exit 1 if a goal is missed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--times", default="1,3,10,30")
    parser.add_argument("--cases", type=int, default=20)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    found = measure([int(part) for part in options.times.split(",")], options.cases)
    rows, grows = found["rows"], found["exponents"]
    if options.json:
        print(json.dumps(found))
    else:
        print("  ".join(f"{head:>18}" for head in rows[0]))
        for each in rows:
            print("  ".join(f"{value:>18.4g}" for value in each.values()))
        print(f"exponents: a case {grows['case_ms']:.2f} (goal {CASE_GOAL})", end="")
        print(f", loading {grows['load_s']:.2f}, checking {grows['check_s']:.2f} (goal {LOAD_GOAL})")
    slow = any(each["first_answer_ratio"] > START_GOAL for each in rows if each["times"] == 10)
    return int(slow or grows["case_ms"] > CASE_GOAL or max(grows["load_s"], grows["check_s"]) > LOAD_GOAL)


if __name__ == "__main__":
    sys.exit(main())
