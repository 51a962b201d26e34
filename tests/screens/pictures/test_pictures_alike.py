"""Two patterns that a person cannot tell apart in the picture are not both offered as pictures; pairs are named."""

from __future__ import annotations

from typing import Any, get_args

import pytest

from triage.model.book import Book
from triage.model.crop import LeafShape
from triage.model.picture import Params, Picture
from triage.screens.pictures.alike import Look, alike_pairs, difference, scattered_alike
from triage.screens.pictures.catalogue import IN_ROWS, find_picture, pictures_of, row_of, scenes_of, seen_close, show
from triage.screens.pictures.patterns import PATTERNS, leaf_scene
from triage.screens.pictures.show import small_raster

#: The leaves that small pictures are drawn on, and plants of every build of leaf and habit in the book.
ROW_SHAPES = sorted(set(get_args(LeafShape)) - set(IN_ROWS))
#: The six that are most often taken for each other.
SIX = [
    "iron-deficiency", "magnesium-deficiency", "nitrogen-deficiency", "potassium-deficiency", "two-spotted-spider-mite",
    "natural-leaf-ageing",
]  # fmt: skip


def on_leaves(book: Book) -> list[Picture]:
    return [picture for picture in book.pictures.values() if picture.pattern in PATTERNS]


def made(pattern: str, **params: Any) -> Picture:
    return Picture(
        picture=pattern, finding="x", pattern=pattern, says="x", params=Params(**params), sources=[]
    )  # fmt: skip


def test_no_two_leaf_pictures_of_the_book_look_alike(book: Book, leaves: Any) -> None:
    looks = {picture.picture: leaves(picture, "oval", picture.view == "close") for picture in on_leaves(book)}
    assert len(looks) > 50
    assert alike_pairs(looks) == []


def test_scattering_marks_anew_makes_no_other_picture(book: Book, leaves: Any) -> None:
    apart = {p.picture: scattered_alike(leaves(p, "oval", p.view == "close")) for p in on_leaves(book)}
    assert {name: far for name, far in apart.items() if far >= 1} == {}


@pytest.mark.parametrize("shape", ROW_SHAPES)
def test_pictures_beside_the_answers_of_one_question_do_not_look_alike(book: Book, leaves: Any, shape: str) -> None:
    have = pictures_of(book)
    wrong = {}
    for question in book.questions.values():
        offered = {have[id_].picture: have[id_] for id_ in question.options if id_ in have}
        drawn = {name: picture for name, picture in offered.items() if picture.pattern in PATTERNS}
        row = row_of(book, offered)
        looks = {name: leaves(picture, shape, seen_close(picture, row)) for name, picture in drawn.items()}
        if pairs := alike_pairs(looks):
            wrong[question.question] = pairs
    assert wrong == {}


def test_plants_do_not_look_alike_on_any_crop(book: Book) -> None:
    plants = [picture for picture in book.pictures.values() if picture.pattern == "plant"]
    builds = {(crop.habit, crop.leaf): crop for crop in book.crops.values()}
    wrong = {}
    for build, crop in builds.items():
        looks = {p.picture: [small_raster(scenes_of(p, crop)[0])] for p in plants}
        if pairs := alike_pairs(looks):
            wrong[build] = pairs
    assert len(builds) > 8
    assert wrong == {}


def test_small_animals_do_not_look_alike(book: Book) -> None:
    looks = {
        picture.picture: [small_raster(scenes_of(picture, next(iter(book.crops.values())))[0])]
        for picture in book.pictures.values()
        if picture.creature is not None
    }
    assert len(looks) > 9
    assert alike_pairs(looks) == []


def test_the_six_commonest_confusions_can_be_told_apart_by_leaf_or_plant(book: Book) -> None:
    scenes = {cause: show(book, cause, fine=True).scenes[:2] for cause in SIX}  # type: ignore[union-attr]
    looks = {cause: [Look([small_raster(scene)]) for scene in pair] for cause, pair in scenes.items()}
    for number, one in enumerate(SIX):
        for other in SIX[number + 1 :]:
            apart = [difference(a, b) for a, b in zip(looks[one], looks[other], strict=True)]
            assert max(apart) >= 1, (one, other, apart)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (made("tint", reach=0.2), made("tint", reach=0.21)),
        (made("margin", ink="brown", reach=0.055), made("margin", ink="brown", reach=0.06)),
        (made("spots", ink="brown", size=0.05), made("spots", ink="brown", size=0.055)),
        (made("spots", ink="brown", size=0.05), made("spots", ink="brown", size=0.05, form="ragged")),
        (made("holes", size=0.08), made("holes", size=0.085)),
    ],
)
def test_the_measure_names_pairs_that_nobody_could_tell_apart(one: Picture, other: Picture) -> None:
    looks = {
        name: [small_raster(leaf_scene("oval", (picture,), salt=salt)) for salt in (0, 7, 13)]
        for name, picture in (("one", one), ("other", other))
    }
    assert [pair[:2] for pair in alike_pairs(looks)] == [("one", "other")]


def test_a_shared_picture_is_one_picture(book: Book) -> None:
    shared = [picture for picture in book.pictures.values() if picture.also]
    assert shared
    for picture in shared:
        assert all(find_picture(book, id_) is picture for id_ in (picture.finding, *picture.also))
