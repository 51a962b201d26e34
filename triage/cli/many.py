"""`triage plant --from DIR`: every CASE.yaml below a folder, one line each; a bad one never stops the rest."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import IO

import msgspec

from ..errors import JournalError, KnowledgeError, UsageError
from ..report.case_report import Report, report_as_data
from .written import Desk

#: Cases handed to a process at a time.
CHUNK = 8
#: Below so many cases another process costs more than it brings.
FEWEST_APART = 50


class Looked(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One line of the output: the file, and its report or its faults."""

    case: str
    report: msgspec.Raw | msgspec.UnsetType = msgspec.UNSET
    faults: tuple[str, ...] = ()
    alarm: bool = False


class Count(msgspec.Struct):
    """How many cases were looked at, could not be read, have an alarm, and stood in the output before."""

    looked: int = 0
    bad: int = 0
    alarms: int = 0
    before: int = 0

    def add(self, looked: Looked) -> None:
        self.looked += 1
        self.bad += bool(looked.faults)
        self.alarms += looked.alarm


Show = Callable[[Looked], None]


class Line(msgspec.Struct):
    """What is read back of a line written earlier."""

    case: str


def look_at_folder(
    folder: Path, home: Path, on: str | None, *, jobs: int | None, out: Path | None, show: Show | None
) -> Count:
    """Look at every case of a folder.

    JSON Lines go to ``out`` (cases that stand there already are passed over), or to standard output; with ``show``
    each is shown instead. Errors: UsageError.
    """
    files = sorted(path for path in folder.rglob("*") if path.suffix in (".yaml", ".yml") and path.is_file())
    if not files:
        raise UsageError(f"{folder}: no case in this folder (*.yaml)")
    count = Count()
    with ExitStack() as stack:
        kept, stream = _begin_output(out, stack)
        named = [(path.relative_to(folder).as_posix(), path) for path in files]
        waiting = [(name, path) for name, path in named if name not in kept]
        count.before = len(named) - len(waiting)
        found = _looked(waiting, home, on, jobs)
        if sys.stderr.isatty() and show is None and (out is not None or not sys.stdout.isatty()):
            from ..screens.many import track

            found = track(found, len(waiting))
        for looked in found:
            count.add(looked)
            if show is not None:
                show(looked)
            else:
                stream.write(msgspec.json.encode(looked).decode() + "\n")
    return count


def _begin_output(out: Path | None, stack: ExitStack) -> tuple[set[str], IO[str]]:
    """The cases that are done already, and where the next lines go; half a line of a stopped run is cut off."""
    if out is None:
        return set(), sys.stdout
    try:
        stream = stack.enter_context(out.open("a+", encoding="utf-8"))
        stream.seek(0)
        kept, whole = set(), 0
        for line in iter(stream.readline, ""):
            if not line.endswith("\n"):
                break
            kept.add(msgspec.json.decode(line, type=Line).case)
            whole = stream.tell()
        stream.truncate(whole)
        stream.seek(0, os.SEEK_END)
    except OSError as error:
        raise UsageError(f"{out}: cannot be written: {error.strerror}") from None
    except (UnicodeDecodeError, msgspec.DecodeError):
        raise UsageError(f"{out}: holds other things than answers to cases; nothing was changed") from None
    return kept, stream


def _looked(waiting: list[tuple[str, Path]], home: Path, on: str | None, jobs: int | None) -> Iterator[Looked]:
    """Every case in its order; in several processes where that pays."""
    processes = jobs or (_processors() if len(waiting) >= FEWEST_APART else 1)
    if processes == 1:
        desk = Desk(home, on)
        yield from (_look(desk, name, path) for name, path in waiting)
        return
    from concurrent.futures import ProcessPoolExecutor

    Desk(home, on)  # compiles the book before the processes want it
    with ProcessPoolExecutor(processes, initializer=_sit_down, initargs=(home, on)) as pool:
        try:
            yield from pool.map(_look_here, waiting, chunksize=CHUNK)
        finally:
            pool.shutdown(cancel_futures=True)


def _processors() -> int:
    """Those this process may use, where the system tells (Linux does), else all."""
    allowed = getattr(os, "sched_getaffinity", None)
    return len(allowed(0)) if allowed is not None else os.cpu_count() or 1


_desk: Desk | None = None  # of this process


def _sit_down(home: Path, on: str | None) -> None:
    global _desk
    _desk = Desk(home, on)


def _look_here(named: tuple[str, Path]) -> Looked:
    assert _desk is not None
    return _look(_desk, *named)


def _look(desk: Desk, name: str, path: Path) -> Looked:
    try:
        report = desk.look(path)
    except KnowledgeError as error:
        return Looked(case=name, faults=tuple(str(fault) for fault in error.faults))
    except (UsageError, JournalError) as error:
        return Looked(case=name, faults=(str(error),))
    return Looked(case=name, report=_as_json(report), alarm=bool(report.alarms))


def _as_json(report: Report) -> msgspec.Raw:
    return msgspec.Raw(msgspec.json.encode(report_as_data(report)))
