"""How right the ranking is on published cases that were read after the book had been written.

Run: python tests/bench/fresh.py [--part tune|check] [--json]

The cases are shared/signs/fresh.yaml, in words and with the findings ticked; those of the part ``check`` come from
publishers nobody tuned anything on.
"""

from __future__ import annotations

import argparse
import json
import sys
from typing import Any

from accuracy_cases import MODES, PARTS, load_fresh
from accuracy_scores import in_bins, summarise
from accuracy_tables import COLUMNS, table
from accuracy_variants import rank_case

from triage.book.load import load_book
from triage.reasoning import Engines


def measure(part: str) -> dict[str, Any]:
    """Scores and calibration of one part, by mode."""
    engines = Engines(load_book())
    rows = {mode: [rank_case(case, engines, mode) for case in load_fresh(part)] for mode in MODES}
    return {mode: {"scores": summarise(each), "bins": in_bins(each)} for mode, each in rows.items()}


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
        scores = {f"{part}, {mode}": each["scores"] for part in found for mode, each in found[part].items()}
        print("\n".join(table("fresh cases", scores, COLUMNS)))
    return 0


if __name__ == "__main__":
    sys.exit(main())
