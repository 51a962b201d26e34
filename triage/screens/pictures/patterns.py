"""Every pattern by name: how it paints a blade, what it does to the shape, which layer of a leaf it takes up."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from ...model.crop import LeafShape
from ...model.picture import Params, Picture
from . import eaten, forms, marks, tissue
from .coat import Coat
from .leaf import SEATS, Warp, build_leaf
from .scene import Affine, Group, Line, Scene, moved, scaled

Layer = Literal["ground", "veins", "edge", "marks", "cover", "gone", "shape"]
Draw = Callable[[Coat, Params], Coat]


@dataclass(frozen=True)
class Pattern:
    """One way a leaf can look. Two patterns of one layer are not worn together."""

    layer: Layer
    draw: Draw
    warp: Callable[[Params], Warp] | None = None


PATTERNS: dict[str, Pattern] = {
    "whole": Pattern("ground", tissue.whole),
    "between-veins": Pattern("ground", tissue.between_veins),
    "mosaic": Pattern("ground", tissue.mosaic),
    "bronze": Pattern("ground", tissue.bronze),
    "midrib-run": Pattern("ground", tissue.midrib_run),
    "patches": Pattern("ground", tissue.patches),
    "panels": Pattern("marks", tissue.panel_patches),
    "vein-ink": Pattern("veins", tissue.vein_ink),
    "tint": Pattern("ground", tissue.tint),
    "margin": Pattern("edge", tissue.margin),
    "tip": Pattern("edge", tissue.tip),
    "wedges": Pattern("edge", tissue.wedges),
    "dieback": Pattern("edge", tissue.dieback),
    "line-marks": Pattern("marks", tissue.line_marks),
    "spots": Pattern("marks", marks.spots),
    "stipple": Pattern("marks", marks.stipple),
    "streaks": Pattern("marks", marks.streaks),
    "blisters": Pattern("marks", marks.blisters),
    "mine": Pattern("marks", marks.mine),
    "drips": Pattern("cover", marks.drips),
    "powder": Pattern("cover", marks.powder),
    "trail": Pattern("cover", marks.trail),
    "web": Pattern("cover", marks.web),
    "holes": Pattern("gone", eaten.holes),
    "bites": Pattern("gone", eaten.bites),
    "window": Pattern("gone", eaten.window),
    "skeleton": Pattern("gone", eaten.skeleton),
    "tears": Pattern("gone", eaten.tears),
    "cup": Pattern("shape", forms.cup, forms.cup_warp),
    "roll": Pattern("shape", forms.roll, forms.roll_warp),
    "waves": Pattern("shape", forms.ruffle, forms.wave_warp),
    "twist": Pattern("shape", forms.plain, forms.twist_warp),
    "pucker": Pattern("shape", forms.pucker),
    "thin": Pattern("shape", forms.plain, forms.thin_warp),
    "half-missing": Pattern("shape", forms.plain, forms.half_warp),
    "small": Pattern("shape", forms.plain),
}
#: The order in which layers are put on, whatever order they are named in.
ORDER: tuple[Layer, ...] = ("ground", "veins", "edge", "marks", "gone", "cover", "shape")
#: The canvas of one leaf: its width, the height above the stalk's end, and of the strip for a cut across.
WIDTH, HEIGHT, STRIP = 1.1, 1.22, 0.24
TO_CANVAS = scaled(1, -1).then(moved(WIDTH / 2, 1.07))


def leaf_groups(
    shape: LeafShape, worn: tuple[Picture, ...], place: Affine, *, strength: float = 1.0, salt: int = 0
) -> tuple[Group, ...]:
    """A leaf that wears some patterns, as groups; ``place`` takes a leaf (base 0, 0; tip 0, 1; y up) to the canvas."""
    ordered = sorted(worn, key=_turn) if strength > 0.04 else []
    warp = Warp()
    for picture in ordered:
        if (make := PATTERNS[picture.pattern].warp) is not None:
            warp = make(picture.params)
    leaf = build_leaf(shape, warp)
    stalk = Group(tuple(Line(points, leaf.stalk_width, "stem") for points in leaf.stalks), place=place)
    groups = [stalk]
    for number, (blade, seat) in enumerate(leaf.blades):
        coat = Coat(blade, salt + number, strength, 1 / seat.scale)
        for picture in ordered:
            if picture.params.ground:
                coat = replace(coat, ground=picture.params.ground)
        for picture in ordered:
            coat = PATTERNS[picture.pattern].draw(coat, picture.params)
        groups += coat.groups(seat.then(place))
    return tuple(groups)


def _turn(picture: Picture) -> tuple[int, float]:
    """Layers in their order; of two edges the broader one first."""
    return ORDER.index(PATTERNS[picture.pattern].layer), -(picture.params.reach or 0.0)


def leaf_scene(shape: LeafShape, worn: tuple[Picture, ...], *, close: bool = False, salt: int = 0) -> Scene:
    """One leaf on a canvas of its own; a cut across it below where the shape asks for one.

    ``close`` shows a piece of it, for patterns too small for few pixels; another ``salt`` scatters the marks anew.
    """
    if close:
        return _close_scene(shape, worn, salt)
    groups = (
        _small(shape, worn)
        if any(p.pattern == "small" for p in worn)
        else leaf_groups(shape, worn, TO_CANVAS, salt=salt)
    )
    cuts = [cut for p in worn if (cut := forms.section(p.pattern, p.params.form)) is not None]
    if not cuts:
        return Scene(WIDTH, HEIGHT, groups)
    strip = scaled(1, -1).then(moved(WIDTH / 2, HEIGHT + STRIP / 2))
    return Scene(WIDTH, HEIGHT + STRIP, (*groups, replace(cuts[0], place=cuts[0].place.then(strip))))


def _close_scene(shape: LeafShape, worn: tuple[Picture, ...], salt: int) -> Scene:
    """A piece of the leaf's right half, or of one leaflet, two and a half times as large."""
    shape = SEATS[shape][0] if shape in SEATS else shape
    place = scaled(1, -1).then(moved(0.08, 0.72)).then(scaled(2.5))
    return Scene(WIDTH, WIDTH, leaf_groups(shape, worn, place, salt=salt))


def _small(shape: LeafShape, worn: tuple[Picture, ...]) -> tuple[Group, ...]:
    """A leaf of less than half its size, inside the outline of a usual one."""
    ghosts = tuple(
        Group((Line((*blade.outline, blade.outline[0]), 0.016, "ghost"),), place=seat.then(TO_CANVAS))
        for blade, seat in build_leaf(shape).blades
    )
    return (*ghosts, *leaf_groups(shape, worn, scaled(0.42).then(TO_CANVAS)))
