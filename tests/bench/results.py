"""Every measurement in turn; the table goes to RESULTS.md beside this file.

Run: python tests/bench/results.py [--only NAME ...] [--kept DIR] [--print]

Takes more than an hour on two cores, half of it for the suite under three hash seeds; with ``--kept DIR`` what was
measured is kept there, and a second run measures only what is not there yet. What a figure cannot show, what limits
it and what was tried, stands in NOTES.md and is put below the table as it is.
"""

from __future__ import annotations

import argparse
import json
import os
import platform
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

BENCH = Path(__file__).resolve().parent
ROOT = BENCH.parents[1]
#: How the bench of the soybean cases calls the book with counted frequencies.
ENGINE = "this engine, in numbers"


@dataclass(frozen=True)
class Figure:
    """One figure of a script: what it is, where it stands in its JSON, and the goal."""

    what: str
    find: Callable[[Any], float | None]
    goal: str
    met: Callable[[float], bool]
    form: str = "{:.2f}"


def at_most(limit: float) -> tuple[str, Callable[[float], bool]]:
    return f"≤ {limit:g}", lambda value: value <= limit


def at_least(limit: float) -> tuple[str, Callable[[float], bool]]:
    return f"≥ {limit:g}", lambda value: value >= limit


def _grown(found: Any, times: int, what: str) -> float | None:
    return next((row[what] for row in found["rows"] if row["times"] == times), None)


def _fresh(mode: str, what: str) -> Callable[[Any], float]:
    return lambda found: float(found["check"][mode]["scores"][what])


def _part(part: str, mode: str, what: str) -> Callable[[Any], float]:
    return lambda found: float(found["parts"][part]["scores"][mode][what])


def _killed(package: str) -> Callable[[Any], float | None]:
    return lambda found: found.get(package, {}).get("share")


def _soybean(what: str) -> Callable[[Any], float]:
    return lambda found: float(found["19 classes"][ENGINE][what])


def _crossed(what: str) -> Callable[[Any], float]:
    return lambda found: float(found["scores"][ENGINE][what])


def _behind_bayes(found: Any) -> int:
    return _behind(found["19 classes"])


def _behind(scores: Any) -> int:
    """In how many measures naive Bayes is better; of the Brier score and the calibration error less is better."""
    ours, bayes = scores[ENGINE], scores["categorical naive Bayes"]
    more = sum(bayes[each] > ours[each] for each in ("top-1", "top-3", "log"))
    return more + sum(bayes[each] < ours[each] for each in ("brier", "ece"))


