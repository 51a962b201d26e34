"""What one ranking was worth, and what many were: places, log and Brier scores, calibration, kinds, confusions."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from statistics import fmean
from typing import Any

from accuracy_cases import Vignette, right_ones

Row = dict[str, Any]
BINS = 5
#: A right cause that is not listed counts as this likely, so that one miss does not decide the log score.
LEAST = 1e-3
#: A miss is a draw when the right cause is at least this share of the leading one.
DRAW_FROM = 0.5


def score_ranking(vignette: Vignette, ranked: Sequence[tuple[str, float]], nothing: float) -> Row:
    """One row: the place of the right cause (None: not listed), its probability, who led, the Brier score.

    The Brier score is the sum over the causes of (probability - truth)², the look-alikes that the source accepts left
    out; ``nothing`` is the probability that nothing in the book explains it.
    """
    right = right_ones(vignette)
    place = next((place for place, (cause, _) in enumerate(ranked, start=1) if cause in right), None)
    chance = ranked[place - 1][1] if place else 0.0
    others = sum(probability**2 for cause, probability in ranked if cause not in right)
    return {
        "id": vignette["id"], "publisher": vignette["publisher"], "source": vignette["source"],
        "expected": vignette["expected"], "place": place, "right": chance, "nothing": nothing,
        "leader": ranked[0][0] if ranked else "", "first": ranked[0][1] if ranked else 0.0,
        "brier": others + (1.0 - chance) ** 2, "ranked": [(cause, round(p, 3)) for cause, p in ranked[:4]],
    }  # fmt: skip


def summarise(rows: Sequence[Row]) -> dict[str, float]:
    """Shares of first and first three places, mean reciprocal rank, log and Brier scores, calibration error."""
    if not rows:
        return {"cases": 0}
    return {
        "cases": len(rows),
        "top-1": share(rows, lambda row: row["place"] == 1),
        "top-3": share(rows, lambda row: row["place"] is not None and row["place"] <= 3),
        "mrr": fmean(1 / row["place"] if row["place"] else 0.0 for row in rows),
        "log": fmean(math.log(max(row["right"], LEAST)) for row in rows),
        "brier": fmean(row["brier"] for row in rows),
        "ece": sum(abs(each["said"] - each["true"]) * each["cases"] for each in in_bins(rows)) / len(rows),
        "none-leads": share(rows, nothing_leads),
    }


def share(rows: Sequence[Row], holds: Callable[[Row], bool]) -> float:
    """Share of the rows for which it holds."""
    return sum(map(holds, rows)) / len(rows) if rows else 0.0


def nothing_leads(row: Row) -> bool:
    """Whether 'nothing in the book' is likelier than every cause."""
    return bool(row["nothing"] > row["first"])


def in_bins(rows: Iterable[Row], bins: int = BINS) -> list[dict[str, float]]:
    """Probability of the leading cause as said, and how often it was right, in equal bins; empty ones are left out.

    >>> in_bins([{"first": 0.9, "place": 1}, {"first": 0.9, "place": 2}, {"first": 1.0, "place": 1}])[0]["cases"]
    3
    """
    inside: dict[int, list[Row]] = {}
    for row in rows:
        inside.setdefault(min(int(row["first"] * bins), bins - 1), []).append(row)
    return [
        {
            "from": number / bins, "cases": len(each), "said": fmean(row["first"] for row in each),
            "true": share(each, lambda row: row["place"] == 1),
        }
        for number, each in sorted(inside.items())
    ]  # fmt: skip


def by_group(rows: Iterable[Row], group: Callable[[Row], str]) -> dict[str, dict[str, float]]:
    """Cases, first and first three places of every group, by name."""
    groups: dict[str, list[Row]] = {}
    for row in rows:
        groups.setdefault(group(row), []).append(row)
    kept = ("cases", "top-1", "top-3", "mrr")
    return {name: {key: summarise(groups[name])[key] for key in kept} for name in sorted(groups)}


def confusions(rows: Iterable[Row], called: Mapping[str, str] | None = None) -> list[tuple[str, str, int]]:
    """(right, led instead, how often), the most frequent first; ``called`` puts a cause's kind in its place."""
    missed = (row for row in rows if row["place"] != 1)
    pairs = Counter((_called(row["expected"], called), _called(row["leader"], called)) for row in missed)
    return [(right, led, count) for (right, led), count in sorted(pairs.items(), key=lambda each: (-each[1], each[0]))]


def _called(cause: str, called: Mapping[str, str] | None) -> str:
    return (called.get(cause, cause) if called else cause) or "nothing"


def reason_of(words: Row, coded: Row, known: Mapping[str, Any]) -> str:
    """Why a case was missed in words: the reader (the ticked findings are ranked right), else the facts leave two
    causes nearly level, else the knowledge.

    >>> reason_of({"expected": "a", "place": 2}, {"place": 1}, {"a": 0})
    'words'
    >>> reason_of({"expected": "a", "place": 2}, {"place": 2, "right": 0.3, "first": 0.5}, {"a": 0})
    'ambiguous'
    """
    if words["expected"] not in known:
        return "not in the book"
    if coded["place"] == 1:
        return "words"
    return "ambiguous" if coded["right"] >= DRAW_FROM * coded["first"] else "knowledge"


def summarise_hearing(rows: Iterable[Row]) -> dict[str, float]:
    """How the reader of words did against the findings ticked: what it heard that is ticked, and what it did not hear.

    Of a row, ``heard-seen`` is what was heard as seen, ``ticked`` what is ticked as seen and ``fair`` what is ticked as
    seen or unsure, each with what follows from it.

    >>> summarise_hearing([{"heard-seen": {"a", "b"}, "ticked": {"a", "c"}, "fair": {"a", "c"}}])
    {'heard': 2, 'heard rightly': 0.5, 'ticked': 2, 'ticked and heard': 0.5}
    """
    each = [(row["heard-seen"], row["ticked"], row["fair"]) for row in rows]
    heard, ticked = sum(len(h) for h, _, _ in each), sum(len(t) for _, t, _ in each)
    return {
        "heard": heard,
        "heard rightly": sum(len(h & fair) for h, _, fair in each) / max(heard, 1),
        "ticked": ticked,
        "ticked and heard": sum(len(h & t) for h, t, _ in each) / max(ticked, 1),
    }
