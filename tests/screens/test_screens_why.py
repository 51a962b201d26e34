"""Why: the record of what fired for the first suspect, in everyday words, each with its source."""

from __future__ import annotations

import io
from pathlib import Path

import msgspec
import pytest

from triage.book.casefile import load_case
from triage.intake import build_case
from triage.model.book import Book
from triage.model.outcome import Firing
from triage.reasoning import Engines
from triage.report.case_report import Report, SupportLine
from triage.screens import wording
from triage.screens.style import build_console
from triage.screens.why import fact_words, render_why, source_words, why_nodes
from triage.session import session_from_case

IRON = Path(__file__).resolve().parents[2] / "demo" / "iron.yaml"


@pytest.fixture(scope="module")
def report(book: Book, engines: Engines) -> Report:
    case = build_case(load_case(IRON), book, today="2026-05-04")
    return session_from_case(book, case, engines).look(with_question=False, with_responses=False)


def text_of(report: Report, book: Book) -> str:
    out = io.StringIO()
    render_why(report, build_console(width=80, file=out, colour=False), book)
    return " ".join(out.getvalue().split())


def test_the_tree_holds_only_what_fired_for_the_first_suspect(report: Report, book: Book) -> None:
    first = report.suspects[0]
    nodes = why_nodes(report, first)
    spoke = {support.what for support in (*first.for_, *first.against) if support.kind == "rule"}
    assert nodes
    assert {node.rule for node in nodes} <= spoke
    text = text_of(report, book)
    assert all(node.because in text for node in nodes)
    others = {firing.rule for firing in report.firings} - spoke
    below = {child.rule for node in nodes for child in node.children}
    silent = [firing for firing in report.firings if firing.rule in others - below]
    assert not [firing for firing in silent if firing.because in text and firing.rule not in str(nodes)]


def test_signs_are_named_with_how_often_they_go_with_it(report: Report, book: Book) -> None:
    first = report.suspects[0]
    seen = [support.what for support in first.for_ if support.kind == "seen"]
    shown = [finding for finding in seen if finding in book.causes[first.cause].shows]
    text = text_of(report, book)
    assert shown
    for finding in shown:
        often = wording.FREQUENCY_WORDS[book.causes[first.cause].shows[finding]]
        assert f"{book.findings[finding].name}: {often} seen with it" in text


def test_every_rule_names_its_sources(report: Report, book: Book) -> None:
    text = text_of(report, book)
    for node in why_nodes(report, report.suspects[0]):
        for words in source_words(node.sources, book):
            assert " ".join(words.split()) in text


def test_conclusions_are_followed_down_and_shown_once(report: Report, book: Book) -> None:
    firings = (
        Firing(rule="deep", stage="conclude", because="Deep down.", facts=("finding webbing seen",), conclude="d"),
        Firing(rule="mid", stage="conclude", because="Half way.", facts=("conclusion d",), conclude="m"),
        Firing(rule="one", stage="favour", because="One way.", facts=("conclusion m",)),
        Firing(rule="two", stage="favour", because="Other way.", facts=("conclusion m", "reading ph = 7.4")),
        Firing(rule="else", stage="favour", because="Something else.", facts=("crop basil",)),
    )
    support = tuple(SupportLine(what=rule, support=1.0, kind="rule", say="") for rule in ("one", "two", "mid"))
    first = msgspec.structs.replace(report.suspects[0], for_=support, against=())
    made_up = msgspec.structs.replace(report, suspects=(first,), firings=firings)
    text = text_of(made_up, book)
    assert [node.rule for node in why_nodes(made_up, first)] == ["one", "two"]
    assert text.count("Deep down.") == 1
    assert text.count(wording.WHY_ABOVE) == 1
    assert "Something else." not in text
    assert "rests on: fine silk webs on leaves and shoots" in text
    assert "rests on: pH = 7.4" in text


def test_facts_are_said_in_everyday_words(book: Book) -> None:
    assert fact_words("finding webbing seen", book) == "fine silk webs on leaves and shoots"
    assert fact_words("finding webbing absent", book).startswith("not there: ")
    assert fact_words("reading ph = 7.4", book) == "pH = 7.4"
    assert fact_words("trend ph rising", book) == "pH rising"
    assert fact_words("crop basil", book) == "basil"
    assert fact_words("conclusion anything", book) == ""
    assert fact_words("system top-up mains", book) == "system top up mains"


def test_sources_from_memory_are_called_so(book: Book) -> None:
    recalled = [id_ for id_, source in book.sources.items() if source.read == "memory"]
    assert "from memory, not read" in source_words(recalled[:1], book)[0]


def test_without_rules_or_suspects_that_is_said(report: Report, book: Book) -> None:
    bare = msgspec.structs.replace(report.suspects[0], for_=(), against=())
    assert wording.WHY_NO_RULE in text_of(msgspec.structs.replace(report, suspects=(bare,)), book)
    assert wording.WHY_NOTHING in text_of(msgspec.structs.replace(report, suspects=()), book)
