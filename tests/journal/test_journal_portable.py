"""The journal as JSON Lines and as a backup: out and in again without a difference, refused when not whole."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from pathlib import Path

import pytest

from triage.errors import JournalError, UsageError
from triage.journal import JOURNAL_FILE, Answer, CasePlace, Journal, check_journal, open_journal, schema
from triage.journal.schema import Migration
from triage.model.case import System
from triage.model.garden import Bed, Plant
from triage.model.quantity import Reading

NOTE = Migration("note", ("ALTER TABLE cases ADD COLUMN note TEXT NOT NULL DEFAULT ''",))


def clock() -> str:
    return "2026-05-04T10:00:00"


def export_of(journal: Journal) -> list[str]:
    lines: list[str] = []
    assert journal.export_lines(lines.append) == len(lines) - 2
    return lines


def fill_garden(journal: Journal, case_id: int) -> None:
    """Beds, a place, a photo, a recheck, corrections, an outcome, a setting."""
    journal.save_bed(Bed(name="wall", crops=("basil",)))
    journal.save_plant(Plant(name="row 2", bed="wall", planted="2026-03-01"))
    journal.place_case(case_id, CasePlace(bed="wall", plant="row 2"))
    journal.add_photo(case_id, Path(__file__), "2026-05-04", "leaf")
    recheck = journal.begin_recheck(case_id, "2026-05-14")
    journal.record_answer(case_id, Answer(kind="finding", payload='{"seen":["b"]}'))
    journal.finish_recheck(recheck, "better", '{"b" : 2}', "0.1", "f00d", summary="Iron shortage")
    journal.begin_recheck(case_id, "2026-05-24")
    journal.withdraw_action(journal.record_action(case_id, "dose", "2026-05-06", treatment="iron"))
    journal.record_outcome(case_id, None, "", "2026-05-24")
    journal.set_setting("own-rates", "off")


@pytest.fixture
def filled(journal: Journal) -> Journal:
    """A bit of everything."""
    journal.save_system(System(volume_l=1000.0, animals=("tilapia",)))
    card = Reading(
        quantity="tan", value=0.25, bound="<=", low=-math.inf, high=0.25, on="2026-05-04", note="line\u2028two"
    )
    sun = Reading(quantity="temperature", value=1 / 3, low=0.1, high=0.7, on="2026-05-04")
    journal.add_readings([card, sun])
    journal.correct_reading(1, sun, "wrong row")
    journal.withdraw_reading(2)
    for _ in range(2):
        case_id = journal.begin_case("2026-05-04", "basil", System(), plant='row "2"\n')
        journal.record_answer(case_id, Answer(kind="words", payload='"\\u0000\U0001f331"'))
        journal.undo_last_answer(case_id)
    journal.finish_case(case_id, '{ "a" : 1 }', "0.1", "f00d")
    journal.record_action(case_id, "rinse", "2026-05-05")
    journal.close_case(case_id, "cured")
    journal.abandon_case(1)
    fill_garden(journal, case_id)
    return journal


@pytest.fixture
def empty(tmp_path: Path) -> Path:
    return tmp_path / "empty"


def import_into(home: Path, lines: list[str]) -> list[str]:
    with open_journal(home, now=clock) as journal:
        assert journal.import_lines(lines) == len(lines) - 2
        assert journal.check() == []
        return export_of(journal)


def test_out_and_in_again(filled: Journal, empty: Path) -> None:
    lines = export_of(filled)
    assert {json.loads(line).get("table") for line in lines[1:-1]} == {
        *("systems", "readings", "reading_corrections", "cases", "answers"),
        *("reports", "abandoned", "actions", "closings", "action_corrections", "beds", "plants", "case_places"),
        *("photos", "rechecks", "recheck_reports", "outcomes", "settings"),
    }
    assert import_into(empty, lines) == lines
    with open_journal(empty, now=clock) as copy:
        assert copy.reading_history() == filled.reading_history()
        assert copy.list_cases() == filled.list_cases()
        assert copy.case_report(2) == filled.case_report(2)
        assert copy.case_rechecks(2) == filled.case_rechecks(2)
        assert copy.beds() == filled.beds()
        assert copy.begin_case("2026-05-05", "chard", System()) == 3


def test_every_line_stands_on_one_line(filled: Journal) -> None:
    assert all(line.endswith("\n") and line.count("\n") == 1 for line in export_of(filled))


def test_an_empty_journal(journal: Journal, empty: Path) -> None:
    lines = export_of(journal)
    assert len(lines) == 2
    assert import_into(empty, lines) == lines


def test_into_an_empty_journal_only(filled: Journal) -> None:
    lines = export_of(filled)
    with pytest.raises(UsageError, match="already has entries"):
        filled.import_lines(lines)
    assert export_of(filled) == lines


def without(table: str, lines: list[str]) -> list[str]:
    rows = [line for line in lines[1:-1] if json.loads(line)["table"] != table]
    return [lines[0], *rows, json.dumps({"rows": len(rows)})]


def change_table(table: str, lines: list[str], **change: object) -> list[str]:
    rows = [json.loads(line) for line in lines[1:-1]]
    changed = [{**row, **change} if row["table"] == table else row for row in rows]
    return [lines[0], *map(json.dumps, changed), lines[-1]]


def with_change(number: int, **change: object) -> Callable[[list[str]], list[str]]:
    def changed(lines: list[str]) -> list[str]:
        entry = {**json.loads(lines[number]), **change}
        return [*lines[:number], json.dumps(entry), *lines[number:][1:]]

    return changed


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda lines: [], "line 1: not an exported journal"),
        (lambda lines: lines[:-1], "cut short"),
        (lambda lines: lines[:-3] + lines[-1:], "entries were exported"),
        (lambda lines: [*lines, "{}"], "something follows"),
        (lambda lines: lines[1:], "line 1: not an exported journal"),
        (lambda lines: [lines[0], "yellow\n", *lines[1:]], "line 2: not a line"),
        (lambda lines: [lines[0], "[" * 100_000, *lines[1:]], "line 2: not a line"),
        (lambda lines: [lines[0], '"\ud83c"', *lines[1:]], "line 2: not a line"),
        (lambda lines: [lines[0], lines[1], *lines[1:]], "line 3: this entry cannot be kept"),
        (lambda lines: without("cases", lines), "that is not there"),
        (lambda lines: change_table("readings", lines, value="warm"), "readings 1: .*float"),
        (lambda lines: change_table("readings", lines, low=0.9), "readings 1: a number or a limit"),
        (lambda lines: change_table("answers", lines, payload="{"), "cases 1: not JSON"),
        (lambda lines: change_table("answers", lines, kind="guess"), "this entry cannot be kept"),
        (lambda lines: change_table("reports", lines, report="{"), "reports 1: not JSON"),
        (lambda lines: change_table("beds", lines, record="[]"), "beds 1: "),
        (lambda lines: change_table("rechecks", lines, after=77), "rechecks 1: "),
        (lambda lines: change_table("rechecks", lines, day="soon"), "rechecks 1: "),
        (lambda lines: change_table("outcomes", lines, causes='"mites"'), "outcomes 1: "),
        (lambda lines: change_table("photos", lines, sha256="short"), "this entry cannot be kept"),
        (lambda lines: change_table("systems", lines, record="[]"), "systems 1: "),
        (with_change(0, version=True), "line 1: "),
        (with_change(0, version=0), "line 1: "),
        (with_change(0, version="1"), "line 1: "),
        (with_change(0, version=99), "later version"),
        (with_change(0, format="diary/1"), "line 1: "),
        (with_change(1, table="sqlite_master"), "line 2: not an entry"),
        (with_change(1, table="migrations"), "line 2: not an entry"),
        (with_change(1, table=["abandoned"]), "line 2: not an entry"),
        (with_change(1, extra=1), "line 2: not an entry"),
        (with_change(1, id=None, at={}), "line 2: this entry cannot be kept"),
        (with_change(1, id="one"), "line 2: this entry cannot be kept"),
        (with_change(1, id=2**70), "line 2: this entry cannot be kept"),
        (with_change(1, at=None), "line 2: this entry cannot be kept"),
    ],
)
def test_what_is_not_a_whole_export_is_refused_whole(
    filled: Journal, empty: Path, spoil: Callable[[list[str]], list[str]], said: str
) -> None:
    with open_journal(empty, now=clock) as target:
        fresh = export_of(target)
        with pytest.raises(UsageError, match=said):
            target.import_lines(spoil(export_of(filled)))
        assert export_of(target) == fresh
        assert target.check() == []


def test_an_export_of_an_earlier_version(filled: Journal, empty: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lines = export_of(filled)
    monkeypatch.setattr(schema, "MIGRATIONS", (*schema.MIGRATIONS, NOTE))
    newer = import_into(empty, lines)
    assert len(newer) == len(lines)
    assert json.loads(newer[0])["version"] == len(schema.MIGRATIONS)
    assert all('"note":""' in line for line in newer if '"table":"cases"' in line)


def test_a_backup_is_the_journal(filled: Journal, empty: Path) -> None:
    empty.mkdir()
    filled.backup(empty / JOURNAL_FILE)
    assert [path.name for path in empty.iterdir()] == [JOURNAL_FILE]
    assert check_journal(empty) == []
    with open_journal(empty, now=clock) as copy:
        assert export_of(copy) == export_of(filled)


def test_a_backup_never_overwrites(filled: Journal, tmp_path: Path) -> None:
    (tmp_path / "old.sqlite3").write_text("precious")
    with pytest.raises(JournalError, match="already"):
        filled.backup(tmp_path / "old.sqlite3")
    assert (tmp_path / "old.sqlite3").read_text() == "precious"
    with pytest.raises(JournalError, match="cannot be opened"):
        filled.backup(tmp_path / "no" / "where.sqlite3")
