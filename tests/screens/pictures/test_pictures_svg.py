"""SVG pages: whole on their own, readable by ear, true to scale, and the one in the demo as the command makes it."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path
from typing import Any

import pytest

from triage.model.book import Book
from triage.screens.pictures.catalogue import show
from triage.screens.pictures.scene import Area, Dots, Group, Line, Scene, Wash, ellipse
from triage.screens.pictures.svg import SvgWriter, label, page
from triage.screens.pictures.svg_page import svg_page

ROOT = Path(__file__).resolve().parents[3]
SVG = "{http://www.w3.org/2000/svg}"
SIX = [
    "iron-deficiency", "magnesium-deficiency", "nitrogen-deficiency", "potassium-deficiency", "two-spotted-spider-mite",
    "natural-leaf-ageing",
]  # fmt: skip


def page_of(book: Book, *ids: str) -> str:
    return svg_page([show(book, id_, fine=True) for id_ in ids])  # type: ignore[misc]


def test_every_picture_makes_a_sound_page_of_its_own(book: Book) -> None:
    for id_ in book.pictures:
        text = page_of(book, id_)
        root = ET.fromstring(text)
        named = {element.get("id") for element in root.iter() if element.get("id")}
        used = set(re.findall(r"url\(#([^)]+)\)", text)) | set(re.findall(r'href="#([^"]+)"', text))
        assert used <= named, id_
        assert "NaN" not in text
        assert "inf" not in re.sub(r"<desc.*?</desc>|<title.*?</title>|<text.*?</text>", "", text), id_
        assert "http" not in text.replace("http://www.w3.org/2000/svg", ""), id_
        assert len(text) < 120_000, id_


def test_a_page_says_what_it_shows(book: Book) -> None:
    root = ET.fromstring(page_of(book, "iron-deficiency"))
    assert root.get("role") == "img"
    title, words = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None
    assert title.text == "Iron shortage"
    assert words is not None
    assert words.text is not None
    assert "thinnest ribs are green" in words.text


def test_words_are_escaped() -> None:
    root = ET.fromstring(page(10, 10, "a < b & c", "x > y", label(1, 1, '"<&>"')))
    assert [element.text for element in root.iter(f"{SVG}text")] == ['"<&>"']


def test_the_scale_bar_of_a_lens_is_true(book: Book) -> None:
    shown = show(book, "two-spotted-body", fine=True)
    assert shown is not None
    scene = shown.scenes[0]
    text = svg_page([shown])
    inner = next(element for element in ET.fromstring(text).iter(f"{SVG}svg") if element.get("viewBox") == "0 0 2 2")
    width = float(inner.get("width") or 0)
    length = float(re.search(r"v8m0 -4h([\d.]+)m", text)[1])  # type: ignore[index]
    assert length / width == pytest.approx(scene.bar_length / scene.width, abs=0.002)
    assert f"{scene.bar_mm:g} mm</text>" in text


def test_every_kind_of_part_is_written() -> None:
    disc = ellipse(1, 1, 0.9, 0.9)
    parts = (
        Area(disc, "green"), Line(((0.5, 0.5), (1.5, 1.5)), 0.1, "brown"), Line(((1.5, 0.5), (0.5, 1.5)), 0.1, "brown"),
        Dots(((1, 1), (1.2, 1)), 0.05, "black"), Wash(lambda x, y: x / 2, "yellow"),
    )  # fmt: skip
    hole = ellipse(1, 1.4, 0.2, 0.2)
    text = SvgWriter().scene(Scene(2, 2, (Group(parts, disc, (hole,)),)), 0, 0, 100)
    root = ET.fromstring(f'<svg xmlns="http://www.w3.org/2000/svg">{text}</svg>')
    assert len(list(root.iter(f"{SVG}clipPath"))) == 2  # the outline, and the hole in it
    strokes = [element for element in root.iter(f"{SVG}path") if element.get("stroke") == "#885816"]
    assert len(strokes) == 1  # two lines of one look
    assert (strokes[0].get("d") or "").count("M") == 2
    assert text.count("h0") == 2


def test_holes_that_overlap_are_cut_apart() -> None:
    disc = ellipse(1, 1, 0.9, 0.9)
    cuts = (ellipse(1, 1, 0.2, 0.2), ellipse(1.1, 1, 0.2, 0.2), ellipse(0.4, 1, 0.1, 0.1))
    text = SvgWriter().scene(Scene(2, 2, (Group((Area(disc, "green"),), disc, cuts),)), 0, 0, 100)
    assert text.count("<clipPath") == 3


def test_a_leaf_outline_of_a_plant_is_written_once(book: Book) -> None:
    text = page_of(book, "newest-leaves-first")
    assert text.count("<use ") > 10
    paths = re.findall(r'<path d="([^"]{60,})"', text)
    assert len(paths) == len(set(paths))


def test_six_confusions_side_by_side_as_the_demo_shows_them(book: Book, triage: Any, tmp_path: Path) -> None:
    done = triage("book", "show", *SIX, "--svg", "six.svg")
    assert done.returncode == 0, done.stderr
    made = (tmp_path / "six.svg").read_text(encoding="utf-8")
    assert made == (ROOT / "demo" / "leaf-pictures.svg").read_text(encoding="utf-8"), (
        f"make it anew: triage book show {' '.join(SIX)} --svg demo/leaf-pictures.svg --replace"
    )
    words = [element.text for element in ET.fromstring(made).iter(f"{SVG}text")]
    assert all(book.causes[id_].name in words for id_ in SIX)
    assert len(made) < 200_000
