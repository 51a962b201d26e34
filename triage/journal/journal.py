"""The journal of one home: everything typed and measured, and what was advised."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from itertools import islice
from pathlib import Path
from types import TracebackType
from typing import Self

from triage.errors import JournalError
from triage.model.case import System
from triage.model.quantity import Reading

from . import answers, cases, readings, rechecks, schema, systems
from .database import Database, open_database
from .faults import explained, explained_folder, one_line
from .follow_part import FollowPart
from .garden_part import GardenPart
from .records import Answer, CaseLine, CaseState, StoredCase, StoredReading, StoredReport

JOURNAL_FILE = "journal.sqlite3"


class Journal(FollowPart, GardenPart):
    """An open journal. Every call is one transaction: when it returns, its entry is on the disk.

    Raises JournalError when the file is locked, full, read-only or damaged, and UsageError for what does not exist or
    cannot be kept; after either, what was kept before is still there.
    """

    def __init__(self, database: Database, now: Callable[[], str]) -> None:
        super().__init__(database, now)
        self._answered: dict[int, int] = {}  # rows of each case as we last saw them

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.close()

    def close(self) -> None:
        self._database.close()

    @contextmanager
    def all_or_nothing(self) -> Iterator[None]:
        """Make several calls one transaction (a batch, or a case read from a file): an error undoes them all."""
        try:
            with self._database.together():
                yield
        except BaseException:
            self._answered.clear()
            raise

    # --- the system and its water ---

    def save_system(self, system: System) -> None:
        """Keep the system as it is now; what it was before is kept too."""
        with self._database.write() as sql:
            systems.save_system(sql, system, self._now())

    def load_system(self, name: str = "main") -> System | None:
        """The system of that name as last saved, or None."""
        with self._database.read() as sql:
            return systems.load_system(sql, name)

    def list_systems(self) -> tuple[str, ...]:
        """Names of the saved systems, sorted."""
        with self._database.read() as sql:
            return systems.list_systems(sql)

    def add_readings(self, new: Sequence[Reading], *, system: str = "main") -> int:
        """Add readings, all or none; how many were not there yet.

        The same quantity, value, bound, unit, day, time, kit and point is the same reading.
        """
        with self._database.write() as sql:
            return readings.add_readings(sql, new, system, self._now())

    def readings(
        self, *, since: str | None = None, quantity: str | None = None, system: str = "main"
    ) -> tuple[Reading, ...]:
        """The readings that stand, from the day ``since`` on, by day, time, quantity and point."""
        with self._database.read() as sql:
            return readings.list_readings(sql, system, since, quantity)

    def readings_by_day(self, since: str, *, system: str = "main") -> tuple[Reading, ...]:
        """The same from a day on; of what a meter logs all day long only the last reading of each day."""
        with self._database.read() as sql:
            return readings.readings_by_day(sql, system, since)

    def latest_readings(self, *, system: str = "main") -> tuple[Reading, ...]:
        """The latest reading of each quantity at each point, by quantity and point."""
        with self._database.read() as sql:
            return readings.latest_readings(sql, system)

    def reading_history(self, *, system: str = "main") -> tuple[StoredReading, ...]:
        """Every reading ever added, corrected and withdrawn ones too, with its number."""
        with self._database.read() as sql:
            return tuple(readings.reading_history(sql, system))

    def correct_reading(self, reading_id: int, reading: Reading, why: str = "") -> int:
        """Let ``reading`` stand in for reading number ``reading_id``; the number of the new one."""
        with self._database.write() as sql:
            return readings.replace_reading(sql, reading_id, reading, why, self._now())

    def withdraw_reading(self, reading_id: int, why: str = "") -> None:
        """Let a reading no longer count; it stays in the history."""
        with self._database.write() as sql:
            readings.withdraw_reading(sql, reading_id, why, self._now())

    # --- a case, answer by answer ---

    def begin_case(self, on: str, crop: str, system: System, *, plant: str = "") -> int:
        """Open a case for the day ``on``; its number."""
        with self._database.write() as sql:
            case_id = cases.begin_case(sql, on, crop, system, plant, self._now())
        self._answered[case_id] = 0
        return case_id

    def record_answer(self, case_id: int, answer: Answer) -> int:
        """Keep one answer the moment it is given; its place in the case. Kind 'back' takes the last one back.

        JournalError if the case is being answered elsewhere too (``load_case`` takes over from there).
        """
        if answer.kind == "back":
            self.undo_last_answer(case_id)
        else:
            with self._answering(case_id) as sql:
                answers.check_answer(answer)
                answers.add_answer(sql, case_id, answer, self._now())
        return self._answered[case_id]

    def undo_last_answer(self, case_id: int) -> Answer | None:
        """Take back the last answer of this look that stands, and return it; None if there is none."""
        with self._answering(case_id) as sql:
            begun = rechecks.find_open(sql, case_id)
            return answers.undo_last(sql, case_id, self._now(), begun["after"] if begun else 0)

    @contextmanager
    def _answering(self, case_id: int) -> Iterator[sqlite3.Connection]:
        known = self._answered.get(case_id)
        with self._database.write() as sql:
            rechecks.check_takes_answers(sql, case_id)
            answers.check_alone(sql, case_id, known)
            # An interrupt may come after the entry was kept: then we no longer know how many there are.
            self._answered.pop(case_id, None)
            yield sql
            count = answers.count_answers(sql, case_id)
        self._answered[case_id] = count

    def load_case(self, case_id: int) -> StoredCase:
        """The case with the answers that stand, in the order they were given."""
        with self._database.read() as sql:
            case = cases.load_case(sql, case_id)
            self._answered[case_id] = answers.count_answers(sql, case_id)
            return case

    def answer_history(self, case_id: int) -> tuple[Answer, ...]:
        """Every answer ever given in the case, those taken back and the going back included."""
        with self._database.read() as sql:
            cases.check_known(sql, case_id)
            return answers.answer_history(sql, case_id)

    def unfinished_cases(self) -> tuple[CaseLine, ...]:
        """The series that were begun and neither finished, given up nor closed; the one begun last first."""
        with self._database.read() as sql:
            return cases.unfinished_lines(sql)

    def finish_case(
        self, case_id: int, report_json: str, book_version: str, book_hash: str, *, summary: str = ""
    ) -> None:
        """Keep what was advised; ``summary`` is the line that lists show."""
        with self._database.write() as sql:
            report = StoredReport(
                report=report_json, book_version=book_version, book_hash=book_hash, summary=summary, at=self._now()
            )
            cases.finish_case(sql, case_id, report)

    def abandon_case(self, case_id: int) -> None:
        """Give up an unfinished case: it is kept, and not offered again."""
        with self._database.write() as sql:
            cases.abandon_case(sql, case_id, self._now())

    # --- what became of it ---

    def list_cases(
        self, *, states: Sequence[CaseState] = (), crop: str | None = None, limit: int | None = None, since: str = ""
    ) -> tuple[CaseLine, ...]:
        """Cases, the latest day first; of these states, for this crop id, at most ``limit``, from the day ``since``."""
        with self._database.read() as sql:
            wanted = (
                line
                for line in cases.list_lines(sql, since)
                if (not states or line.state in states) and crop in (None, line.crop)
            )
            return tuple(islice(wanted, limit))

    def cases_on(self, on: str, *, acted_after: str) -> tuple[CaseLine, ...]:
        """The cases that were open on a day, and those that something was done about after another, by number."""
        with self._database.read() as sql:
            return tuple(cases.lines_on(sql, on, acted_after))

    def count_cases(self) -> int:
        """How many cases there are in all, those given up too."""
        with self._database.read() as sql:
            return cases.count_cases(sql)

    def case_report(self, case_id: int) -> StoredReport | None:
        """What was advised; None while the case is unfinished."""
        with self._database.read() as sql:
            return cases.case_report(sql, case_id)

    # --- the file as a whole ---

    def export_lines(self, write: Callable[[str], object]) -> int:
        """Hand the whole journal to ``write`` as JSON Lines; how many entries."""
        from . import portable  # seldom needed, and not on the way to the first answer

        with self._database.read() as sql:
            return portable.export_rows(sql, write)

    def import_lines(self, lines: Iterable[str]) -> int:
        """Fill this journal, which must be empty, from exported lines; how many entries. UsageError names the line."""
        from . import portable

        with self._database.write() as sql:
            return portable.import_rows(sql, lines, self._now)

    def backup(self, target: Path) -> None:
        """Copy the journal into the new file ``target``, whole or not at all; JournalError if it is there already."""
        part = target.with_name(target.name + ".part")
        with explained_folder(target.parent):
            if target.exists() or part.exists():
                raise JournalError(f"{target} (or its .part) is there already: choose another name for the backup")
        try:
            _copy_file(self._database, part)
            with explained_folder(target.parent):
                os.rename(part, target)
        except BaseException:
            with suppress(OSError):
                part.unlink()
            raise

    def check(self) -> list[str]:
        """What is wrong with the file, one line each; empty if it is whole."""
        from . import checks

        try:
            with self._database.read() as sql:
                return [one_line(found) for found in checks.find_damage(sql)]
        except JournalError as error:
            return [str(error)]


def _copy_file(database: Database, part: Path) -> None:
    with explained(part):
        copy = sqlite3.connect(part)
        try:
            database.backup_to(copy)
        finally:
            copy.close()


def open_journal(home: Path, *, now: Callable[[], str], read_only: bool = False, wait_s: float = 5.0) -> Journal:
    """Open the journal in the folder ``home``, which is made if it is not there.

    ``now`` gives the time that entries carry; ``wait_s`` is how long another program writing is waited for. Reading
    only changes nothing and also works where there is no journal yet (it is then empty). Raises JournalError.
    """
    path = home / JOURNAL_FILE
    return Journal(open_database(path, schema.MIGRATIONS, now, read_only=read_only, wait_s=wait_s), now)


def check_journal(home: Path) -> list[str]:
    """What is wrong with the journal in ``home``, one line each; empty if it is whole or not there. Changes nothing."""
    try:
        with open_journal(home, now=lambda: "", read_only=True) as journal:
            return journal.check()
    except JournalError as error:
        return [str(error)]
