"""Several programs at one journal: all succeed, or one is told clearly; nothing gets mixed up."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time
from itertools import groupby
from pathlib import Path

import pytest

import triage
from triage.errors import JournalError
from triage.journal import Answer, check_journal, open_journal
from triage.model.case import System

OWN_CASE = """
import sys
from pathlib import Path
from triage.journal import Answer, open_journal
from triage.model.case import System
from triage.model.quantity import Reading

home, name = Path(sys.argv[1]), sys.argv[2]
input()
with open_journal(home, now=lambda: "2026-05-04T10:00:00") as journal:
    case_id = journal.begin_case("2026-05-04", name, System())
    added = 0
    for k in range(60):
        journal.record_answer(case_id, Answer(question=name, kind="words", payload=str(k)))
        added += journal.add_readings([Reading(quantity="ph", value=k, low=k, high=k, on="2026-05-04")])
print(added)
"""
SAME_CASE = """
import sys
from pathlib import Path
from triage.errors import JournalError
from triage.journal import Answer, open_journal

home, name = Path(sys.argv[1]), sys.argv[2]
input()
with open_journal(home, now=lambda: "2026-05-04T10:00:00") as journal:
    journal.load_case(1)
    try:
        for k in range(60):
            journal.record_answer(1, Answer(question=name, kind="words", payload=str(k)))
        print("all", 60)
    except JournalError as error:
        print(error, k)
"""


def clock() -> str:
    return "2026-05-04T11:00:00"


def run_together(script: str, home: Path, names: list[str]) -> list[str]:
    """Start one process a name, let them go at once; what each said."""
    environment = {**os.environ, "PYTHONPATH": str(Path(triage.__file__).parent.parent)}
    processes = [
        subprocess.Popen(
            [sys.executable, "-c", script, str(home), name],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env=environment,
        )
        for name in names
    ]
    for process in processes:
        assert process.stdin is not None
        process.stdin.write("go\n")
        process.stdin.flush()
    said = [process.communicate(timeout=60) for process in processes]
    assert [error for _, error in said] == [""] * len(names)
    assert [process.returncode for process in processes] == [0] * len(names)
    return [out.strip() for out, _ in said]


@pytest.mark.parametrize("times", range(4))
def test_two_begin_a_journal_and_write_at_once(home: Path, times: int) -> None:
    added = run_together(OWN_CASE, home, ["basil", "chard"])
    assert sum(int(count) for count in added) == 60
    with open_journal(home, now=clock) as journal:
        for line in journal.list_cases():
            case = journal.load_case(line.id)
            assert [(answer.question, answer.payload) for answer in case.answers] == [
                (line.crop, str(k)) for k in range(60)
            ]
        assert {line.crop for line in journal.list_cases()} == {"basil", "chard"}
        assert len(journal.readings()) == 60
        assert journal.check() == []


@pytest.mark.parametrize("times", range(4))
def test_two_answer_the_same_case(home: Path, times: int) -> None:
    with open_journal(home, now=clock) as journal:
        journal.begin_case("2026-05-04", "basil", System())
    said = dict(zip("ab", run_together(SAME_CASE, home, ["a", "b"]), strict=True))
    assert any(text.startswith("all") for text in said.values())
    assert all(text.startswith(("all", "case 1 is being answered in another window")) for text in said.values())
    with open_journal(home, now=clock) as journal:
        kept = [answer.question for answer in journal.load_case(1).answers]
    assert len(list(groupby(kept))) <= 2
    assert {name: kept.count(name) for name in said} == {name: int(text.split()[-1]) for name, text in said.items()}
    assert check_journal(home) == []


def test_a_busy_journal_is_waited_for(home: Path) -> None:
    begun = threading.Event()

    def hold() -> None:
        with open_journal(home, now=clock) as other, other.all_or_nothing():
            other.save_system(System(volume_l=1000.0))
            begun.set()
            time.sleep(0.3)

    with open_journal(home, now=clock) as journal:
        case_id = journal.begin_case("2026-05-04", "basil", System())
        holder = threading.Thread(target=hold)
        holder.start()
        begun.wait()
        journal.record_answer(case_id, Answer(kind="cant-tell"))
        holder.join()
        assert journal.load_case(case_id).answered == 1
        assert journal.load_system() is not None


def test_a_journal_that_stays_busy_says_so_and_loses_nothing(home: Path) -> None:
    with open_journal(home, now=clock) as other, open_journal(home, now=clock, wait_s=0.05) as journal:
        case_id = journal.begin_case("2026-05-04", "basil", System())
        with other.all_or_nothing():
            other.save_system(System(volume_l=1000.0))
            with pytest.raises(JournalError, match="in use by another program"):
                journal.record_answer(case_id, Answer(kind="cant-tell"))
            with pytest.raises(JournalError, match="in use by another program"):
                open_journal(home, now=clock, wait_s=0.05)
            assert journal.load_case(case_id).answered == 0  # reading goes on meanwhile
        assert journal.record_answer(case_id, Answer(kind="cant-tell")) == 1
