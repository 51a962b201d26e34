"""Whatever goes in comes out: readings, systems, answers, and whole journals through JSON Lines."""

from __future__ import annotations

import math
import shutil
import tempfile
from datetime import date
from pathlib import Path

import hypothesis.strategies as st
from hypothesis import given, settings
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule

from triage.journal import Answer, Journal, decode_reading, encode_reading, open_journal
from triage.model.case import System
from triage.model.quantity import Reading

TEXT = st.text(st.characters(codec="utf-8"), max_size=12)
NUMBER = st.floats(allow_nan=False, allow_infinity=False)
DAY = st.dates(date(1000, 1, 1)).map(date.isoformat)


def clock() -> str:
    return "2026-05-04T10:00:00"


@st.composite
def readings(draw: st.DrawFn) -> Reading:
    low, high = sorted((draw(NUMBER), draw(NUMBER)))
    return Reading(
        quantity=draw(TEXT),
        value=draw(NUMBER),
        unit=draw(TEXT),
        bound=draw(st.sampled_from(["=", "<=", ">=", "<", ">"])),
        step=draw(NUMBER),
        low=draw(st.sampled_from([low, -math.inf])),
        high=draw(st.sampled_from([high, math.inf])),
        on=draw(DAY),
        time=draw(TEXT),
        kit=draw(TEXT),
        point=draw(TEXT),
        note=draw(TEXT),
        derived=draw(st.booleans()),
    )


SYSTEMS = st.builds(
    System,
    name=TEXT,
    volume_l=st.none() | NUMBER,
    animals=st.lists(TEXT, max_size=3).map(tuple),
    crops=st.lists(TEXT, max_size=3).map(tuple),
    beds=TEXT,
    filter=TEXT,
    top_up=TEXT,
    place=TEXT,
    altitude_m=st.none() | NUMBER,
    shelf=st.lists(TEXT, max_size=3).map(tuple),
)


@given(readings())
def test_a_reading_as_an_answer(reading: Reading) -> None:
    assert decode_reading(encode_reading(reading)) == reading


@settings(deadline=None, max_examples=60)
@given(st.lists(readings(), max_size=6), st.lists(SYSTEMS, max_size=3))
def test_readings_and_systems(new: list[Reading], systems: list[System]) -> None:
    folder = Path(tempfile.mkdtemp())
    with open_journal(folder, now=clock) as journal:
        added = journal.add_readings(new)
        for system in systems:
            journal.save_system(system)
    with open_journal(folder, now=clock, read_only=True) as journal:
        kept = journal.readings()
        assert len(kept) == added == len({_sameness(reading) for reading in new})
        assert {_sameness(reading) for reading in kept} == {_sameness(reading) for reading in new}
        assert all(reading in new for reading in kept)
        for name in journal.list_systems():
            assert journal.load_system(name) == [system for system in systems if system.name == name][-1]
    shutil.rmtree(folder)


def _sameness(reading: Reading) -> tuple[object, ...]:
    names = ("quantity", "value", "bound", "unit", "on", "time", "kit", "point")
    return tuple(getattr(reading, name) for name in names)


class CaseMachine(RuleBasedStateMachine):
    """A journal against a plain list of answers, through answers, going back, and opening the file again."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp())
        self.journal: Journal = open_journal(self.folder, now=clock)
        self.case_id = self.journal.begin_case("2026-05-04", "basil", System())
        self.standing: list[Answer] = []
        self.rows = 0

    @rule(question=TEXT, words=TEXT)
    def answer(self, question: str, words: str) -> None:
        payload = encode_words(words)
        given_answer = Answer(question=question, kind="words", payload=payload, at=clock())
        self.journal.record_answer(self.case_id, given_answer)
        self.standing.append(given_answer)
        self.rows += 1

    @rule()
    def go_back(self) -> None:
        expected = self.standing.pop() if self.standing else None
        self.rows += expected is not None
        assert self.journal.undo_last_answer(self.case_id) == expected

    @rule()
    def open_again(self) -> None:
        self.journal.close()
        self.journal = open_journal(self.folder, now=clock)

    @rule()
    def carry_over(self) -> None:
        lines = export_of(self.journal)
        folder = Path(tempfile.mkdtemp())
        with open_journal(folder, now=clock) as copy:
            assert copy.import_lines(lines) == len(lines) - 2
            assert export_of(copy) == lines
            assert copy.check() == []
        shutil.rmtree(folder)

    @invariant()
    def same_as_the_list(self) -> None:
        case = self.journal.load_case(self.case_id)
        assert list(case.answers) == self.standing
        assert case.answered == len(self.standing)
        assert len(self.journal.answer_history(self.case_id)) == self.rows
        assert [line.id for line in self.journal.unfinished_cases()] == [self.case_id]

    def teardown(self) -> None:
        assert self.journal.check() == []
        self.journal.close()
        shutil.rmtree(self.folder)


CaseMachine.TestCase.settings = settings(max_examples=25, stateful_step_count=20, deadline=None)
TestCaseMachine = CaseMachine.TestCase


def encode_words(words: str) -> str:
    import json

    return json.dumps({"words": words})


def export_of(journal: Journal) -> list[str]:
    lines: list[str] = []
    journal.export_lines(lines.append)
    return lines
