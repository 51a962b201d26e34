"""Which small faults in water, ranking and responses the tests would notice: mutation testing.

Run: python tests/bench/mutation.py [water] [ranking] [responses] [--keep DIR] [--last] [--json]
(pip install -e '.[bench]')

``mutmut`` changes one thing at a time inside the functions of a package (a number, a comparison, a word, an argument)
and runs the tests that reach the function; a mutant that no test notices survives. Works in a copy; ``--keep DIR``
keeps the copy, and a second run there tries only what survived or was changed since. A run takes half an hour a
package, so the table of results.py reads the figures of the last run (``--last``); each package's stand in
mutation/PACKAGE.json, and what survived in SURVIVORS.md. Survivors that no test could notice, or need notice, have
their reason in mutation/PACKAGE.tsv; they count as survivors all the same.

Not mutated: tables and constants of a module, default values that are calls, and properties. Left out of the tests:
what starts processes, draws screens or plays whole cases, and laws that take seconds; a mutant that only those would
notice counts as a survivor. Workers find the book read already (mutation_tests.py): to read it runs nothing that is
changed here, but for the packages below it (water), whose workers read it anew.
"""

from __future__ import annotations

import argparse
import ast
import contextlib
import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from dataclasses import asdict, dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

BENCH = Path(__file__).resolve().parent
ROOT = BENCH.parents[1]
KEPT = BENCH / "mutation"
GOAL = 0.85
SECONDS_A_TEST, TIMES_ITS_TIME = 6.0, 4.0  # patience: other work may share the processors
#: Exit codes of mutants that a second run tries: not tried, survived, without a test, broken.
TRIED_AGAIN = {None, 0, 5, 33, 255}

# The tests of each package; every file of the folder counts but for those that play whole cases, and for the laws that
# try hundreds of cases each (every survivor would cost a quarter of a minute).
PACKAGES: dict[str, tuple[list[str], list[str]]] = {
    "water": (
        ["tests/water", *(f"tests/outside/test_water_{name}.py" for name in (
            "ammonia", "carbonate", "carbonate_system", "feed_and_acid", "metals_and_salts", "oxygen", "trend", "units",
            "worked_examples"))],
        [
            *(f"tests/water/test_water_{name}.py" for name in ("dose", "meaning", "rules", "screens", "show", "why")),
            "tests/water/test_water_import.py::test_through_the_command",
            *(f"tests/water/test_water_basing.py::{name}" for name in (
                "test_a_dose_without_end_stops", "test_every_water", "test_a_limit_for_other_reasons")),
            "tests/water/test_water_balance.py::test_rules_tell_stones_from_top_up",
            "tests/water/test_water_balance.py::test_rules_do_not_blame_stones",
            "tests/outside/test_water_feed_and_acid.py::test_salt_and_each_crop",
        ],
    ),
    "ranking": (["tests/ranking"], []),
    "responses": (
        ["tests/responses"],
        [
            "tests/responses/test_whole_book_safety.py",
            "tests/responses/test_grade_laws.py",
            "tests/responses/test_label_names.py::test_any_text_is_read_without_a_fault",
        ],
    ),
}  # fmt: skip


@dataclass(frozen=True)
class Survivor:
    """One change that no test noticed."""

    file: str
    line: int
    function: str
    change: str
    tested: bool = True


@dataclass
class Found:
    """What became of the mutants of one package."""

    package: str
    day: str
    mutants: int = 0
    killed: int = 0
    timed_out: int = 0
    survived: int = 0
    not_covered: int = 0
    broken: int = 0
    untried: int = 0
    share: float = 0.0
    survivors: list[Survivor] = field(default_factory=list)


