"""How right the ranking is on published cases that were read after the book had been written, in words alone.

Run: python tests/bench/fresh.py [--part tune|check] [--json]

The cases are shared/signs/fresh.yaml; those of the part ``check`` come from publishers nobody tuned anything on. Nobody
has ticked their findings, so that only their words are measured.
"""

from __future__ import annotations

import argparse
import json
import sys
from typing import Any

from accuracy_cases import PARTS, load_fresh
from accuracy_scores import in_bins, summarise
from accuracy_tables import COLUMNS, table
from accuracy_variants import rank_case

from triage.book.load import load_book
from triage.reasoning import Engines


def measure(part: str) -> dict[str, Any]:
    """Scores and calibration of one part."""
    engines = Engines(load_book())
    rows = [rank_case(case, engines, "words") for case in load_fresh(part)]
    return {"scores": summarise(rows), "bins": in_bins(rows)}


def main() -> int:
    """Print a line for each part."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--part", choices=PARTS)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    found = {part: measure(part) for part in ([options.part] if options.part else PARTS)}
    if options.json:
        print(json.dumps(found))
    else:
        print("\n".join(table("fresh cases, words", {part: each["scores"] for part, each in found.items()}, COLUMNS)))
    return 0


if __name__ == "__main__":
    sys.exit(main())
