"""A hundred thousand wrong inputs: nothing but the errors meant for people, and none takes longer than two seconds.

Run: python tests/bench/fuzz.py [--inputs 100000] [--seed 1] [--json]

Inputs are pieces of real ones, cut, doubled, swapped and spiced with what breaks programs: control characters, escapes,
huge and strange numbers, deep brackets, aliases, SQL, path tricks. They are fed to what reads from outside: written
cases, knowledge files, CSV files, typed numbers and amounts, words, answers, exported journals.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from pathlib import Path

import click

from triage.book.casefile import parse_case
from triage.book.load import load_book
from triage.book.plain_yaml import read_plain
from triage.book.strict_yaml import parse_yaml
from triage.cli import triage
from triage.errors import TriageError
from triage.intake import build_case
from triage.journal import open_journal
from triage.model.book import Book
from triage.reasoning import Engines
from triage.responses.amounts import parse_amount, parse_every, parse_strength, parse_volume
from triage.screens.question import parse_choice
from triage.session import session_from_case
from triage.water.readings import parse_assignment
from triage.water.table import Asked, read_table

ROOT = Path(__file__).resolve().parents[2]
SLOWEST_S = 2.0
SPICE = [
    "\x00", "\x1b[2J", "\x9b31m", "\u202e", "\ufeff", "\r", "\t", "\n", "é", "𝔸", "\ud7ff", "nan", "-inf", "1e999",
    "9" * 40, "0x1F", "1_000", "012", ".", ",", "-", "--", "%", "<=", ">=", "=", "==", "[", "]", "{", "}", "[" * 60,
    "{a: " * 30, "&a ", "*a", "!!python/object:os.system ", "!tag ", "---\n", "...", "|", ">", "?", ": ", "#", "'", '"',
    "'; DROP TABLE cases; --", "../../etc/passwd", "=cmd|' /C calc'!A0", "<script>", "{{7*7}}", "%s%n", "\\", "null",
    "yes", "2026-02-30", "0000-00-00", "99:99", "L", "mg/L", "dKH", "gal us", "°F",
]  # fmt: skip
#: One input in so many is a whole command line.
SELDOM = 40
COMMANDS = [
    "water check ph=8.0 temperature=24 tan=1.0 --animals tilapia", "water add ph=7.2 iron<=0.1mg/L --on 2026-05-03",
    "spray permethrin --strength 0.1% --amount 1L --cover none --volume 1000L --animals tilapia,shrimp --json",
    "dose iron --to 2 --from 0.1 --volume 1000L --animals tilapia", "book find spider mite",
    "book show iron-deficiency", "case show 1", "case did 1 iron --on 2026-05-04", "water why ph --json",
    "today --json", "water show",
    "case list --json", "plant --from demo/iron.yaml --json", "water import nowhere.csv", "journal check",
]  # fmt: skip
WORDS = ["pH", "iron", "kh", "yellow between the veins", "no webbing", "maybe mites", "7,4", "0.1 mg/L", "basil", "not"]


def mutated(text: str, chance: random.Random) -> str:
    """A text with a few pieces cut out, doubled, swapped or spiced."""
    for _ in range(chance.randint(0, 3)):
        start = chance.randrange(len(text) + 1)
        end = min(len(text), start + chance.randint(0, 12))
        kind = chance.randrange(5)
        piece = chance.choice(SPICE) if kind < 3 else chance.choice(WORDS) if kind == 3 else text[start:end] * 2
        text = text[:start] + piece + (text[end:] if chance.random() < 0.5 else text[start:])
    return text[:4000]


class Feeder:
    """Every way in, by name: what a person or a file may hand over."""

    def __init__(self, folder: Path) -> None:
        self.book: Book = load_book()
        self.engines = Engines(self.book)
        self.folder = folder
        self._journals = 0
        self._open_journal()
        self.journal.add_readings([parse_assignment("ph=7.4", self.book.quantities, on="2026-05-03")])
        lines: list[str] = []
        self.journal.export_lines(lines.append)
        self.exported = "".join(lines)
        self._open_journal()
        demo = sorted((ROOT / "demo").glob("*.yaml"))
        self.cases = [path.read_text(encoding="utf-8") for path in demo if path.stem not in ("scenes", "system")]
        books = sorted((ROOT / "knowledge").rglob("*.yaml"))
        self.files = [text for path in books if len(text := path.read_text(encoding="utf-8")) < 4000]
        self.ways: dict[str, Callable[[random.Random], object]] = {
            "case": self.case, "yaml": self.yaml, "number": self.number, "amount": self.amount, "words": self.words,
            "csv": self.csv, "answer": self.answer, "journal": self.lines, "command": self.command,
        }  # fmt: skip

    def _open_journal(self) -> None:
        self._journals += 1
        home = self.folder / f"journal-{self._journals}"
        self.journal = open_journal(home, now=lambda: "2026-05-04T08:00:00.000+00:00")

    def case(self, chance: random.Random) -> object:
        text = mutated(chance.choice(self.cases), chance)
        case = build_case(parse_case(text, "x.yaml"), self.book, today="2026-05-04")
        return session_from_case(self.book, case, self.engines).look() if chance.random() < 0.2 else case

    def yaml(self, chance: random.Random) -> object:
        text = mutated(chance.choice(self.files), chance)
        short, whole = read_plain(text, "x.yaml"), parse_yaml(text, "x.yaml")
        assert short is None or (short.data, short.lines) == (whole.data, whole.lines), "the short way reads otherwise"
        return whole

    def number(self, chance: random.Random) -> object:
        text = mutated(chance.choice(["ph=7.2", "iron<=0.1mg/L", "kh=5dKH", "nitrate=40 as NO3", "tan=0,25"]), chance)
        reading = parse_assignment(text, self.book.quantities, on="2026-05-04")
        assert reading.low <= reading.high, reading
        return reading

    def amount(self, chance: random.Random) -> object:
        parse = chance.choice([parse_amount, parse_strength, parse_volume, parse_every])
        return parse(mutated(chance.choice(["2%", "1 L", "30 g", "5 mL/L", "7d", "1000 L", "265 gal us"]), chance))

    def words(self, chance: random.Random) -> object:
        text = mutated(" ".join(chance.choices(WORDS, k=chance.randint(1, 8))), chance)
        return self.engines.hearing.read(text), self.engines.hearing.spoken(text, "2026-05-04")

    def csv(self, chance: random.Random) -> object:
        text = mutated("date,pH,iron (mg/L),note\n2026-05-03,7.4,0.1,x\n03/05/2026,7.2,<0.1,y\n", chance)
        asked = Asked(decimal=chance.choice([None, "comma", "point"]), dates=chance.choice([None, "dmy", "mdy"]))
        return read_table(text, self.book.quantities, asked)

    def answer(self, chance: random.Random) -> object:
        chosen, unsure = parse_choice(mutated(chance.choice(["1 3", "0", "t", "2?", "1,2,3"]), chance), 9, one=False)
        assert all(0 <= number < 10 for number in [*chosen, *unsure])
        return chosen

    def lines(self, chance: random.Random) -> object:
        text = mutated(self.exported, chance)
        self.journal.import_lines(text.splitlines(keepends=True))
        assert not self.journal.check(), "taken, and not whole"
        self.journal.close()
        self._open_journal()
        return text

    def command(self, chance: random.Random) -> object:
        """A command line; its errors are for people, too."""
        words = chance.choice(COMMANDS).split()
        if chance.random() < 0.8:
            words[chance.randrange(len(words))] = mutated(chance.choice(words), chance)
        said = [word.replace("\0", "") for word in ["--home", str(self.folder / "home"), *words]]
        with redirect_stdout(StringIO()), redirect_stderr(StringIO()):
            try:
                return triage.main(said, prog_name="triage", standalone_mode=False)
            except (click.ClickException, click.exceptions.Exit, click.Abort, SystemExit) as error:
                raise TriageError(str(error)) from None


def feed(inputs: int, seed: int) -> dict[str, object]:
    """Feed so many inputs; what was refused, what broke, and the slowest."""
    broken: list[str] = []
    refused: Counter[str] = Counter()
    slowest = (0.0, "")
    with tempfile.TemporaryDirectory() as folder:
        feeder = Feeder(Path(folder))
        names = [name for name in feeder.ways if name != "command"]
        for number in range(inputs):
            name = names[number % len(names)] if number % SELDOM else "command"
            begun = time.perf_counter()
            try:
                feeder.ways[name](random.Random(f"{seed}-{number}"))
            except TriageError:
                refused[name] += 1
            except (Exception, RecursionError):
                broken.append(f"{name} {seed}-{number}: {traceback.format_exc(limit=-2).strip()}")
            slowest = max(slowest, (time.perf_counter() - begun, f"{name} {seed}-{number}"))
    return {
        "inputs": inputs, "refused": dict(refused), "broken": len(broken), "first_broken": broken[:5],
        "slowest_s": slowest[0], "slowest": slowest[1],
    }  # fmt: skip


def main() -> int:
    """Print what came of it; exit 1 if anything broke or took too long."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--inputs", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    found = feed(options.inputs, options.seed)
    if options.json:
        print(json.dumps(found))
    else:
        print(f"{found['inputs']} inputs, refused with one clear line: {found['refused']}")
        print(f"broken: {found['broken']} (goal 0)")
        print(f"slowest {found['slowest_s']:.2f} s: {found['slowest']} (goal {SLOWEST_S} s)")
        for text in found["first_broken"]:  # type: ignore[attr-defined]
            print(text)
    return int(bool(found["broken"]) or float(str(found["slowest_s"])) > SLOWEST_S)


if __name__ == "__main__":
    sys.exit(main())