def copy_project(folder: Path) -> None:
    """The tracked and new files of the project, where they may be changed; unchanged ones are left alone."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"], cwd=ROOT, capture_output=True, text=True,
        check=True,
    ).stdout.splitlines()  # fmt: skip
    for name in filter(lambda name: (ROOT / name).is_file(), listed):
        target = folder / name
        if not target.exists() or target.read_bytes() != (ROOT / name).read_bytes():
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(ROOT / name, target)


def write_settings(package: str, folder: Path) -> None:
    """Tell mutmut in the copy what to change, and which tests to run.

    Workers are forked from a process that has collected the tests but run none (``forkserver``): else they would find
    in the caches what the unchanged functions gave.
    """
    wanted, left_out = PACKAGES[package]
    settings: dict[str, Any] = {
        "source_paths": ["triage"],
        "only_mutate": [f"triage/{package}/*"],
        "also_copy": ["knowledge", "shared", "demo", "README.md", "DEVELOPERS.md"],
        "pytest_add_cli_args": [
            *(
                "-o",
                "addopts=--import-mode=importlib",
                "-p",
                "mutation_tests",
                "-p",
                "no:cacheprovider",
                "-p",
                "no:unraisableexception",
            ),  # it collects garbage thrice, for longer than most tests take
            *(f"--deselect={name}" if "::" in name else f"--ignore={name}" for name in left_out),
        ],
        "pytest_add_cli_args_test_selection": [*wanted, "tests/bench/mutation_tests.py"],
        "process_isolation": "forkserver",
        "timeout_constant": SECONDS_A_TEST,
        "timeout_multiplier": TIMES_ITS_TIME,
        "use_git_change_detection": False,
    }
    lines = [f"{name} = {json.dumps(value)}" for name, value in settings.items()]
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    (folder / "pyproject.toml").write_text("\n".join([text, "[tool.mutmut]", *lines, ""]), encoding="utf-8")


def forget_survivors(folder: Path) -> None:
    """Let the next run in a kept copy try again what survived, with the tests as they are now."""
    (folder / "mutants" / "mutmut-stats.json").unlink(missing_ok=True)
    for meta in sorted((folder / "mutants").rglob("*.meta")):
        data = json.loads(meta.read_text(encoding="utf-8"))
        codes = data["exit_code_by_key"]
        data["exit_code_by_key"] = {name: None if code in TRIED_AGAIN else code for name, code in codes.items()}
        meta.write_text(json.dumps(data), encoding="utf-8")


def run_mutmut(package: str, folder: Path, children: int) -> None:
    """Make and try the mutants in the copy; what mutmut says goes to standard error."""
    environment = {
        **os.environ, "PYTHONPATH": str(folder / "tests" / "bench"), "PYTHONHASHSEED": "0", "MUTATED": package,
        "HYPOTHESIS_PROFILE": "few", "TRIAGE_CACHE": str(folder / "cache"),
    }  # fmt: skip
    command = [sys.executable, "-c", "from mutmut.__main__ import cli; cli()", "run", "--max-children", str(children)]
    subprocess.run(command, cwd=folder, env=environment, stdout=sys.stderr, check=True)


@contextlib.contextmanager
def inside(folder: Path) -> Iterator[None]:
    """Within a folder, because mutmut reads its files from where it stands."""
    before = Path.cwd()
    os.chdir(folder)
    try:
        yield
    finally:
        os.chdir(before)


def read_results(package: str, folder: Path) -> Found:
    """Count what became of the mutants, and read back what the survivors changed."""
    codes: dict[str, tuple[Path, int | None]] = {}
    for meta in sorted((folder / "mutants" / "triage" / package).glob("*.meta")):
        data = json.loads(meta.read_text(encoding="utf-8"))
        file = Path("triage") / package / meta.name.removesuffix(".meta")
        codes |= {name: (file, code) for name, code in data["exit_code_by_key"].items()}
    counts = Counter(fate(code) for _, code in codes.values())
    with inside(folder):
        survivors = [
            survivor_of(name, file, tested=fate(code) != "not_covered")
            for name, (file, code) in codes.items()
            if fate(code) not in ("killed", "timed_out", "untried")
        ]
    survivors.sort(key=lambda one: (one.file, one.line, one.change))
    noticed = counts["killed"] + counts["timed_out"]
    return Found(
        package, date.today().isoformat(), len(codes), **counts, share=noticed / len(codes), survivors=survivors
    )


def fate(code: int | None) -> str:
    """What the exit code of a mutant's tests says: as mutmut has it, but a run that could not start kills nothing."""
    if code is None:
        return "untried"
    fates = {1: "killed", 3: "killed", 0: "survived", 5: "not_covered", 33: "not_covered"}
    return "timed_out" if code in (-24, 24, 36, 152) else fates.get(code, "broken")


def survivor_of(name: str, file: Path, *, tested: bool) -> Survivor:
    """The place and the change of a mutant."""
    from mutmut.mutation.diff_apply import read_functions_from_index  # heavy, and not there without the extra
    from mutmut.utils.format_utils import orig_function_and_class_names_from_key

    pair = read_functions_from_index(name, file)
    assert pair is not None, name
    was, now = (_code(each) for each in pair)
    function, owner = orig_function_and_class_names_from_key(name)
    first = next((n for n, (a, b) in enumerate(zip(was, now, strict=False)) if a != b), min(len(was), len(now)) - 1)
    called = f"{owner}.{function}" if owner else function
    return Survivor(str(file), _line_of(file, function, owner) + first, called, _change(was, now, first), tested)


def _code(function: Any) -> list[str]:
    """The lines of a function from its first decorator or ``def`` on."""
    import libcst

    lines = libcst.Module([function.with_changes(leading_lines=[])]).code.splitlines()
    return [line.rstrip() for line in lines]


