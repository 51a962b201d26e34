"""A full disk, a home that cannot be written to, a damaged file: one clear line, and what was kept is still there."""

from __future__ import annotations

import os
import random
import resource
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest

from triage.errors import JournalError, TriageError
from triage.journal import JOURNAL_FILE, Answer, Journal, check_journal, open_journal
from triage.model.case import System
from triage.model.quantity import Reading

LONG = Answer(kind="words", payload='"' + "yellow leaves " * 2000 + '"')
SHORT = Answer(kind="words", payload='"webs"')
OrdinaryUser = Callable[[], AbstractContextManager[None]]


def clock() -> str:
    return "2026-05-04T11:00:00"


def begin(home: Path, answers: int = 1) -> None:
    """A journal with one unfinished case."""
    with open_journal(home, now=clock) as journal:
        case_id = journal.begin_case("2026-05-04", "basil", System(volume_l=1000.0))
        journal.add_readings([Reading(quantity="ph", value=7.2, low=7.1, high=7.3, on="2026-05-04")])
        for _ in range(answers):
            journal.record_answer(case_id, SHORT)


def is_one_line(error: pytest.ExceptionInfo[TriageError]) -> bool:
    return str(error.value).isprintable() and len(str(error.value)) > 20


@contextmanager
def largest_file(size: int) -> Iterator[None]:
    """As on a disk with so little room left (the system refuses to let any file grow beyond it)."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def test_a_full_database(home: Path) -> None:
    begin(home)
    with open_journal(home, now=clock) as journal:
        with journal._database.read() as sql:
            pages = sql.execute("PRAGMA page_count").fetchone()[0]
            sql.execute(f"PRAGMA max_page_count = {pages + 3}")
        with pytest.raises(JournalError, match="disk is full") as error:
            journal.record_answer(1, LONG)
        assert is_one_line(error)
        assert journal.load_case(1).answers[0].payload == SHORT.payload
        assert journal.record_answer(1, SHORT) == 2  # what still fits is still kept
        with journal._database.read() as sql:
            sql.execute("PRAGMA max_page_count = 100000")
        assert journal.record_answer(1, LONG) == 3
        assert journal.check() == []


def answer_until_full(journal: Journal) -> int:
    """How many answers the case had when the disk was full."""
    kept, said = 0, ""
    while not said:
        try:
            kept = journal.record_answer(1, LONG)
        except JournalError as error:
            said = str(error)
    assert "disk is full or failing" in said
    assert said.isprintable()
    return kept


def test_a_disk_without_room(home: Path) -> None:
    begin(home)
    with open_journal(home, now=clock) as journal:
        journal.record_answer(1, SHORT)
        with largest_file(90_000):
            kept = answer_until_full(journal)
        assert kept > 2
        assert journal.load_case(1).answered == kept
        assert journal.record_answer(1, SHORT) == kept + 1
    assert check_journal(home) == []


def test_no_room_to_begin(home: Path) -> None:
    with largest_file(2000), pytest.raises(JournalError, match="disk is full or failing"):
        open_journal(home, now=clock)
    begin(home)
    assert check_journal(home) == []


def test_no_room_for_a_backup(home: Path, tmp_path: Path) -> None:
    begin(home)
    with open_journal(home, now=clock) as journal:
        with largest_file(2000), pytest.raises(JournalError, match="disk is full or failing"):
            journal.backup(tmp_path / "copy.sqlite3")
        assert not list(tmp_path.glob("copy*"))
        assert journal.load_case(1).answered == 1


def test_a_home_that_is_a_file(home: Path) -> None:
    home.write_text("a file")
    for read_only in (False, True):
        for place in (home, home / "below"):
            with pytest.raises(JournalError, match="cannot be used") as error:
                open_journal(place, now=clock, read_only=read_only).close()
            assert is_one_line(error)


def test_a_home_that_cannot_be_made() -> None:
    with pytest.raises(JournalError, match="cannot be used"):
        open_journal(Path("/proc/nowhere"), now=clock)


def test_a_home_with_a_null_character() -> None:
    for read_only in (False, True):
        with pytest.raises(JournalError, match="cannot be used") as error:
            open_journal(Path("ho\0me"), now=clock, read_only=read_only)
        assert is_one_line(error)


def test_a_journal_that_is_a_folder(home: Path) -> None:
    (home / JOURNAL_FILE).mkdir(parents=True)
    for read_only in (False, True):
        with pytest.raises(JournalError, match="cannot be opened") as error:
            open_journal(home, now=clock, read_only=read_only)
        assert is_one_line(error)


def test_a_home_nobody_may_write_to(open_folder: Path, as_ordinary_user: OrdinaryUser) -> None:
    begin(open_folder / "home")
    (open_folder / "home" / JOURNAL_FILE).chmod(0o444)
    (open_folder / "home").chmod(0o555)
    with as_ordinary_user():
        with pytest.raises(JournalError, match=r"may be written to|cannot be written to") as error:
            open_journal(open_folder / "home", now=clock)
        assert is_one_line(error)
        with pytest.raises(JournalError, match="cannot be used"):
            open_journal(open_folder / "home" / "below", now=clock)
        with open_journal(open_folder / "home", now=clock, read_only=True) as journal:
            assert journal.load_case(1).answers[0].payload == SHORT.payload
            assert journal.check() == []


def test_a_file_nobody_may_write_to(open_folder: Path, as_ordinary_user: OrdinaryUser) -> None:
    begin(open_folder / "home")
    (open_folder / "home" / JOURNAL_FILE).chmod(0o444)
    (open_folder / "home").chmod(0o777)
    with as_ordinary_user(), pytest.raises(JournalError, match="cannot be written to"):
        open_journal(open_folder / "home", now=clock)


def test_a_file_nobody_may_read(open_folder: Path, as_ordinary_user: OrdinaryUser) -> None:
    begin(open_folder / "home")
    (open_folder / "home" / JOURNAL_FILE).chmod(0o000)
    (open_folder / "home").chmod(0o755)
    with as_ordinary_user():
        for read_only in (False, True):
            with pytest.raises(JournalError, match="cannot be opened"):
                open_journal(open_folder / "home", now=clock, read_only=read_only)
        (message,) = check_journal(open_folder / "home")
        assert "cannot be opened" in message


def test_entries_waiting_in_the_log_are_not_passed_over(open_folder: Path, as_ordinary_user: OrdinaryUser) -> None:
    """A copy taken while the journal was open, in a folder where SQLite cannot put the two files together."""
    copy = open_folder / "copy"
    copy.mkdir()
    with open_journal(open_folder / "home", now=clock) as journal:
        journal.save_system(System(volume_l=1000.0))
        for ending in ("", "-wal"):
            shutil.copy(open_folder / "home" / (JOURNAL_FILE + ending), copy)
    copy.chmod(0o555)
    with as_ordinary_user(), pytest.raises(JournalError, match="cannot be opened"):
        open_journal(copy, now=clock, read_only=True)
    copy.chmod(0o777)
    with open_journal(copy, now=clock, read_only=True) as journal:
        assert journal.load_system() is not None


def test_reading_only_makes_nothing(home: Path) -> None:
    with open_journal(home, now=clock, read_only=True) as journal:
        assert journal.list_cases() == ()
        assert journal.latest_readings() == ()
    assert not home.exists()


def test_reading_only_writes_nothing(home: Path) -> None:
    begin(home)
    with open_journal(home, now=clock, read_only=True) as journal:
        for change in (
            lambda: journal.record_answer(1, SHORT),
            lambda: journal.save_system(System()),
            lambda: journal.add_readings([]),
            lambda: journal.abandon_case(1),
        ):
            with pytest.raises(JournalError, match="reading only"):
                change()
        assert journal.load_case(1).answered == 1


def use(journal: Journal) -> None:
    """Everything one may ask, then an answer."""
    journal.check()
    journal.readings()
    journal.reading_history()
    journal.latest_readings()
    journal.load_system()
    for line in journal.list_cases():
        journal.load_case(line.id)
        journal.case_report(line.id)
    for line in journal.unfinished_cases():
        journal.record_answer(line.id, SHORT)
    journal.export_lines(lambda line: None)


def survives(home: Path) -> bool:
    """Whether the journal can be used; if not, it must say so in one line."""
    said = ""
    try:
        with open_journal(home, now=clock) as journal:
            use(journal)
    except TriageError as error:
        said = str(error)
    assert said.isprintable()
    return said == ""


@pytest.mark.parametrize("read_only", [False, True])
def test_not_a_database(home: Path, read_only: bool) -> None:
    home.mkdir()
    (home / JOURNAL_FILE).write_text("Dear diary, " * 200)
    before = (home / JOURNAL_FILE).read_bytes()
    with pytest.raises(JournalError, match="damaged") as error:
        open_journal(home, now=clock, read_only=read_only)
    assert is_one_line(error)
    assert (home / JOURNAL_FILE).read_bytes() == before


def test_another_programs_database(home: Path) -> None:
    home.mkdir()
    with sqlite3.connect(home / JOURNAL_FILE) as sql:
        sql.execute("CREATE TABLE music (title TEXT)")
    sql.close()
    before = (home / JOURNAL_FILE).read_bytes()
    with pytest.raises(JournalError, match="not a journal"):
        open_journal(home, now=clock)
    assert (home / JOURNAL_FILE).read_bytes() == before


def test_an_empty_file_becomes_a_journal(home: Path) -> None:
    home.mkdir()
    (home / JOURNAL_FILE).touch()
    begin(home)
    assert check_journal(home) == []


def test_damage_anywhere_never_ends_in_a_traceback(home: Path, tmp_path: Path) -> None:
    """Flipped bytes and lost ends: each use works or says one clear line, and half a file is never called whole."""
    begin(home, answers=40)
    whole = (home / JOURNAL_FILE).read_bytes()
    chance = random.Random(2)
    refused = 0
    for number in range(150):
        broken = bytearray(whole)
        for _ in range(chance.choice([1, 4, 64])):
            broken[chance.randrange(len(broken))] = chance.randrange(256)
        if number % 5 == 0:
            del broken[chance.randrange(1, len(broken) - 1) :]
        place = tmp_path / str(number)
        place.mkdir()
        (place / JOURNAL_FILE).write_bytes(broken)
        found = check_journal(place)
        assert all(line.isprintable() for line in found)
        if number % 5 == 0:
            assert found
        refused += not survives(place)
    assert 20 < refused < 150


def test_the_check_sees_what_does_not_belong(home: Path) -> None:
    begin(home, answers=3)
    with sqlite3.connect(home / JOURNAL_FILE) as sql:
        sql.execute("DROP TRIGGER answers_no_delete")
        sql.execute("DELETE FROM answers WHERE seq = 2")
        sql.execute("DROP INDEX cases_by_day")
        sql.execute("CREATE TABLE extra (x)")
        sql.execute("INSERT INTO systems (name, at, record) VALUES ('main', '', '{')")
        sql.execute("INSERT INTO actions (case_id, at, what, day, note) VALUES (77, '', 'rinse', '2026-05-04', '')")
    sql.close()
    found = "\n".join(check_journal(home))
    for expected in (
        "trigger answers_no_delete is missing",
        "cases_by_day is missing",
        "extra is unknown",
        "cases 1: an answer is missing",
        "systems 1: ",
        "actions 1: belongs to an entry of cases that is not there",
    ):
        assert expected in found


def test_the_path_in_a_message_stays_on_its_line(tmp_path: Path) -> None:
    home = tmp_path / "two\nlines\x1b[2J"
    home.mkdir()
    (home / JOURNAL_FILE).write_bytes(os.urandom(3000))
    with pytest.raises(JournalError) as error:
        open_journal(home, now=clock)
    assert is_one_line(error)
