"""Many written cases: one process against two, and what they take of memory.

Run: python tests/bench/batch.py [--cases 10000] [--json]

The cases are made up from the book's own findings (a fixed seed); every hundredth cannot be read. Goals: two processes
at least 1.5 times as fast as one, memory flat (ten times the cases at most 10 % more), one line a case.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from triage.book.load import load_book

ROOT = Path(__file__).resolve().parents[2]
SPEED_GOAL, MEMORY_GOAL = 1.5, 1.1


def write_cases(folder: Path, count: int) -> None:
    """Cases of one to five findings of one cause, with readings; every hundredth is broken."""
    book = load_book()
    chance = random.Random(1)
    causes = list(book.causes.values())
    for number in range(count):
        cause = chance.choice(causes)
        shows = sorted(cause.shows)
        seen = chance.sample(shows, min(len(shows), chance.randint(1, 5)))
        crop = chance.choice(sorted(book.crops)) if number % 100 else "no-such-crop"
        readings = f"[{{quantity: ph, value: {chance.uniform(5.5, 8):.1f}}}]"
        text = f"crop: {crop}\nseen: [{', '.join(seen)}]\nreadings: {readings}\non: 2026-05-04\n"
        (folder / f"{number:06}.yaml").write_text(text, encoding="utf-8")


def run(cases: Path, home: Path, jobs: int) -> tuple[float, int, int]:
    """Seconds, the largest process in KiB, and lines written."""
    out = home / f"out-{cases.name}-{jobs}.jsonl"
    words = ["plant", "--from", str(cases), "--out", str(out), "--jobs", str(jobs), "--home", str(home / "home")]
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "TRIAGE_CACHE": str(home / "cache")}
    begun = time.perf_counter()
    process = subprocess.Popen([sys.executable, "-m", "triage", *words], env=environment, stderr=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    taken = time.perf_counter() - begun
    if os.waitstatus_to_exitcode(status) != 1:  # 1: done, and some could not be read
        raise SystemExit(f"exit {os.waitstatus_to_exitcode(status)}")
    return taken, usage.ru_maxrss, out.read_bytes().count(b"\n")


def measure(count: int) -> dict[str, Any]:
    """All figures, for so many cases and for a tenth of them."""
    with tempfile.TemporaryDirectory() as folder:
        home, few, many = Path(folder), Path(folder, "few"), Path(folder, "many")
        for cases, number in ((few, count // 10), (many, count)):
            cases.mkdir()
            write_cases(cases, number)
        run(few, home, 2)  # the compiled book
        (home / "out-few-2.jsonl").unlink()
        _, small, _ = run(few, home, 1)
        one, large, lines = run(many, home, 1)
        two, _, _ = run(many, home, 2)
    return {
        "cases": count, "one_s": one, "two_s": two, "ms_per_case": 1000 * one / count, "speed_up": one / two,
        "memory_mib": large / 1024, "memory_growth": large / small, "lines": lines,
    }  # fmt: skip


def main() -> int:
    """Print the figures; exit 1 if a goal is missed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cases", type=int, default=10_000)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    found = measure(options.cases)
    if options.json:
        print(json.dumps(found))
    else:
        print(f"{found['cases']} cases, {found['lines']} lines; {found['ms_per_case']:.1f} ms a case")
        print(f"one process {found['one_s']:.1f} s, two {found['two_s']:.1f} s")
        print(f"two are {found['speed_up']:.2f} x as fast (goal {SPEED_GOAL})")
        print(f"{found['memory_mib']:.0f} MiB, {found['memory_growth']:.2f} x that of a tenth (goal {MEMORY_GOAL})")
    good = found["speed_up"] >= SPEED_GOAL and found["memory_growth"] <= MEMORY_GOAL
    return int(not good or found["lines"] != found["cases"])


if __name__ == "__main__":
    sys.exit(main())
