"""The same case gives the same bytes: under twenty hash seeds, two locales, two time zones, from a pipe or a folder.

Run: python tests/bench/determinism.py [--seeds 20] [--json]
"""

from __future__ import annotations

import argparse
import hashlib
import json
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
CASES = ("iron.yaml", "mites.yaml", "gasping.yaml")
LOCALES = ("C.UTF-8", "de_DE.UTF-8")
ZONES = ("Pacific/Auckland", "America/Los_Angeles")


def surroundings(seeds: int) -> Iterator[dict[str, str]]:
    """Every seed, with locale and time zone in turn."""
    for seed in range(seeds):
        lang = LOCALES[seed % 2]
        yield {"PYTHONHASHSEED": str(seed), "LC_ALL": lang, "LANG": lang, "TZ": ZONES[seed // 2 % 2]}


def answer(case: str, folder: Path, around: dict[str, str]) -> str:
    """The hash of the JSON of one case."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "TRIAGE_CACHE": str(folder / "cache"), **around}
    words = ["plant", "--from", str(ROOT / "demo" / case), "--json", "--home", str(folder / "home")]
    run = subprocess.run([sys.executable, "-m", "triage", *words], env=environment, capture_output=True, check=True)
    return hashlib.sha256(run.stdout).hexdigest()


def measure(seeds: int) -> dict[str, int]:
    """How many different answers each case had."""
    with tempfile.TemporaryDirectory() as folder:
        around = list(surroundings(seeds))
        return {case: len({answer(case, Path(folder), each) for each in around}) for case in CASES}


def main() -> int:
    """Print how many different answers there were; exit 1 if more than one."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=20)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    found = measure(options.seeds)
    if options.json:
        print(json.dumps({"seeds": options.seeds, "answers": found}))
    else:
        for case, different in found.items():
            print(f"{case:14} {different} different answers under {options.seeds} surroundings (goal 1)")
    return int(max(found.values()) > 1)


if __name__ == "__main__":
    sys.exit(main())
