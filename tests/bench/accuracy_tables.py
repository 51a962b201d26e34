"""The results as plain tables."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

COLUMNS = ("cases", "top-1", "top-3", "mrr", "log", "brier", "ece", "none-leads")


def _number(value: Any) -> str:
    if value is None:
        return "-"
    return f"{value:.3f}" if isinstance(value, float) else str(value)


def table(title: str, rows: Mapping[str, Mapping[str, Any]], columns: Sequence[str]) -> Iterable[str]:
    """A table of named rows."""
    wide = max([len(title), *map(len, rows)])
    widths = [max(len(column), 6) for column in columns]
    yield "  ".join([title.ljust(wide), *(c.rjust(w) for c, w in zip(columns, widths, strict=True))])
    for name, row in rows.items():
        cells = (_number(row.get(c)).rjust(w) for c, w in zip(columns, widths, strict=True))
        yield "  ".join([name.ljust(wide), *cells])
    yield ""


def all_tables(result: Mapping[str, Any]) -> Iterable[str]:
    """Everything measured, one table after the other."""
    parts = result["parts"]
    scores = {f"{part}, {mode}": parts[part]["scores"][mode] for part in parts for mode in parts[part]["scores"]}
    yield from table("scores", scores, COLUMNS)
    heard = {part: found["hearing"] for part, found in parts.items()}
    yield from table("reader of words", heard, tuple(next(iter(heard.values()))))
    for part, found in parts.items():
        yield from _part(part, found)


def _part(part: str, found: Mapping[str, Any]) -> Iterable[str]:
    for mode, bins in found["bins"].items():
        named = {f"{each['from']:.1f} and up": each for each in bins}
        yield from table(f"{part}, {mode}: said and true", named, ("cases", "said", "true"))
    yield from table(f"{part}: right cause dropped", found["dropped"], tuple(next(iter(found["dropped"].values()))))
    yield from table(f"{part}: frequency words moved", found["steps"], COLUMNS)
    columns = ("series", "got-there", "median", "compared", "mean", "mean-of-fixed", "median-there")
    for start, orders in found["series"].items():
        yield from table(f"{part}: questions until 0.7, starting from one {start}", orders, columns)
    for mode in found["kinds"]:
        yield from table(f"{part}, {mode}: by kind", found["kinds"][mode], COLUMNS[:4])
    for mode in found["publishers"]:
        yield from table(f"{part}, {mode}: by publisher", found["publishers"][mode], COLUMNS[:4])
    yield from table(f"{part}: misses in words, by reason", found["reasons"], ("cases",))
    for mode, pairs in found["confused"].items():
        named = {f"{right} taken for {led}": {"cases": count} for right, led, count in pairs}
        yield from table(f"{part}, {mode}: confusions", named, ("cases",))


def miss_lines(rows: Iterable[Mapping[str, Any]]) -> Iterable[str]:
    """Every case that did not come first, with what was heard and why it was missed."""
    for row in rows:
        if row["place"] != 1:
            yield f"{row['id']} {row['expected']} place {row['place']} ({row['reason']}): {row['ranked']}"
            if row["heard"] or row["unread"]:
                yield f"    heard {row['heard']}  unread {row['unread']}"
