"""Forty weeks of the made-up glasshouse, played through the real programme: its main outcomes hold."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from triage.book.season import load_season
from triage.errors import KnowledgeError
from triage.journal import Journal, open_journal
from triage.model.book import Book
from triage.recall.cases import list_standing
from triage.report.case_report import Report
from triage.report.drift_report import DriftReport
from triage.report.recheck_report import RecheckReport
from triage.report.spray_report import SprayReport
from triage.screens.season import Clock, Happened, SeasonPlayer

SEASON = Path(__file__).resolve().parents[2] / "demo" / "season"


def play(book: Book, home: Path, folder: Path = SEASON) -> list[Happened]:
    clock = Clock()
    with open_journal(home, now=clock.now) as journal:
        return list(SeasonPlayer(book, journal, clock).play(load_season(folder)))


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("season")


@pytest.fixture(scope="module")
def season(book: Book, home: Path) -> list[Happened]:
    return play(book, home)


@pytest.fixture
def journal(home: Path, season: list[Happened]) -> Iterator[Journal]:
    with open_journal(home, now=lambda: "", read_only=True) as journal:
        yield journal


def first_look(season: list[Happened], case: str) -> Report:
    (report,) = [h.report for h in season if h.event.case == case and h.report is not None]
    return report


def rechecks(season: list[Happened], case: str) -> list[RecheckReport]:
    return [h.recheck for h in season if h.event.case == case and h.recheck is not None]


def drifts(season: list[Happened]) -> list[DriftReport]:
    return [h.drift for h in season if h.drift is not None]


def sprays(season: list[Happened]) -> list[SprayReport]:
    return [h.spray for h in season if h.spray is not None]


def test_it_lasts_forty_weeks_and_the_water_is_tested_in_each(season: list[Happened]) -> None:
    first = date.fromisoformat(season[0].event.day)
    weeks = {(date.fromisoformat(h.event.day) - first).days // 7 for h in season if h.event.readings}
    assert weeks == set(range(40))


@pytest.mark.parametrize("case", ["basil", "basil again"])
def test_the_basil_short_of_iron_recovers(season: list[Happened], case: str) -> None:
    report = first_look(season, case)
    assert report.suspects[0].cause == "iron-deficiency"
    assert report.responses[0].treatment == "iron-chelate-dtpa"
    (later,) = rechecks(season, case)
    assert (later.verdict, later.suspects[0].cause, later.second) == ("better", "iron-deficiency", None)
    assert later.suspects[0].probability > report.suspects[0].probability
    assert later.done[0].waited


def test_the_pak_choi_that_does_not_respond_has_a_second_cause(season: list[Happened]) -> None:
    report = first_look(season, "pak choi")
    assert report.suspects[0].cause == "nitrogen-deficiency"
    assert report.responses[0].treatment == "feed-steadily"
    (later,) = rechecks(season, "pak choi")
    assert later.verdict == "same"
    assert not later.too_early
    assert later.second is not None
    assert later.second.cause == later.suspects[0].cause == "clubroot"
    assert not later.second.instead  # it was short of nitrogen as well
    assert [line.treatment for line in later.not_again] == ["feed-steadily"]
    assert {moved.cause: moved.now < moved.before for moved in later.moved}["nitrogen-deficiency"]


def test_the_mites_reach_the_neighbour_and_are_stopped(season: list[Happened]) -> None:
    for case in ("cucumber", "strawberry"):
        assert first_look(season, case).suspects[0].cause == "two-spotted-spider-mite"
        assert rechecks(season, case)[-1].verdict == "better"
        assert rechecks(season, case)[-1].suspects[0].cause == "two-spotted-spider-mite"
    rinsed, released = rechecks(season, "cucumber")
    assert rinsed.verdict == "same"
    assert rinsed.too_early  # eggs hatch for two weeks after the last rinse
    assert {line.treatment for line in released.done} == {"rinse-leaves", "predatory-mites-persimilis"}
    seen = season[[h.event.case for h in season].index("strawberry")].event.day
    assert first_look(season, "cucumber").on < seen < released.on


def test_the_ph_rise_is_traced_to_the_gravel(season: list[Happened]) -> None:
    before, after = drifts(season)
    assert before.direction == after.direction == "rising"
    assert not before.told
    assert before.decide is not None
    assert "vinegar" in before.decide.how
    assert after.told
    assert after.suspects[0].cause == "ph-high-carbonate-media"
    chard = first_look(season, "chard")
    assert chard.suspects[0].cause == "ph-high-carbonate-media"
    assert chard.responses[0].treatment == "remove-carbonate-stones"
    assert chard.suspects[1].cause == "iron-lockout-high-ph"  # what the pH does to the leaf
    assert rechecks(season, "chard")[0].verdict == "better"


@pytest.mark.parametrize(("case", "cause"), [("old leaf", "natural-leaf-ageing"), ("powder", "powdery-mildew")])
def test_the_small_cases_of_autumn(season: list[Happened], case: str, cause: str) -> None:
    assert first_look(season, case).suspects[0].cause == cause


def test_every_reading_says_its_unit(journal: Journal) -> None:
    assert [reading for reading in journal.readings() if "not said" in reading.note] == []


def test_the_spray_is_refused(season: list[Happened]) -> None:
    (report,) = sprays(season)
    assert (report.substance, report.grade) == ("permethrin", "never")
    assert "rinse-leaves" in report.instead


def test_what_is_due_follows_the_story(season: list[Happened]) -> None:
    on_duty = next(h.due for h in season if h.due is not None and h.event.day == "2026-06-07")
    assert [(line.kind, line.treatment) for line in on_duty.due[:2]] == [("step", "rinse-leaves"), ("look", "")]
    assert "round 3 of 5" in on_duty.due[0].say
    watched = {line.bed: line.say for line in on_duty.due if line.kind == "watch"}
    assert "strawberry" in watched["middle"]  # a week before it has them


def test_every_case_ends_with_what_it_was(book: Book, journal: Journal) -> None:
    standing = list_standing(book, journal)
    assert len(standing) == 8
    assert all(case.proven for case in standing)
    assert [case.number for case in standing if case.state != "closed"] == [8]
    assert journal.check() == []


def test_a_season_played_again_gives_the_same_journal(book: Book, journal: Journal, tmp_path: Path) -> None:
    play(book, tmp_path)
    first: list[str] = []
    again: list[str] = []
    journal.export_lines(first.append)
    with open_journal(tmp_path, now=lambda: "", read_only=True) as second:
        second.export_lines(again.append)
    assert first == again


def test_the_command_plays_it_and_can_keep_it(triage: Any, journal: Journal) -> None:
    done = triage("demo", "--season", "--keep", "glasshouse", columns=60, NO_COLOR="1", PYTHONHASHSEED="7")
    assert done.returncode == 0, done.stderr
    assert max(map(len, done.stdout.splitlines())) <= 60
    said = " ".join(done.stdout.split())
    for written in load_season(SEASON):
        assert written.event.says in said
    for words in ("A second cause may be at work", "not with these animals", "Most likely: Stones or shells"):
        assert words in said
    listed = triage("case", "list", "--cause", "two-spotted-spider-mite", "--home", "glasshouse", "--json").stdout
    assert [case["bed"] for case in json.loads(listed)["cases"]] == ["middle", "warm wall"]
    kept: list[str] = []
    journal.export_lines(kept.append)
    assert triage("journal", "export", "--home", "glasshouse").stdout == "".join(kept)
    assert triage("demo", "--season", "--keep", "glasshouse").returncode == 2
    assert triage("demo", "--keep", "elsewhere").returncode == 2


def test_what_the_book_does_not_know_is_named_with_its_line(book: Book, tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(
        "- day: 2026-05-03\n  readings: [ph=7]\n- day: 2026-05-04\n  case: one\n  look:\n    crop: basil\n"
        "    seen: [webing]\n",
        encoding="utf-8",
    )
    with pytest.raises(KnowledgeError) as caught:
        play(book, tmp_path / "home", tmp_path)
    (fault,) = caught.value.faults
    assert (fault.path, fault.line) == ("a.yaml", 7)
    assert "webbing" in str(fault)


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("- day: 2026-05-04\n- day: 2026-05-03\n", 2),
        ("- day: in May\n", 1),
        ("- day: 2026-05-04\n  sayd: something\n", 2),
    ],
)
def test_a_season_written_wrong_is_refused(tmp_path: Path, text: str, line: int) -> None:
    (tmp_path / "a.yaml").write_text(text, encoding="utf-8")
    with pytest.raises(KnowledgeError) as caught:
        load_season(tmp_path)
    assert caught.value.faults[0].line == line


@pytest.mark.parametrize(
    "text",
    [
        "- {day: 2026-05-04, case: nobody, did: something}\n",
        "- {day: 2026-05-04, why: {quantity: ph, seen: [nothing-known]}}\n",
        "- {day: 2026-05-04, beds: [{name: one, crops: [triffid]}]}\n",
    ],
)
def test_what_nothing_has_is_refused(book: Book, tmp_path: Path, text: str) -> None:
    (tmp_path / "a.yaml").write_text(text, encoding="utf-8")
    with pytest.raises(KnowledgeError, match="nothing has the id"):
        play(book, tmp_path / "home", tmp_path)
