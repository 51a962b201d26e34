"""Patterns of shape: cupped, rolled, wavy, twisted, puckered, thin, half missing; and the cut across a cupped leaf."""

from __future__ import annotations

import math
from dataclasses import replace

from ...model.picture import Params
from .coat import Coat, ink, value
from .leaf import Warp
from .scatter import ramp
from .scene import Dots, Group, Line, Part, Point, Points, Wash, moved
from .veins import panel_area, panels


def cup(coat: Coat, p: Params) -> Coat:
    """Edges bent down (darker, away from the light) or up (their paler underside shows)."""
    tone = "pale-green" if p.form == "up" else "deep-green"
    edge = Wash(lambda x, y: 0.85 * ramp(coat.blade.locate(x, y).depth, 0.09, 0.03), tone, 1.5)
    return coat.over_with(edge)


def roll(coat: Coat, p: Params) -> Coat:
    """Both long edges rolled in over the middle: broad bands of the paler underside."""
    band = Wash(lambda x, y: ramp(abs(coat.blade.locate(x, y).across), 0.34, 0.42), "pale-green", 1.5)
    seam: list[Part] = [
        Line(tuple((side * 0.38 * abs(x), y) for x, y in _half(coat.blade.outline)), 0.014, "deep-green", 0.9, 1.0)
        for side in (-1, 1)
    ]
    return coat.over_with(band, *seam)


def _half(outline: Points) -> Points:
    return tuple(point for point in outline if point[0] >= 0)


def pucker(coat: Coat, p: Params) -> Coat:
    """Bumps of lighter green between sunken dark veins."""
    seats: list[Point] = []
    for lower, upper in panels(coat.blade.veins):
        for inner in (0.08, 0.52):
            corners = panel_area(lower, upper, inner, inner + 0.36)
            seats.append((sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners)))
    size = 0.047 * min(1.0, coat.blade.half / 0.25)
    light = tuple((x - size * 0.25, y + size * 0.25) for x, y in seats)
    bumps = Dots(tuple(seats), size, "pale-green", 1.0, 2.0), Dots(light, size * 0.4, ink(p.middle, "cream"), 0.8, 1.0)
    return replace(coat.under_with(*bumps), vein_ink="deep-green", vein_widths=(0.03, 0.024, 0.0))


def ruffle(coat: Coat, p: Params) -> Coat:
    """Light on the crests of a wavy edge, shade in its troughs."""

    def height(x: float, y: float) -> float:
        spot = coat.blade.locate(x, y)
        return ramp(spot.depth, 0.1, 0.03) * math.sin(2 * math.pi * (5.5 * spot.along + (0.3 if x >= 0 else -0.3)))

    crest = Wash(height, "pale-green")
    trough = Wash(lambda x, y: -height(x, y), "deep-green")
    return coat.over_with(crest, trough)


def plain(coat: Coat, p: Params) -> Coat:
    """Nothing but the shape."""
    return coat


def cup_warp(p: Params) -> Warp:
    """A cupped leaf looks narrower from above."""
    return Warp(narrow=0.18)


def roll_warp(p: Params) -> Warp:
    """A rolled leaf is half as wide or less."""
    return Warp(narrow=value(p.reach, 0.5))


def wave_warp(p: Params) -> Warp:
    """Edges that go up and down."""
    return Warp(waves=value(p.size, 0.2))


def twist_warp(p: Params) -> Warp:
    """Crumpled and bent."""
    return Warp(crumple=value(p.reach, 1.0))


def thin_warp(p: Params) -> Warp:
    """Hardly any blade beside the midrib."""
    return Warp(narrow=value(p.reach, 0.8), waves=0.3)


def half_warp(p: Params) -> Warp:
    """One half that never grew."""
    return Warp(missing=value(p.reach, 0.86))


def section(pattern: str, form: str) -> Group | None:
    """The cut across the leaf, drawn below it; None where the shape has none. Its width is about one leaf width."""
    if pattern == "cup":
        rise = 1 if form == "up" else -1
        arc = tuple((0.3 * math.sin(t), rise * 0.16 * (1 - math.cos(t))) for t in _steps(-1.5, 1.5))
    elif pattern == "roll":
        arc = tuple((0.15 * math.sin(t), 0.12 * (1 - math.cos(t))) for t in _steps(-2.75, 2.75))
    else:
        return None
    middle = sum(y for _, y in arc) / len(arc)
    return Group((Line(arc, 0.05, "deep-green"),), place=moved(0.0, -middle))


def _steps(first: float, last: float, count: int = 24) -> list[float]:
    return [first + (last - first) * k / count for k in range(count + 1)]
