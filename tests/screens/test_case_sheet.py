"""The sheet of a case: everything is on it, nothing typed can change its shape, a shared copy holds no own word."""

from __future__ import annotations

import json
import re
from collections import Counter
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import msgspec
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from triage.book.casefile import load_case
from triage.intake import build_case
from triage.journal import CasePlace, Journal, open_journal
from triage.model.book import Book
from triage.model.case import System
from triage.model.quantity import Reading
from triage.recall.looks import keep_look, keep_recheck, open_look, open_recheck
from triage.recall.sheet import build_sheet
from triage.report.case_report import encode_json, report_as_data
from triage.report.case_sheet import AlarmLine, CaseSheet
from triage.report.own_words import Own, clean
from triage.screens.sheet import render_sheet
from triage.session import Told, told_as_answer

ROOT = Path(__file__).resolve().parents[2]
DAY, LATER = "2026-05-04", "2026-05-20"
FIELDS = (
    "filter", "plant", "bed", "row", "words", "reading", "done", "done-note", "later", "photo", "photo-note", "how",
    "end", "end-note",
)  # fmt: skip
HOSTILE = "own-{} <script>x</script><b onclick='y'> [a](javascript:b) | `c` \x1b[31m\u202e\udc80 &amp; **d** # <!-- $e$"


def typed(field: str) -> str:
    assert field in FIELDS
    return HOSTILE.format(field)


@pytest.fixture(scope="module")
def home(tmp_path_factory: pytest.TempPathFactory, book: Book) -> Path:
    """One case with something nasty in every place where a grower may type."""
    home = tmp_path_factory.mktemp("secret-folder") / "home"
    photo = home.parent / "own-photo <img src=x onerror=y>.jpg"
    photo.write_bytes(b"leaf")
    with open_journal(home, now=lambda: "2026-05-30T10:00:00") as journal:
        _tell(book, journal)
        journal.add_photo(1, photo, DAY, _kept(typed("photo-note")))
    return home


def _kept(text: str) -> str:
    """What the database takes: everything but broken characters."""
    return text.replace("\udc80", "")


def _tell(book: Book, journal: Journal) -> None:
    case = build_case(load_case(ROOT / "demo" / "iron.yaml"), book, today=DAY)
    system = System(
        name="main", volume_l=1000.0, animals=("tilapia", "cherry-shrimp"), beds="media", filter=_kept(typed("filter"))
    )
    journal.save_system(system)
    journal.add_readings(case.readings)
    journal.add_readings(
        [Reading(quantity="ph", value=7.2, low=7.1, high=7.3, on="2026-05-01", note=_kept(typed("reading")))]
    )
    number = journal.begin_case(DAY, "basil", system, plant=_kept(typed("plant")))
    look = open_look(book, journal, DAY)
    look.tell(Told(kind="crop", crop="basil"))
    for told in (
        Told(kind="words", text=_kept(f"{typed('words')}. The newest leaves are yellow between the veins")),
        Told(kind="finding", seen=("newest-leaves-first", "fine-veins-stay-green", "new-stones"), absent=("webbing",)),
    ):
        look.tell(told)
        journal.record_answer(number, told_as_answer(told))
    keep_look(journal, look, number, look.look())
    journal.place_case(number, CasePlace(bed=_kept(typed("bed")), plant=_kept(typed("row"))))
    journal.record_action(number, _kept(typed("done")), DAY, _kept(typed("done-note")))
    journal.record_action(number, "iron chelate, 20 g", DAY, treatment="iron-chelate-dtpa")
    _look_again(book, journal, number)
    journal.record_outcome(number, ["iron-deficiency"], _kept(typed("how")), LATER)
    journal.close_case(number, _kept(typed("end")), _kept(typed("end-note")))


def _look_again(book: Book, journal: Journal, number: int) -> None:
    recheck_id = journal.begin_recheck(number, LATER)
    recheck = open_recheck(book, journal, number, LATER)
    for told in (
        Told(kind="words", text=_kept(typed("later"))),
        Told(kind="finding", seen=("better-than-last-look",)),
    ):
        recheck.session.tell(told)
        journal.record_answer(number, told_as_answer(told))
    keep_recheck(journal, recheck_id, recheck)


