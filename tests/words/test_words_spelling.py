"""Words spelt nearly right."""

from __future__ import annotations

import subprocess
import sys

import pytest

from triage.words.spelling import Speller

KNOWN = ["yellow", "brown", "stippl", "caterpillar", "mildew", "web", "heart", "condensation"]


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("yelow", "yellow"), ("yelolw", "yellow"), ("yelllow", "yellow"), ("brwon", "brown"), ("stippel", "stippl"),
     ("catterpiller", "caterpillar"), ("caterpilar", "caterpillar")],
)  # fmt: skip
def test_a_slip_is_forgiven(typed: str, meant: str) -> None:
    assert Speller(KNOWN).spelled(typed) == meant


@pytest.mark.parametrize("typed", ["heard", "blown", "fellow", "we", "compensation", "yellow", "qqqqqq"])
def test_another_word_is_left_alone(typed: str) -> None:
    assert Speller(KNOWN, frozenset(["compensation"])).spelled(typed) == typed


def test_words_spelt_right_load_nothing() -> None:
    """The comparison library takes several milliseconds to load; a text without long slips must not pay for it."""
    code = (
        "import sys; from triage.book.load import load_book; from triage.words.reader import WordReader;"
        "b = load_book(); WordReader(b.findings, b.speech).read(['Yellow leaves with a yelow rim, my aunt says']);"
        "sys.exit('rapidfuzz' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
