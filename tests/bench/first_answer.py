"""First ranked answer after process start, side by side with what Python and rich cost alone.

Run: python tests/bench/first_answer.py [--rounds 21] [--json]

The commands take turns, so that all meet the same load. The goal is for the answer as a program or a pipe gets it; on a
terminal rich draws it, and its own import (all of the base) comes on top. A cache that is cold, damaged or cannot be
written must give the same answer at most a second later.
"""

from __future__ import annotations

import argparse
import json
import os
import pty
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
GOAL, LATER_GOAL_S = 2.5, 1.0
WITHOUT_CACHE = ("cold", "damaged", "unwritable")


def run_once(command: list[str], environment: dict[str, str], *, terminal: bool = False) -> float:
    """Seconds of one process, from start to exit; with its output on a pipe, or on a terminal of its own."""
    if not terminal:
        begun = time.perf_counter()
        subprocess.run(command, stdout=subprocess.DEVNULL, env=environment, cwd=ROOT, check=True)
        return time.perf_counter() - begun
    ours, theirs = pty.openpty()
    begun = time.perf_counter()
    process = subprocess.Popen(command, stdout=theirs, stdin=subprocess.DEVNULL, env=environment, cwd=ROOT)
    os.close(theirs)
    while _read(ours):
        pass
    if process.wait():
        raise SystemExit(f"{command} failed")
    taken = time.perf_counter() - begun
    os.close(ours)
    return taken


def _read(terminal: int) -> bytes:
    try:
        return os.read(terminal, 65536)
    except OSError:  # the other end is closed
        return b""


def measure(rounds: int) -> dict[str, float]:
    """Median milliseconds of each way, and the ratios to Python with rich."""
    with tempfile.TemporaryDirectory() as folder:
        environment = {**os.environ, "PYTHONPATH": str(ROOT), "TRIAGE_CACHE": f"{folder}/cache"}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        base = [sys.executable, "-c", "import rich.console, rich.table"]
        case = [sys.executable, "-m", "triage", "plant", "--from", "demo/iron.yaml", "--home", f"{folder}/home"]
        ways = {
            "base": (base, False),
            "text": (case, False),
            "json": ([*case, "--json"], False),
            "terminal": (case, True),
        }
        for command, terminal in ways.values():
            run_once(command, environment, terminal=terminal)  # bytecode and compiled book
        times: dict[str, list[float]] = {name: [] for name in ways}
        for _ in range(rounds):
            for name, (command, terminal) in ways.items():
                times[name].append(run_once(command, environment, terminal=terminal))
        medians = {name: statistics.median(own) for name, own in times.items()}
        later = {f"{how}_later_s": _later(how, case, environment, Path(folder)) for how in WITHOUT_CACHE}
    figures = {f"{name}_ms": 1000 * median for name, median in medians.items()} | later
    return figures | {f"{name}_ratio": median / medians["base"] for name, median in medians.items() if name != "base"}


def _later(how: str, command: list[str], environment: dict[str, str], folder: Path) -> float:
    """How much later the same answer comes without a cache that can be read, in seconds; the median of three."""
    kept = folder / "cache"
    expected = subprocess.run(command, env=environment, cwd=ROOT, capture_output=True, check=True).stdout
    differences = []
    for number in range(3):
        cache = folder / f"{how}-{number}"
        if how == "unwritable":
            cache.write_text("a file where a folder should be", encoding="utf-8")
        elif how == "damaged":
            cache.mkdir()
            for file in kept.iterdir():
                (cache / file.name).write_bytes(file.read_bytes()[: file.stat().st_size // 2])
        begun = time.perf_counter()
        there = environment | {"TRIAGE_CACHE": str(cache)}
        found = subprocess.run(command, env=there, cwd=ROOT, capture_output=True, check=True).stdout
        differences.append(time.perf_counter() - begun - run_once(command, environment))
        if found != expected:
            raise SystemExit(f"another answer with a cache that is {how}")
    return statistics.median(differences)


def main() -> int:
    """Print medians and their ratios; exit 1 if the goal is missed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=21)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    found = measure(options.rounds)
    if options.json:
        print(json.dumps(found | {"goal": GOAL}))
    else:
        print(f"python + rich {found['base_ms']:.0f} ms")
        for name in ("text", "json", "terminal"):
            print(f"{name:9}{found[f'{name}_ms']:4.0f} ms = {found[f'{name}_ratio']:.2f} x (goal {GOAL})")
        for how in WITHOUT_CACHE:
            print(f"cache {how}: {found[f'{how}_later_s']:.2f} s later (goal {LATER_GOAL_S:g})")
    return int(max(found["text_ratio"], found["json_ratio"]) > GOAL)


if __name__ == "__main__":
    sys.exit(main())
