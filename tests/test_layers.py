"""Imports point one way, siblings do not import each other, and each library has one door."""

from __future__ import annotations

import ast
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent / "triage"
#: Rooms from the ground up; a room may import what stands before it, not its neighbours in a row.
ROWS: list[set[str]] = [
    {"errors"},
    {"model"},
    {"words", "water"},
    {"book", "rules", "ranking", "responses", "journal"},
    {"report"},
    {"hearing"},
    {"reasoning", "intake"},
    {"session", "spraying", "drift", "dosing", "watch", "followup"},
    {"recall"},
    {"screens"},
    {"cli"},
    {"__main__"},
]
DOORS = {
    "yaml": {"book"}, "experta": {"rules"}, "sqlite3": {"journal"}, "rich": {"screens", "cli"}, "click": {"cli"},
    "rapidfuzz": {"words"}, "platformdirs": {"cli"}, "plotext": {"screens"}, "matplotlib": {"screens"},
    "icalendar": {"report"}, "wordllama": {"words"}, "jinja2": {"screens"}, "markupsafe": {"screens"},
}  # fmt: skip
LEVEL = {room: level for level, rooms in enumerate(ROWS) for room in rooms}


def imports_of(path: Path) -> set[str]:
    """Absolute dotted names a file imports, also inside functions and type checks."""
    package = ("triage", *path.relative_to(PACKAGE).parts[:-1])
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = list(package[: len(package) - node.level + 1]) if node.level else []
            name = ".".join([*base, *([node.module] if node.module else [])])
            found |= {f"{name}.{alias.name}" for alias in node.names}
    return found


def room_of(path: Path) -> str:
    first = path.relative_to(PACKAGE).parts[0]
    return first.removesuffix(".py")


FILES = sorted(path for path in PACKAGE.rglob("*.py") if room_of(path) in LEVEL)


def test_every_room_is_known() -> None:
    rooms = {room_of(path) for path in PACKAGE.rglob("*.py")}
    assert rooms - set(LEVEL) == {"__init__"}


def test_imports_point_one_way() -> None:
    wrong = []
    for path in FILES:
        for name in imports_of(path):
            parts = name.split(".")
            ours = parts[0] == "triage" and len(parts) > 1 and parts[1] in LEVEL and parts[1] != room_of(path)
            if ours and LEVEL[parts[1]] >= LEVEL[room_of(path)]:
                wrong.append(f"{path.relative_to(PACKAGE)} imports {name}")
    assert wrong == []


def test_each_library_has_one_door() -> None:
    wrong = []
    for path in FILES:
        for name in imports_of(path):
            library = name.split(".")[0]
            if library in DOORS and room_of(path) not in DOORS[library]:
                wrong.append(f"{path.relative_to(PACKAGE)} imports {library}")
    assert wrong == []


def test_modules_stay_small() -> None:
    long = {str(path.relative_to(PACKAGE)): n for path in FILES if (n := len(path.read_text().splitlines())) > 300}
    assert long == {}
