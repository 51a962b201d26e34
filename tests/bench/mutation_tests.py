"""What mutation.py gives pytest: the doctests of the package as tests of their own, the quick tests first, one book.

Pytest's own doctests would be found once for every mutant of a function, never for the function itself.
"""

from __future__ import annotations

import doctest
import functools
import gc
import importlib
import json
import os
import pkgutil
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest
from _pytest.mark import ParameterSet

from triage.book import load
from triage.model.book import Book

PARSER = doctest.DocTestParser()


def documented(module: ModuleType) -> Iterator[tuple[str, str]]:
    """Name and docstring of the module, its functions, classes and methods, where they hold examples."""
    owners = [each for each in vars(module).values() if isinstance(each, type) and each.__module__ == module.__name__]
    here = [("", module), *((f"{owner.__name__}.", owner) for owner in owners)]
    found = [("module", module.__doc__)] + [
        (f"{prefix}{name}", getattr(each, "__doc__", None))
        for prefix, holder in here
        for name, each in vars(holder).items()
        if "__mutmut" not in name and getattr(each, "__module__", module.__name__) == module.__name__
    ]
    yield from ((name, text) for name, text in found if isinstance(text, str) and ">>>" in text)


def cases(package: ModuleType) -> list[ParameterSet]:
    """Each documented thing of the package."""
    names = [package.__name__, *(each.name for each in pkgutil.iter_modules(package.__path__, f"{package.__name__}."))]
    modules = map(importlib.import_module, names)
    return [
        pytest.param(module, name, text, id=f"{module.__name__}.{name}")
        for module in modules
        for name, text in documented(module)
    ]


@pytest.mark.parametrize(
    ("module", "name", "text"), cases(importlib.import_module(f"triage.{os.environ.get('MUTATED', 'water')}"))
)
def test_examples_of_the_docstring(module: ModuleType, name: str, text: str) -> None:
    example = PARSER.get_doctest(text, dict(vars(module)), name, module.__file__, 0)
    doctest.DebugRunner(verbose=False).run(example, out=lambda _: None)


@functools.cache
def seconds() -> dict[str, float]:
    """How long each test took when mutmut ran them all; nothing before that."""
    stats = Path("mutmut-stats.json")
    return json.loads(stats.read_text(encoding="utf-8"))["duration_by_test"] if stats.exists() else {}


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """The quick ones first. Pytest does not find every name with an escaped letter again: those are left out."""
    escaped = [item for item in items if "\\" in item.nodeid]
    if escaped:
        config.hook.pytest_deselected(items=escaped)
    items[:] = sorted((item for item in items if item not in escaped), key=lambda item: seconds().get(item.nodeid, 0.0))
    gc.freeze()  # what is there before the fork need not be looked through by each worker


if os.environ.get("MUTATED", "water") != "water":  # reading the book runs nothing of the packages changed here
    read_folders, read_book = load.load_folders, load.Loaded.book
    folders_kept: dict[tuple[Path, ...], load.Loaded] = {}
    books_kept: dict[int, Book] = {}

    def load_folders(folders: list[Path]) -> load.Loaded:
        key = tuple(folder.resolve() for folder in folders)
        if key not in folders_kept:
            folders_kept[key] = read_folders(folders)
        return folders_kept[key]

    def book(self: load.Loaded) -> Book:
        if id(self) not in books_kept:
            books_kept[id(self)] = read_book(self)
        return books_kept[id(self)]

    load.load_folders, load.Loaded.book = load_folders, book  # type: ignore[method-assign]

    def pytest_collection_finish() -> None:
        """Read the book before the workers are forked, which would each read it again for each file of tests."""
        load.load_folders([Path("knowledge")]).book()
