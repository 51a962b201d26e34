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

ENVIRONMENT = {**os.environ, "PYTHONPATH": str(Path(triage.__file__).parent.parent)}
#: What a person types into the series: fish well, a crop, words, then nothing but "can't tell".
TYPED = ("1", "cucumber", "webbing under the leaf", *["t"] * 3)
PROMPTS = ("One number", "Name", "Your words", "Your readings", "y, n")


def clock() -> str:
    return "2026-05-04T11:00:00"


def kill_while_writing(home: Path, lines: int, seconds: float) -> list[str]:
    """What the writer had acknowledged when it was killed, so many seconds after saying so many lines."""
    command = [sys.executable, "-c", WRITER, str(home)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=ENVIRONMENT) as process:
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


def kill_a_series(home: Path, answers: int, seconds: float) -> int:
    """Kill `triage plant` so many seconds after the last of so many answers was typed; how many it acknowledged.

    An answer is acknowledged by the next prompt.
    """
    command = [sys.executable, "-m", "triage", "plant", "--new", "--home", str(home)]
    with subprocess.Popen(
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=ENVIRONMENT
    ) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        for text in TYPED[:answers]:
            read_to_prompt(process)
            process.stdin.write(f"{text}\n")
            process.stdin.flush()
        time.sleep(seconds)
        process.kill()
        rest = process.stdout.read()
    return answers if is_prompt(rest) else answers - 1


def read_to_prompt(process: subprocess.Popen[str]) -> None:
    """Read on until the series waits for an answer."""
    assert process.stdout is not None
    said = ""
    while not is_prompt(said):
        sign = process.stdout.read(1)
        assert sign, f"the series ended: {said}"
        said += sign


def is_prompt(said: str) -> bool:
    return said.endswith(": ") and said.rpartition("\n")[2].startswith(PROMPTS)


def look_after_series(home: Path, acknowledged: int) -> int:
    """Check the journal that a killed series left; how many answers it had acknowledged."""
    assert check_journal(home) == []
    with open_journal(home, now=clock) as journal:
        (line,) = journal.unfinished_cases()
        assert acknowledged <= line.answered <= acknowledged + 1
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


def test_a_series_killed_while_a_person_answers(tmp_path: Path) -> None:
    """From the first answer on, shortly after each was typed: before, while or after it is kept."""
    moments = random.Random("series")
    for answers in range(1, len(TYPED) + 1):
        home = tmp_path / str(answers)
        acknowledged = kill_a_series(home, answers, moments.uniform(0.0, 0.05))
        assert look_after_series(home, acknowledged) >= answers - 1
