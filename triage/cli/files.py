"""Files a command writes: whole or not at all, never over another one unasked."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO

from ..errors import UsageError


@contextmanager
def new_file(path: Path, *, replace: bool = False) -> Iterator[IO[str]]:
    """A text file that appears under its name when everything was written; UsageError if it is there or cannot be.

    What is there and no plain file (a pipe, a device) is written to as it is.
    """
    plain = path.is_file() or not path.exists()
    if plain and not replace and path.exists():
        raise UsageError(f"{path} is there already: choose another name, or say --replace")
    part = path.with_name(path.name + ".part") if plain else path
    try:
        with part.open("w", encoding="utf-8", newline="") as file:
            yield file
        if plain:
            os.replace(part, path)
    except BaseException as error:
        if plain:
            with suppress(OSError):
                part.unlink(missing_ok=True)
        if isinstance(error, OSError):
            raise UsageError(f"{path} cannot be written: {error.strerror or error}") from error
        raise


@contextmanager
def text_lines(path: Path) -> Iterator[Iterator[str]]:
    """The lines of a text file, each with its end; UsageError if it cannot be read."""
    try:
        with path.open(encoding="utf-8", newline="\n") as file:
            yield iter(file)
    except OSError as error:
        raise UsageError(f"{path} cannot be read: {error.strerror or error}") from error
