"""Every fixed word beside a picture, in one place, so that a translation can be added."""

from __future__ import annotations

LEGEND = "Letters"
BAR = "{mm:g} mm"
LENS = "Through a lens"
ACROSS = "below: cut across the leaf"
SIDE_BY_SIDE = "Side by side"
NO_PICTURE = "There is no picture of '{id}': what tells it cannot be drawn clearly enough."
WRITTEN = "Picture written: {path}"
TOO_NARROW = "(The picture needs a wider window.)"
