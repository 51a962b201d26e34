"""How entries of the book look: what was found, one entry whole, the sources."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import msgspec
from rich.console import Console

from ..book.find import Hit, entry_name
from ..model.record import Source
from ..report import words as report_words
from .style import heading, line

#: Shelves whose entries say how a thing is used or how poisonous it is.
MAY_HARM = ("treatments", "substances", "substance_groups")
READ_WORDS = {
    "seen": "the text was read",
    "partly": "read in part",
    "practice": "common practice or our judgement, no source",
    "memory": "from memory, not read",
    "computed": "computed by us",
}


def render_hits(hits: Sequence[Hit], console: Console) -> None:
    """What a search found, one line each."""
    for hit in hits:
        line(
            console, (hit.id, "triage.name"), f"  {hit.shelf.removesuffix('s')}  ", (hit.name, "triage.quiet"), indent=0
        )


def render_entry(
    shelf: str, entry: Any, sources: Sequence[Source], console: Console, draw: Callable[[], object] = lambda: None
) -> None:
    """One entry: its name, its picture (``draw`` prints it), every key that is filled, and the sources behind it."""
    kind = shelf.removesuffix("s")
    heading(console, f"{entry_name(entry) or getattr(entry, kind)}  ({kind})")
    draw()
    for key, value in msgspec.to_builtins(entry).items():
        _value(console, key, value, 2)
    if shelf in MAY_HARM:
        line(console, report_words.CAUTIONS[0], bullet="!")
    if sources:
        heading(console, "Sources")
        for source in sources:
            _source(console, source)


def _value(console: Console, key: str, value: Any, indent: int) -> None:
    if isinstance(value, dict):
        line(console, (f"{key}:", "triage.name"), indent=indent)
        for inner_key, inner in value.items():
            _value(console, inner_key, inner, indent + 2)
    elif isinstance(value, list) and any(isinstance(inner, dict | list) or str(inner).endswith(".") for inner in value):
        line(console, (f"{key}:", "triage.name"), indent=indent)
        for inner in value:
            words = ", ".join(f"{k} {v}" for k, v in inner.items()) if isinstance(inner, dict) else str(inner)
            line(console, words, indent=indent + 2, bullet="-")
    else:
        words = ", ".join(map(str, value)) if isinstance(value, list) else str(value)
        line(console, (f"{key}: ", "triage.name"), words, indent=indent)


def _source(console: Console, source: Source) -> None:
    parts = [source.title, source.publisher, source.year, source.address]
    line(console, (source.source, "triage.name"), "  ", "; ".join(part for part in parts if part), bullet="-")
    note = f"; {source.note}" if source.note else ""
    line(console, (f"{READ_WORDS[source.read]}{note}", "triage.quiet"), indent=4)


def render_sources(
    sources: Sequence[Source], uses: Mapping[str, Sequence[str]], console: Console, *, whole: bool
) -> None:
    """Sources with how far they were read; with ``whole``, every entry that rests on them."""
    for source in sources:
        _source(console, source)
        named = uses.get(source.source, [])
        if whole:
            for use in named:
                line(console, use, indent=4)
        else:
            line(console, (f"named by {len(named)} entries", "triage.quiet"), indent=4)
