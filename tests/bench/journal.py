"""A journal of many years: how long the everyday commands take with it, against the same home with an empty one.

Run: python tests/bench/journal.py [--readings 100000] [--cases 10000] [--days 3650] [--rounds 5] [--keep DIR] [--json]

Everything in it is invented: ten years of one garden, nine quantities measured three times a day (with ``--days 120``
logged all day long), most cases closed and proven, those of the last weeks open. The two homes take turns, so that
both meet the same load. Goal: the medians of `water show`, `case list` and `today` at most three times those of the
empty journal.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from datetime import date, timedelta
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from triage.book.load import load_book  # noqa: E402
from triage.journal import CasePlace, Journal, open_journal  # noqa: E402
from triage.model.book import Book  # noqa: E402
from triage.model.case import System  # noqa: E402
from triage.model.garden import Bed  # noqa: E402
from triage.model.quantity import Reading  # noqa: E402
from triage.recall.looks import keep_look  # noqa: E402
from triage.session import Session, Told, told_as_answer  # noqa: E402

GOAL = 3.0
TODAY = date(2026, 11, 25)
YEARS = 10
#: Cases of the last weeks are still open.
OPEN_DAYS = 21
CROPS = ("basil", "chard", "cucumber", "strawberry", "pak-choi")
BEDS = ("window", "wall", "door", "far")
#: Everyday values of what is measured, and how far they wander.
MEASURED = {
    "ph": (7.0, 0.4), "temperature": (22.0, 3.0), "oxygen": (6.5, 1.0), "tan": (0.3, 0.2), "nitrite": (0.1, 0.1),
    "nitrate": (40.0, 20.0), "iron": (1.0, 0.6), "alkalinity": (80.0, 30.0), "ec": (0.9, 0.3),
}  # fmt: skip
LOOKS = (
    ("yellow-between-veins", "newest-leaves-first"), ("webbing", "moving-dots-underneath"),
    ("aphid-clusters", "honeydew"), ("white-powder-on-top",), ("brown-leaf-edges", "oldest-leaves-first"),
    ("ragged-holes", "slime-trail"), ("whole-leaf-yellow", "oldest-leaves-first"), ("wilting", "roots-brown-slimy"),
)  # fmt: skip
COMMANDS = (("water", "show"), ("case", "list"), ("today",), ("garden",))
HELD = COMMANDS[:3]


def some_readings(chance: random.Random, number: int, days: int) -> Iterator[Reading]:
    """Invented readings, evenly over so many days, up to today."""
    rounds = -(-number // (days * len(MEASURED)))  # of all quantities, a day
    for k in range(number):
        quantity = list(MEASURED)[k % len(MEASURED)]
        middle, spread = MEASURED[quantity]
        value = round(max(0.0, chance.gauss(middle, spread / 3)), 2)
        turn = k // len(MEASURED) + days * rounds - -(-number // len(MEASURED))  # the last one is of today
        on = (TODAY - timedelta(days=days - 1 - turn // rounds)).isoformat()
        minute = 360 + turn % rounds * 1080 // rounds
        time_ = f"{minute // 60:02d}:{minute % 60:02d}"
        yield Reading(quantity=quantity, value=value, low=value, high=value, on=on, time=time_, kit="meter")


def finished_sessions(book: Book) -> list[tuple[Session, object]]:
    """A look of each kind with its report; they are kept again and again."""
    found = []
    for number, seen in enumerate(LOOKS):
        session = Session(book, on=TODAY.isoformat(), system=System(volume_l=1000.0, animals=("tilapia",)))
        session.tell(Told(kind="crop", question="crop", crop=CROPS[number % len(CROPS)]))
        session.tell(Told(kind="finding", question="where-on-the-plant", seen=seen))
        found.append((session, session.look(with_question=False)))
    return found


def fill(home: Path, book: Book, readings: int, cases: int, days: int) -> None:
    """A journal with so many readings and cases."""
    chance = random.Random(7)
    looks = finished_sessions(book)
    with open_journal(home, now=lambda: f"{TODAY}T08:00:00+00:00") as journal, journal.all_or_nothing():
        journal.save_system(System(volume_l=1000.0, animals=("tilapia",), crops=CROPS))
        for bed in BEDS:
            journal.save_bed(Bed(name=bed, crops=CROPS[:2]))
        journal.add_readings(list(some_readings(chance, readings, days)))
    at = ""
    with open_journal(home, now=lambda: at) as journal:
        for first in range(0, cases, 500):
            with journal.all_or_nothing():
                for number in range(first, min(cases, first + 500)):
                    day = TODAY - timedelta(days=YEARS * 365 * (cases - 1 - number) // cases)
                    at = f"{day}T09:00:00+00:00"
                    keep_case(journal, chance, looks[number % len(looks)], day)


def keep_case(journal: Journal, chance: random.Random, look: tuple[Session, object], day: date) -> None:
    """One case, and what became of it."""
    session, report = look
    number = journal.begin_case(day.isoformat(), session.case.crop, session.system)
    for told in session.told:
        journal.record_answer(number, told_as_answer(told))
    keep_look(journal, session, number, report)  # type: ignore[arg-type]
    journal.place_case(number, CasePlace(bed=chance.choice(BEDS)))
    journal.record_action(number, "iron chelate, 20 g", (day + timedelta(days=1)).isoformat())
    if (TODAY - day).days > OPEN_DAYS:
        first = report.suspects[0].cause  # type: ignore[attr-defined]
        journal.record_outcome(number, [first], "lens", (day + timedelta(days=9)).isoformat())
        journal.close_case(number, "well again")


def measure(run: Callable[[], object]) -> tuple[float, float]:
    """Seconds on the wall and of the processor that a process takes."""
    before, begun = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    run()
    wall, after = time.perf_counter() - begun, resource.getrusage(resource.RUSAGE_CHILDREN)
    return wall, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def compare(homes: Sequence[Path], words: Sequence[str], rounds: int, environment: dict[str, str]) -> dict[str, float]:
    """Medians of a command with the empty and the full journal, taking turns."""

    def once(home: Path) -> tuple[float, float]:
        command = [sys.executable, "-m", "triage", *words, "--home", str(home)]
        if words[0] in ("today", "garden") or words == ("water", "show"):
            command += ["--on", TODAY.isoformat()]
        return measure(
            lambda: subprocess.run(command, stdout=subprocess.DEVNULL, env=environment, cwd=ROOT, check=True)
        )

    for home in homes:
        once(home)  # bytecode and compiled book
    pairs = [(once(homes[0]), once(homes[1])) for _ in range(rounds)]
    empty, full = (statistics.median(pair[n][1] for pair in pairs) * 1000 for n in (0, 1))
    walls = [statistics.median(pair[n][0] for pair in pairs) * 1000 for n in (0, 1)]
    return {"empty_ms": empty, "full_ms": full, "ratio": full / empty, "empty_wall_ms": walls[0],
            "full_wall_ms": walls[1]}  # fmt: skip


def main() -> int:
    """Print the table; exit 1 if the goal is missed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--readings", type=int, default=100_000)
    parser.add_argument("--cases", type=int, default=10_000)
    parser.add_argument("--days", type=int, default=YEARS * 365, help="over how many days the readings are spread")
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--keep", type=Path, help="keep the homes in this folder, and use them again")
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as throw_away:
        folder = options.keep or Path(throw_away)
        homes = (folder / "empty", folder / "full")
        begun = time.perf_counter()
        if not (homes[1] / "journal.sqlite3").exists():
            book = load_book()
            fill(homes[0], book, 0, 0, options.days)
            fill(homes[1], book, options.readings, options.cases, options.days)
        filled = time.perf_counter() - begun
        environment = {**os.environ, "PYTHONPATH": str(ROOT), "TRIAGE_CACHE": f"{folder}/cache", "COLUMNS": "80"}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        found = {" ".join(words): compare(homes, words, options.rounds, environment) for words in COMMANDS}
        size = (homes[1] / "journal.sqlite3").stat().st_size / 1e6
    missed = [" ".join(words) for words in HELD if found[" ".join(words)]["ratio"] > GOAL]
    result = {
        "readings": options.readings, "cases": options.cases, "days": options.days, "size_mb": round(size, 1),
        "fill_s": round(filled, 1), "goal": GOAL, "commands": found, "missed": missed,
    }  # fmt: skip
    if options.json:
        print(json.dumps(result))
        return bool(missed)
    print(f"{options.readings} readings, {options.cases} cases, {size:.0f} MB, filled in {filled:.0f} s")
    print(f"{'processor time':<14} {'empty ms':>9} {'full ms':>9} {'ratio':>6}   wall ms")
    for name, row in found.items():
        walls = f"{row['empty_wall_ms']:.0f} and {row['full_wall_ms']:.0f}"
        print(f"{name:<14} {row['empty_ms']:>9.0f} {row['full_ms']:>9.0f} {row['ratio']:>6.2f}   {walls}")
    print(f"goal {GOAL:g} for {', '.join(' '.join(words) for words in HELD)}: {'missed' if missed else 'met'}")
    return bool(missed)


if __name__ == "__main__":
    sys.exit(main())