@pytest.fixture(scope="module")
def sheet(home: Path, book: Book) -> CaseSheet:
    with open_journal(home, now=lambda: "", read_only=True) as journal:
        return build_sheet(book, journal, 1)


@pytest.fixture(scope="module")
def shared(home: Path, book: Book) -> CaseSheet:
    with open_journal(home, now=lambda: "", read_only=True) as journal:
        return build_sheet(book, journal, 1, shared=True)


def pages(sheet: CaseSheet, book: Book) -> dict[str, str]:
    return {
        "md": render_sheet(sheet, "md", book), "html": render_sheet(sheet, "html", book),
        "json": encode_json(report_as_data(sheet)),
    }  # fmt: skip


# -- what stands on it -----------------------------------------------------------------------------------------------


def test_an_adviser_finds_everything(sheet: CaseSheet, book: Book) -> None:
    for form, page in pages(sheet, book).items():
        for said in (
            "Iron shortage", "2026-05-04", "2026-05-03", "2026-05-20", "iron chelate, 20 g", book.version,
            book.hash[:8], "Even the finest veins", book.sources["ksu2021"].title, "interveinal", "20 g",
        ):  # fmt: skip
            assert said.lower() in page.lower().replace("\\", ""), (form, said)
    kept = json.loads(pages(sheet, book)["json"])
    assert kept["format"] == "triage-case-sheet/1"
    assert [look["verdict"] for look in kept["later"]] == ["better"]
    assert kept["advice"]["causes"][0]["cause"] == "iron-deficiency"
    assert {reading["quantity"] for reading in kept["readings"]} >= {"ph", "iron", "alkalinity", "temperature", "tan"}
    assert kept["proved"]["causes"] == [book.causes["iron-deficiency"].name]
    assert {limit["quantity"] for limit in kept["limits"]} <= {reading["quantity"] for reading in kept["readings"]}


def test_every_number_of_a_source_leads_to_one(sheet: CaseSheet, book: Book) -> None:
    page = render_sheet(sheet, "md", book)
    body, _, listed = page.partition("## Sources")
    cited = {int(number) for number in re.findall(r"(?<!\\)\[(\d+)\]", body)}
    assert cited == set(range(1, len(re.findall(r"(?m)^\d+\. ", listed)) + 1))
    assert len(cited) > 10


def test_own_words_are_there_and_in_a_shared_copy_they_are_not(sheet: CaseSheet, shared: CaseSheet, book: Book) -> None:
    for form, page in pages(sheet, book).items():
        plain = page.replace("\\", "")
        wanted = [field for field in FIELDS if field != "plant"]  # the row of the bed was named later
        wanted = wanted if form == "json" else [field for field in wanted if field != "reading"]
        assert [field for field in wanted if f"own-{field} " not in plain] == [], form
    for form, page in pages(shared, book).items():
        assert "own-" not in page.replace("\\", ""), form
        assert "Iron" in page
        assert "iron chelate, 20 g" not in page
    assert shared.here.volume_l == 1000.0
    assert [act.name for act in shared.done] == ["", book.treatments["iron-chelate-dtpa"].name]


def test_where_a_photo_lies_is_nobodys_business(sheet: CaseSheet, book: Book) -> None:
    assert sheet.photos[0].file.startswith("own-photo ")
    assert all("secret-folder" not in page for page in pages(sheet, book).values())


def test_control_characters_never_pass(sheet: CaseSheet, book: Book) -> None:
    for page in pages(sheet, book).values():
        assert [c for c in page if not c.isprintable() and c != "\n"] == []


