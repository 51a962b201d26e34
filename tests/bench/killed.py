"""Kill writers with SIGKILL at random points: is every acknowledged answer still there, and is the file whole?

Run: python tests/bench/killed.py [--points 200] [--seed 1] [--json]

Three kinds take turns: a writer that opens a fresh journal each time, one that goes on in a used one, and the question
series itself, killed while a person answers. An answer is acknowledged once the call came back, or the next question
stands on the screen.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "journal")]

from test_journal_killed import kill_a_series, kill_while_writing, look_after, look_after_series  # noqa: E402

#: Of four points three are in the writers, because a series takes long to start.
KINDS = ("fresh", "used", "used", "series")


def kill_once(kind: str, folder: Path, number: int, moments: random.Random) -> int:
    """One point; how many answers had been acknowledged. AssertionError if anything was lost or damaged."""
    home = folder / ("used" if kind == "used" else f"{kind}-{number}")
    if kind == "series":
        return look_after_series(home, kill_a_series(home, moments.randrange(1, 6), moments.uniform(0.0, 0.05)))
    lines = moments.randrange(3, 120) if number % 3 else 0
    return look_after(home, kill_while_writing(home, lines, moments.uniform(0.0, 0.02)))


def main() -> int:
    """Print what was found; exit 1 if anything was lost."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--points", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    moments = random.Random(options.seed)
    acknowledged, lost, begun = dict.fromkeys(KINDS, 0), [], time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        for number in range(options.points):
            kind = KINDS[number % len(KINDS)]
            try:
                acknowledged[kind] += kill_once(kind, Path(folder), number, moments)
            except AssertionError as error:
                lost.append(f"point {number} ({kind}): {error}")
    result = {
        "points": options.points, "seed": options.seed, "acknowledged": acknowledged, "lost": lost,
        "seconds": round(time.perf_counter() - begun, 1),
    }  # fmt: skip
    if options.json:
        print(json.dumps(result))
    else:
        print(f"{options.points} points in {result['seconds']} s; acknowledged answers: {acknowledged}")
        print("\n".join(lost) or "nothing lost, every file whole")
    return bool(lost)


if __name__ == "__main__":
    sys.exit(main())
