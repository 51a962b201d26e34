"""Charts of readings as SVG files. The one door to matplotlib, which is an extra and imported only here."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from ..errors import UsageError
from ..model.quantity import Quantity, Reading
from ..water.limits import Band

SIZE = (7.0, 3.2)  # inches
MARKERS = {"=": "o", "<=": "v", "<": "v", ">=": "^", ">": "^"}


def save_charts(
    folder: Path, readings: Sequence[Reading], quantities: Mapping[str, Quantity], bands: Mapping[str, Band]
) -> list[Path]:
    """One SVG file for each quantity with a dated reading, named by its id.

    Args:
        folder: made if it is not there.
        readings: any; those without a date and those of top-up water are left out.
        quantities: quantities of the book by id.
        bands: what the animals bear; what lies beyond is shaded.

    Returns:
        The files, in the order of ids. The same readings give the same bytes.

    Raises:
        UsageError: matplotlib is not installed, or the folder cannot be written.
    """
    try:
        import matplotlib
    except ImportError:
        raise UsageError("SVG charts need matplotlib (install it with: pip install 'triage[charts]')") from None
    matplotlib.use("svg")
    matplotlib.rcParams["svg.hashsalt"] = "triage"
    shown = [reading for reading in readings if reading.on and reading.point != "top-up"]
    files = []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for id_ in sorted({reading.quantity for reading in shown}):
            own = [reading for reading in shown if reading.quantity == id_]
            files.append(_save(folder / f"{id_}.svg", own, quantities[id_], bands.get(id_)))
    except OSError as error:
        raise UsageError(f"{folder} cannot be written ({error.strerror})") from None
    return files


def _save(file: Path, readings: Sequence[Reading], quantity: Quantity, band: Band | None) -> Path:
    from matplotlib.figure import Figure

    figure = Figure(figsize=SIZE, layout="constrained")
    axes = figure.subplots()
    _points(axes, readings)
    _limits(axes, band)
    axes.set_title(quantity.name)
    axes.set_ylabel("" if quantity.unit == "pH" else quantity.unit)
    axes.grid(axis="y", linewidth=0.3)
    figure.autofmt_xdate()
    figure.savefig(file, format="svg", metadata={"Date": None, "Creator": None})
    return file


def _points(axes: Any, readings: Sequence[Reading]) -> None:
    """A marker for each reading (arrows for bounds) over the span that its kit leaves open; nothing is joined."""
    for bound, marker in MARKERS.items():
        own = [reading for reading in readings if reading.bound == bound]
        if own:
            days = [datetime.datetime.fromisoformat(f"{r.on}T{r.time or '12:00'}") for r in own]
            below, above = [r.value - r.low for r in own], [r.high - r.value for r in own]
            spans = [below, above] if bound == "=" else None
            axes.errorbar(
                days, [r.value for r in own], yerr=spans, fmt=marker, color="black", elinewidth=0.8, markersize=4
            )


def _limits(axes: Any, band: Band | None) -> None:
    """What lies beyond the limits is hatched, so that it shows in print; the limit's source stands beside it."""
    if band is None:
        return
    bottom, top = axes.get_ylim()
    room = top - bottom
    style = {"facecolor": "0.9", "edgecolor": "0.7", "hatch": "//", "linewidth": 0}
    for bound, side in ((band.low, -1), (band.high, 1)):
        if bound is None or not bottom - room <= bound.limit <= top + room:
            continue
        end = bound.limit + side * room
        axes.axhspan(min(bound.limit, end), max(bound.limit, end), **style)
        axes.annotate(
            f"{bound.limit:g}: {bound.name} ({bound.source})", (0.01, bound.limit), xycoords=("axes fraction", "data"),
            fontsize=7, va="top" if side < 0 else "bottom",
        )  # fmt: skip
        bottom, top = min(bottom, bound.limit - 0.1 * room), max(top, bound.limit + 0.1 * room)
    axes.set_ylim(bottom, top)
