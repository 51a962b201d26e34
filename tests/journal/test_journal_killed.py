"""A process killed at any moment loses no answer that was acknowledged."""

from __future__ import annotations

import os
import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

import triage
from triage.journal import Answer, check_journal, open_journal

#: Answers, goes back and adds readings without end; says so only after each call came back.
WRITER = """
import itertools, sys
from pathlib import Path
from triage.journal import Answer, open_journal
from triage.model.case import System
from triage.model.quantity import Reading

print("up", flush=True)
with open_journal(Path(sys.argv[1]), now=lambda: "2026-05-04T10:00:00") as journal:
    case_id = journal.begin_case("2026-05-04", "basil", System())
    print("case", case_id, flush=True)
    for k in itertools.count():
        if k % 5 == 4:
            journal.undo_last_answer(case_id)
        else:
            journal.record_answer(case_id, Answer(kind="words", payload=str(k)))
        print("answer", k, flush=True)
        on = f"{1000 + case_id}-05-04"
        journal.add_readings([Reading(quantity=f"q{n}", value=k, low=k, high=k, on=on) for n in range(7)])
        print("readings", k, flush=True)
"""


def clock() -> str:
    return "2026-05-04T11:00:00"


def kill_while_writing(home: Path, lines: int, seconds: float) -> list[str]:
    """What the writer had acknowledged when it was killed, so many seconds after saying so many lines."""
    environment = {**os.environ, "PYTHONPATH": str(Path(triage.__file__).parent.parent)}
    command = [sys.executable, "-c", WRITER, str(home)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=environment) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "up\n"
        said = "".join(process.stdout.readline() for _ in range(lines))
        time.sleep(seconds)
        process.kill()
        said += process.stdout.read()
    assert process.returncode != 0
    return [line for line in said.splitlines(keepends=True) if line.endswith("\n")]


def replay(rows: int) -> list[str]:
    """The answers that stand after so many rows of the writer."""
    standing: list[str] = []
    for k in range(rows):
        if k % 5 == 4:
            standing.pop()
        else:
            standing.append(str(k))
    return standing


def look_after(home: Path, said: list[str]) -> int:
    """Check the journal that a killed writer left; how many answers it had acknowledged."""
    assert check_journal(home) == []
    case_ids = [int(line.split()[1]) for line in said if line.startswith("case")]
    acknowledged = sum(line.startswith("answer") for line in said)
    batches = sum(line.startswith("readings") for line in said)
    with open_journal(home, now=clock) as journal:
        if not case_ids:  # killed before the case was acknowledged: it may be there or not
            return 0
        case_id = case_ids[0]
        rows = len(journal.answer_history(case_id))
        assert acknowledged <= rows <= acknowledged + 1
        assert [answer.payload for answer in journal.load_case(case_id).answers] == replay(rows)
        kept = [reading for reading in journal.readings() if reading.on == f"{1000 + case_id}-05-04"]
        assert len(kept) in (7 * batches, 7 * batches + 7)
        assert case_id in [line.id for line in journal.unfinished_cases()]
        assert journal.record_answer(case_id, Answer(kind="cant-tell")) == rows + 1
    return acknowledged


@pytest.mark.parametrize("begin", ["fresh", "used"])
def test_killed_at_random_moments(tmp_path: Path, begin: str) -> None:
    """Every other time at once, while the file is being opened or made; a used home gathers the cases of all."""
    moments = random.Random(begin)
    acknowledged = 0
    for number in range(20):
        home = tmp_path / (str(number) if begin == "fresh" else "home")
        lines = moments.randrange(3, 60) if number % 2 else 0
        acknowledged += look_after(home, kill_while_writing(home, lines, moments.uniform(0.0, 0.02)))
    assert acknowledged > 20
