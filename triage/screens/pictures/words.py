"""Every fixed word beside a picture, in one place, so that a translation can be added."""

from __future__ import annotations

LEGEND = "Letters"
BAR = "{mm:g} mm"
NO_PICTURE = "There is no picture of '{id}': what tells it cannot be drawn clearly enough."
WRITTEN = "Picture written: {path}"