SCRIPTS: dict[str, tuple[str, list[Figure]]] = {
    "start": ("first_answer.py", [
        Figure("first answer on a pipe, times Python with rich", lambda f: f["text_ratio"], *at_most(2.0)),
        Figure("first answer as JSON", lambda f: f["json_ratio"], *at_most(2.0)),
        Figure("first answer on a terminal", lambda f: f["terminal_ratio"], *at_most(2.5)),
        Figure("later with a cold, damaged or unwritable cache, s",
               lambda f: max(value for name, value in f.items() if name.endswith("_later_s")), *at_most(1.0)),
    ]),
    "rules": ("rules_compared.py", [
        Figure("rules of a case, times CLIPS", lambda f: f.get("own_to_clips"), *at_most(12)),
        Figure("rules and ranking, times plain Python", lambda f: f["own_to_plain_with_ranking"], *at_most(3)),
    ]),
    "ranking": ("ranking.py --repeats 3", [
        Figure("largest error up to 14 seen, 15 causes, against every set of causes one by one",
               lambda f: max(row["error_one_by_one"] for row in f["small"]), *at_most(1e-9), "{:.0e}"),
        Figure("the same against pyagrum",
               lambda f: max(row["error_library"] for row in f["small"]), *at_most(1e-9), "{:.0e}"),
        Figure("largest difference between two exact methods, all causes of the book, up to 14 seen",
               lambda f: max(row["methods_apart"] for row in f["whole"]), *at_most(1e-9), "{:.0e}"),
        Figure("time of the ranking, times pyagrum's inference, 15 causes: median of 0 to 14 seen",
               lambda f: statistics.median(row["ratio"] for row in f["small"]), *at_most(0.5)),
        Figure("the same with 14 seen", lambda f: f["small"][-1]["ratio"], *at_most(0.5)),
        Figure("next question, worth times the best over many more sets of causes, mean of 60 states",
               lambda f: f["questions"]["worth_mean"], *at_least(0.99), "{:.3f}"),
        Figure("the worst of them", lambda f: f["questions"]["worth_least"], "none", lambda value: True, "{:.3f}"),
        Figure("its time in the series, rules and posterior counted in: median, ms",
               lambda f: f["questions"]["standing_ms_median"], *at_most(50), "{:.0f}"),
        Figure("the same: 95th percentile", lambda f: f["questions"]["standing_ms_p95"], *at_most(50), "{:.0f}"),
        Figure("next question, 8 seen, ms",
               lambda f: next(row["question"] for row in f["by_seen"] if row["seen"] == 8), *at_most(50), "{:.0f}"),
    ]),
    "growth": ("growth.py --times 1,3,10,30", [
        Figure("a case, exponent over the size of the book", lambda f: f["exponents"]["case_ms"], *at_most(0.3)),
        Figure("loading the book, exponent", lambda f: f["exponents"]["load_s"], *at_most(1.2)),
        Figure("checking the book, exponent", lambda f: f["exponents"]["check_s"], *at_most(1.2)),
        Figure("first answer with the tenfold book", lambda f: _grown(f, 10, "first_answer_ratio"), *at_most(2.3)),
    ]),
    "batch": ("batch.py --cases 2000", [
        Figure("two processes, times as fast as one", lambda f: f["speed_up"], *at_least(1.5)),
        Figure("memory for ten times the cases", lambda f: f["memory_growth"], *at_most(1.1)),
        Figure("a case, ms", lambda f: f["ms_per_case"], "none", lambda value: True, "{:.0f}"),
    ]),
    "determinism": ("determinism.py", [
        Figure("different answers to a case under 20 surroundings", lambda f: max(f["answers"].values()),
               *at_most(1), "{:.0f}"),
    ]),
    "seeds": ("seeds.py", [
        Figure("tests of the whole suite that fail under three hash seeds",
               lambda f: sum(len(run["failed"]) for run in f["runs"]), *at_most(0), "{:.0f}"),
        Figure("fewest that pass under any of them", lambda f: min(run["passed"] for run in f["runs"]), *at_least(1),
               "{:,.0f}"),
    ]),
    "series": ("series.py", [
        Figure("simulated question series", lambda f: f["series"], "none", lambda value: True, "{:,.0f}"),
        Figure("of them longer than fifteen questions", lambda f: f["too_long"], *at_most(0), "{:.0f}"),
        Figure("of them with something asked twice, or a lens before a glance", lambda f: f["with_a_fault"],
               *at_most(0), "{:.0f}"),
    ]),
    "accuracy": ("accuracy.py --quick", [
        Figure("kept-back cases, findings ticked: first is right", _part("check", "coded", "top-1"), *at_least(0.85)),
        Figure("the same: among the first three", _part("check", "coded", "top-3"), *at_least(0.97), "{:.3f}"),
        Figure("the same: expected calibration error", _part("check", "coded", "ece"), *at_most(0.08), "{:.3f}"),
        Figure("kept-back cases, words only: first is right", _part("check", "words", "top-1"), *at_least(0.70)),
        Figure("the same: among the first three", _part("check", "words", "top-3"), *at_least(0.90)),
        Figure("the same: expected calibration error", _part("check", "words", "ece"), *at_most(0.08), "{:.3f}"),
    ]),
    "fresh": ("fresh.py --part check", [
        Figure("fresh cases of other publishers, findings ticked: first is right", _fresh("coded", "top-1"),
               *at_least(0.85)),
        Figure("the same: among the first three", _fresh("coded", "top-3"), *at_least(0.97), "{:.3f}"),
        Figure("the same: expected calibration error", _fresh("coded", "ece"), *at_most(0.08), "{:.3f}"),
        Figure("fresh cases, words only: first is right", _fresh("words", "top-1"), *at_least(0.70)),
        Figure("the same: among the first three", _fresh("words", "top-3"), *at_least(0.90)),
        Figure("the same: expected calibration error", _fresh("words", "ece"), *at_most(0.08), "{:.3f}"),
    ]),
    "soybean": ("soybean.py", [
        Figure("soybean test rows, counted frequencies: first is right", _soybean("top-1"), *at_least(0.92), "{:.3f}"),
        Figure("the same: among the first three", _soybean("top-3"), *at_least(0.97), "{:.3f}"),
        Figure("measures (of five) in which naive Bayes is better", _behind_bayes, *at_most(0), "{:.0f}"),
    ]),
    "soybean-cross": ("soybean_cross.py", [
        Figure("soybean training rows, 10 × 5 folds: first is right", _crossed("top-1"), *at_least(0.92), "{:.3f}"),
        Figure("the same: among the first three", _crossed("top-3"), *at_least(0.97), "{:.3f}"),
        Figure("measures (of five) in which naive Bayes is better on these folds",
               lambda f: _behind(f["scores"]), *at_most(0), "{:.0f}"),
    ]),
    "fuzz": ("fuzz.py", [
        Figure("wrong inputs", lambda f: f["inputs"], *at_least(100_000), "{:,.0f}"),
        Figure("of them with anything but a clear line", lambda f: f["broken"], *at_most(0), "{:.0f}"),
        Figure("slowest of them, s", lambda f: f["slowest_s"], *at_most(2)),
    ]),
    "journal": ("journal.py --readings 100000 --cases 10000", [
        Figure("water show with ten years of journal, times an empty one",
               lambda f: f["commands"]["water show"]["ratio"], *at_most(3)),
        Figure("case list", lambda f: f["commands"]["case list"]["ratio"], *at_most(3)),
        Figure("today", lambda f: f["commands"]["today"]["ratio"], *at_most(3)),
    ]),
    "mutation": ("mutation.py --last", [
        Figure(f"share of mutants killed, {name} (last run; half an hour each)", _killed(name), *at_least(0.85))
        for name in ("water", "ranking", "responses")
    ]),
    "killed": ("killed.py", [
        Figure("points of SIGKILL", lambda f: f["points"], *at_least(200), "{:.0f}"),
        Figure("answers lost, or files damaged", lambda f: len(f["lost"]), *at_most(0), "{:.0f}"),
    ]),
}  # fmt: skip


