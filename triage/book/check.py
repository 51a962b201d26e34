"""`book check`: everything that is wrong with the knowledge, collected and sorted."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from ..errors import Fault
from ..model.cause import Cause
from ..model.finding import Finding
from ..model.rule import Rule
from .check_languages import check_languages
from .check_links import check_links
from .check_sense import check_neighbours, check_sense
from .load import load_folders

Neighbours = Callable[[Mapping[str, Cause], Mapping[str, Finding]], Mapping[str, Sequence[str]]]


def check_folders(
    folders: list[Path], rule_faults: Callable[[dict[str, Rule]], list[tuple[str, str]]],
    screens: Mapping[str, Mapping[str, Any]] | None = None, neighbours: Neighbours | None = None,
) -> list[Fault]:  # fmt: skip
    """All faults of the folders (built-in first, an author's after it), sorted by path and line.

    ``rule_faults`` tells what the engine cannot hold, as (rule id, message): the engine is not imported here.
    ``neighbours`` tells which causes the ranking would name in the place of each; the ranking is not imported either,
    and not asked while there are errors. ``screens`` are the texts of the screens, by module and name, for checking
    their translations.
    """
    loaded = load_folders(folders)
    check_links(loaded)
    check_sense(loaded)
    check_languages(loaded, folders, screens or {})
    if neighbours is not None and not any(fault.severity == "error" for fault in loaded.faults):
        check_neighbours(loaded, neighbours(loaded.entries["causes"], loaded.entries["findings"]))
    named = {(fault.path, fault.line) for fault in loaded.faults}
    for id_, message in rule_faults(loaded.entries["rules"]):
        place = loaded.places[("rules", id_)]
        inside = range(place.line(), place.line() + len(place.document.lines))
        if not any(path == place.file and line in inside for path, line in named):  # said better already
            loaded.fault("rules", id_, (), "KB216", message)
    return sorted(set(loaded.faults))
