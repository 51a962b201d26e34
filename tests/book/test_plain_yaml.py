"""The short way of reading a case gives what the yaml library gives, or leaves it to the library."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from triage.book.plain_yaml import read_plain
from triage.book.strict_yaml import parse_yaml

DEMO = sorted((Path(__file__).parents[2] / "demo").glob("*.yaml"))

#: Pieces that cases are made of, and some that do not belong there.
MEANT = ["crop", "on", "seen", "a-b", "basil", "7.4", "-3", "012", "1e3", "yes", "true", "2026-05-03", "08:30"]
MARKS = [":", ": ", "- ", "-", ", ", ",", "[", "]", "{", "}", "\n", "\n  ", "\n    ", "\n- ", "\n  - ", " ", "  "]
STRANGE = [
    "'it'",
    "''",
    '"',
    "'",
    "#",
    " # x",
    "&a ",
    "*a",
    "!x ",
    "|",
    ">",
    "?",
    "? ",
    "%",
    "---",
    "...",
    "\t",
    "\\",
    "٣",
]
PIECES = st.sampled_from([*MEANT, *MARKS, '"<= 0.1"', "<= 0.1", "é", *STRANGE])
WORD = st.sampled_from(["basil", "pak choi", "7.4", "-3", "2026-05-03", '"<= 0.1"', "'a b'", "true", "it's", "a [b]"])
KEY = st.sampled_from(["crop", "seen", "on", "a-b", "Yes"])


def same(text: str) -> bool:
    """Whether the short way read it; then it must be what the library reads."""
    short = read_plain(text, "x.yaml")
    if short is None:
        return False
    whole = parse_yaml(text, "x.yaml")
    assert (short.data, short.lines, short.faults) == (whole.data, whole.lines, whole.faults), text
    return True


def block(value: st.SearchStrategy[list[str]]) -> st.SearchStrategy[list[str]]:
    """Lines of a mapping or a list whose values are words, collections or deeper blocks."""
    inline = st.one_of(
        WORD,
        st.lists(WORD, max_size=3).map(lambda words: f"[{', '.join(words)}]"),
        st.dictionaries(KEY, WORD, max_size=3).map(
            lambda pairs: "{" + ", ".join(f"{key}: {word}" for key, word in pairs.items()) + "}"
        ),
    ).map(lambda text: [text])
    deeper = value.map(lambda lines: ["", *(f"  {line}" for line in lines)])
    entries = st.lists(st.tuples(KEY, st.one_of(inline, deeper)), min_size=1, max_size=4)
    mapping = entries.map(lambda items: [line for key, (first, *rest) in items for line in (f"{key}: {first}", *rest)])
    items = st.lists(st.one_of(inline, mapping), min_size=1, max_size=3)
    listing = items.map(
        lambda each: [("- " if n == 0 else "  ") + line for item in each for n, line in enumerate(item)]
    )
    return st.one_of(mapping, listing)


@pytest.mark.parametrize("path", DEMO, ids=lambda path: path.stem)
def test_the_demo_is_plain_or_left_alone(path: Path) -> None:
    assert same(path.read_text(encoding="utf-8")) or path.stem == "scenes"


@settings(max_examples=400)
@given(st.lists(PIECES, max_size=14).map("".join))
@example("a:\n    - x: 1\n   b: 2")
@example("a: [b,\nc]")
@example("a: b\n  c")
@example("a: 'b''c'")
@example("a: {b: 1, b: 2}")
@example("a: [b: c]")
@example("on: yes")
def test_whatever_is_read_is_what_the_library_reads(text: str) -> None:
    same(text)


@settings(max_examples=200)
@given(st.recursive(st.just(["a: 1"]), block, max_leaves=6))
def test_well_formed_cases_are_read_alike(lines: list[str]) -> None:
    same("\n".join(lines))


def test_most_of_what_a_person_writes_is_plain() -> None:
    text = "# Monday\ncrop: pak choi\nwords: Yellow leaves, the grower's own words\nseen:\n- webbing\nreadings:\n"
    assert same(text + '  - quantity: iron\n    value: "<= 0.1"\n    on: 2026-05-03\n')
