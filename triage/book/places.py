"""Where the built-in folders are: in a checkout beside the package, in an installed wheel inside it."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


def _folder(name: str) -> Path:
    checkout = _PACKAGE.parent / name
    return checkout if (_PACKAGE.parent / "pyproject.toml").is_file() and checkout.is_dir() else _PACKAGE / name


def built_in_knowledge() -> Path:
    """The built-in knowledge folder."""
    return _folder("knowledge")


def built_in_demo() -> Path:
    """The made-up system of the demo."""
    return _folder("demo")