def test_of_a_case_begun_and_of_an_older_report(tmp_path: Path, book: Book) -> None:
    older = '{"suspects": [{"cause": "aphids", "name": "Aphids", "probability": 0.9}], "alarms": [{"say": "Air!"}]}'
    with open_journal(tmp_path, now=lambda: "2026-05-04T10:00:00") as journal:
        for _ in range(2):
            number = journal.begin_case(DAY, "", System())
            journal.record_answer(number, told_as_answer(Told(kind="finding", seen=("webbing",))))
        journal.finish_case(2, older, "0.0.1", "abc")
        begun, kept = build_sheet(book, journal, 1), build_sheet(book, journal, 2)
    assert [finding.id for finding in begun.said.seen] == ["webbing"]
    assert "nothing was advised" in render_sheet(begun, "md", book)
    for form in ("md", "html"):
        page = render_sheet(kept, form, book)  # type: ignore[arg-type]
        assert "aphids (very likely" in page
        assert "Air!" in page
        assert "in short" in page


def test_where_nothing_fits_it_says_so_and_names_no_remedy(sheet: CaseSheet, book: Book) -> None:
    assert sheet.advice is not None
    weak = tuple(msgspec.structs.replace(cause, probability=0.1) for cause in sheet.advice.causes)
    for alarms, named in (((), False), ((AlarmLine(say="Air first!", do=("Air stone.",)),), True)):
        advice = msgspec.structs.replace(sheet.advice, causes=weak, none_in_book=0.6, alarms=alarms)
        for form in ("md", "html"):
            page = render_sheet(msgspec.structs.replace(sheet, advice=advice), form, book)  # type: ignore[arg-type]
            assert "Nothing in the book explains this well" in page
            assert "The check that settles it" not in page
            assert (sheet.advice.remedies[0].steps[0] in page.replace("\\", "")) is named


# -- nothing typed changes the shape of a page -----------------------------------------------------------------------


def with_own_words(part: Any, text: str) -> Any:
    """The sheet with ``text`` in every place for own words."""
    changed: dict[str, Any] = {}
    for field in msgspec.structs.fields(part):
        value = getattr(part, field.name)
        if field.type is Own:
            changed[field.name] = text
        elif field.type == tuple[Own, ...]:
            changed[field.name] = (text,)
        elif isinstance(value, msgspec.Struct):
            changed[field.name] = with_own_words(value, text)
        elif isinstance(value, tuple):
            changed[field.name] = tuple(with_own_words(v, text) if isinstance(v, msgspec.Struct) else v for v in value)
    return msgspec.structs.replace(part, **changed)


