"""The whole test suite under several hash seeds, one run after the other: what passed, what failed, how long it took.

Run: python tests/bench/seeds.py [--seeds 0 1 4242] [--json] [-- WORDS FOR PYTEST]

Takes the time of the suite for each seed. Exit 1 if anything failed under any.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import time
import xml.etree.ElementTree as ElementTree
from collections.abc import Sequence
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
SEEDS = (0, 1, 4242)


def run_suite(seed: int, words: Sequence[str]) -> dict[str, Any]:
    """Counts of one run, and the names of what failed. A run that never got to its tests counts as one failure."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONHASHSEED": str(seed)}
    begun = time.perf_counter()
    with TemporaryDirectory() as folder:
        report = Path(folder) / "report.xml"
        command = [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", f"--junitxml={report}", *words]
        done = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True, check=False)
        counts = read_report(report.read_text(encoding="utf-8")) if report.exists() else {"passed": 0, "failed": []}
    if done.returncode and not counts["failed"]:
        said = (done.stdout + done.stderr).strip().splitlines()
        counts["failed"] = said[-1:] or [f"exit {done.returncode}"]
    return {"seed": seed, **counts, "seconds": round(time.perf_counter() - begun)}


def read_report(text: str) -> dict[str, Any]:
    """How many passed, and the names of those that failed or could not run.

    >>> read_report('<s><testcase classname="a" name="b"/><testcase classname="a" name="c"><failure/></testcase></s>')
    {'passed': 1, 'failed': ['a::c']}
    """
    cases = list(ElementTree.fromstring(text).iter("testcase"))
    failed = [case for case in cases if case.find("failure") is not None or case.find("error") is not None]
    skipped = sum(case.find("skipped") is not None for case in cases)
    names = sorted(f"{case.get('classname')}::{case.get('name')}" for case in failed)
    return {"passed": len(cases) - len(failed) - skipped, "failed": names}


def main() -> int:
    """Print one line a seed."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--seeds", type=int, nargs="+", default=SEEDS)
    parser.add_argument("--json", action="store_true")
    parser.add_argument("words", nargs="*", help="for pytest, after --")
    options = parser.parse_args()
    found = [run_suite(seed, options.words) for seed in options.seeds]
    if options.json:
        print(json.dumps({"runs": found}))
    else:
        for run in found:
            print(f"seed {run['seed']:5}  {run['passed']:5} passed  {len(run['failed'])} failed  {run['seconds']} s")
            print("".join(f"    {name}\n" for name in run["failed"]), end="")
    return int(any(run["failed"] for run in found))


if __name__ == "__main__":
    sys.exit(main())
