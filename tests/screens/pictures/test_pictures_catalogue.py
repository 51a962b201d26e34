"""Which picture stands for what: findings, shared pictures, causes put together from their leading findings."""

from __future__ import annotations

from pathlib import Path

import pytest

from triage.book.check import check_folders
from triage.book.places import built_in_knowledge
from triage.model.book import Book
from triage.screens.pictures import catalogue
from triage.screens.pictures.catalogue import IN_ROWS, Row, leading, pictures_of, row_of, scenes_of, seen_close, show
from triage.screens.pictures.leaf import SEATS

CLUMSY = ("chloros", "necro", "lesion", "intervein", "lamina", "petiole", "apical", "margin")


def ids(book: Book, cause: str) -> list[str]:
    return [picture.picture for picture in leading(book, book.causes[cause])]


def test_every_picture_is_told_in_everyday_words(book: Book) -> None:
    for picture in book.pictures.values():
        assert picture.says.endswith("."), picture.picture
        assert 30 < len(picture.says) < 160, picture.picture
        assert not any(word in picture.says.lower() for word in CLUMSY), picture.picture


def test_no_finding_has_two_pictures(book: Book) -> None:
    findings = [id_ for picture in book.pictures.values() for id_ in (picture.finding, *picture.also)]
    assert len(findings) == len(set(findings))


def test_picture_ids_are_not_those_of_other_entries(book: Book) -> None:
    assert not set(book.pictures) & (set(book.findings) | set(book.causes) | set(book.treatments))


@pytest.mark.parametrize(
    ("cause", "first", "places"),
    [
        ("iron-deficiency", "leaf-green-net", "plant-newest"),
        ("magnesium-deficiency", "leaf-green-bands", "plant-oldest"),
        ("nitrogen-deficiency", "leaf-all-yellow", "plant-oldest"),
        ("potassium-deficiency", "leaf-brown-edge", "plant-oldest"),
        ("two-spotted-spider-mite", "leaf-pale-dots", "plant-oldest"),
        ("natural-leaf-ageing", "leaf-all-yellow", "plant-vigorous"),
    ],
)
def test_the_six_commonest_confusions_show_what_leads(book: Book, cause: str, first: str, places: str) -> None:
    assert {first, places} <= set(ids(book, cause))


def test_the_special_form_stands_for_the_general_one(book: Book) -> None:
    assert "leaf-green-lines" not in ids(book, "iron-deficiency")


def test_a_pest_comes_with_the_animal_through_a_lens(book: Book) -> None:
    shown = show(book, "two-spotted-spider-mite")
    assert shown is not None
    assert len(shown.scenes) == 3
    assert shown.scenes[-1].bar_mm > 0


def test_no_two_pictures_of_one_layer_are_worn_together(book: Book) -> None:
    for cause in book.causes.values():
        worn = [p for p in leading(book, cause) if p.pattern in catalogue.PATTERNS]
        layers = [(catalogue.PATTERNS[p.pattern].layer, p.where == "all") for p in worn]
        layers = [layer for layer in layers if layer[0] != "edge"]
        assert len(layers) == len(set(layers)), cause.cause
        assert len(worn) <= catalogue.MOST


def test_every_cause_with_a_leading_picture_can_be_shown(book: Book) -> None:
    shown = {id_: show(book, id_) for id_ in book.causes}
    drawn = {id_ for id_, picture in shown.items() if picture is not None}
    assert {id_ for id_, cause in book.causes.items() if leading(book, cause)} == drawn
    assert len(drawn) > 60
    assert all(picture.scenes and picture.says for picture in shown.values() if picture is not None)


def test_what_cannot_be_drawn_has_no_picture(book: Book) -> None:
    assert show(book, "sludge-built-up") is None
    assert show(book, "leak-water-loss") is None
    assert show(book, "no-such-thing") is None


def test_the_leaf_is_that_of_the_crop(book: Book) -> None:
    by_crop = {crop: show(book, "brown-leaf-edges", crop) for crop in ("basil", "cucumber", "strawberry", "onion")}
    assert len({repr(shown.scenes) for shown in by_crop.values() if shown is not None}) == 4


def test_a_young_leaf_comes_with_the_plant_it_sits_on(book: Book) -> None:
    assert len(scenes_of(book.pictures["leaf-almost-white"], book.crops["basil"])) == 2
    assert len(scenes_of(book.pictures["leaf-brown-edge"], book.crops["basil"])) == 1


def test_small_pictures_take_a_plain_leaf_and_one_view_for_the_row(book: Book) -> None:
    net, bands = book.pictures["leaf-green-net"], book.pictures["leaf-green-bands"]
    row = row_of(book, ["fine-veins-stay-green", "wide-green-bands"])
    assert row == Row(close=True)
    assert seen_close(net)
    assert not seen_close(bands)
    assert seen_close(bands, row)
    assert not seen_close(book.pictures["leaf-brown-edge"], row)  # an edge is not seen from close by
    assert set(SEATS) <= set(IN_ROWS)


def test_findings_of_the_book_can_share_a_picture(book: Book) -> None:
    have = pictures_of(book)
    assert have["whole-leaf-yellow"] is have["veins-yellow-too"]


WRONG = """
- picture: my-picture
  finding: no-such-finding
  also: [brown-leaf-edges, brown-leaf-edgess]
  pattern: between-vains
  says: A leaf with something or other on it.
  params: {ink: turquoise}
  sources: [common-practice]
- picture: other-picture
  finding: no-such-finding
  also: [brown-leaf-edgess]
  pattern: between-veins
  says: A leaf with something or other on it.
  sources: []
"""


def test_faults_of_an_authors_own_pictures_are_told_by_line(tmp_path: Path) -> None:
    (tmp_path / "pictures.yaml").write_text(WRONG, encoding="utf-8")
    faults = check_folders([built_in_knowledge(), tmp_path], lambda rules: [])
    found = {(fault.line, fault.code): fault.message for fault in faults if fault.path.endswith("/pictures.yaml")}
    assert "nearest: 'between-veins'" in found.pop((5, "KB103"))
    assert "turquoise" in found.pop((7, "KB103"))
    assert found.pop((10, "KB201")).startswith("no finding 'no-such-finding'")
    assert "nearest: 'brown-leaf-edges'" in found.pop((11, "KB201"))
    assert (14, "KB202") in found
