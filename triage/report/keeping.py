"""A report as the journal keeps it: short, and with all that anybody looks up later."""

from __future__ import annotations

from typing import Any

import msgspec

from .case_report import report_as_data

#: Suspects less likely than this are left out behind the first ones: the answers and the book give them again.
KEPT_FROM = 0.02
KEPT_ALWAYS = 20


def encode_kept(report: msgspec.Struct) -> str:
    """JSON text of a first or a later look, without the long tail of causes that are out of the question."""
    return msgspec.json.encode(_without_tail(report_as_data(report))).decode()


def _without_tail(data: dict[str, Any]) -> dict[str, Any]:
    kept = {key: _without_tail(value) if isinstance(value, dict) else value for key, value in data.items()}
    if "suspects" in kept:
        kept["suspects"] = [
            suspect
            for place, suspect in enumerate(kept["suspects"])
            if place < KEPT_ALWAYS or suspect["probability"] >= KEPT_FROM
        ]
    return kept
