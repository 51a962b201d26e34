"""The strict reader: traps are named with their line, and nothing it is given makes it fail."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from triage.book.strict_yaml import parse_yaml


def codes(text: str) -> list[tuple[int, str]]:
    return [(fault.line, fault.code) for fault in parse_yaml(text, "x.yaml").faults]


@pytest.mark.parametrize(
    "word", ["yes", "No", "on", "OFF", "True", "1e-3", "012", "0x1F", "1_000", ".5", "5.", ".inf", "1E5"]
)
def test_traps_are_refused_unless_quoted(word: str) -> None:
    assert codes(f"a: 1\nb: {word}") == [(2, "KB003")]
    assert parse_yaml(f"b: '{word}'", "x.yaml").data == {"b": word}


@pytest.mark.parametrize(
    ("text", "value"), [("7.4", 7.4), ("-3", -3), ("true", True), ("2026-05-03", "2026-05-03"), ("12:30", "12:30")]
)
def test_plain_values_mean_what_they_look_like(text: str, value: object) -> None:
    document = parse_yaml(f"a: {text}", "x.yaml")
    assert document.data == {"a": value}
    assert type(document.data["a"]) is type(value)
    assert not document.faults


def test_a_key_named_on_is_a_key() -> None:
    assert parse_yaml("on: 2026-05-04", "x.yaml").data == {"on": "2026-05-04"}


def test_lines_are_known_deep_inside() -> None:
    document = parse_yaml("a:\n  - b: 1\n    c:\n      - x\n      - y\n", "x.yaml")
    assert document.line(("a", 0, "c", 1)) == 5
    assert document.line(("a", 0, "c", 1, "nowhere")) == 5


def test_an_alias_bomb_is_refused_without_growing() -> None:
    bomb = "a: &a [x, x]\n" + "".join(f"b{n}: &b{n} [*a, *a, *a]\n" for n in range(50))
    document = parse_yaml(bomb, "x.yaml")
    assert {fault.code for fault in document.faults} == {"KB005"}


def test_deep_nesting_is_refused() -> None:
    assert {code for _, code in codes("[" * 50 + "]" * 50)} == {"KB006"}
    assert codes("[" * 50_000)


@given(st.text(max_size=200))
def test_any_text_gives_data_or_faults_and_never_fails(text: str) -> None:
    document = parse_yaml(text, "x.yaml")
    assert isinstance(document.faults, list)


@given(
    st.recursive(
        st.integers(-999, 999) | st.booleans() | st.from_regex(r"[a-z]{4,9}x", fullmatch=True),
        lambda inner: (
            st.lists(inner, max_size=3)
            | st.dictionaries(st.from_regex(r"[a-z]{1,5}", fullmatch=True), inner, max_size=3)
        ),
        max_leaves=15,
    )
)
def test_what_the_library_writes_is_read_back(value: object) -> None:
    document = parse_yaml(yaml.safe_dump(value), "x.yaml")
    assert document.data == value
    assert not document.faults