def _line_of(file: Path, function: str, owner: str | None) -> int:
    tree: ast.AST = ast.parse(file.read_text(encoding="utf-8"))
    if owner:
        tree = next(n for n in ast.walk(tree) if isinstance(n, ast.ClassDef) and n.name == owner)
    found = next(n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef) and n.name == function)
    return min([found.lineno, *(each.lineno for each in found.decorator_list)])


def _change(was: list[str], now: list[str], first: int, around: int = 24) -> str:
    """Both sides of a change, with a little of what stands around it on its line."""
    same_end = 0
    while same_end < min(len(was), len(now)) - first - 1 and was[-1 - same_end] == now[-1 - same_end]:
        same_end += 1
    before, after = (" ".join(line.strip() for line in part[first : len(part) - same_end]) for part in (was, now))
    start = _same(before, after)
    end = _same(before[start:][::-1], after[start:][::-1])
    cut = max(0, start - around)
    sides = (("…" if cut else "") + text[cut : len(text) - end + around] for text in (before, after))
    return " → ".join(f"`{side.strip()}`" for side in sides)


def _same(one: str, other: str) -> int:
    """How many letters two texts share from the start."""
    return next((n for n, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))


def reasons(package: str) -> dict[tuple[str, str, str], str]:
    """Why some survivors cannot be noticed: file, function and change, tab, then a few words."""
    path = KEPT / f"{package}.tsv"
    rows = path.read_text(encoding="utf-8").splitlines() if path.exists() else []
    return {(file, function, change): why for file, function, change, why in (row.split("\t") for row in rows)}


def survivors_text(found: list[dict[str, Any]]) -> str:
    """SURVIVORS.md: the figures, then the survivors of each package by file and line."""
    lines = [
        "# Mutants that no test notices",
        "",
        "Written by `python tests/bench/mutation.py`, which says what is counted.",
    ]
    lines += ["", *table(found)]
    for one in found:
        known = reasons(one["package"])
        lines += ["", f"## {one['package']}", ""]
        for each in one["survivors"]:
            why = known.get((each["file"], each["function"], each["change"]), "")
            said = f" (left: {why})" if why else "" if each["tested"] else " (no test comes here)"
            lines.append(f"- {Path(each['file']).name}:{each['line']} {each['function']}: {each['change']}{said}")
    return "\n".join(lines) + "\n"


def table(found: list[dict[str, Any]]) -> list[str]:
    """One row a package."""
    names = ["mutants", "killed", "timed_out", "survived", "not_covered", "broken", "untried"]
    head = ["package", *(name.replace("_", " ") for name in names), "share killed", "measured"]
    rows = [
        [one["package"], *(str(one.get(name, 0)) for name in names), f"{one['share']:.3f}", one["day"]] for one in found
    ]
    return [f"| {' | '.join(row)} |" for row in (head, ["---"] * len(head), *rows)]


def measure(package: str, kept: Path | None, children: int) -> None:
    """Run one package and keep its figures."""
    with tempfile.TemporaryDirectory() as thrown_away:
        folder = (kept or Path(thrown_away)).resolve()
        copy_project(folder)
        write_settings(package, folder)
        forget_survivors(folder)
        run_mutmut(package, folder, children)
        found = asdict(read_results(package, folder))
    KEPT.mkdir(exist_ok=True)
    (KEPT / f"{package}.json").write_text(json.dumps(found, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")


def main() -> int:
    """Measure unless only the last figures are wanted; print them; exit 1 if a goal is missed."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("packages", nargs="*", metavar="PACKAGE", help=", ".join(PACKAGES))
    parser.add_argument("--keep", type=Path, help="work in this folder and leave it there (one package)")
    parser.add_argument("--children", type=int, default=2, help="processes at a time")
    parser.add_argument("--last", action="store_true", help="run nothing: the figures of the last run")
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    wanted = options.packages or list(PACKAGES)
    if unknown := sorted(set(wanted) - set(PACKAGES)):
        parser.error(f"no such package: {', '.join(unknown)} (there are {', '.join(PACKAGES)})")
    if options.keep and len(wanted) > 1:
        parser.error("--keep takes one package")
    for package in [] if options.last else wanted:
        measure(package, options.keep, options.children)
    every = [json.loads(path.read_text(encoding="utf-8")) for path in sorted(KEPT.glob("*.json"))]
    (BENCH / "SURVIVORS.md").write_text(survivors_text(every), encoding="utf-8")
    found = [one for one in every if one["package"] in wanted]
    if options.json:
        print(json.dumps({one["package"]: {k: v for k, v in one.items() if k != "survivors"} for one in found}))
    else:
        print("\n".join(table(found)))
    return int(len(found) < len(wanted) or any(one["share"] < GOAL for one in found))


if __name__ == "__main__":
    sys.exit(main())
