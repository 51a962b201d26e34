"""First ranked answer after process start, side by side with what Python and rich cost alone.

Run: python tests/bench/first_answer.py [--rounds 21] [--json]

The two take turns, so that both meet the same load; goal: ratio of the medians at most 2.5.
"""

from __future__ import annotations

import argparse
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
GOAL = 2.5


def run_once(command: list[str], environment: dict[str, str]) -> float:
    """Seconds of one process, from start to exit."""
    begun = time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, env=environment, cwd=ROOT, check=True)
    return time.perf_counter() - begun


def main() -> int:
    """Print medians and their ratio; exit 1 if the goal is missed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=21)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        environment = {**os.environ, "PYTHONPATH": str(ROOT), "TRIAGE_CACHE": f"{folder}/cache"}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        base = [sys.executable, "-c", "import rich.console, rich.table"]
        case = [sys.executable, "-m", "triage", "plant", "--from", "demo/iron.yaml", "--home", f"{folder}/home"]
        for command in (base, case):
            run_once(command, environment)  # bytecode and compiled book
        pairs = [(run_once(base, environment), run_once(case, environment)) for _ in range(options.rounds)]
    base_ms = statistics.median(pair[0] for pair in pairs) * 1000
    case_ms = statistics.median(pair[1] for pair in pairs) * 1000
    result = {"base_ms": base_ms, "first_answer_ms": case_ms, "ratio": case_ms / base_ms, "goal": GOAL}
    if options.json:
        print(json.dumps(result))
    else:
        print(f"python + rich {base_ms:.0f} ms, first answer {case_ms:.0f} ms")
        print(f"ratio {result['ratio']:.2f} (goal {GOAL})")
    return int(case_ms / base_ms > GOAL)


if __name__ == "__main__":
    sys.exit(main())
