"""What is missing from the leaf: holes, bites, windows, tears, and leaves of which only the veins are left."""

from __future__ import annotations

from dataclasses import replace

from ...model.picture import Params
from .coat import Coat, chosen, ink, places, ragged, value
from .scatter import shuffled
from .scene import Area, Line, Part, Points, ellipse
from .veins import panel_area, panels


def holes(coat: Coat, p: Params) -> Coat:
    """Holes: ``form`` shot (tiny and round), panels (big, between large veins) or ragged."""
    if p.form == "panels":
        cuts = _panel_cuts(coat, value(p.reach, 0.5))
    else:
        size = coat.size(p.size, 0.08)
        seats = places(coat, round(value(p.count, 6)), edge=size * 1.15, salt=7, apart=size * 2.0)
        shape = _round if p.form == "shot" else ragged
        cuts = tuple(shape(x, y, size * (0.7 + 0.6 * shuffled(k, coat.salt + 2)), k) for k, (x, y) in enumerate(seats))
    rims: list[Part] = [Line((*cut, cut[0]), 0.022, ink(p.rim, "brown"), 0.9, 1.5) for cut in cuts if p.rim]
    return replace(coat.over_with(*rims), cuts=(*coat.cuts, *cuts))


def _round(x: float, y: float, radius: float, number: int) -> Points:
    return ellipse(x, y, radius, radius, corners=10)


def _panel_cuts(coat: Coat, share: float) -> tuple[Points, ...]:
    return tuple(
        panel_area(lower, upper, 0.2, 0.82)
        for number, (lower, upper) in enumerate(panels(coat.blade.veins))
        if chosen(coat, number, share)
    )


def bites(coat: Coat, p: Params) -> Coat:
    """Bites from the edge inward."""
    outline = coat.blade.outline
    count = max(1, round(value(p.count, 7) * coat.strength))
    size = coat.size(p.size, 0.13)
    cuts = []
    for number in range(count):
        x, y = outline[int((number + 0.3 + 0.4 * shuffled(number, 4)) * len(outline) / count) % len(outline)]
        if y > 0.12:
            cuts += [ellipse(x + dx * size, y + dy * size, size * 0.7, size * 0.7) for dx, dy in ((0, 0), (0.3, 0.7))]
    return replace(coat, cuts=(*coat.cuts, *cuts))


def window(coat: Coat, p: Params) -> Coat:
    """Pieces scraped thin, one clear skin left."""
    parts: list[Part] = []
    size = coat.size(p.size, 0.085)
    for number, (x, y) in enumerate(places(coat, round(value(p.count, 6)), edge=size, salt=12, apart=size * 2)):
        pane = ragged(x, y, size, number, rough=0.25)
        parts += [Area(pane, ink(p.ink, "glass"), 1.0, 2.5), Line((*pane, pane[0]), 0.012, ink(p.rim, "tan"), 0.9)]
    return coat.over_with(*parts)


def skeleton(coat: Coat, p: Params) -> Coat:
    """Only the veins are left, with a rest of the blade at the tip and the base."""
    rest = coat.strength < 0.5
    return replace(
        coat, ground="green" if rest else "", vein_ink=ink(p.ink, "brown"), vein_widths=(0.026, 0.017, 0.008), cuts=(),
    )  # fmt: skip


def tears(coat: Coat, p: Params) -> Coat:
    """Slits from the edge inward, between the side veins, with frayed brown lips."""
    cuts: list[Points] = []
    for number, (lower, upper) in enumerate(panels(coat.blade.veins)):
        if chosen(coat, number, value(p.reach, 0.6)):
            inner, outer = panel_area(lower, upper, 0.15, 1.0)[0], _beyond(lower, upper)
            cuts.append((inner, *outer))
    lips: list[Part] = [Line((*cut, cut[0]), 0.02, ink(p.rim, "brown"), 0.9, 1.5) for cut in cuts]
    return replace(coat.over_with(*lips), cuts=(*coat.cuts, *cuts))


def _beyond(lower: Points, upper: Points) -> Points:
    """The open end of a slit, a little outside the leaf."""
    (ax, ay), (bx, by) = lower[-1], upper[-1]
    mx, my = (ax + bx) / 2 * 1.35, (ay + by) / 2 + 0.06
    return (mx, my - 0.06), (mx, my + 0.06)
