"""Small animals: as long as their sources say, on the scale the bar says, with the legs they have."""

from __future__ import annotations

import pytest

from triage.model.book import Book
from triage.model.picture import Creature
from triage.screens.pictures.lens import BARS_MM, RADIUS, body_parts, lens_scene
from triage.screens.pictures.raster import paint
from triage.screens.pictures.scene import Area, Line, box_of

#: Body lengths in mm as published, and where they stand.
PUBLISHED = {
    "lens-two-spotted-mite": (0.25, 0.5, "pnwpest.org, twospotted spider mites on potato"),
    "lens-glassy-mite": (0.2, 0.2, "University of Florida IFAS, broad mite, IN340"),
    "lens-cone-mites": (0.2, 0.2, "University of California IPM, tomato russet mite, home garden note"),
    "lens-runner-mite": (0.5, 0.5, "University of California IPM, natural enemies gallery"),
    "lens-slender-insect": (1.2, 1.3, "Purdue Extension, thrips: about one twentieth of an inch"),
    "lens-aphids": (1.5, 2.0, "University of Florida, green peach aphid"),
    "lens-white-fly": (1.0, 1.6, "Texas A&M, whitefly: less than one sixteenth of an inch"),
    "lens-still-scales": (0.5, 0.8, "AGES, greenhouse whitefly: up to 0.8 mm"),
    "lens-thread-larva": (5.0, 6.4, "Texas A&M, fungus gnats: about a quarter of an inch"),
    "lens-jumping-speck": (1.0, 2.0, "Texas A&M, springtails: most 1 to 2 mm"),
    "lens-thin-fly": (2.5, 3.2, "UMass Extension: about one eighth of an inch"),
    "lens-stout-fly": (2.5, 3.2, "UMass Extension: about one eighth of an inch"),
}
#: Legs: mites eight (of russet mites four, of the glassy female six to walk on), insects six, larvae none.
LEGS = {
    "lens-two-spotted-mite": 8, "lens-glassy-mite": 6, "lens-cone-mites": 4, "lens-runner-mite": 8,
    "lens-still-scales": 0, "lens-thread-larva": 0,
}  # fmt: skip


def creatures(book: Book) -> dict[str, Creature]:
    return {picture.picture: picture.creature for picture in book.pictures.values() if picture.creature is not None}


def test_every_animal_is_as_long_as_published(book: Book) -> None:
    found = creatures(book)
    assert set(found) == set(PUBLISHED)
    for name, (low, high, source) in PUBLISHED.items():
        assert low <= found[name].length_mm <= high, (name, source)


def test_every_animal_has_the_legs_it_has(book: Book) -> None:
    for name, creature in creatures(book).items():
        assert creature.legs == LEGS.get(name, 6), name
        lines = [part for part in body_parts(creature) if isinstance(part, Line)]
        assert len([line for line in lines if len(line.points) == 3 and line.width == 0.03]) == creature.legs, name


def test_the_scale_bar_is_true(book: Book) -> None:
    for name, creature in creatures(book).items():
        scene = lens_scene(creature)
        unit = scene.bar_length / scene.bar_mm
        body = scene.groups[1]  # after the disc of leaf skin
        assert body.place.scale / unit == pytest.approx(creature.length_mm, rel=0.01), name
        assert scene.bar_mm in BARS_MM
        assert 0.08 * scene.width < scene.bar_length < 0.5 * scene.width, name


def test_a_body_of_length_one_is_drawn_as_long(book: Book) -> None:
    for name, creature in creatures(book).items():
        outline = next(part for part in body_parts(creature) if isinstance(part, Area) and part.ink == creature.ink)
        _, top, _, bottom = box_of(outline.points)
        assert bottom - top == pytest.approx(1, abs=0.02), name


def test_nothing_lies_outside_the_lens(book: Book) -> None:
    for name, creature in creatures(book).items():
        raster = paint(lens_scene(creature), 60)
        middle = raster.width / 2
        for y in range(raster.height):
            for x in range(raster.width):
                if raster.colour(x, y) is not None:
                    away = ((x + 0.5 - middle) ** 2 + (y + 0.5 - middle) ** 2) ** 0.5
                    assert away <= middle * (RADIUS + 0.04), name


def test_a_lone_animal_fits_into_the_lens_with_its_legs(book: Book) -> None:
    for name, creature in creatures(book).items():
        if creature.number == 1:
            scene = lens_scene(creature)
            place = scene.groups[1].place
            for part in body_parts(creature):
                for point in getattr(part, "points", ()):
                    x, y = place(point)
                    assert ((x - RADIUS) ** 2 + (y - RADIUS) ** 2) ** 0.5 < 1.12 * RADIUS, name