def run(script: str) -> tuple[Any, float, str]:
    """The JSON of one script, the seconds it took, and what went wrong ('' if nothing)."""
    begun = time.perf_counter()
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join([str(ROOT), os.environ.get("PYTHONPATH", "")])}
    command = [
        sys.executable,
        *[str(BENCH / word) if word.endswith(".py") else word for word in script.split()],
        "--json",
    ]
    done = subprocess.run(command, capture_output=True, text=True, env=environment, cwd=ROOT, check=False)
    taken = time.perf_counter() - begun
    try:
        text = done.stdout[max(done.stdout.find("{"), 0) :]  # CLIPS says things of its own
        return json.JSONDecoder().raw_decode(text)[0], taken, ""
    except ValueError:
        return None, taken, (done.stderr.strip().splitlines() or [f"exit {done.returncode}"])[-1]


def measured(name: str, kept: Path | None) -> tuple[Any, float, str]:
    """What ``run`` gives, from the folder of what was measured before if it is there."""
    path = kept / f"{name}.json" if kept else None
    if path is not None and path.exists():
        return json.loads(path.read_text(encoding="utf-8")), 0.0, ""
    found, taken, wrong = run(SCRIPTS[name][0])
    if path is not None and not wrong:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(json.dumps(found), encoding="utf-8")
    return found, taken, wrong


def lines_of(name: str, kept: Path | None = None) -> list[str]:
    """The rows of one script."""
    script, figures = SCRIPTS[name]
    found, taken, wrong = measured(name, kept)
    if wrong:
        return [f"| {name} | did not run: {wrong} | | | `{script}` |"]
    rows = []
    for figure in figures:
        value = figure.find(found)
        said = "not measured" if value is None else figure.form.format(value)
        verdict = "" if value is None or figure.goal == "none" else "yes" if figure.met(value) else "**no**"
        rows.append(f"| {figure.what} | {said} | {figure.goal} | {verdict} | `{script}` |")
    print(f"{name}: {taken:.0f} s", file=sys.stderr)
    return rows


def machine() -> str:
    """What it was measured on."""
    model = next(
        (line.split(":")[1].strip() for line in _cpu_lines() if line.startswith("model name")), platform.machine()
    )
    return f"{os.cpu_count()} cores ({model}), Python {platform.python_version()}, {platform.system()}"


def _cpu_lines() -> list[str]:
    try:
        return Path("/proc/cpuinfo").read_text(encoding="utf-8").splitlines()
    except OSError:
        return []


def main() -> int:
    """Measure and write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--only", nargs="+", choices=list(SCRIPTS), default=list(SCRIPTS))
    parser.add_argument("--kept", type=Path, help="folder of what was measured before")
    parser.add_argument("--print", action="store_true", help="print the table, write nothing")
    options = parser.parse_args()
    rows = [row for name in options.only for row in lines_of(name, options.kept)]
    notes = (BENCH / "NOTES.md").read_text(encoding="utf-8")
    day = date.today().isoformat()
    head = (
        f"Written by `python tests/bench/results.py` on {day}: {machine()}. Ratios count, not the times of one machine."
    )
    if options.kept:
        head += " Rows that took long may be kept from an earlier run of that day (`--kept`)."
    columns = ["| what | figure | goal | met | script |", "|---|---|---|---|---|"]
    text = "\n".join(["# What was measured", "", head, "", *columns, *rows, "", notes])
    if options.print:
        print(text)
    else:
        (BENCH / "RESULTS.md").write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
