"""Which picture stands for which finding or cause, and the scenes it is made of."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from ...model.book import Book
from ...model.cause import Cause
from ...model.crop import Crop, LeafShape
from ...model.finding import Finding
from ...model.odds import BY_ITSELF, FREQUENCY
from ...model.picture import Params, Picture, Posture, Where
from .lens import lens_scene
from .patterns import PATTERNS, leaf_scene
from .plant import plant_scene
from .scene import Scene

#: Any leaf on any plant, where no crop is told.
ANY_CROP = Crop(crop="any", name="any crop", kind="other", sources=[])
#: The paint on the leaves that have it, in a picture that only says which leaves those are.
PLACEHOLDER = Picture(
    picture="any-yellow", finding="", pattern="whole", says="", params=Params(ink="yellow", middle="cream"), sources=[]
)
#: A cause's picture holds findings shown at least this often, and telling at least this share of the most telling one.
OFTEN, USUAL, TELLING, MOST = 0.5, 0.8, 0.5, 3
PLACE_TELLS = 1.5  # bits
#: Leaves that are too narrow or too finely divided for a small picture, and the plain leaf or leaflet drawn instead.
IN_ROWS: dict[LeafShape, LeafShape] = {
    "three": "toothed", "compound": "oval", "feathery": "oval", "cut": "oval", "strap": "oval", "lance": "oval",
}  # fmt: skip
#: Which leaves: from the narrowest to the widest.
NARROW_FIRST: tuple[Where, ...] = ("lowest", "one-side", "young", "middle", "old", "all")


@dataclass(frozen=True)
class Shown:
    """A picture ready to be rendered: scenes side by side, a title, and the picture in words."""

    title: str
    says: str
    scenes: tuple[Scene, ...]


@dataclass(frozen=True)
class Row:
    """Small pictures next to each other: of divided leaves one plain piece, and all from close by if one is."""

    close: bool = False


def row_of(book: Book, ids: Iterable[str]) -> Row:
    """The row in which these findings or pictures stand."""
    found = (find_picture(book, id_) for id_ in ids)
    return Row(any(picture is not None and picture.view == "close" for picture in found))


def pictures_of(book: Book) -> dict[str, Picture]:
    """Each finding that has a picture, with that picture; a picture's own finding goes before shared ones."""
    shared = {finding: picture for picture in book.pictures.values() for finding in picture.also}
    return shared | {picture.finding: picture for picture in book.pictures.values()}


def find_picture(book: Book, id_: str) -> Picture | None:
    """The picture with this id, or of the finding with this id."""
    return book.pictures.get(id_) or pictures_of(book).get(id_)


def show(book: Book, id_: str, crop: str = "", *, fine: bool = False, row: Row | None = None) -> Shown | None:
    """The picture of a finding, a picture id or a cause, on the leaf of a crop; None where there is none.

    ``fine``: for a page, not for the few pixels of a terminal. ``row``: it is small and stands beside others.
    """
    grown = book.crops.get(crop, ANY_CROP)
    picture = find_picture(book, id_)
    if picture is not None:
        name = book.findings[id_ if id_ in book.findings else picture.finding].name
        return Shown(name, picture.says, scenes_of(picture, grown, fine=fine, row=row))
    cause = book.causes.get(id_)
    return show_cause(book, cause, grown, fine=fine) if cause is not None else None


def scenes_of(picture: Picture, crop: Crop, *, fine: bool = True, row: Row | None = None) -> tuple[Scene, ...]:
    """The scenes of one finding's picture. Of young leaves the plant is shown beside the leaf."""
    if picture.creature is not None:
        return (lens_scene(picture.creature),)
    shape = picture.leaf or crop.leaf
    if picture.pattern == "plant":
        worn = (PLACEHOLDER,) if picture.where else ()
        return (plant_scene(crop.habit, shape, worn, picture.where, picture.posture),)
    if row is not None:
        shape = IN_ROWS.get(shape, shape)
    leaf = leaf_scene(shape, (picture,), close=not fine and seen_close(picture, row))
    if picture.where in (None, "all") or PATTERNS[picture.pattern].layer == "shape":
        return (leaf,)
    return plant_scene(crop.habit, shape, (picture,), picture.where), leaf