class Shape(HTMLParser):
    """The tags of a page with their attributes' names, and what they lead to."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, tuple[str, ...]]] = []
        self.links: list[str] = []
        self.ids: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, tuple(sorted(name for name, _ in attrs))))
        self.links += [value or "" for name, value in attrs if name in ("href", "src", "action", "xlink:href")]
        self.ids += [value or "" for name, value in attrs if name == "id"]

    def handle_endtag(self, tag: str) -> None:
        self.tags.append((f"/{tag}", ()))

    def handle_comment(self, data: str) -> None:
        self.tags.append(("comment", ()))


def shape_of_markdown(page: str) -> list[str]:
    """Blocks and inline marks; how text is cut into pieces does not matter."""
    found = []
    for token in MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"]).parse(page):
        found.append(f"{token.type} {token.tag}")
        found += [child.type for child in token.children or () if child.type not in ("text", "text_special")]
    return found


TEXTS = st.text(
    st.characters(exclude_categories=["Cs"]) | st.sampled_from("<>&\"'`*_[]()|#-+=.!~\\/:@ 1\n\t"), min_size=1
)


def on_page(text: str) -> str:
    """As a sheet holds it: clean, and not just blanks."""
    return clean(text).strip() or "x"


@pytest.fixture(scope="module")
def small(sheet: CaseSheet) -> CaseSheet:
    """The same with less of the book in it, so that pages are made fast."""
    advice = msgspec.structs.replace(sheet.advice, causes=(), remedies=(), avoid=(), drawn=())
    said = msgspec.structs.replace(sheet.said, seen=sheet.said.seen[:2], absent=())
    return msgspec.structs.replace(sheet, advice=advice, said=said, crop="", crop_name="", readings=sheet.readings[:2])


@settings(max_examples=50)
@given(text=TEXTS)
@example(text="</style></title><script>")
@example(text="{{ 7 * 7 }}{% raw %}")
def test_nothing_typed_is_a_tag(small: CaseSheet, book: Book, text: str) -> None:
    page = Shape(render_sheet(with_own_words(small, on_page(text)), "html", book))
    assert page.tags == Shape(render_sheet(with_own_words(small, "x"), "html", book)).tags


@settings(max_examples=80)
@given(text=TEXTS)
@example(text="- a")
@example(text="1. a")
@example(text="12) a")
@example(text="    a")
@example(text="---")
@example(text="a | b")
@example(text="<!-- a")
@example(text="&lt;a")
@example(text="a\\")
@example(text="a  \nb")
@example(text="```\na")
@example(text="<https://x.example>")
def test_nothing_typed_is_markdown(small: CaseSheet, book: Book, text: str) -> None:
    page = shape_of_markdown(render_sheet(with_own_words(small, on_page(text)), "md", book))
    assert page == shape_of_markdown(render_sheet(with_own_words(small, "x"), "md", book))


def test_a_page_loads_nothing_and_runs_nothing(sheet: CaseSheet, book: Book) -> None:
    page = render_sheet(sheet, "html", book)
    shape = Shape(page)
    tags = {tag for tag, _ in shape.tags}
    assert tags.isdisjoint({"script", "link", "img", "iframe", "object", "embed", "form", "base", "b"})
    assert [name for _, names in shape.tags for name in names if name.startswith("on")] == []
    assert [link for link in shape.links if not re.match(r"https?://|#", link)] == []
    assert re.findall(r"@import|url\((?!#)", page) == []
    assert "svg" in tags
    assert [id_ for id_, number in Counter(shape.ids).items() if number > 1] == []
    assert {link[1:] for link in shape.links if link.startswith("#")} <= set(shape.ids)
    assert set(re.findall(r"url\(#([^)]+)\)", page)) <= set(shape.ids)


def test_a_source_that_is_no_web_address_is_no_link(sheet: CaseSheet, book: Book) -> None:
    for address in ("javascript:alert(1)", "https://x.example/ onclick=y", "https://x.example/>[a]", 'http://"'):
        strange = [msgspec.structs.replace(source, address=address) for source in sheet.sources]
        other = msgspec.structs.replace(sheet, sources=tuple(strange))
        assert "a" not in {tag for tag, _ in Shape(render_sheet(other, "html", book)).tags}
        assert address not in render_sheet(other, "md", book)


def test_every_case_of_the_season_on_every_page(triage: Any, tmp_path: Path, book: Book) -> None:
    assert triage("demo", "--season", "--keep", "season").returncode == 0
    with open_journal(tmp_path / "season", now=lambda: "", read_only=True) as journal:
        numbers = [line.id for line in journal.list_cases()]
        sheets = [build_sheet(book, journal, number) for number in numbers]
        copies = [build_sheet(book, journal, number, shared=True) for number in numbers]
        typed_here = {act.what for number in numbers for act in journal.case_actions(number)}
        typed_here |= {bed.name for bed in journal.beds()} | {plant.name for plant in journal.plants()}
    assert len(numbers) >= 8
    assert {look.verdict for sheet in sheets for look in sheet.later} >= {"better", "same"}
    assert len(typed_here) > 8
    for sheet, copy in zip(sheets, copies, strict=True):
        for page in (render_sheet(sheet, "html", book), render_sheet(copy, "html", book)):
            shape = Shape(page)
            assert (
                shape.tags.count(("figure", ())) + page.count('<figure class="cause">') == page.count("</figure>") > 4
            )
            assert [id_ for id_, number in Counter(shape.ids).items() if number > 1] == []
        assert sheet.here.bed not in encode_json(report_as_data(copy.here))
        assert not typed_here & set(re.findall(r"^- [\d-]+: (.*)$", render_sheet(copy, "md", book), re.MULTILINE))