def seen_close(picture: Picture, row: Row | None = None) -> bool:
    """Whether a picture is a close view: its own wish, or (what lies on or in the leaf skin) that of its row."""
    on_skin = PATTERNS[picture.pattern].layer in ("ground", "veins", "marks", "cover")
    return picture.view == "close" or (row is not None and row.close and on_skin)


def show_cause(book: Book, cause: Cause, crop: Crop = ANY_CROP, *, fine: bool = True) -> Shown | None:
    """A cause's picture, put together from its leading findings: plant, leaf, and the animal through a lens."""
    led = leading(book, cause)
    if not led:
        return None
    plants = [picture for picture in led if picture.pattern == "plant"]
    animals = [picture for picture in led if picture.creature is not None][:1]
    everywhere = tuple(p for p in led if p not in plants and p not in animals and p.where == "all")
    worn = tuple(p for p in led if p not in plants and p not in animals and p not in everywhere) or everywhere
    where = next((place for place in NARROW_FIRST for p in plants if p.where == place), None)
    where = where or next((p.where for p in worn if p.where), None)
    posture: Posture = next((p.posture for p in plants if p.posture != "sound"), "sound")
    scenes: list[Scene] = []
    if where is not None or posture != "sound":
        base = everywhere if worn != everywhere else ()
        scenes.append(plant_scene(crop.habit, crop.leaf, worn or _yellow(where), where, posture, base))
    if worn:
        scenes.append(leaf_scene(crop.leaf, worn, close=not fine and any(p.view == "close" for p in worn)))
    scenes += [lens_scene(p.creature) for p in animals if p.creature is not None]
    said = dict.fromkeys(picture.says for picture in (*plants, *everywhere, *worn, *animals))
    return Shown(cause.name, " ".join(said), tuple(scenes))


def _yellow(where: Where | None) -> tuple[Picture, ...]:
    return (PLACEHOLDER,) if where else ()


def leading(book: Book, cause: Cause) -> tuple[Picture, ...]:
    """The pictures of a cause's leading findings, the most telling first, no two of one layer of the leaf.

    A finding tells as much as it is likely with the cause, times the bits by which it is likelier than by itself. A
    special form that is often there stands for the general one (a fine net for yellow between the veins).
    """
    have = pictures_of(book)
    chance = {id_: FREQUENCY[word] for id_, word in cause.shows.items() if id_ in have and id_ in book.findings}
    often = [id_ for id_ in chance if chance[id_] >= OFTEN]
    telling = {id_: _bits(chance[id_], book.findings[id_]) for id_ in often}
    taken: list[Picture] = []
    for finding in sorted(often, key=lambda id_: (-telling[id_], id_)):
        picture = have[_special(book, finding, often, have)]
        first = not any(other.where for other in taken if other.pattern == "plant")
        whole_plant = picture.pattern == "plant" and _of_plant(picture, chance[finding], telling[finding], first)
        enough = telling[finding] >= TELLING * max(telling.values()) or whole_plant
        if picture not in taken and enough and _room(picture, taken):
            taken.append(picture)
    return tuple(taken)


def _of_plant(picture: Picture, chance: float, bits: float, first: bool) -> bool:
    """What the whole plant does is told in any case; which leaves have it, once, and again where it is the rule."""
    return picture.where is None or chance >= USUAL or (first and bits >= PLACE_TELLS)


def _bits(chance: float, finding: Finding) -> float:
    return chance * math.log2(chance / BY_ITSELF[finding.by_itself])


def _special(book: Book, finding: str, often: list[str], have: dict[str, Picture]) -> str:
    """A finding that is often there, implies this one and is drawn the same way, if there is one."""
    kind = have[finding].pattern
    alike = [id_ for id_ in often if finding in book.findings[id_].implies and have[id_].pattern == kind]
    return alike[0] if alike else finding


def _room(picture: Picture, taken: list[Picture]) -> bool:
    """Whether the leaf, the plant or the lens still has room for this picture."""
    if picture.pattern == "plant":
        return True
    if picture.creature is not None:
        return not any(other.creature for other in taken)
    on_leaf = [p for p in taken if p.pattern in PATTERNS]
    layer = PATTERNS[picture.pattern].layer
    clash = layer != "edge" and any(
        PATTERNS[p.pattern].layer == layer and (p.where == "all") == (picture.where == "all") for p in on_leaf
    )
    return not clash and len(on_leaf) < MOST
